// Interface rules, both sides of every limit. Catalogs are written here, expectations by hand from
// the rule's sentence in README.md; no expectation was read off the program.
#include "analysis/match/match_rules.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::UnorderedElementsAre;

const Rule& rule(std::string_view id) { return rule_of(match_rules(), id); }

// A build of these parts, judged by one rule at one place.
Claim judged(const TestTables& tables, const std::vector<std::string>& parts, std::string_view id,
             int place = 0) {
  Scene scene(tables);
  for (const auto& part : parts) scene.take(part);
  return scene.claim(rule(id), place);
}
Verdict verdict(const TestTables& tables, const std::vector<std::string>& parts,
                std::string_view id) {
  return judged(tables, parts, id).verdict;
}

TEST(Rulebook, IdsAreUniqueAndRecordsComplete) {
  std::set<std::string_view> ids;
  for (const auto rules : {match_rules(), market_rules()})
    for (const Rule* rule : rules) {
      EXPECT_TRUE(ids.insert(rule->id).second) << rule->id;
      EXPECT_FALSE(rule->about.empty()) << rule->id;
      EXPECT_FALSE(rule->source.empty()) << rule->id;
      EXPECT_FALSE(rule->equation.empty()) << rule->id;
      EXPECT_TRUE(rule->places && rule->measure && rule->tell) << rule->id;
      EXPECT_TRUE(std::ranges::is_sorted(rule->kinds)) << rule->id << ": kinds in Kind order";
      for (const ColumnId column : rule->reads) {
        if (column.table >= kind_count) continue;
        EXPECT_TRUE(std::ranges::count(rule->kinds, static_cast<Kind>(column.table)))
            << rule->id << " reads a kind outside its scope";
      }
    }
  EXPECT_GE(ids.size(), 42U);
}

TEST(Rulebook, NothingAppliesToNothingButCompleteness) {
  Scene scene(TestTables().row("fan", {{"id", "spare"}}));
  for (const auto rules : {match_rules(), market_rules()})
    for (const Rule* rule : rules)
      EXPECT_EQ(scene.places(*rule), rule->id == "match.complete" ? 1 : 0) << rule->id;
}

TestTables one_of_each() {
  TestTables tables;
  for (const char* kind :
       {"cpu", "board", "memory", "gpu", "storage", "cooler", "case", "psu", "fan"})
    tables.row(kind, {{"id", std::string("a-") + kind}});
  return tables;
}

TEST(Complete, NamesWhatIsLacking) {
  Scene scene(one_of_each());
  scene.take("a-cpu").take("a-board").take("a-memory").take("a-storage").take("a-case");
  Claim claim = scene.claim(rule("match.complete"));
  EXPECT_EQ(claim.verdict, Verdict::fails);
  EXPECT_EQ(claim.value->value, 2.0);
  EXPECT_EQ(claim.remedy, "add: cooler and psu");
  claim = scene.take("a-cooler").take("a-psu").claim(rule("match.complete"));
  EXPECT_EQ(claim.verdict, Verdict::holds) << "no card and no fan are needed";
}

TestTables processors() {
  return TestTables()
      .row("cpu", {{"id", "cpu-k7"},
                   {"name", "Orrin 6"},
                   {"socket", "K7"},
                   {"sustained_power_w", "100"},
                   {"memory_types", "DDR4|DDR5"},
                   {"memory_max_gib", "128"},
                   {"memory_max_mt_s", "5600"}})
      .row("cpu", {{"id", "cpu-j2"}, {"socket", "J2"}, {"memory_types", "DDR4"}})
      .row("cpu", {{"id", "cpu-bare"}, {"name", "Bare"}})
      .row("board", {{"id", "board-k7"},
                     {"name", "Kestrel M4"},
                     {"socket", "K7"},
                     {"form_factor", "microATX"},
                     {"memory_type", "DDR5"},
                     {"memory_slots", "4"},
                     {"memory_max_gib", "192"},
                     {"memory_max_mt_s", "6400"},
                     {"cpu_sustained_w", "110"}})
      .row("board", {{"id", "board-bare"}})
      .row("memory", {{"id", "pair-64"},
                      {"memory_type", "DDR5"},
                      {"modules", "2"},
                      {"module_gib", "32"},
                      {"speed_mt_s", "5600"}})
      .row("memory", {{"id", "pair-old"},
                      {"memory_type", "DDR4"},
                      {"modules", "2"},
                      {"module_gib", "16"},
                      {"speed_mt_s", "6000"}})
      .row("memory", {{"id", "kit-bare"}})
      .row("cooler", {{"id", "tower"}, {"rated_heat_w", "103"}})
      .row("cooler", {{"id", "small"}, {"rated_heat_w", "96"}})
      .row("cooler", {{"id", "large"}, {"rated_heat_w", "104"}})
      .row("cooler", {{"id", "cooler-bare"}})
      .row("cooler_sockets", {{"cooler", "tower"}, {"socket", "J2"}})
      .row("cooler_sockets", {{"cooler", "tower"}, {"socket", "K7"}})
      .row("cooler_sockets", {{"cooler", "small"}, {"socket", "J2"}});
}

