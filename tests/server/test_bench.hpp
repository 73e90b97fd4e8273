// A workshop of a test's own: a copy of the demo catalog, an empty store, the desk over both, and
// requests put to it without sockets.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "server/service.hpp"
#include "tests/support/test_folder.hpp"

namespace rigproof::server_test {

using server::Json;
using server::Request;
using server::Response;
using test_support::bytes_of;
using test_support::TestFolder;
using test_support::write_bytes;

class Bench {
 public:
  explicit Bench(int job_threads = 1, bool skip_bad = false);

  [[nodiscard]] Response ask(const std::string& method, const std::string& path,
                             const std::string& body = {});
  [[nodiscard]] Response get(const std::string& path) { return ask("GET", path); }
  [[nodiscard]] Response post(const std::string& path, const Json& body) {
    return ask("POST", path, body.dump());
  }
  [[nodiscard]] Response put(const std::string& path, const Json& body) {
    return ask("PUT", path, body.dump());
  }
  /// A kept document with this text. Gives its id.
  [[nodiscard]] std::string keep(const std::string& kind, const std::string& name,
                                 const std::string& text);

  [[nodiscard]] std::filesystem::path table(const std::string& name) const {
    return catalog / (name + ".csv");
  }

  TestFolder folder;
  std::filesystem::path catalog = folder.path() / "catalog";
  std::unique_ptr<server::Library> library;
  std::unique_ptr<server::Memory> memory;
  std::unique_ptr<server::Jobs> jobs;
  std::int64_t clock_s = 1'790'000'000;
  std::unique_ptr<server::Desk> desk;
  server::Guarded guarded{.hosts = {"127.0.0.1:8460", "localhost:8460"}, .token = {}};

 private:
  void copy_demo() const;
};

[[nodiscard]] Json json_of(const Response& response);
/// The code of an error's body; empty where there is none.
[[nodiscard]] std::string code_of(const Response& response);
[[nodiscard]] std::string header_of(const Response& response, std::string_view name);

inline const std::filesystem::path demo_brief = "demo/briefs/quiet-living-room.toml";
inline const std::filesystem::path demo_build = "demo/builds/evening-chair.toml";
/// Takes far longer to plan than any test waits for.
[[nodiscard]] Json endless_inputs();

}  // namespace rigproof::server_test
