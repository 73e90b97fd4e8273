// Memory under the cooler, (T6). Expectations by hand; lengths are exact unless a test says so.
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

const Rule& rule() { return rule_of(fit_rules(), "fit.memory-height"); }

struct Part {
  std::string id;
  int count = 1;
};
Claim judged(const TestTables& tables, const std::vector<Part>& parts) {
  Scene scene(tables);
  for (const Part& part : parts) scene.take(part.id, part.count);
  return scene.claim(rule());
}
Verdict verdict(const TestTables& tables, const std::vector<Part>& parts) {
  return judged(tables, parts).verdict;
}

TestTables memory_tables() {
  TestTables tables;
  tables
      .row("board",
           {{"id", "outer-first"}, {"memory_slots", "4"}, {"memory_fill_order", "4|2|3|1"}})
      .row("board",
           {{"id", "second-first"}, {"memory_slots", "4"}, {"memory_fill_order", "2|4|1|3"}})
      .row("board", {{"id", "unordered"}, {"memory_slots", "4"}})
      .row("board", {{"id", "two-slots"}, {"memory_slots", "2"}})
      .row("board", {{"id", "board-bare"}});
  const auto kit = [&](const char* id, const char* modules, const char* height) {
    tables.row("memory", {{"id", id}, {"modules", modules}, {"height_mm", height}});
  };
  kit("pair-low", "2", "32");
  kit("pair-high", "2", "45");
  kit("four-high", "4", "45");
  kit("one-high", "1", "45");
  kit("pair-unmeasured", "2", "");
  kit("uncounted-high", "", "45");
  const auto cooler = [&](const char* id, const char* type, const char* covers,
                          const char* leaves) {
    tables.row("cooler", {{"id", id},
                          {"type", type},
                          {"covers_memory_slots", covers},
                          {"memory_clearance_mm", leaves}});
  };
  cooler("clear", "air", "0", "");
  cooler("over-one", "air", "1", "40");
  cooler("over-two", "air", "2", "40");
  cooler("over-three", "air", "3", "40");
  cooler("over-all", "air", "4", "40");
  cooler("low-over-all", "air", "4", "30");
  cooler("high-over-all", "air", "4", "60");
  cooler("air-silent", "air", "", "");
  cooler("loop", "liquid", "", "");
  cooler("loop-over-one", "liquid", "1", "40");
  cooler("no-height", "air", "2", "");
  cooler("typeless", "", "", "");
  for (const char* table : {"memory", "cooler"}) tables.plus_minus(table, "*", "*", 0);
  return tables;
}