TEST(Socket, SameWordOnBoth) {
  const Claim good = judged(processors(), {"cpu-k7", "board-k7"}, "match.socket");
  EXPECT_EQ(good.verdict, Verdict::holds);
  EXPECT_EQ(good.statement,
            "The Kestrel M4 board takes the Orrin 6 processor: socket K7 on the board, K7 on the "
            "processor.");
  EXPECT_THAT(good.subjects, ElementsAre("cpu-k7", "board-k7"));
  const Claim bad = judged(processors(), {"cpu-j2", "board-k7"}, "match.socket");
  EXPECT_EQ(bad.verdict, Verdict::fails);
  EXPECT_EQ(bad.remedy, "choose a board with socket J2, or a processor for socket K7");
  const Claim unknown = judged(processors(), {"cpu-bare", "board-bare"}, "match.socket");
  EXPECT_EQ(unknown.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(unknown),
              ElementsAre("cpu.cpu-bare.socket", "board.board-bare.socket"));
}

TEST(CoolerSocket, AnyRowMayFitAndNoRowsAreUnknown) {
  const Claim good = judged(processors(), {"cpu-k7", "tower"}, "match.cooler-socket");
  EXPECT_EQ(good.verdict, Verdict::holds);
  EXPECT_EQ(good.limit->text, "J2, K7");
  EXPECT_EQ(verdict(processors(), {"cpu-k7", "small"}, "match.cooler-socket"), Verdict::fails);
  const Claim unknown = judged(processors(), {"cpu-k7", "cooler-bare"}, "match.cooler-socket");
  EXPECT_EQ(unknown.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(unknown), ElementsAre("cooler_sockets.cooler-bare.*"));
  EXPECT_EQ(verdict(processors(), {"cpu-bare", "tower"}, "match.cooler-socket"), Verdict::unknown);
}

// 100 W +- 3 % (the column's tolerance) is uniform on [97, 103].
//   103 W: all of it.  104 W: all.  96 W: none.
TEST(CoolerHeat, AgainstTheMakersRating) {
  EXPECT_EQ(verdict(processors(), {"cpu-k7", "tower"}, "match.cooler-heat"), Verdict::holds);
  EXPECT_EQ(verdict(processors(), {"cpu-k7", "large"}, "match.cooler-heat"), Verdict::holds);
  const Claim hot = judged(processors(), {"cpu-k7", "small"}, "match.cooler-heat");
  EXPECT_EQ(hot.verdict, Verdict::fails);
  EXPECT_EQ(hot.load, "all-core");
  EXPECT_NEAR(hot.margin->value, -4.0, 1e-9);
  EXPECT_THAT(hot.statement, HasSubstr("not a temperature"));
  EXPECT_THAT(missing_cells(judged(processors(), {"cpu-bare", "cooler-bare"}, "match.cooler-heat")),
              ElementsAre("cpu.cpu-bare.sustained_power_w", "cooler.cooler-bare.rated_heat_w"));
}

