// The catalog's tables over HTTP. What a file holds afterwards is compared with the bytes it has to
// hold, worked out by replacing a text in the demo's file.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <thread>

#include "tests/server/test_bench.hpp"

namespace rigproof::server_test {
namespace {

using testing::HasSubstr;

const std::string gpu = "/api/tables/gpu";

// A part of the demo, and the same file with another length in its row.
struct Edited {
  std::string before, after;
  std::size_t line = 2;
};

Edited one_length_changed(const Bench& bench) {
  Edited out{.before = bytes_of(bench.table("gpu")), .after = {}};
  out.after = out.before;
  const std::string old = "dunlin-3,175,115,38,";
  const std::size_t at = out.after.find(old);
  EXPECT_EQ(out.after.substr(0, at).find('\n'), out.after.substr(0, at).rfind('\n')) << "line 2";
  out.after.replace(at, old.size(), "dunlin-3,176.5,115,38,");
  return out;
}

Json edit(const std::string& revision, Json edits, bool write = true) {
  return {{"after", revision}, {"edits", std::move(edits)}, {"write", write}};
}

std::string revision(Bench& bench, const std::string& at = gpu) {
  return json_of(bench.get(at))["revision"];
}

TEST(Tables, AreReadAsTheyStand) {
  Bench bench;
  const Json table = json_of(bench.get(gpu));
  EXPECT_EQ(table["name"], "gpu");
  EXPECT_EQ(table["columns"][0], "id");
  EXPECT_EQ(table["rows"][0]["line"], 2);
  EXPECT_EQ(table["rows"][0]["cells"][0], "nimbeck-alcove-dunlin-3");
  for (const char* name : {"nobody", "gpu.csv", "..", "../gpu", "GPU", "%2e%2e"}) {
    EXPECT_EQ(bench.get(std::string("/api/tables/") + name).status, 404) << name;
    EXPECT_EQ(
        bench.post(std::string("/api/tables/") + name + "/edits", edit("", Json::array())).status,
        404);
  }
}

TEST(Tables, AnEditChangesItsRowAlone) {
  Bench bench;
  const Edited wanted = one_length_changed(bench);
  const Json edits = {{{"line", 2}, {"cells", {{"length_mm", "176.5"}}}}};
  const Json tried = json_of(bench.post(gpu + "/edits", edit(revision(bench), edits, false)));
  EXPECT_EQ(tried["written"], false);
  EXPECT_EQ(tried["problem_count"], 0);
  EXPECT_EQ(bytes_of(bench.table("gpu")), wanted.before) << "only tried";
  const std::string edition = bench.library->edition()->revision;

  const Json done = json_of(bench.post(gpu + "/edits", edit(revision(bench), edits)));
  EXPECT_EQ(done["written"], true);
  EXPECT_EQ(bytes_of(bench.table("gpu")), wanted.after);
  EXPECT_EQ(done["revision"], revision(bench));
  EXPECT_NE(bench.library->edition()->revision, edition) << "the library knows at once";
}

TEST(Tables, ABadCellIsToldWithItsLineAndNothingIsWritten) {
  Bench bench;
  const std::string before = bytes_of(bench.table("gpu"));
  for (const char* cell : {"-5", "long", "NaN", "1e999", "17,5"}) {
    const Json said = json_of(bench.post(
        gpu + "/edits", edit(revision(bench), {{{"line", 3}, {"cells", {{"length_mm", cell}}}}})));
    EXPECT_EQ(said["written"], false) << cell;
    ASSERT_GE(said["problems"].size(), 1U) << cell;
    EXPECT_EQ(said["problems"][0]["line"], 3) << cell;
    EXPECT_THAT(said["problems"][0]["place"].get<std::string>(), HasSubstr("gpu.csv"));
  }
  // What another table refers to cannot be taken away.
  const Json gone =
      json_of(bench.post(gpu + "/edits", edit(revision(bench), {{{"line", 2}, {"remove", true}}})));
  EXPECT_EQ(gone["written"], false);
  EXPECT_GT(gone["problem_count"], 0);
  EXPECT_EQ(bytes_of(bench.table("gpu")), before);
}

TEST(Tables, TheSecondOfTwoEditorsIsTold) {
  Bench bench;
  const std::string seen = revision(bench);
  const Json edits = {{{"line", 2}, {"cells", {{"length_mm", "176.5"}}}}};
  EXPECT_EQ(bench.post(gpu + "/edits", edit(seen, edits)).status, 200);
  const std::string first = bytes_of(bench.table("gpu"));
  const Response second =
      bench.post(gpu + "/edits", edit(seen, {{{"line", 2}, {"cells", {{"length_mm", "180"}}}}}));
  EXPECT_EQ(second.status, 409);
  EXPECT_EQ(code_of(second), "conflict");
  EXPECT_EQ(bytes_of(bench.table("gpu")), first);
}

TEST(Tables, AFileChangedBesideIsNotOverwritten) {
  Bench bench;
  const std::string seen = revision(bench);
  const std::string beside = bytes_of(bench.table("gpu")) + "\n";
  write_bytes(bench.table("gpu"), beside);
  const Json edits = {{{"line", 2}, {"cells", {{"length_mm", "176.5"}}}}};
  EXPECT_EQ(bench.post(gpu + "/edits", edit(seen, edits)).status, 409);
  EXPECT_EQ(bytes_of(bench.table("gpu")), beside);
  // Read again, edited, put back to what was there: nothing of what was beside is lost.
  EXPECT_EQ(bench.post(gpu + "/edits", edit(revision(bench), edits)).status, 200);
  EXPECT_EQ(bench.post(gpu + "/back", {{"revision", 1}}).status, 200);
  EXPECT_EQ(bytes_of(bench.table("gpu")), beside);
}

TEST(Tables, EveryRevisionCanBePutBack) {
  Bench bench;
  const Edited wanted = one_length_changed(bench);
  EXPECT_EQ(bench.post(gpu + "/back", {{"revision", 1}}).status, 404) << "never changed here";
  const Json edits = {{{"line", 2}, {"cells", {{"length_mm", "176.5"}}}}};
  EXPECT_EQ(bench.post(gpu + "/edits", edit(revision(bench), edits)).status, 200);
  EXPECT_EQ(json_of(bench.get(gpu + "/revisions"))["revisions"].size(), 2U);
  EXPECT_EQ(bench.post(gpu + "/back", {{"revision", 1}}).status, 200);
  EXPECT_EQ(bytes_of(bench.table("gpu")), wanted.before);
  EXPECT_EQ(bench.post(gpu + "/back", {{"revision", 2}}).status, 200);
  EXPECT_EQ(bytes_of(bench.table("gpu")), wanted.after);
  EXPECT_EQ(json_of(bench.get(gpu + "/revisions"))["revisions"].size(), 4U);
  for (const char* body :
       {"{}", R"({"revision": "1"})", R"({"revision": 1.5})", R"({"revision": 1, "more": 2})"})
    EXPECT_EQ(bench.ask("POST", gpu + "/back", body).status, 400) << body;
  EXPECT_EQ(bench.post(gpu + "/back", {{"revision", 99}}).status, 404);
  EXPECT_EQ(bench.post(gpu + "/back", {{"revision", 0}}).status, 404);
}

// A table that had no file gets one by its first row, and loses it when that is put back.
TEST(Tables, ATableWithoutAFile) {
  Bench bench;
  const std::string at = "/api/tables/offers";
  std::filesystem::remove(bench.table("offers"));
  EXPECT_TRUE(json_of(bench.get(at))["rows"].empty());
  const Json columns = json_of(bench.get(at))["columns"];
  ASSERT_FALSE(columns.empty());
  Bench whole;
  const Json demo = json_of(whole.get(at));
  Json cells = Json::object();
  for (std::size_t i = 0; i < demo["columns"].size(); ++i)
    cells[demo["columns"][i].get<std::string>()] = demo["rows"][0]["cells"][i];
  const Json done = json_of(
      bench.post(at + "/edits", edit(revision(bench, at), Json::array({Json{{"cells", cells}}}))));
  EXPECT_EQ(done["problems"], Json::array());
  EXPECT_EQ(done["written"], true);
  EXPECT_TRUE(std::filesystem::exists(bench.table("offers")));
  EXPECT_EQ(bench.post(at + "/back", {{"revision", 1}}).status, 200);
  EXPECT_FALSE(std::filesystem::exists(bench.table("offers")));
}

TEST(Tables, OtherDialectsStayWhatTheyAre) {
  Bench bench;
  std::string semicolons = "\xEF\xBB\xBF";
  for (const char c : bytes_of(bench.table("sellers"))) {
    if (c == '\n')
      semicolons += "\r\n";
    else
      semicolons += c == ',' ? ';' : c;
  }
  ASSERT_EQ(semicolons.find('"'), std::string::npos);
  write_bytes(bench.table("sellers"), semicolons);
  const std::string at = "/api/tables/sellers";
  const Json row = json_of(bench.get(at));
  const std::string name = row["rows"][0]["cells"][1];
  std::string wanted = semicolons;
  wanted.replace(wanted.find(";" + name + ";"), name.size() + 2, ";=cmd|x;");
  const Json done = json_of(bench.post(
      at + "/edits", edit(revision(bench, at),
                          {{{"line", row["rows"][0]["line"]},
                            {"cells", {{row["columns"][1].get<std::string>(), "=cmd|x"}}}}})));
  EXPECT_EQ(done["written"], true) << done;
  EXPECT_EQ(bytes_of(bench.table("sellers")), wanted) << "and what looks like a formula is a text";
}

TEST(Tables, RefusesWhatIsNoEdit) {
  Bench bench;
  const std::string seen = revision(bench);
  const std::string before = bytes_of(bench.table("gpu"));
  for (const char* edits :
       {"1", "{}", "[1]", R"([{"line": -1}])", R"([{"line": 1.5}])", R"([{"line": "2"}])",
        R"([{"line": 2, "cells": []}])", R"([{"line": 2, "cells": {"length_mm": 5}}])",
        R"([{"line": 2, "remove": "yes"}])", R"([{"row": 2}])", R"([{"line": 1, "remove": true}])",
        R"([{"line": 99999, "remove": true}])", R"([{"line": 2, "cells": {"lenght_mm": "5"}}])"}) {
    const Response refused =
        bench.ask("POST", gpu + "/edits",
                  R"({"write": true, "after": ")" + seen + R"(", "edits": )" + edits + "}");
    EXPECT_EQ(refused.status, 400) << edits;
    EXPECT_EQ(code_of(refused), "bad_input") << edits;
  }
  for (const char* body : {"{}", R"({"after": 1, "edits": []})", R"({"after": "x"})",
                           R"({"after": "x", "edits": [], "write": 1})",
                           R"({"after": "x", "edits": [], "rite": true})"})
    EXPECT_EQ(bench.ask("POST", gpu + "/edits", body).status, 400) << body;
  EXPECT_EQ(bytes_of(bench.table("gpu")), before);
  EXPECT_TRUE(json_of(bench.get(gpu + "/revisions"))["revisions"].empty());
}

// Four editors at once, each trying until it is let through: every edit is there in the end, and
// every revision is kept.
TEST(Tables, ManyEditorsAtOnceLoseNothing) {
  Bench bench;
  const Json table = json_of(bench.get(gpu));
  const auto at = static_cast<std::size_t>(std::ranges::find(table["columns"], Json("height_mm")) -
                                           table["columns"].begin());
  std::vector<std::thread> editors;
  std::atomic<int> done = 0;
  for (int line = 2; line < 6; ++line)
    editors.emplace_back([&, line] {
      for (int attempt = 0; attempt < 200; ++attempt) {
        const Response answer = bench.post(
            gpu + "/edits",
            edit(revision(bench), {{{"line", line}, {"cells", {{"height_mm", "113.7"}}}}}));
        if (answer.status != 409) {
          done += json_of(answer)["written"] == true ? 1 : 0;
          return;
        }
      }
    });
  for (std::thread& editor : editors) editor.join();
  EXPECT_EQ(done, 4);
  const Json now = json_of(bench.get(gpu));
  for (std::size_t row = 0; row < 4; ++row) EXPECT_EQ(now["rows"][row]["cells"][at], "113.7");
  EXPECT_EQ(json_of(bench.get(gpu + "/revisions"))["revisions"].size(), 5U);
}

}  // namespace
}  // namespace rigproof::server_test
