// What openapi.json says and what the routes do are the same: each route is asked once, and its
// answer is held against its own description by an independent validator. So are the errors.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "server/route.hpp"
#include "tests/server/test_bench.hpp"
#include "tests/support/schema_check.hpp"

namespace rigproof::server_test {
namespace {

using testing::Contains;
using testing::IsEmpty;

// With the description's components beside it, for what it refers to.
std::string complaints(const Json& description, Json schema, const Json& document) {
  schema["components"] = description["components"];
  return test_support::complaints(nlohmann::json(schema), nlohmann::json(document));
}

class Described : public testing::Test {
 protected:
  // Asks, and holds the answer against what the description says of the route.
  Json good(const std::string& method, const std::string& pattern, const std::string& path,
            const Json& body = {}) {
    const Json& operation = operation_of(method, pattern);
    if (!body.is_null()) {
      const Json& taken = operation["requestBody"]["content"]["application/json"]["schema"];
      EXPECT_THAT(complaints(description, taken, body), IsEmpty()) << method << ' ' << path;
    }
    const Response response = bench.ask(method, path, body.is_null() ? "" : body.dump());
    const std::string status = std::to_string(response.status);
    EXPECT_TRUE(operation["responses"].contains(status)) << method << ' ' << path << ' ' << status;
    const Json content =
        operation["responses"].value(status, Json::object()).value("content", Json());
    if (!content.contains("application/json")) return {};
    const Json answer = json_of(response);
    EXPECT_THAT(complaints(description, content["application/json"]["schema"], answer), IsEmpty())
        << method << ' ' << path;
    return answer;
  }
  void bad(const std::string& method, const std::string& pattern, const std::string& path,
           const std::string& body = {}) {
    const Response response = bench.ask(method, path, body);
    EXPECT_GE(response.status, 400) << method << ' ' << path;
    EXPECT_LT(response.status, 500) << method << ' ' << path;
    const Json& wrong = operation_of(method, pattern)["responses"]["default"]["content"];
    EXPECT_THAT(complaints(description, wrong["application/json"]["schema"], json_of(response)),
                IsEmpty())
        << method << ' ' << path;
  }

  Bench bench;
  Json description = Json::parse(server::openapi_json());
  std::set<std::string> asked;