// 110 W against 100 W +- 16 W: (110 - 84) / 32 = 0.8125, exactly 208 of 256 stratified draws.
TEST(PowerStage, ThinWhereThePowerIsUncertain) {
  auto tables = processors();
  EXPECT_EQ(verdict(tables, {"cpu-k7", "board-k7"}, "match.power-stage"), Verdict::holds);
  tables.plus_minus("cpu", "cpu-k7", "sustained_power_w", 16);
  const Claim thin = judged(tables, {"cpu-k7", "board-k7"}, "match.power-stage");
  EXPECT_EQ(thin.verdict, Verdict::thin);
  EXPECT_EQ(thin.odds, 0.8125);
  EXPECT_NEAR(thin.margin->value, 10.0, 1e-9);
  EXPECT_NEAR(*thin.margin->low, 10.0 - 0.9 * 16, 1e-9);
  EXPECT_EQ(verdict(tables, {"cpu-bare", "board-k7"}, "match.power-stage"), Verdict::unknown);
}

// Both numbers uncertain: cpu on [84, 116] W, stage on [102, 118] W. P(cpu <= stage): the stage's
// mean is 110, and over its whole range cpu's distribution is linear up to 116:
//   E[min((s - 84)/32, 1)] = (1/16)(integral from 102 to 116 of (s - 84)/32 ds + 2)
//                          = (1/16)((32^2 - 18^2)/64 + 2) = (1/16)(10.9375 + 2) = 0.8086.
TEST(PowerStage, TwoUncertainNumbersAreJudgedJointly) {
  auto tables = processors();
  tables.plus_minus("cpu", "cpu-k7", "sustained_power_w", 16)
      .plus_minus("board", "board-k7", "cpu_sustained_w", 8);
  const Claim claim = judged(tables, {"cpu-k7", "board-k7"}, "match.power-stage");
  EXPECT_EQ(claim.verdict, Verdict::thin);
  EXPECT_NEAR(*claim.odds, 0.8086, 0.04)
      << "256 stratified draws in random pairs: well inside 2 binomial errors (0.049)";
}

// Peaks only tell: 130 W +- 3 % is uniform on [126.1, 133.9]. 134 W: all of it. 126 W: none. 130 W:
// the half at or below it.
TEST(PowerStagePeak, BothSidesAndBetween) {
  const auto stage = [](const char* peak_w) {
    const TestTables tables = TestTables()
                                  .row("cpu", {{"id", "c"}, {"peak_power_w", "130"}})
                                  .row("board", {{"id", "b"}, {"cpu_peak_w", peak_w}});
    return judged(tables, {"c", "b"}, "match.power-stage-peak");
  };
  EXPECT_EQ(stage("134").verdict, Verdict::holds);
  EXPECT_EQ(stage("126").verdict, Verdict::fails);
  EXPECT_EQ(stage("126").grade, Grade::tells);
  EXPECT_EQ(stage("130").odds, 0.5);
  EXPECT_EQ(stage("130").verdict, Verdict::thin);
  EXPECT_THAT(missing_cells(stage("")), ElementsAre("board.b.cpu_peak_w"));
}

TEST(MemoryType, BoardAndProcessorEachHaveASay) {
  const auto tables = processors();
  EXPECT_EQ(verdict(tables, {"board-k7", "pair-64"}, "match.memory-type"), Verdict::holds);
  EXPECT_EQ(verdict(tables, {"board-k7", "pair-old"}, "match.memory-type"), Verdict::fails);
  EXPECT_EQ(verdict(tables, {"board-bare", "pair-64"}, "match.memory-type"), Verdict::unknown);
  EXPECT_EQ(verdict(tables, {"cpu-k7", "pair-64"}, "match.memory-type-cpu"), Verdict::holds);
  EXPECT_EQ(verdict(tables, {"cpu-k7", "pair-old"}, "match.memory-type-cpu"), Verdict::holds);
  const Claim bad = judged(tables, {"cpu-j2", "pair-64"}, "match.memory-type-cpu");
  EXPECT_EQ(bad.verdict, Verdict::fails);
  EXPECT_EQ(bad.remedy, "choose memory of type DDR4");
  EXPECT_THAT(missing_cells(judged(tables, {"cpu-bare", "kit-bare"}, "match.memory-type-cpu")),
              ElementsAre("cpu.cpu-bare.memory_types", "memory.kit-bare.memory_type"));
}

