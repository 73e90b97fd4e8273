// Fuzz target: any method, path, query, headers and body put to the service without its sockets, on
// an empty store and a catalog of one table. Never a crash, never a status of our own fault, always
// JSON where JSON is promised.
//
// Input: lines `method`, `path`, `name=value` of the query parted by `&`, then headers until an
// empty line, then the body. The Host is put in unless a header names one.
#include <stdlib.h>

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "server/service.hpp"
#include "tests/support/test_folder.hpp"

namespace {

using namespace rigproof;
using namespace rigproof::server;

struct Workshop {
  test_support::TestFolder own;
  std::filesystem::path folder = own.path();
  std::unique_ptr<Library> library;
  std::unique_ptr<Memory> memory;
  std::unique_ptr<Jobs> jobs;
  std::unique_ptr<Desk> desk;

  Workshop() {
    std::ofstream(folder / "fan.csv") << "id,name,speed_rpm\na,A,1000\nb,B,\n";
    library = Library::open(folder, false).value();
    memory = std::make_unique<Memory>(
        store::open_store("sqlite:" + (folder / "store.db").string()).value());
    jobs = std::make_unique<Jobs>(1);
    desk.reset(new Desk{.library = *library, .jobs = *jobs, .memory = *memory, .now = [] {
                          return store::Instant{1'790'000'000};
                        }});
  }
  ~Workshop() {
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);
  }
};

std::string_view line(std::string_view& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  const std::string_view out = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  return out;
}

std::pair<std::string, std::string> halves(std::string_view text, char at) {
  const std::size_t end = std::min(text.find(at), text.size());
  return {std::string(text.substr(0, end)),
          std::string(text.substr(std::min(end + 1, text.size())))};
}

Request request_of(std::string_view text) {
  Request out;
  out.method = line(text);
  out.path = line(text);
  std::string_view query = line(text);
  while (!query.empty()) {
    const std::size_t end = std::min(query.find('&'), query.size());
    out.query.insert(halves(query.substr(0, end), '='));
    query.remove_prefix(std::min(end + 1, query.size()));
  }
  out.headers = {{"host", "127.0.0.1:1"}};
  while (!text.empty()) {
    const std::string_view header = line(text);
    if (header.empty()) break;
    const auto [name, value] = halves(header, ':');
    out.headers[name] = value;
  }
  out.body = text;
  return out;
}

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static Workshop workshop;
  const Request request = request_of({reinterpret_cast<const char*>(data), size});
  for (const Guarded& guarded : {Guarded{.hosts = {"127.0.0.1:1"}, .token = {}},
                                 Guarded{.hosts = {"127.0.0.1:1"}, .token = "0123456789abcdef"}}) {
    const Response response = respond(*workshop.desk, guarded, request);
    require(response.status >= 200 && response.status < 500);
    if (response.type.starts_with("application/json"))
      require(!Json::parse(response.body, nullptr, false).is_discarded());
    for (const auto& [name, value] : response.headers)
      require(value.find_first_of("\r\n") == std::string::npos);
  }
  return 0;
}
