#include "tests/server/test_bench.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

namespace rigproof::server_test {

namespace fs = std::filesystem;

Bench::Bench(int job_threads, bool skip_bad) {
  copy_demo();
  library = server::Library::open(catalog, skip_bad).value();
  memory = std::make_unique<server::Memory>(
      store::open_store("sqlite:" + (folder.path() / "store.db").string()).value());
  jobs = std::make_unique<server::Jobs>(job_threads);
  desk.reset(new server::Desk{.library = *library, .jobs = *jobs, .memory = *memory, .now = [this] {
                                return store::Instant{clock_s++};
                              }});
}

void Bench::copy_demo() const {
  fs::create_directory(catalog);
  for (const auto& entry : fs::directory_iterator("demo/catalog"))
    if (entry.path().extension() == ".csv")
      fs::copy_file(entry.path(), catalog / entry.path().filename());
}

Response Bench::ask(const std::string& method, const std::string& path, const std::string& body) {
  Request request{.method = method,
                  .path = path.substr(0, path.find('?')),
                  .query = {},
                  .headers = {{"host", "127.0.0.1:8460"}},
                  .body = body};
  if (path.find('?') != std::string::npos) {
    std::string rest = path.substr(path.find('?') + 1);
    while (!rest.empty()) {
      const std::string one = rest.substr(0, rest.find('&'));
      rest.erase(0, one.size() + 1);
      const std::size_t equals = std::min(one.find('='), one.size());
      request.query[one.substr(0, equals)] = equals < one.size() ? one.substr(equals + 1) : "";
    }
  }
  if (!body.empty()) request.headers["content-type"] = "application/json";
  return server::respond(*desk, guarded, request);
}

std::string Bench::keep(const std::string& kind, const std::string& name, const std::string& text) {
  const Response added = post("/api/documents", {{"kind", kind}, {"name", name}, {"text", text}});
  EXPECT_EQ(added.status, 201) << added.body;
  return json_of(added).value("id", "");
}

Json json_of(const Response& response) {
  Json json = Json::parse(response.body, nullptr, false);
  EXPECT_FALSE(json.is_discarded()) << response.body.substr(0, 200);
  return json;
}

std::string code_of(const Response& response) {
  const Json json = Json::parse(response.body, nullptr, false);
  if (!json.is_object() || !json.contains("error")) return {};
  return json["error"].value("code", "");
}

std::string header_of(const Response& response, std::string_view name) {
  for (const auto& [known, value] : response.headers)
    if (known == name) return value;
  return {};
}

Json endless_inputs() {
  return {{"brief", {{"text", bytes_of("demo/briefs/competition-high-refresh.toml")}}},
          {"best", 50}};
}

}  // namespace rigproof::server_test