// DDR5 is no part of a word like DDR5X.
TEST(MemoryType, TokensAreWholeWords) {
  const auto tables = TestTables()
                          .row("cpu", {{"id", "c"}, {"memory_types", "DDR5X"}})
                          .row("memory", {{"id", "m"}, {"memory_type", "DDR5"}});
  EXPECT_EQ(verdict(tables, {"c", "m"}, "match.memory-type-cpu"), Verdict::fails);
}

TEST(MemoryType, MixedKitsGetAClaimEach) {
  Scene scene(processors());
  scene.take("board-k7").take("pair-64").take("pair-old");
  ASSERT_EQ(scene.places(rule("match.memory-type")), 2);
  EXPECT_EQ(scene.claim(rule("match.memory-type"), 0).verdict, Verdict::holds);
  const Claim second = scene.claim(rule("match.memory-type"), 1);
  EXPECT_EQ(second.verdict, Verdict::fails);
  EXPECT_EQ(second.where, "pair-old");
}

// Two modules a kit in four slots: two kits fit, three do not.
TEST(MemorySlots, CountEveryModuleOfEveryKit) {
  for (const auto& [kits, expected, used] :
       {std::tuple{1, Verdict::holds, 2.0}, std::tuple{2, Verdict::holds, 4.0},
        std::tuple{3, Verdict::fails, 6.0}}) {
    Scene scene(processors());
    scene.take("board-k7").take("pair-64", kits);
    const Claim claim = scene.claim(rule("match.memory-slots"));
    EXPECT_EQ(claim.verdict, expected) << kits;
    EXPECT_EQ(claim.value->value, used);
    EXPECT_EQ(claim.margin->value, 4.0 - used);
  }
  Scene mixed(processors());
  mixed.take("board-k7").take("pair-64").take("pair-old", 2);
  EXPECT_EQ(mixed.claim(rule("match.memory-slots")).value->value, 6.0);
  EXPECT_THAT(missing_cells(judged(processors(), {"board-bare", "kit-bare"}, "match.memory-slots")),
              ElementsAre("memory.kit-bare.modules", "board.board-bare.memory_slots"));
}

// 2 x 32 GiB a kit: 128 GiB for two, 192 for three. The board takes 192, the processor 128.
TEST(MemoryCapacity, OfBoardAndOfProcessor) {
  for (const auto& [kits, board, cpu] : {std::tuple{2, Verdict::holds, Verdict::holds},
                                         std::tuple{3, Verdict::holds, Verdict::fails},
                                         std::tuple{4, Verdict::fails, Verdict::fails}}) {
    Scene scene(processors());
    scene.take("cpu-k7").take("board-k7").take("pair-64", kits);
    EXPECT_EQ(scene.claim(rule("match.memory-capacity")).verdict, board) << kits;
    EXPECT_EQ(scene.claim(rule("match.memory-capacity-cpu")).verdict, cpu) << kits;
    EXPECT_EQ(scene.claim(rule("match.memory-capacity")).value->value, 64.0 * kits);
  }
  EXPECT_THAT(
      missing_cells(judged(processors(), {"cpu-bare", "kit-bare"}, "match.memory-capacity-cpu")),
      ElementsAre("memory.kit-bare.modules", "memory.kit-bare.module_gib",
                  "cpu.cpu-bare.memory_max_gib"));
}

// The slower of board (6400) and processor (5600) is the limit; it only tells.
TEST(MemorySpeed, TellsTheSpeedToCountOn) {
  Scene scene(processors());
  scene.take("cpu-k7").take("board-k7").take("pair-64");
  EXPECT_EQ(scene.claim(rule("match.memory-speed")).verdict, Verdict::holds);
  const Claim fast = scene.drop(Kind::memory).take("pair-old").claim(rule("match.memory-speed"));
  EXPECT_EQ(fast.verdict, Verdict::fails);
  EXPECT_EQ(fast.limit->value, 5600.0);
  EXPECT_EQ(fast.grade, Grade::tells);
  EXPECT_EQ(fast.remedy, "count on 5600 MT/s, or choose a board and processor that list more");
  const Claim unknown =
      scene.drop(Kind::board).take("board-bare").claim(rule("match.memory-speed"));
  EXPECT_EQ(unknown.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(unknown), ElementsAre("board.board-bare.memory_max_mt_s"));
}

