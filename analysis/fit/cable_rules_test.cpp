// Reach of the supply's cables, (T13). Expectations by hand; lengths are exact.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/fit/fit_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::HasSubstr;

const Rule& board_cables() { return rule_of(fit_rules(), "fit.board-cables"); }
const Rule& card_cables() { return rule_of(fit_rules(), "fit.card-cables"); }
const Rule& drive_cables() { return rule_of(fit_rules(), "fit.drive-cables"); }

TestTables cables() {
  TestTables tables;
  tables.row("case", {{"id", "box"}}).row("case", {{"id", "silent"}});
  const auto way = [&](const char* connector, const char* mm) {
    tables.row("case_ways", {{"case", "box"}, {"connector", connector}, {"way_mm", mm}});
  };
  way("eps8", "600");
  way("pcie8", "420");
  way("sata", "300");
  tables.row("board", {{"id", "one"}, {"eps8_inputs", "1"}})
      .row("board", {{"id", "two"}, {"eps8_inputs", "2"}})
      .row("board", {{"id", "unstated"}});
  const auto cable = [&](const char* psu, const char* connector, const char* count,
                         const char* length) {
    tables.row("psu_cables",
               {{"psu", psu}, {"connector", connector}, {"count", count}, {"length_mm", length}});
  };
  for (const char* psu : {"long", "short", "bare"})
    tables.row("psu", {{"id", psu}, {"cable_family", "beech"}});
  cable("long", "eps8", "2", "650");
  cable("long", "pcie8", "2", "600");
  cable("long", "sata", "4", "450");
  cable("short", "eps8", "1", "580");
  cable("short", "pcie8", "0", "");
  cable("bare", "eps8", "1", "");
  tables.row("gpu", {{"id", "card"}});
  tables.row("gpu_inputs", {{"gpu", "card"}, {"connector", "pcie8"}, {"count", "2"}});
  tables.row("storage", {{"id", "bay"}, {"mounting", "bay-2.5"}})
      .row("storage", {{"id", "stick"}, {"mounting", "M.2-2280"}});
  const auto set = [&](const char* id, const char* family, const char* length) {
    tables.row("other", {{"id", id}, {"what", "cable-set"}, {"cable_family", family}});
    tables.row("other_cables",
               {{"other", id}, {"connector", "eps8"}, {"count", "1"}, {"length_mm", length}});
  };
  set("beech-800", "beech", "800");
  set("alder-800", "alder", "800");
  for (const char* table : {"case_ways", "psu_cables", "other_cables"})
    tables.plus_minus(table, "*", "*", 0);
  return tables;
}

Scene& take(Scene& scene, const std::vector<std::string>& parts) {
  for (const std::string& part : parts) scene.take(part);
  return scene;
}
Claim judged(const Rule& rule, const std::vector<std::string>& parts) {
  Scene scene(cables());
  return take(scene, parts).claim(rule);
}
int places(const Rule& rule, const std::vector<std::string>& parts) {
  Scene scene(cables());
  return take(scene, parts).places(rule);
}

TEST(Cables, TheWayAgainstTheCable) {
  const Claim reaches = judged(board_cables(), {"box", "one", "long"});
  EXPECT_EQ(reaches.verdict, Verdict::holds);
  EXPECT_EQ(reaches.margin->value, 50.0);
  EXPECT_EQ(reaches.where, "eps8");
  const Claim ends_short = judged(board_cables(), {"box", "one", "short"});
  EXPECT_EQ(ends_short.verdict, Verdict::fails);
  EXPECT_EQ(ends_short.margin->value, -20.0);
  EXPECT_THAT(ends_short.remedy, HasSubstr("600 mm"));
  EXPECT_THAT(ends_short.remedy, HasSubstr("never a loose cable of another family"));
  EXPECT_EQ(judged(card_cables(), {"box", "card", "long"}).margin->value, 180.0);
  EXPECT_EQ(judged(drive_cables(), {"box", "bay", "long"}).margin->value, 150.0);
}

// 450 to 750 mm: not surely 600.
TEST(Cables, AnUnstatedLengthSpansItsClass) {
  EXPECT_EQ(judged(board_cables(), {"box", "one", "bare"}).verdict, Verdict::unknown);
}

// One plug is needed: the long one of the set is used. Two: the supply's own as well, which is too
// short. Another family's set must not be plugged in at all.
TEST(Cables, OfSetsOfItsOwnFamilyTheLongestAreUsed) {
  EXPECT_EQ(judged(board_cables(), {"box", "one", "short", "beech-800"}).margin->value, 200.0);
  EXPECT_EQ(judged(board_cables(), {"box", "two", "short", "beech-800"}).margin->value, -20.0);
  EXPECT_EQ(judged(board_cables(), {"box", "one", "short", "alder-800"}).margin->value, -20.0);
  EXPECT_EQ(judged(board_cables(), {"box", "two", "long", "beech-800"}).margin->value, 50.0);
}

// Whether there are plugs at all is for other rules.
TEST(Cables, NothingIsClaimedWithoutAStatedWayANeedOrAPlug) {
  EXPECT_EQ(places(board_cables(), {"silent", "one", "long"}), 0);
  EXPECT_EQ(places(board_cables(), {"box", "unstated", "long"}), 0);
  EXPECT_EQ(places(card_cables(), {"box", "card", "short"}), 0);
  EXPECT_EQ(places(drive_cables(), {"box", "stick", "long"}), 0);
  EXPECT_EQ(places(board_cables(), {"box", "one"}), 0);
}

}  // namespace
}  // namespace rigproof
