// M.2 sockets under the card, by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/match/match_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::HasSubstr;
using testing::SizeIs;

const Rule& rule() { return rule_of(match_rules(), "match.hidden-sockets"); }

// The card's slot is at rear slot 2; socket 1 lies before it, 2 at rear slot 3, 3 at 5.
TestTables sockets() {
  TestTables tables;
  for (const char* board : {"three", "blank"}) tables.row("board", {{"id", board}});
  const auto socket = [&](const char* board, const char* number, const char* position,
                          const char* lengths = "80") {
    tables.row("board_m2", {{"board", board},
                            {"socket", number},
                            {"position", position},
                            {"lengths_mm", lengths},
                            {"links", "NVMe"}});
  };
  socket("three", "1", "0");
  socket("three", "2", "3", "80|110");
  socket("three", "3", "5");
  socket("blank", "1", "0");
  socket("blank", "2", "");
  for (const char* board : {"three", "blank"})
    tables.row("board_slots",
               {{"board", board}, {"slot", "1"}, {"position", "2"}, {"length", "x16"}});
  for (const char* filled : {"1", "2", "4"})
    tables.row("gpu", {{"id", std::string("card-") + filled}, {"slots", filled}});
  tables.row("gpu", {{"id", "card-bare"}});
  tables.row("storage", {{"id", "stick"}, {"mounting", "M.2-2280"}, {"link", "NVMe"}})
      .row("storage", {{"id", "long"}, {"mounting", "M.2-22110"}, {"link", "NVMe"}})
      .row("storage", {{"id", "bay"}, {"mounting", "bay-2.5"}, {"link", "SATA"}});
  return tables;
}

struct Parts {
  std::vector<std::pair<std::string, int>> all;
};
Claim judged(const Parts& parts) {
  Scene scene(sockets());
  for (const auto& [id, count] : parts.all) scene.take(id, count);
  return scene.claim(rule());
}

TEST(HiddenSockets, DrivesThatMustSitUnderTheCard) {
  // A card of two slots lies over rear slots 2 and 3, one of four over 2 to 5.
  EXPECT_EQ(judged({{{"three", 1}, {"card-1", 1}, {"stick", 3}}}).verdict, Verdict::holds);
  EXPECT_EQ(judged({{{"three", 1}, {"card-2", 1}, {"stick", 2}}}).verdict, Verdict::holds);
  const Claim one = judged({{{"three", 1}, {"card-2", 1}, {"stick", 3}}});
  EXPECT_EQ(one.verdict, Verdict::fails);
  EXPECT_EQ(one.grade, Grade::tells);
  EXPECT_EQ(one.value->value, 1.0);
  EXPECT_THAT(one.statement, HasSubstr("lies over socket 2"));
  EXPECT_EQ(judged({{{"three", 1}, {"card-4", 1}, {"stick", 3}}}).value->value, 2.0);
}

// Only the hidden socket holds it.
TEST(HiddenSockets, ByLengthToo) {
  EXPECT_EQ(judged({{{"three", 1}, {"card-2", 1}, {"long", 1}}}).value->value, 1.0);
}

// A drive without any socket is not under the card.
TEST(HiddenSockets, WhatHasNoSocketIsForAnotherRule) {
  EXPECT_EQ(judged({{{"three", 1}, {"card-2", 1}, {"stick", 4}}}).value->value, 1.0);
}

TEST(HiddenSockets, AnUnstatedPlaceMattersOnlyWhenNeeded) {
  EXPECT_EQ(judged({{{"blank", 1}, {"card-2", 1}, {"stick", 1}}}).verdict, Verdict::holds);
  const Claim two = judged({{{"blank", 1}, {"card-2", 1}, {"stick", 2}}});
  EXPECT_EQ(two.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(two), SizeIs(1));
  EXPECT_EQ(judged({{{"three", 1}, {"card-bare", 1}, {"stick", 3}}}).verdict, Verdict::unknown);
}

TEST(HiddenSockets, NotAskedWithoutCardOrDrive) {
  for (const Parts& parts :
       {Parts{{{"three", 1}, {"stick", 3}}}, Parts{{{"three", 1}, {"card-2", 1}, {"bay", 1}}}}) {
    Scene scene(sockets());
    for (const auto& [id, count] : parts.all) scene.take(id, count);
    EXPECT_EQ(scene.places(rule()), 0);
  }
}

}  // namespace
}  // namespace rigproof