TestTables frames() {
  return TestTables()
      .row("board",
           {{"id", "full"}, {"form_factor", "ATX"}, {"picture_outputs", "2"}, {"wifi", "yes"}})
      .row("board",
           {{"id", "small"}, {"form_factor", "Mini-ITX"}, {"picture_outputs", "0"}, {"wifi", "no"}})
      .row("board", {{"id", "board-bare"}})
      .row("board_slots", {{"board", "full"}, {"slot", "1"}, {"length", "x16"}})
      .row("board_slots", {{"board", "full"}, {"slot", "2"}, {"length", "x1"}})
      .row("board_slots", {{"board", "small"}, {"slot", "1"}, {"length", "x4"}})
      .row("case",
           {{"id", "shell"}, {"form_factors", "microATX|Mini-ITX"}, {"psu_forms", "SFX|SFX-L"}})
      .row("case", {{"id", "case-bare"}})
      .row("psu", {{"id", "brick"}, {"form", "SFX"}})
      .row("psu", {{"id", "block"}, {"form", "ATX"}})
      .row("psu", {{"id", "psu-bare"}})
      .row("cpu", {{"id", "seeing"}, {"picture", "yes"}})
      .row("cpu", {{"id", "blind"}, {"picture", "no"}})
      .row("cpu", {{"id", "cpu-bare"}})
      .row("gpu", {{"id", "card"}})
      .row("gpu", {{"id", "compute"}})
      .row("gpu", {{"id", "card-bare"}})
      .row("gpu_outputs", {{"gpu", "card"}, {"link", "DP-1.4"}, {"count", "3"}})
      .row("gpu_outputs", {{"gpu", "card"}, {"link", "HDMI-2.1"}, {"count", "1"}})
      .row("gpu_outputs", {{"gpu", "compute"}, {"link", "none"}, {"count", "0"}})
      .row("other", {{"id", "radio"}, {"what", "wifi-card"}})
      .row("other", {{"id", "hub"}, {"what", "hub"}})
      .row("other", {{"id", "other-bare"}});
}

TEST(BoardForm, CaseHasStandoffsForIt) {
  EXPECT_EQ(verdict(frames(), {"small", "shell"}, "match.board-form"), Verdict::holds);
  const Claim bad = judged(frames(), {"full", "shell"}, "match.board-form");
  EXPECT_EQ(bad.verdict, Verdict::fails);
  EXPECT_EQ(bad.limit->text, "microATX, Mini-ITX");
  EXPECT_THAT(missing_cells(judged(frames(), {"board-bare", "case-bare"}, "match.board-form")),
              ElementsAre("board.board-bare.form_factor", "case.case-bare.form_factors"));
}

TEST(PsuForm, CaseTakesIt) {
  EXPECT_EQ(verdict(frames(), {"shell", "brick"}, "match.psu-form"), Verdict::holds);
  EXPECT_EQ(verdict(frames(), {"shell", "block"}, "match.psu-form"), Verdict::fails);
  EXPECT_EQ(verdict(frames(), {"shell", "psu-bare"}, "match.psu-form"), Verdict::unknown);
  EXPECT_EQ(verdict(frames(), {"case-bare", "brick"}, "match.psu-form"), Verdict::unknown);
}

TEST(CardSlot, OneForEveryCard) {
  EXPECT_EQ(verdict(frames(), {"full", "card"}, "match.card-slot"), Verdict::holds);
  EXPECT_EQ(verdict(frames(), {"small", "card"}, "match.card-slot"), Verdict::fails);
  EXPECT_EQ(verdict(frames(), {"board-bare", "card"}, "match.card-slot"), Verdict::unknown);
  Scene two(frames());
  two.take("full").take("card", 2);
  EXPECT_EQ(two.claim(rule("match.card-slot")).verdict, Verdict::fails);
  EXPECT_EQ(Scene(frames()).take("full").places(rule("match.card-slot")), 0);
}

