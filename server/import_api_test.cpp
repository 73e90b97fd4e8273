// A pasted table over HTTP: shown, then written, with what stood there kept.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/import_table.hpp"
#include "tests/server/test_bench.hpp"

namespace rigproof::server_test {
namespace {

const std::string mapping =
    "[mapping]\ntable = \"fan\"\n[provenance]\nsource = \"x\"\nseen = 2026-10-01\n"
    "[columns.id]\nfrom = \"id\"\n[columns.name]\nfrom = \"name\"\n"
    "[columns.speed_rpm]\nfrom = \"rpm\"\n";
const std::string pasted = "id,name,rpm\nnew-fan,New Fan,900\n";

Json wanted(bool write) { return {{"text", pasted}, {"mapping", mapping}, {"write", write}}; }

TEST(ImportApi, IsShownAndOnlyThenWritten) {
  Bench bench;
  const std::string before = bytes_of(bench.table("fan"));
  const Response shown = bench.post("/api/import", wanted(false));
  EXPECT_EQ(shown.status, 200) << shown.body;
  EXPECT_EQ(json_of(shown)["schema"], "rigproof.import/1");
  EXPECT_EQ(bytes_of(bench.table("fan")), before);
  // The same as the command gives for files of these names and bytes.
  const auto edition = bench.library->edition();
  const auto command = app::import_table(
      edition->workshop,
      {.pasted = "pasted", .mapping = "mapping", .pasted_text = pasted, .mapping_text = mapping});
  ASSERT_TRUE(command);
  EXPECT_EQ(shown.body, app::import_json(*command));

  const Response done = bench.post("/api/import", wanted(true));
  EXPECT_EQ(done.status, 200) << done.body;
  EXPECT_THAT(bytes_of(bench.table("fan")), testing::HasSubstr("\nnew-fan,New Fan,"));
  // What stood there was kept. The row's sources refer to it, so they are put back first.
  const Json early = json_of(bench.post("/api/tables/fan/back", {{"revision", 1}}));
  EXPECT_EQ(early["written"], false);
  EXPECT_GT(early["problem_count"], 0);
  for (const char* table : {"provenance", "fan"})
    EXPECT_EQ(json_of(bench.post(std::string("/api/tables/") + table + "/back",
                                 {{"revision", 1}}))["written"],
              true)
        << table;
  EXPECT_EQ(bytes_of(bench.table("fan")), before);
}

TEST(ImportApi, SeesWhatWasChangedBesideIt) {
  Bench bench;
  write_bytes(bench.table("fan"), bytes_of(bench.table("fan")) + "\n");
  EXPECT_EQ(bench.post("/api/import", wanted(true)).status, 200);
  EXPECT_THAT(bytes_of(bench.table("fan")), testing::HasSubstr("new-fan"));
}

TEST(ImportApi, RefusesWhatIsNone) {
  Bench bench;
  const std::string before = bytes_of(bench.table("fan"));
  for (const Json& body :
       {Json::object(), Json{{"text", pasted}}, Json{{"text", 1}, {"mapping", mapping}},
        Json{{"text", pasted}, {"mapping", mapping}, {"write", "yes"}},
        Json{{"text", pasted}, {"mapping", mapping}, {"skip_bad", 1}},
        Json{{"text", pasted}, {"mapping", mapping}, {"file", "/etc/passwd"}},
        Json{{"text", pasted}, {"mapping", "[mapping]\ntable = \"nobody\"\n"}, {"write", true}},
        Json{{"text", "id,name,rpm\nx,X,fast\n"}, {"mapping", mapping}, {"write", true}}}) {
    const Response refused = bench.post("/api/import", body);
    EXPECT_EQ(refused.status, 400) << body;
  }
  EXPECT_EQ(bytes_of(bench.table("fan")), before);
}

// A mapping or a paste that names files of this machine is a text like any other.
TEST(ImportApi, OpensNoFileOfItsOwn) {
  Bench bench;
  const Response refused =
      bench.post("/api/import", {{"text", "-"}, {"mapping", "/etc/passwd"}, {"write", false}});
  EXPECT_EQ(refused.status, 400);
  EXPECT_THAT(refused.body, testing::Not(testing::HasSubstr("root:")));
}

}  // namespace
}  // namespace rigproof::server_test