TEST(MemoryHeight, OnBothSidesOfTheClearance) {
  const TestTables tables = memory_tables();
  const Claim low = judged(tables, {{"second-first"}, {"pair-low"}, {"over-two"}});
  EXPECT_EQ(low.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(low.margin->value, 8.0);  // 40 - 32
  const Claim high = judged(tables, {{"second-first"}, {"pair-high"}, {"over-two"}});
  EXPECT_EQ(high.verdict, Verdict::fails);
  EXPECT_DOUBLE_EQ(high.margin->value, -5.0);
  EXPECT_THAT(high.remedy, HasSubstr("memory at most 40 mm high"));
  EXPECT_THAT(high.statement, HasSubstr("reaches over the first 2 slots"));
  EXPECT_THAT(high.subjects, ElementsAre("second-first", "pair-high", "over-two"));
}

TEST(MemoryHeight, OnlyFilledSlotsUnderItCount) {
  const TestTables tables = memory_tables();
  // Order 2|4|1|3: two modules stand in 2 and 4, and a cooler over slot 1 alone meets neither.
  const Claim beside = judged(tables, {{"second-first"}, {"pair-high"}, {"over-one"}});
  EXPECT_EQ(beside.verdict, Verdict::holds);
  EXPECT_EQ(beside.value->text, "no module stands under it");
  EXPECT_EQ(verdict(tables, {{"second-first"}, {"four-high"}, {"over-one"}}), Verdict::fails);
  EXPECT_EQ(verdict(tables, {{"second-first"}, {"one-high"}, {"over-two"}}), Verdict::fails);
  EXPECT_EQ(verdict(tables, {{"outer-first"}, {"one-high"}, {"over-two"}}), Verdict::holds)
      << "slot 4 only";
  EXPECT_EQ(verdict(tables, {{"outer-first"}, {"pair-high"}, {"over-two"}}), Verdict::fails)
      << "slots 4 and 2";
}

TEST(MemoryHeight, CoolersThatReachOverNothing) {
  const TestTables tables = memory_tables();
  const Claim clear = judged(tables, {{"unordered"}, {"pair-high"}, {"clear"}});
  EXPECT_EQ(clear.verdict, Verdict::holds);
  EXPECT_EQ(clear.value->text, "it reaches over no slot");
  EXPECT_EQ(verdict(tables, {{"unordered"}, {"pair-high"}, {"loop"}}), Verdict::holds);
  EXPECT_EQ(verdict(tables, {{"second-first"}, {"four-high"}, {"loop-over-one"}}), Verdict::fails)
      << "a loop that states it is taken at its word";
}

TEST(MemoryHeight, WhatTheCoolerDoesNotSayIsUnknown) {
  const TestTables tables = memory_tables();
  const Claim silent = judged(tables, {{"second-first"}, {"pair-low"}, {"air-silent"}});
  EXPECT_EQ(silent.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(silent), ElementsAre("cooler.air-silent.covers_memory_slots"));
  EXPECT_THAT(missing_cells(judged(tables, {{"second-first"}, {"pair-low"}, {"typeless"}})),
              ElementsAre("cooler.typeless.type", "cooler.typeless.covers_memory_slots"));
  EXPECT_THAT(missing_cells(judged(tables, {{"second-first"}, {"pair-low"}, {"no-height"}})),
              ElementsAre("cooler.no-height.memory_clearance_mm"));
}

TEST(MemoryHeight, TheOrderIsAskedForOnlyWhereItMatters) {
  const TestTables tables = memory_tables();
  const Claim open = judged(tables, {{"unordered"}, {"pair-high"}, {"over-two"}});
  EXPECT_EQ(open.verdict, Verdict::unknown) << "the pair may stand in 3 and 4";
  EXPECT_THAT(missing_cells(open), ElementsAre("board.unordered.memory_fill_order"));
  EXPECT_EQ(verdict(tables, {{"unordered"}, {"pair-low"}, {"over-two"}}), Verdict::holds)
      << "low enough anywhere";
  EXPECT_EQ(verdict(tables, {{"unordered"}, {"pair-high"}, {"over-three"}}), Verdict::fails)
      << "one slot beside it, two modules";
  EXPECT_EQ(verdict(tables, {{"unordered"}, {"four-high"}, {"over-one"}}), Verdict::fails)
      << "every slot is filled";
  EXPECT_EQ(verdict(tables, {{"two-slots"}, {"pair-high"}, {"over-one"}}), Verdict::fails);
  const Claim bare = judged(tables, {{"board-bare"}, {"uncounted-high"}, {"over-two"}});
  EXPECT_EQ(bare.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(bare),
              ElementsAre("memory.uncounted-high.modules", "board.board-bare.memory_slots"));
}

// Two kits, four slots, order 2|4|1|3, a cooler over the first two: slots 1 and 2 are filled, and
// the two low modules go there. Over three slots one high module stands under it too.
TEST(MemoryHeight, OfMixedKitsTheLowStandUnderIt) {
  const TestTables tables = memory_tables();
  for (const auto& kits : {std::pair{"pair-low", "pair-high"}, {"pair-high", "pair-low"}}) {
    EXPECT_EQ(verdict(tables, {{"second-first"}, {kits.first}, {kits.second}, {"over-two"}}),
              Verdict::holds);
    EXPECT_EQ(verdict(tables, {{"second-first"}, {kits.first}, {kits.second}, {"over-three"}}),
              Verdict::fails);
  }
}

// 45 mm +- 8 is uniform on [37, 53]; 40 mm is met by 3/16 of it, 48 of 256 draws; 49 mm by 3/4.
TEST(MemoryHeight, OddsAreTheShareOfTheIntervalThatFits) {
  TestTables tables = memory_tables();
  tables.plus_minus("memory", "pair-high", "height_mm", 8);
  tables.row("cooler", {{"id", "over-two-49"},
                        {"type", "air"},
                        {"covers_memory_slots", "2"},
                        {"memory_clearance_mm", "49"}});
  const Claim doubtful = judged(tables, {{"second-first"}, {"pair-high"}, {"over-two"}});
  EXPECT_EQ(doubtful.odds, 48.0 / 256.0);
  EXPECT_EQ(doubtful.verdict, Verdict::doubtful);
  const Claim thin = judged(tables, {{"second-first"}, {"pair-high"}, {"over-two-49"}});
  EXPECT_EQ(thin.odds, 0.75);
  EXPECT_EQ(thin.verdict, Verdict::thin);
}

// A module's height that is absent may be 31 to 56 mm (the schema's class range).
TEST(MemoryHeight, AClassRangeIsJudgedOverItsWholeWidth) {
  const TestTables tables = memory_tables();
  EXPECT_EQ(verdict(tables, {{"second-first"}, {"pair-unmeasured"}, {"low-over-all"}}),
            Verdict::fails);
  EXPECT_EQ(verdict(tables, {{"second-first"}, {"pair-unmeasured"}, {"high-over-all"}}),
            Verdict::holds);
  const Claim open = judged(tables, {{"second-first"}, {"pair-unmeasured"}, {"over-all"}});
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open), ElementsAre("memory.pair-unmeasured.height_mm"));
}

TEST(MemoryHeight, NeedsBoardMemoryAndCooler) {
  const TestTables tables = memory_tables();
  EXPECT_EQ(Scene(tables).take("unordered").take("pair-low").places(rule()), 0);
  EXPECT_EQ(Scene(tables).take("unordered").take("clear").places(rule()), 0);
  EXPECT_EQ(Scene(tables).take("pair-low").take("clear").places(rule()), 0);
}

}  // namespace
}  // namespace rigproof
