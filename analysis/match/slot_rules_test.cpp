// Slots for cards beside the graphics card: positions and lengths by hand.
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
using testing::ElementsAre;
using testing::HasSubstr;

const Rule& rule() { return rule_of(match_rules(), "match.covered-slots"); }

// On "four" the card sits in slot 2 at position 2: x1 at 1, 4 and x4 at 5.
TestTables slots() {
  TestTables tables;
  const auto slot = [&](const char* board, const char* number, const char* position,
                        const char* length) {
    tables.row("board_slots",
               {{"board", board}, {"slot", number}, {"position", position}, {"length", length}});
  };
  for (const char* board : {"four", "behind", "blank", "unlisted"})
    tables.row("board", {{"id", board}, {"name", board}});
  slot("four", "1", "1", "x1");
  slot("four", "2", "2", "x16");
  slot("four", "3", "4", "x1");
  slot("four", "4", "5", "x4");
  slot("behind", "1", "1", "x16");
  slot("behind", "2", "3", "x1");
  slot("blank", "1", "", "x16");
  slot("blank", "2", "", "x1");
  for (const char* filled : {"1", "2", "3", "4"})
    tables.row("gpu", {{"id", std::string("card-") + filled}, {"slots", filled}});
  tables.row("gpu", {{"id", "card-bare"}})
      .row("other", {{"id", "radio"}, {"name", "Radio"}, {"what", "wifi-card"}, {"slot", "x1"}})
      .row("other", {{"id", "wide"}, {"what", "wifi-card"}, {"slot", "x4"}})
      .row("other", {{"id", "plugged"}, {"what", "wifi-card"}, {"slot", "none"}})
      .row("other", {{"id", "vague"}, {"what", "wifi-card"}})
      .row("other", {{"id", "paste"}, {"what", "paste"}});
  return tables;
}

Claim claim(const std::vector<std::pair<std::string, int>>& parts) {
  Scene scene(slots());
  for (const auto& [id, count] : parts) scene.take(id, count);
  return scene.claim(rule());
}
int places(const std::vector<std::string>& parts) {
  Scene scene(slots());
  for (const auto& id : parts) scene.take(id);
  return scene.places(rule());
}

TEST(CoveredSlots, ByPositionAndRearSlotsFilled) {
  EXPECT_EQ(claim({{"behind", 1}, {"card-2", 1}, {"radio", 1}}).verdict, Verdict::holds)
      << "positions 1 and 2 are filled, the slot is at 3";
  const Claim covered = claim({{"behind", 1}, {"card-3", 1}, {"radio", 1}});
  EXPECT_EQ(covered.verdict, Verdict::fails);
  EXPECT_EQ(covered.value->value, 1.0);
  EXPECT_THAT(covered.statement, HasSubstr("Radio"));
  EXPECT_EQ(claim({{"behind", 1}, {"radio", 2}}).verdict, Verdict::holds)
      << "without a card its slot is free too";
  EXPECT_EQ(claim({{"behind", 1}, {"card-1", 1}, {"radio", 2}}).verdict, Verdict::fails);
}

TEST(CoveredSlots, LengthsAndOneCardASlot) {
  // Slots 1 (x1), 3 (x1) and 4 (x4) with a card of two; 1 and 4 with a card of three.
  EXPECT_EQ(claim({{"four", 1}, {"card-2", 1}, {"radio", 3}}).verdict, Verdict::holds);
  EXPECT_EQ(claim({{"four", 1}, {"card-2", 1}, {"radio", 2}, {"wide", 1}}).verdict, Verdict::holds);
  EXPECT_EQ(claim({{"four", 1}, {"card-2", 1}, {"radio", 1}, {"wide", 2}}).verdict, Verdict::fails);
  EXPECT_EQ(claim({{"four", 1}, {"card-3", 1}, {"radio", 1}, {"wide", 1}}).verdict, Verdict::holds);
  EXPECT_EQ(claim({{"four", 1}, {"card-3", 1}, {"radio", 2}, {"wide", 1}}).verdict, Verdict::fails);
  EXPECT_EQ(claim({{"four", 1}, {"card-4", 1}, {"radio", 1}}).verdict, Verdict::holds)
      << "a card does not cover slots before its own";
}

TEST(CoveredSlots, UnknownOnlyWhereItMatters) {
  EXPECT_THAT(missing_cells(claim({{"blank", 1}, {"card-2", 1}, {"radio", 1}})),
              ElementsAre("board_slots.blank/1.position", "board_slots.blank/2.position"));
  EXPECT_THAT(missing_cells(claim({{"behind", 1}, {"card-bare", 1}, {"radio", 1}})),
              ElementsAre("gpu.card-bare.slots"));
  EXPECT_EQ(claim({{"four", 1}, {"card-bare", 1}, {"radio", 1}}).verdict, Verdict::holds)
      << "slot 1 lies before the card";
  EXPECT_EQ(claim({{"blank", 1}, {"card-2", 1}, {"radio", 2}}).verdict, Verdict::fails)
      << "two cards, at most one slot";
  EXPECT_EQ(claim({{"blank", 1}, {"card-2", 1}, {"wide", 1}}).verdict, Verdict::fails)
      << "too short wherever it is";
  EXPECT_THAT(missing_cells(claim({{"unlisted", 1}, {"radio", 1}})),
              ElementsAre("board_slots.unlisted.*"));
  EXPECT_THAT(missing_cells(claim({{"behind", 1}, {"card-2", 1}, {"vague", 1}})),
              ElementsAre("other.vague.slot"));
}

TEST(CoveredSlots, OnlyForCards) {
  EXPECT_EQ(places({"behind", "card-2", "plugged"}), 0);
  EXPECT_EQ(places({"behind", "card-2", "paste"}), 0) << "no card, said or not";
  EXPECT_EQ(places({"behind", "card-2"}), 0);
}

}  // namespace
}  // namespace rigproof