 private:
  const Json& operation_of(const std::string& method, const std::string& pattern) {
    asked.insert(method + " " + pattern);
    std::string lower = method;
    std::ranges::transform(lower, lower.begin(), [](char c) { return static_cast<char>(c | 32); });
    EXPECT_TRUE(description["paths"][pattern].contains(lower)) << method << ' ' << pattern;
    return description["paths"][pattern][lower];
  }
};

TEST_F(Described, EveryRouteAnswersAsItSays) {
  for (const char* path : {"/api/workshop", "/api/forms", "/api/rules", "/api/openapi.json"})
    good("GET", path, path);
  good("GET", "/api/parts/{kind}", "/api/parts/gpu");
  bad("GET", "/api/parts/{kind}", "/api/parts/nothing");

  const std::string documents = "/api/documents";
  const std::string one = documents + "/{id}";
  const Json kept = good("POST", documents, documents,
                         {{"kind", "build"}, {"name", "b"}, {"text", bytes_of(demo_build)}});
  bad("POST", documents, documents, "{}");
  const std::string at = documents + "/" + kept["id"].get<std::string>();
  good("GET", documents, documents + "?kind=build");
  bad("GET", documents, documents);
  good("GET", one, at);
  bad("GET", one, documents + "/nobody");
  good("PUT", one, at, {{"name", "b"}, {"text", "x = = 1"}, {"after", 1}});
  bad("PUT", one, at, R"({"name": "b", "text": "", "after": 1})");
  good("DELETE", one, at + "?after=2");
  bad("DELETE", one, at);
  good("GET", one + "/revisions", at + "/revisions");
  bad("GET", one + "/revisions", documents + "/nobody/revisions");

  const std::string jobs = "/api/jobs";
  const Json done = good("POST", jobs, jobs,
                         {{"question", "sheet"},
                          {"inputs", {{"build", {{"name", "b"}, {"text", bytes_of(demo_build)}}}}},
                          {"wait_ms", 10000}});
  ASSERT_EQ(done["state"], "done");
  good("POST", jobs, jobs, {{"question", "plan"}, {"inputs", endless_inputs()}});
  bad("POST", jobs, jobs, R"({"question": "x"})");
  const std::string job = jobs + "/" + done["id"].get<std::string>();
  good("GET", jobs + "/{id}", job);
  good("DELETE", jobs + "/{id}", job);
  good("GET", jobs + "/{id}/events", job + "/events");
  good("GET", jobs + "/{id}/files/{name}", job + "/files/sheet.html");
  bad("GET", jobs + "/{id}", jobs + "/x");
  bad("DELETE", jobs + "/{id}", jobs + "/x");
  bad("GET", jobs + "/{id}/events", jobs + "/x/events");
  bad("GET", jobs + "/{id}/files/{name}", job + "/files/x");

  const std::string table = "/api/tables/{name}";
  const Json fans = good("GET", table, "/api/tables/fan");
  bad("GET", table, "/api/tables/x");
  good("POST", table + "/edits", "/api/tables/fan/edits",
       {{"after", fans["revision"]},
        {"edits", Json::array({Json{{"line", 2}, {"cells", {{"noise_dba", "loud"}}}}})},
        {"write", true}});
  good("POST", table + "/edits", "/api/tables/fan/edits",
       {{"after", fans["revision"]},
        {"edits", Json::array({Json{{"line", 2}, {"cells", {{"noise_dba", "25"}}}}})},
        {"write", true}});
  bad("POST", table + "/edits", "/api/tables/fan/edits", R"({"after": "x", "edits": []})");
  good("GET", table + "/revisions", "/api/tables/fan/revisions");
  bad("GET", table + "/revisions", "/api/tables/x/revisions");
  good("POST", table + "/back", "/api/tables/fan/back", {{"revision", 1}});
  bad("POST", table + "/back", "/api/tables/fan/back", "{}");
  good("POST", "/api/import", "/api/import",
       {{"text", "id,rpm\nx,900\n"},
        {"mapping",
         "[mapping]\ntable = \"fan\"\n[provenance]\nsource = \"x\"\nseen = 2026-10-01\n"
         "[columns.id]\nfrom = \"id\"\n[columns.speed_rpm]\nfrom = \"rpm\"\n"
         "[columns.name]\nconstant = \"X\"\n"}});
  bad("POST", "/api/import", "/api/import", "{}");
  const Json points = good("GET", "/api/prices/{kind}/{id}", "/api/prices/cpu/orrvane-larch-14");
  EXPECT_FALSE(points["points"].empty());
  bad("GET", "/api/prices/{kind}/{id}", "/api/prices/x/y");

  std::set<std::string> all;
  for (const server::Route& route : server::all_routes())
    all.insert(route.method + " " + route.pattern);
  EXPECT_EQ(asked, all) << "every route is asked here";
}

// The oracle can say no: without any one member that the description requires, nothing holds.
TEST_F(Described, ASpoiledAnswerDoesNotHold) {
  const std::string at = "/api/documents/" + bench.keep("brief", "b", "x = = 1");
  for (const auto& [pattern, path] :
       {std::pair{"/api/workshop", std::string("/api/workshop")}, {"/api/documents/{id}", at}}) {
    const Json& schema = description["paths"][pattern]["get"]["responses"]["200"]["content"]
                                    ["application/json"]["schema"];
    const Json whole = json_of(bench.get(path));
    for (const auto& [name, value] : whole.items()) {
      Json spoiled = whole;
      spoiled.erase(name);
      EXPECT_FALSE(complaints(description, schema, spoiled).empty()) << path << ' ' << name;
      spoiled[name] = value.is_boolean() ? Json("no") : Json(true);
      EXPECT_FALSE(complaints(description, schema, spoiled).empty()) << path << ' ' << name;
    }
    if (whole.contains("problems")) {
      Json spoiled = whole;
      spoiled["problems"][0].erase("line");  // behind two references
      EXPECT_FALSE(complaints(description, schema, spoiled).empty()) << path;
    }
  }
}

TEST_F(Described, RoutesAreNamedOnceAndTellWhatTheyDo) {
  std::set<std::string> ids;
  for (const auto& [path, operations] : description["paths"].items())
    for (const auto& [method, operation] : operations.items()) {
      EXPECT_TRUE(ids.insert(operation["operationId"]).second) << path;
      EXPECT_TRUE(operation["summary"].get<std::string>().ends_with(".")) << path;
    }
  EXPECT_EQ(ids.size(), server::all_routes().size());
}

// The table of server/README.md names every route and no other.
TEST_F(Described, TheReadmeNamesEveryRoute) {
  const std::string readme = bytes_of("server/README.md");
  std::size_t rows = 0;
  for (std::size_t at = 0; (at = readme.find("\n| `/api", at)) != std::string::npos; ++at) ++rows;
  EXPECT_EQ(rows, server::all_routes().size());
  for (const server::Route& route : server::all_routes())
    EXPECT_THAT(readme, testing::HasSubstr("\n| `" + route.pattern + "` | " + route.method + " |"));
}

TEST_F(Described, OtherMethodsAreNamed) {
  const Response wrong = bench.ask("PUT", "/api/jobs");
  EXPECT_EQ(wrong.status, 405);
  EXPECT_EQ(header_of(wrong, "Allow"), "POST");
  const Response two = bench.ask("PATCH", "/api/documents");
  EXPECT_EQ(header_of(two, "Allow"), "GET, POST");
  for (const char* path :
       {"/api", "/api/", "/api/nothing", "/api/jobs/", "/api/workshop/x", "/api//workshop"})
    EXPECT_EQ(bench.get(path).status, 404) << path;
}

}  // namespace
}  // namespace rigproof::server_test
