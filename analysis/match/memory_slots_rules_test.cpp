// Memory in slots and channels, and its latency. Expectations by hand from (12), (14) and (16) of
// README.md; latencies from a published table.
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

const Rule& rule(std::string_view id) { return rule_of(match_rules(), id); }

struct Kits {
  std::string id;
  int count = 1;
};
Claim judged(const TestTables& tables, const std::vector<Kits>& parts, std::string_view id) {
  Scene scene(tables);
  for (const Kits& part : parts) scene.take(part.id, part.count);
  return scene.claim(rule(id));
}

// Four slots, two channels; 6400 MT/s with two modules, 4800 with four.
TestTables machines() {
  TestTables tables;
  const auto cpu = [&](const char* id, const char* channels) {
    tables.row("cpu", {{"id", id}, {"memory_channels", channels}, {"memory_max_mt_s", "6000"}});
  };
  cpu("dual", "2");
  cpu("quad", "4");
  cpu("single", "1");
  cpu("cpu-bare", "");
  const auto board = [&](const char* id, const char* slots, const char* order, const char* full) {
    tables.row("board", {{"id", id},
                         {"memory_slots", slots},
                         {"memory_fill_order", order},
                         {"module_max_gib", "32"},
                         {"memory_max_mt_s", "6400"},
                         {"memory_full_mt_s", full}});
  };
  board("four", "4", "2|4|1|3", "4800");
  board("four-unordered", "4", "", "");
  board("four-short", "4", "2", "");
  board("two", "2", "1|2", "6400");
  board("two-unordered", "2", "", "");
  tables.row("board", {{"id", "board-bare"}});
  const auto kit = [&](const char* id, const char* modules, const char* gib, const char* speed) {
    tables.row("memory",
               {{"id", id}, {"modules", modules}, {"module_gib", gib}, {"speed_mt_s", speed}});
  };
  kit("one-16", "1", "16", "5600");
  kit("one-8", "1", "8", "5600");
  kit("two-16", "2", "16", "5600");
  kit("two-32", "2", "32", "4800");
  kit("two-48", "2", "48", "4800");
  kit("two-fast", "2", "16", "6600");
  kit("four-16", "4", "16", "5600");
  kit("three-16", "3", "16", "5600");
  kit("kit-bare", "", "", "5600");
  return tables;
}

// (12) Two modules a channel: 4800 MT/s is the board's word then.
TEST(MemorySpeed, DropsWithEverySlotFilled) {
  const TestTables tables = machines();
  const auto speed = [&](const std::vector<Kits>& parts) {
    return judged(tables, parts, "match.memory-speed");
  };
  const Claim half = speed({{"dual"}, {"four"}, {"two-16"}});
  EXPECT_EQ(half.verdict, Verdict::holds);
  EXPECT_EQ(half.limit->value, 6000.0) << "the processor's";
  const Claim full = speed({{"dual"}, {"four"}, {"two-16", 2}});
  EXPECT_EQ(full.verdict, Verdict::fails);
  EXPECT_EQ(full.limit->value, 4800.0);
  EXPECT_THAT(full.statement, HasSubstr("two modules a channel"));
  EXPECT_THAT(full.remedy, HasSubstr("count on 4800 MT/s"));
  EXPECT_EQ(speed({{"dual"}, {"four"}, {"two-32", 2}}).verdict, Verdict::holds) << "4800 <= 4800";
  EXPECT_EQ(speed({{"dual"}, {"two"}, {"two-16"}}).limit->value, 6000.0)
      << "two slots, two channels: one module each";
  EXPECT_EQ(speed({{"quad"}, {"four"}, {"four-16"}}).verdict, Verdict::holds)
      << "four slots, four channels";
  EXPECT_EQ(speed({{"single"}, {"two"}, {"two-16"}}).limit->value, 6000.0)
      << "two a channel, and the board lists 6400 for it";
}

TEST(MemorySpeed, WhatIsNotKnownMattersOnlyWhereTheTwoSpeedsDisagree) {
  const TestTables tables = machines();
  const auto speed = [&](const std::vector<Kits>& parts) {
    return judged(tables, parts, "match.memory-speed");
  };
  EXPECT_EQ(speed({{"cpu-bare"}, {"four"}, {"two-16"}}).verdict, Verdict::holds)
      << "slots stay free";
  EXPECT_EQ(speed({{"cpu-bare"}, {"four"}, {"two-32", 2}}).verdict, Verdict::holds)
      << "4800 is listed either way";
  EXPECT_EQ(speed({{"cpu-bare"}, {"four"}, {"two-fast", 2}}).verdict, Verdict::fails)
      << "6600 is listed neither way";
  const Claim open = speed({{"cpu-bare"}, {"four"}, {"two-16", 2}});
  EXPECT_EQ(open.verdict, Verdict::unknown) << "5600: between 4800 and 6000";
  EXPECT_THAT(missing_cells(open), ElementsAre("cpu.cpu-bare.memory_channels"));
  const Claim no_full = speed({{"dual"}, {"four-unordered"}, {"two-16", 2}});
  EXPECT_EQ(no_full.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(no_full), ElementsAre("board.four-unordered.memory_full_mt_s"));
}

