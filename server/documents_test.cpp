// Briefs, builds and mappings over HTTP: two tabs, undo, removal, mistakes with their lines.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/server/test_bench.hpp"

namespace rigproof::server_test {
namespace {

TEST(Documents, AreKeptReadAndListed) {
  Bench bench;
  const std::string text = bytes_of(demo_brief);
  const Response added =
      bench.post("/api/documents", {{"kind", "brief"}, {"name", "Loft"}, {"text", text}});
  EXPECT_EQ(added.status, 201);
  const Json info = json_of(added);
  EXPECT_EQ(info["revision"], 1);
  EXPECT_EQ(info["text"], text);
  EXPECT_TRUE(info["problems"].empty()) << info["problems"];
  EXPECT_EQ(info["saved_at"], "2026-09-21T14:13:20Z");  // 1790000000 s: date -u -d @1790000000

  const Json read = json_of(bench.get("/api/documents/" + info["id"].get<std::string>()));
  EXPECT_EQ(read, info);
  const Json list = json_of(bench.get("/api/documents?kind=brief"))["documents"];
  ASSERT_EQ(list.size(), 1U);
  EXPECT_EQ(list[0]["name"], "Loft");
  EXPECT_TRUE(json_of(bench.get("/api/documents?kind=build"))["documents"].empty());
}

TEST(Documents, TheSecondOfTwoTabsIsToldAndNothingIsLost) {
  Bench bench;
  const std::string at = "/api/documents/" + bench.keep("brief", "one", "a");
  EXPECT_EQ(bench.put(at, {{"name", "one"}, {"text", "first tab"}, {"after", 1}}).status, 200);
  const Response second = bench.put(at, {{"name", "one"}, {"text", "second tab"}, {"after", 1}});
  EXPECT_EQ(second.status, 409);
  EXPECT_EQ(code_of(second), "conflict");
  EXPECT_EQ(json_of(bench.get(at))["text"], "first tab");
  EXPECT_EQ(json_of(bench.get(at))["revision"], 2);
  // A revision that is not there yet, and numbers that are none, change nothing either.
  EXPECT_EQ(bench.put(at, {{"name", "one"}, {"text", "x"}, {"after", 3}}).status, 409);
  EXPECT_EQ(bench.ask("PUT", at, R"({"name": "x", "text": "x", "after": 1.5})").status, 400);
  EXPECT_EQ(bench.ask("PUT", at, R"({"name": "x", "text": "x", "after": "2"})").status, 400);
  EXPECT_EQ(json_of(bench.get(at + "/revisions"))["revisions"].size(), 2U);
}

TEST(Documents, AnOldTextSavedAgainIsUndo) {
  Bench bench;
  const std::string at = "/api/documents/" + bench.keep("build", "one", "old");
  EXPECT_EQ(bench.put(at, {{"name", "two"}, {"text", "new"}, {"after", 1}}).status, 200);
  const Json old = json_of(bench.get(at + "?revision=1"));
  EXPECT_EQ(old["text"], "old");
  EXPECT_EQ(old["head_revision"], 2);
  EXPECT_EQ(bench.put(at, {{"name", old["name"]}, {"text", old["text"]}, {"after", 2}}).status,
            200);
  EXPECT_EQ(json_of(bench.get(at))["text"], "old");
  EXPECT_EQ(json_of(bench.get(at))["revision"], 3);
  EXPECT_EQ(json_of(bench.get(at + "?revision=2"))["text"], "new") << "redo is there too";
}

TEST(Documents, WhatIsRemovedCanBeBroughtBack) {
  Bench bench;
  const std::string at = "/api/documents/" + bench.keep("mapping", "one", "text");
  EXPECT_EQ(bench.ask("DELETE", at + "?after=2").status, 409);
  EXPECT_EQ(bench.ask("DELETE", at).status, 400);
  EXPECT_EQ(bench.ask("DELETE", at + "?after=-1").status, 400);
  const Response gone = bench.ask("DELETE", at + "?after=1");
  EXPECT_EQ(gone.status, 200);
  EXPECT_EQ(json_of(gone)["deleted"], true);
  EXPECT_TRUE(json_of(bench.get("/api/documents?kind=mapping"))["documents"].empty());
  EXPECT_EQ(json_of(bench.get(at))["text"], "text");
  EXPECT_EQ(bench.ask("DELETE", at + "?after=2").status, 404) << "it is removed already";
  const Response back = bench.put(at, {{"name", "one"}, {"text", "text"}, {"after", 2}});
  EXPECT_EQ(back.status, 200);
  EXPECT_EQ(json_of(back)["deleted"], false);
  EXPECT_EQ(json_of(bench.get("/api/documents?kind=mapping"))["documents"].size(), 1U);
}

TEST(Documents, MistakesComeBackWithTheirLines) {
  Bench bench;
  std::string text = bytes_of(demo_brief);
  text.insert(0, "nonsense = = 1\n");
  const Json kept =
      json_of(bench.post("/api/documents", {{"kind", "brief"}, {"name", "loft"}, {"text", text}}));
  ASSERT_FALSE(kept["problems"].empty());
  EXPECT_EQ(kept["problems"][0]["place"], "loft");
  EXPECT_EQ(kept["problems"][0]["line"], 1);
  EXPECT_EQ(kept["text"], text) << "kept all the same";
  const Json build = json_of(bench.post(
      "/api/documents",
      {{"kind", "build"}, {"name", "b"}, {"text", "name = \"b\"\n\n\ncpu = \"nobody\"\n"}}));
  ASSERT_FALSE(build["problems"].empty());
  EXPECT_EQ(build["problems"][0]["line"], 4);
}

TEST(Documents, RefusesWhatIsNone) {
  Bench bench;
  const std::string at = "/api/documents";
  for (const char* body :
       {"", "{", "[]", "null", "{}", R"({"kind": "brief"})", R"({"kind": "brief", "name": "x"})",
        R"({"kind": "table", "name": "gpu.csv", "text": ""})",
        R"({"kind": 1, "name": "x", "text": ""})", R"({"kind": "brief", "name": [], "text": ""})",
        R"({"kind": "brief", "name": "x", "text": null})",
        R"({"kind": "brief", "name": "", "text": ""})",
        R"({"kind": "brief", "name": "a\nb", "text": ""})",
        R"({"kind": "brief", "name": "x", "text": "", "more": 1})"}) {
    const Response refused = bench.ask("POST", at, body);
    EXPECT_EQ(refused.status, 400) << body;
    EXPECT_EQ(code_of(refused), "bad_input") << body;
  }
  for (const char* query : {"", "?kind=", "?kind=table", "?kind=Brief"})
    EXPECT_EQ(bench.get(at + query).status, 400) << query;
  for (const char* id : {"/nobody", "/..", "/%00", "/' OR 1=1"}) {
    EXPECT_EQ(bench.get(at + id).status, 404) << id;
    EXPECT_EQ(bench.put(at + id, {{"name", "x"}, {"text", ""}, {"after", 1}}).status, 404) << id;
  }
  const std::string one = at + "/" + bench.keep("brief", "one", "");
  for (const char* revision : {"0", "-1", "1.0", "1x", "", "99999999999999999999"})
    EXPECT_EQ(bench.get(one + "?revision=" + revision).status, 400) << revision;
  EXPECT_EQ(bench.get(one + "?revision=2").status, 404);
}

// Texts are bytes: quotes, lines, NUL and what another would take for markup come back as given.
TEST(Documents, AnyTextComesBack) {
  Bench bench;
  const std::string text = std::string("</script>\"\\\r\n\t\0\x7f", 16) + "\xF0\x9F\x92\xA1";
  const std::string id = bench.keep("brief", "any \"name\" <b>", text);
  EXPECT_EQ(json_of(bench.get("/api/documents/" + id))["text"], text);
}

}  // namespace
}  // namespace rigproof::server_test
