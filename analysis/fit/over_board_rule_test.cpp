// What hangs from the top against the board, (T9). Expectations by hand; lengths are exact unless a
// test says so.
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
using testing::HasSubstr;
using testing::IsEmpty;

const Rule& rule() { return rule_of(fit_rules(), "fit.over-board"); }

// The top mount hangs 35 mm above the board's edge; the middle of its holes is 100 mm from the
// board's face, so what is 120 mm wide passes it at 40 mm.
struct Top {
  std::string beyond_mm = "35";
  std::string middle_mm = "100";
};

TestTables top_tables(const Top& top = {}) {
  TestTables tables;
  tables.row("case", {{"id", "tower-case"}});
  tables.row("case_mounts", {{"case", "tower-case"},
                             {"mount", "upper"},
                             {"face", "top"},
                             {"fan_sizes_mm", "120|140"},
                             {"fan_places", "3"},
                             {"radiators_mm", "240|280"},
                             {"depth_mm", "60"},
                             {"beyond_board_mm", top.beyond_mm},
                             {"middle_from_board_mm", top.middle_mm}});
  tables.row("case_mounts", {{"case", "tower-case"},
                             {"mount", "front"},
                             {"face", "front"},
                             {"fan_sizes_mm", "120"},
                             {"fan_places", "3"},
                             {"radiators_mm", "360"},
                             {"depth_mm", "60"}});
  tables.row("board", {{"id", "low-edge"}, {"upper_edge_mm", "30"}})
      .row("board", {{"id", "high-edge"}, {"upper_edge_mm", "44"}})
      .row("board", {{"id", "unstated-edge"}});
  tables.row("memory", {{"id", "low"}, {"modules", "2"}, {"height_mm", "32"}})
      .row("memory", {{"id", "high"}, {"modules", "2"}, {"height_mm", "46"}});
  const auto loop = [&](const char* id, const char* size, const char* fan, const char* thickness,
                        const char* fan_thickness = "25") {
    tables.row("cooler", {{"id", id},
                          {"type", "liquid"},
                          {"radiator_mm", size},
                          {"radiator_thickness_mm", thickness},
                          {"fan_mm", fan},
                          {"fan_thickness_mm", fan_thickness},
                          {"fans", "2"}});
  };
  loop("loop-240", "240", "120", "27");
  loop("slim-240", "240", "120", "20", "15");  // 35 mm in all
  loop("loop-280", "280", "140", "27");
  loop("loop-360", "360", "120", "27");  // the front alone takes it
  tables.row("cooler", {{"id", "tower"}, {"type", "air"}, {"height_mm", "150"}});
  tables.row("fan", {{"id", "fan-120"}, {"size_mm", "120"}, {"thickness_mm", "25"}})
      .row("fan", {{"id", "thick-140"}, {"size_mm", "140"}, {"thickness_mm", "38"}});
  for (const char* table : {"case_mounts", "board", "memory", "cooler", "fan"})
    tables.plus_minus(table, "*", "*", 0);
  return tables;
}

Claim judged(const TestTables& tables, const std::vector<std::string>& parts) {
  Scene scene(tables);
  scene.take("tower-case");
  for (const std::string& part : parts) scene.take(part);
  return scene.claim(rule());
}

// 52 mm hang lower than 35, but pass beside 32 mm of memory at 40.
TEST(OverBoard, PassesBesideLowMemory) {
  const Claim claim = judged(top_tables(), {"low-edge", "low", "loop-240"});
  EXPECT_EQ(claim.verdict, Verdict::holds);
  ASSERT_TRUE(claim.value && claim.limit && claim.margin);
  EXPECT_EQ(claim.value->value, 32.0);
  EXPECT_EQ(claim.limit->value, 40.0);
  EXPECT_EQ(claim.margin->value, 8.0);
  EXPECT_EQ(claim.where, "upper");
}

// Beside: 46 of 40, 6 over. Above: 52 of 35, 17 over. The way that lacks less is told.
TEST(OverBoard, HighMemoryStandsInTheWay) {
  const Claim claim = judged(top_tables(), {"low-edge", "high", "loop-240"});
  EXPECT_EQ(claim.verdict, Verdict::fails);
  ASSERT_TRUE(claim.margin);
  EXPECT_EQ(claim.margin->value, -6.0);
  EXPECT_THAT(claim.remedy, HasSubstr("lower memory"));
}

TEST(OverBoard, TheBoardsOwnEdgeStandsInTheWay) {
  const Claim claim = judged(top_tables(), {"high-edge", "low", "loop-240"});
  EXPECT_EQ(claim.verdict, Verdict::fails);
  ASSERT_TRUE(claim.margin);
  EXPECT_EQ(claim.margin->value, -4.0);
}