// 5600 +- 400 is uniform on [5200, 6000]; 5800 is met by three quarters: 192 of 256 draws.
TEST(MemorySpeed, ThinWhereTheSpeedIsUncertain) {
  auto tables = machines();
  tables.row("cpu", {{"id", "slow"}, {"memory_channels", "2"}, {"memory_max_mt_s", "5800"}});
  tables.plus_minus("memory", "two-16", "speed_mt_s", 400);
  const Claim claim = judged(tables, {{"slow"}, {"four"}, {"two-16"}}, "match.memory-speed");
  EXPECT_EQ(claim.verdict, Verdict::thin);
  EXPECT_EQ(claim.odds, 0.75);
}

TEST(MemoryWidth, SaysWhatShareOfTheWidthIsThere) {
  const TestTables tables = machines();
  const auto width = [&](const std::vector<Kits>& parts) {
    return judged(tables, parts, "match.memory-width");
  };
  EXPECT_EQ(width({{"dual"}, {"two-16"}}).verdict, Verdict::holds);
  EXPECT_THAT(width({{"dual"}, {"four-16"}}).statement, HasSubstr("the full width"));
  const Claim half = width({{"dual"}, {"one-16"}});
  EXPECT_EQ(half.verdict, Verdict::fails);
  EXPECT_EQ(half.grade, Grade::tells);
  EXPECT_EQ(half.statement,
            "The modules fill the memory channels of the dual processor (1 module in 2 channels: "
            "half the width).");
  EXPECT_EQ(half.remedy, "take a kit of 2 modules");
  EXPECT_THAT(width({{"quad"}, {"three-16"}}).statement, HasSubstr("75 % of the width"));
  EXPECT_EQ(width({{"dual"}, {"one-16"}, {"one-8"}}).verdict, Verdict::holds);
  EXPECT_THAT(missing_cells(width({{"cpu-bare"}, {"kit-bare"}})),
              ElementsAre("memory.kit-bare.modules", "cpu.cpu-bare.memory_channels"));
}

TEST(MemoryFill, NamesTheSlots) {
  const TestTables tables = machines();
  const auto fill = [&](const std::vector<Kits>& parts) {
    return judged(tables, parts, "match.memory-fill");
  };
  const Claim two = fill({{"dual"}, {"four"}, {"two-16"}});
  EXPECT_EQ(two.verdict, Verdict::holds);
  EXPECT_THAT(two.statement, HasSubstr("fills slots 2 and 4 of the four board, counted from the "
                                       "processor"));
  EXPECT_THAT(fill({{"dual"}, {"four"}, {"one-16"}}).statement, HasSubstr("fills slot 2 of"));
  EXPECT_THAT(fill({{"dual"}, {"four"}, {"four-16"}}).statement, HasSubstr("fills every slot of"));
}

// By hand, two channels: three modules of 16 GiB lie 32 and 16 GiB; 16 + 8 lie 16 and 8; pairs of
// 16 and 32 lie 48 and 48; 16, 8, 8 lie 16 and 8 + 8 when the two small ones share the channel that
// has two filled slots.
TEST(MemoryFill, ChannelsHoldAsMuchOrNot) {
  const TestTables tables = machines();
  const auto differ = [&](const std::vector<Kits>& parts) {
    const Claim claim = judged(tables, parts, "match.memory-fill");
    EXPECT_EQ(claim.verdict == Verdict::holds, claim.value->value == 0.0);
    return claim.value->value;
  };
  EXPECT_EQ(differ({{"dual"}, {"four"}, {"three-16"}}), 16.0);
  EXPECT_EQ(differ({{"dual"}, {"four"}, {"one-16"}, {"one-8"}}), 8.0);
  EXPECT_EQ(differ({{"dual"}, {"four"}, {"two-16"}, {"two-32"}}), 0.0);
  EXPECT_EQ(differ({{"dual"}, {"four"}, {"one-16"}, {"one-8", 2}}), 0.0);
  EXPECT_EQ(differ({{"dual"}, {"four"}, {"one-8", 2}, {"one-16"}}), 0.0) << "in any order";
  EXPECT_EQ(differ({{"quad"}, {"four"}, {"three-16"}}), 0.0) << "each alone in its channel";
  EXPECT_EQ(differ({{"single"}, {"four"}, {"three-16"}}), 0.0) << "there is one channel only";
  EXPECT_EQ(judged(tables, {{"dual"}, {"four"}, {"three-16"}}, "match.memory-fill").verdict,
            Verdict::fails);
}