TEST(Picture, OneOutputAnywhereIsEnough) {
  const auto picture = [](const std::vector<std::string>& parts) {
    return verdict(frames(), parts, "match.picture");
  };
  EXPECT_EQ(picture({"seeing", "full"}), Verdict::holds);
  EXPECT_EQ(picture({"blind", "full"}), Verdict::fails);
  EXPECT_EQ(picture({"seeing", "small"}), Verdict::fails) << "no output on the board";
  EXPECT_EQ(picture({"blind", "small", "card"}), Verdict::holds);
  EXPECT_EQ(picture({"blind", "full", "compute"}), Verdict::fails);
  EXPECT_EQ(picture({"seeing", "full", "compute"}), Verdict::holds);
  EXPECT_EQ(judged(frames(), {"seeing", "full", "card"}, "match.picture").value->value, 6.0);
}

TEST(Picture, WhatIsAbsentMattersOnlyWhileNothingIsFound) {
  EXPECT_EQ(verdict(frames(), {"cpu-bare", "board-bare", "card"}, "match.picture"), Verdict::holds);
  EXPECT_EQ(verdict(frames(), {"seeing", "full", "card-bare"}, "match.picture"), Verdict::holds);
  EXPECT_EQ(verdict(frames(), {"cpu-bare", "small"}, "match.picture"), Verdict::fails)
      << "a board without outputs settles it";
  EXPECT_EQ(verdict(frames(), {"blind", "board-bare"}, "match.picture"), Verdict::fails);
  const Claim card = judged(frames(), {"blind", "full", "card-bare"}, "match.picture");
  EXPECT_EQ(card.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(card), ElementsAre("gpu_outputs.card-bare.*"));
  const Claim both = judged(frames(), {"cpu-bare", "board-bare"}, "match.picture");
  EXPECT_EQ(both.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(both),
              UnorderedElementsAre("cpu.cpu-bare.picture", "board.board-bare.picture_outputs"));
}

TEST(MustWifi, OnTheBoardOrAsACard) {
  const auto wifi = [](const std::vector<std::string>& parts) {
    Scene scene(frames());
    scene.brief.wifi = true;
    for (const auto& part : parts) scene.take(part);
    return scene.claim(rule("match.must-wifi"));
  };
  EXPECT_EQ(wifi({"full"}).verdict, Verdict::holds);
  EXPECT_EQ(wifi({"small"}).verdict, Verdict::fails);
  EXPECT_EQ(wifi({"small", "hub"}).verdict, Verdict::fails);
  EXPECT_EQ(wifi({"small", "hub", "radio"}).verdict, Verdict::holds);
  EXPECT_EQ(wifi({"board-bare", "radio"}).verdict, Verdict::holds);
  EXPECT_THAT(missing_cells(wifi({"board-bare"})), ElementsAre("board.board-bare.wifi"));
  EXPECT_EQ(wifi({"small", "other-bare"}).verdict, Verdict::unknown);
  EXPECT_EQ(Scene(frames()).take("small").places(rule("match.must-wifi")), 0) << "nobody asked";
}

TEST(MustMemory, SumOfAllKits) {
  Scene scene(processors());
  EXPECT_EQ(scene.take("pair-64").places(rule("match.must-memory")), 0) << "nobody asked";
  scene.brief.memory_gib = 65.0;
  const Claim less = scene.claim(rule("match.must-memory"));
  EXPECT_EQ(less.verdict, Verdict::fails);
  EXPECT_EQ(less.margin->value, -1.0);
  scene.brief.memory_gib = 64.0;
  EXPECT_EQ(scene.claim(rule("match.must-memory")).verdict, Verdict::holds);
  scene.brief.memory_gib = 96.0;
  EXPECT_EQ(scene.take("pair-old").claim(rule("match.must-memory")).verdict, Verdict::holds)
      << "64 + 32";
  EXPECT_EQ(scene.take("kit-bare").claim(rule("match.must-memory")).verdict, Verdict::unknown);
}

}  // namespace
}  // namespace rigproof