// 280 mm is two fans of 140: the edge is at 100 - 70 = 30 mm, and 32 mm of memory are too high.
TEST(OverBoard, AWiderRadiatorReachesCloserToTheBoard) {
  const Claim claim = judged(top_tables(), {"low-edge", "low", "loop-280"});
  EXPECT_EQ(claim.verdict, Verdict::fails);
  ASSERT_TRUE(claim.limit);
  EXPECT_EQ(claim.limit->value, 30.0);
}

TEST(OverBoard, AThinStackEndsAboveTheBoardWhateverStandsThere) {
  const Claim claim = judged(top_tables(), {"high-edge", "high", "slim-240"});
  EXPECT_EQ(claim.verdict, Verdict::holds);
  ASSERT_TRUE(claim.value && claim.limit);
  EXPECT_EQ(claim.value->value, 35.0);
  EXPECT_EQ(claim.limit->value, 35.0);
}

// What is not needed is not missed.
TEST(OverBoard, OneKnownWayIsEnough) {
  EXPECT_EQ(judged(top_tables({.middle_mm = ""}), {"unstated-edge", "high", "slim-240"}).verdict,
            Verdict::holds);
  EXPECT_EQ(judged(top_tables({.beyond_mm = ""}), {"low-edge", "low", "loop-240"}).verdict,
            Verdict::holds);
}

// Its width is asked only of what has to pass beside.
TEST(OverBoard, AThinStackNeedsNoWidth) {
  TestTables tables = top_tables({.middle_mm = ""});
  tables.row("cooler", {{"id", "slim-unstated"},
                        {"type", "liquid"},
                        {"radiator_mm", "240"},
                        {"radiator_thickness_mm", "20"},
                        {"fan_thickness_mm", "15"},
                        {"fans", "2"}});
  EXPECT_EQ(judged(tables, {"unstated-edge", "high", "slim-unstated"}).verdict, Verdict::holds);
}

TEST(OverBoard, AWayThatIsNotKnownMayHold) {
  const Claim no_middle = judged(top_tables({.middle_mm = ""}), {"low-edge", "low", "loop-240"});
  EXPECT_EQ(no_middle.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(no_middle),
              ElementsAre("case_mounts.tower-case/upper.middle_from_board_mm"));
  const Claim no_beyond = judged(top_tables({.beyond_mm = ""}), {"low-edge", "high", "loop-240"});
  EXPECT_EQ(no_beyond.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(no_beyond),
              ElementsAre("case_mounts.tower-case/upper.beyond_board_mm"));
}

// An edge nobody stated lies between 20 and 50 mm: at 40 mm it may or may not be passed.
TEST(OverBoard, AnUnstatedEdgeSpansItsClass) {
  EXPECT_EQ(judged(top_tables(), {"unstated-edge", "low", "loop-240"}).verdict, Verdict::unknown);
  EXPECT_EQ(judged(top_tables({.middle_mm = "115"}), {"unstated-edge", "low", "loop-240"}).verdict,
            Verdict::holds);  // 55 mm is over the range
}

TEST(OverBoard, AddedFansHangThereToo) {
  const Claim thin = judged(top_tables(), {"high-edge", "high", "tower", "fan-120"});
  EXPECT_EQ(thin.verdict, Verdict::holds);  // 25 of 35 mm
  const Claim thick = judged(top_tables(), {"high-edge", "low", "tower", "thick-140"});
  EXPECT_EQ(thick.verdict, Verdict::fails);  // 38 of 35 mm; beside: 44 of 100 - 70
  ASSERT_TRUE(thick.margin);
  EXPECT_EQ(thick.margin->value, -3.0);
}

TEST(OverBoard, NothingOnTopNothingClaimed) {
  Scene scene(top_tables());
  for (const char* part : {"tower-case", "low-edge", "high", "loop-360"}) scene.take(part);
  EXPECT_EQ(scene.places(rule()), 0);
}

// Exact by hand: memory 40 +- 2 mm against 40 mm: it holds in half of the draws.
TEST(OverBoard, OddsFromTolerances) {
  TestTables tables = top_tables();
  tables.row("memory", {{"id", "about-40"}, {"modules", "2"}, {"height_mm", "40"}});
  tables.plus_minus("memory", "about-40", "height_mm", 2);
  const Claim claim = judged(tables, {"low-edge", "about-40", "loop-240"});
  EXPECT_EQ(claim.verdict, Verdict::thin);
  ASSERT_TRUE(claim.odds);
  EXPECT_EQ(*claim.odds, 0.5);
}

}  // namespace
}  // namespace rigproof