TEST(MemoryFill, TheOrderMattersUnlessEverySlotIsFilled) {
  const TestTables tables = machines();
  const auto fill = [&](const std::vector<Kits>& parts) {
    return judged(tables, parts, "match.memory-fill");
  };
  const Claim open = fill({{"dual"}, {"four-unordered"}, {"two-16"}});
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open), ElementsAre("board.four-unordered.memory_fill_order"));
  EXPECT_EQ(fill({{"dual"}, {"four-unordered"}, {"four-16"}}).verdict, Verdict::holds);
  EXPECT_EQ(fill({{"dual"}, {"two-unordered"}, {"two-16"}}).verdict, Verdict::holds);
  EXPECT_EQ(fill({{"dual"}, {"four-short"}, {"two-16"}}).verdict, Verdict::unknown)
      << "it names one slot only";
  EXPECT_THAT(missing_cells(fill({{"cpu-bare"}, {"four"}, {"two-16"}})),
              ElementsAre("cpu.cpu-bare.memory_channels"));
  EXPECT_EQ(
      Scene(tables).take("dual").take("two").take("four-16").places(rule("match.memory-fill")), 0)
      << "four modules in two slots: match.memory-slots says it";
}

TEST(ModuleCapacity, AgainstTheLargestASlotTakes) {
  const TestTables tables = machines();
  EXPECT_EQ(judged(tables, {{"four"}, {"two-32"}}, "match.module-capacity").verdict,
            Verdict::holds);
  const Claim large = judged(tables, {{"four"}, {"two-48"}}, "match.module-capacity");
  EXPECT_EQ(large.verdict, Verdict::fails);
  EXPECT_EQ(large.margin->value, -16.0);
  EXPECT_EQ(large.remedy, "choose modules of at most 32 GiB, or a board that takes larger ones");
  EXPECT_THAT(
      missing_cells(judged(tables, {{"board-bare"}, {"kit-bare"}}, "match.module-capacity")),
      ElementsAre("memory.kit-bare.module_gib", "board.board-bare.module_max_gib"));
  Scene mixed(tables);
  mixed.take("four").take("two-32").take("two-48");
  ASSERT_EQ(mixed.places(rule("match.module-capacity")), 2);
  EXPECT_EQ(mixed.claim(rule("match.module-capacity"), 1).where, "two-48");
}

// First-word latency = CL x 2000 / (MT/s). The table's printed values, to its last digit; computed
// from that definition, and the fastest bins of DDR5 (JESD79-5, looked up: two press articles that
// print the table; 3200 CL22, 4800 CL34, 8000 CL56). Above 15 ns it does not hold: the slow bins.
TEST(MemoryLatency, ReproducesAPublishedTable) {
  struct Row {
    const char *speed, *clocks;
    double ns;
    bool usual;
  };
  for (const Row& row : {Row{"3200", "14", 8.750, true}, Row{"3200", "16", 10.000, true},
                         Row{"3200", "22", 13.750, true}, Row{"3600", "18", 10.000, true},
                         Row{"4800", "40", 16.667, false}, Row{"5200", "42", 16.154, false},
                         Row{"5600", "36", 12.857, true}, Row{"5600", "46", 16.429, false},
                         Row{"6000", "30", 10.000, true}, Row{"6000", "36", 12.000, true},
                         Row{"6000", "40", 13.333, true}, Row{"6400", "32", 10.000, true},
                         Row{"7200", "34", 9.444, true}, Row{"8000", "38", 9.500, true},
                         Row{"4800", "34", 14.17, true}, Row{"8000", "56", 14.00, true}}) {
    const TestTables tables = TestTables().row(
        "memory", {{"id", "kit"}, {"speed_mt_s", row.speed}, {"latency_clocks", row.clocks}});
    const Claim claim = judged(tables, {{"kit"}}, "match.memory-latency");
    EXPECT_NEAR(claim.value->value, row.ns, row.ns == 14.17 ? 0.005 : 0.0005)
        << row.speed << " CL" << row.clocks;
    EXPECT_EQ(claim.verdict, row.usual ? Verdict::holds : Verdict::fails)
        << row.speed << " CL" << row.clocks;
  }
}

// 2000 x 45 / 6000 = 15 ns is the limit itself. With 5800 +- 200 MT/s and CL 43.5's neighbor 43:
// 86000 / s <= 15 from s = 5733.3 on, so (6000 - 5733.3) / 400 = 0.6667 of the draws.
TEST(MemoryLatency, AtTheLimitAndUncertain) {
  const auto kit = [](const char* speed, const char* clocks) {
    return TestTables().row("memory",
                            {{"id", "kit"}, {"speed_mt_s", speed}, {"latency_clocks", clocks}});
  };
  EXPECT_EQ(judged(kit("6000", "45"), {{"kit"}}, "match.memory-latency").verdict, Verdict::holds);
  EXPECT_EQ(judged(kit("6000", "46"), {{"kit"}}, "match.memory-latency").verdict, Verdict::fails);
  const Claim thin = judged(kit("5800", "43").plus_minus("memory", "kit", "speed_mt_s", 200),
                            {{"kit"}}, "match.memory-latency");
  EXPECT_EQ(thin.verdict, Verdict::thin);
  EXPECT_NEAR(*thin.odds, 2.0 / 3.0, 1.0 / 256.0) << "stratified: within one draw";
  const Claim open = judged(kit("6000", ""), {{"kit"}}, "match.memory-latency");
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open), ElementsAre("memory.kit.latency_clocks"));
}

}  // namespace
}  // namespace rigproof
