// Fans on top against a tower, (T12). Expectations by hand; lengths are exact unless a test says
// so.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/fit/fit_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::ElementsAre;

const Rule& rule() { return rule_of(fit_rules(), "fit.over-cooler"); }

// Above the socket are `socket_mm` of board and 20 mm of case; fans are 25 deep and 120 wide, the
// middle of their row lies 110 from the board's face: what is lower than 50 passes under them.
TestTables top_tables(const std::string& beyond_mm = "20", const std::string& socket_mm = "80") {
  TestTables tables;
  tables.row("case", {{"id", "box"}});
  tables.row("case_mounts", {{"case", "box"},
                             {"mount", "lid"},
                             {"face", "top"},
                             {"fan_sizes_mm", "120"},
                             {"fan_places", "2"},
                             {"radiators_mm", "240"},
                             {"depth_mm", "60"},
                             {"beyond_board_mm", beyond_mm},
                             {"middle_from_board_mm", "110"}});
  tables.row("board", {{"id", "board"}, {"socket_from_edge_mm", socket_mm}});
  const auto tower = [&](const char* id, const char* height, const char* above) {
    tables.row("cooler",
               {{"id", id}, {"type", "air"}, {"height_mm", height}, {"above_socket_mm", above}});
  };
  tower("tower-60", "155", "60");
  tower("tower-78", "155", "78");
  tower("tower-unstated", "155", "");
  tower("flat-78", "47", "78");
  tables.row("cooler", {{"id", "loop"}, {"type", "liquid"}, {"radiator_mm", "240"}});
  tables.row("fan", {{"id", "fan"}, {"size_mm", "120"}, {"thickness_mm", "25"}});
  for (const char* table : {"case_mounts", "board", "cooler", "fan"})
    tables.plus_minus(table, "*", "*", 0);
  return tables;
}

Claim judged(const TestTables& tables, const std::string& cooler) {
  Scene scene(tables);
  scene.take("box").take("board").take("fan").take(cooler);
  return scene.claim(rule());
}

// 25 + 60 = 85 in 20 + 80 = 100; 25 + 78 = 103 in 100.
TEST(OverCooler, TheTowersEdgeAgainstWhatHangsOverIt) {
  const Claim clear = judged(top_tables(), "tower-60");
  EXPECT_EQ(clear.verdict, Verdict::holds);
  EXPECT_EQ(clear.value->value, 85.0);
  EXPECT_EQ(clear.limit->value, 100.0);
  EXPECT_EQ(clear.where, "lid");
  const Claim meets = judged(top_tables(), "tower-78");
  EXPECT_EQ(meets.verdict, Verdict::fails);
  EXPECT_EQ(meets.margin->value, -3.0);
}

TEST(OverCooler, ALowCoolerLiesBesideTheFans) {
  const Claim beside = judged(top_tables(), "flat-78");
  EXPECT_EQ(beside.verdict, Verdict::holds);
  EXPECT_EQ(beside.value->value, 47.0);
  EXPECT_EQ(beside.limit->value, 50.0);
}

// 45 to 72 mm above the socket, 65 to 95 mm of board: with 50 mm of case 97 fit in 115 for
// certain; with 20 mm they may, and nobody knows.
TEST(OverCooler, UnstatedCellsSpanTheirClass) {
  EXPECT_EQ(judged(top_tables("50", ""), "tower-unstated").verdict, Verdict::holds);
  EXPECT_EQ(judged(top_tables("20", ""), "tower-unstated").verdict, Verdict::unknown);
}

TEST(OverCooler, ACaseThatSaysNothingLeavesItUnknown) {
  const Claim unknown = judged(top_tables(""), "tower-60");
  EXPECT_EQ(unknown.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(unknown), ElementsAre("case_mounts.box/lid.beyond_board_mm"));
}

TEST(OverCooler, NoClaimAboutALoopOrWithNothingUpThere) {
  Scene scene(top_tables());
  scene.take("box").take("board").take("loop").take("fan");
  EXPECT_EQ(scene.places(rule()), 0);
  scene.drop(Kind::cooler).drop(Kind::fan).take("tower-60");
  EXPECT_EQ(scene.places(rule()), 0);
}

}  // namespace
}  // namespace rigproof
