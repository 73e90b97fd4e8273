#include "analysis/power/power_rules.hpp"

#include <gtest/gtest.h>

#include "tests/support/allocations.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;

const Rule& rule(std::string_view id) { return rule_of(power_rules(), id); }

// Every power stated and exact: 150 + 40 + 8 + 300 + 2 x 7 + 10 + 3 x 0.25 A x 12 V + 2 = 533 W.
TestTables stated() {
  TestTables tables;
  tables.row("cpu", {{"id", "cpu-150"}, {"sustained_power_w", "150"}});
  tables.row("board", {{"id", "board-40"}, {"power_w", "40"}});
  tables.row("memory", {{"id", "kit-8"}, {"power_w", "8"}});
  tables.row("gpu", {{"id", "card-300"}, {"sustained_power_w", "300"}});
  tables.row("storage", {{"id", "drive-7"}, {"power_w", "7"}});
  tables.row("cooler", {{"id", "cooler-10"}, {"power_w", "10"}});
  tables.row("fan", {{"id", "fan-3w"}, {"current_a", "0.25"}});
  tables.row("other", {{"id", "hub-2"}, {"power_w", "2"}});
  for (const char* table : {"cpu", "gpu"}) tables.plus_minus(table, "*", "*", 0);
  tables.row("psu", {{"id", "supply-533"}, {"rated_power_w", "533"}});
  tables.row("psu", {{"id", "supply-532"}, {"rated_power_w", "532"}});
  tables.row("psu", {{"id", "supply-700"}, {"rated_power_w", "700"}});
  return tables;
}

void take_all(Scene& scene) {
  for (const char* id : {"cpu-150", "board-40", "kit-8", "card-300", "cooler-10", "hub-2"})
    scene.take(id);
  scene.take("drive-7", 2).take("fan-3w", 3);
}

TEST(Sustained, SumsEveryPartWithItsCount) {
  Scene scene(stated());
  take_all(scene);
  const Claim holds = scene.take("supply-533").claim(rule("power.sustained"));
  EXPECT_DOUBLE_EQ(holds.value->value, 533.0);
  EXPECT_FALSE(holds.value->low);  // certain
  EXPECT_EQ(holds.verdict, Verdict::holds);
  EXPECT_NE(holds.statement.find("no reserve is asked"), std::string::npos);
  EXPECT_EQ(holds.load, "everything");
  const Claim fails = scene.drop(Kind::psu).take("supply-532").claim(rule("power.sustained"));
  EXPECT_EQ(fails.verdict, Verdict::fails);
  EXPECT_EQ(fails.remedy, "a supply rated 533 W or more");
}

TEST(Sustained, EveryTermCounts) {
  const double whole_w = 533.0;
  const std::vector<std::pair<Kind, double>> terms = {
      {Kind::cpu, 150},    {Kind::board, 40},  {Kind::memory, 8}, {Kind::gpu, 300},
      {Kind::storage, 14}, {Kind::cooler, 10}, {Kind::fan, 9},    {Kind::other, 2}};
  for (const auto& [kind, power_w] : terms) {
    Scene scene(stated());
    take_all(scene);
    scene.take("supply-700").drop(kind);
    EXPECT_DOUBLE_EQ(scene.claim(rule("power.sustained")).value->value, whole_w - power_w)
        << name_of(kind);
  }
}

// The brief asks for 20 % in reserve: 0.8 x 700 = 560 W may be used; 25 %: 525 W.
TEST(Sustained, ReserveOfTheBrief) {
  Scene scene(stated());
  take_all(scene);
  scene.take("supply-700").brief.supply_reserve_frac = 0.2;
  const Claim claim = scene.claim(rule("power.sustained"));
  EXPECT_DOUBLE_EQ(claim.limit->value, 560.0);
  EXPECT_DOUBLE_EQ(claim.margin->value, 27.0);
  EXPECT_EQ(claim.verdict, Verdict::holds);
  scene.brief.supply_reserve_frac = 0.25;
  EXPECT_EQ(scene.claim(rule("power.sustained")).verdict, Verdict::fails);
}

TEST(Sustained, OddsOfAPowerThatIsNotExact) {
  TestTables tables = stated();
  tables.plus_minus("gpu", "card-300", "sustained_power_w", 10);
  tables.row("psu", {{"id", "supply-538"}, {"rated_power_w", "538"}});
  Scene scene(tables);
  take_all(scene);
  const Claim claim = scene.take("supply-538").claim(rule("power.sustained"));
  // 523...543 W against 538: 15 / 20 of the interval, 192 of 256 quantiles.
  EXPECT_DOUBLE_EQ(*claim.odds, 0.75);
  EXPECT_EQ(claim.verdict, Verdict::thin);
  EXPECT_NEAR(*claim.value->low, 524.0, 0.1);  // 5 and 95 %
  EXPECT_NEAR(*claim.value->high, 542.0, 0.1);
}

// Without its cell a board is 20...50 W (class range): 100 W processor + board is 120...150 W.
TEST(Sustained, ClassRangesAreJudgedOverTheirWholeWidth) {
  TestTables tables;
  tables.row("cpu", {{"id", "cpu-100"}, {"sustained_power_w", "100"}})
      .plus_minus("cpu", "*", "*", 0);
  tables.row("board", {{"id", "board"}});
  for (const char* rating : {"119", "120", "149", "150"})
    tables.row("psu", {{"id", std::string("supply-") + rating}, {"rated_power_w", rating}});
  Scene scene(tables);
  scene.take("cpu-100").take("board");
  const auto claim_with = [&](const char* psu) {
    return scene.drop(Kind::psu).take(psu).claim(rule("power.sustained"));
  };
  EXPECT_EQ(claim_with("supply-119").verdict, Verdict::fails);
  EXPECT_EQ(claim_with("supply-120").verdict, Verdict::unknown);
  const Claim across = claim_with("supply-149");
  EXPECT_EQ(across.verdict, Verdict::unknown);
  EXPECT_EQ(missing_cells(across), std::vector<std::string>{"board.board.power_w"});
  EXPECT_EQ(claim_with("supply-150").verdict, Verdict::holds);
}

TEST(Sustained, AbsentWithoutClassRangeIsUnknown) {
  TestTables tables = stated();
  tables.row("cpu", {{"id", "cpu-unstated"}}).row("psu", {{"id", "supply-unstated"}});
  Scene scene(tables);
  scene.take("cpu-unstated").take("supply-unstated");
  const Claim claim = scene.claim(rule("power.sustained"));
  EXPECT_EQ(claim.verdict, Verdict::unknown);
  EXPECT_EQ(missing_cells(claim), (std::vector<std::string>{"cpu.cpu-unstated.sustained_power_w",
                                                            "psu.supply-unstated.rated_power_w"}));
  EXPECT_EQ(scene.drop(Kind::psu).places(rule("power.sustained")), 0);
}

// 75 W from an x16 slot. Source: [pcie-cem-5]; looked up: two pages that quote the table.
TEST(Slot, SeventyFiveWatts) {
  TestTables tables;
  tables.row("gpu", {{"id", "at-75"}, {"slot_power_w", "75"}})
      .row("gpu", {{"id", "at-75-5"}, {"slot_power_w", "75.5"}});
  tables.row("gpu", {{"id", "unstated"}});
  Scene scene(tables);
  EXPECT_EQ(scene.places(rule("power.slot")), 0);
  EXPECT_EQ(scene.take("at-75").claim(rule("power.slot")).verdict, Verdict::holds);
  EXPECT_EQ(scene.drop(Kind::gpu).take("at-75-5").claim(rule("power.slot")).verdict,
            Verdict::fails);
  // Unstated is 10...75 W, and all of that is allowed: known to hold, though the cell is worth
  // looking up.
  const Claim unstated = scene.drop(Kind::gpu).take("unstated").claim(rule("power.slot"));
  EXPECT_EQ(unstated.verdict, Verdict::holds);
  EXPECT_EQ(missing_cells(unstated), std::vector<std::string>{"gpu.unstated.slot_power_w"});
}

// 75 W a 2x3, 150 W a 2x4, 600 W a 2x6 input. Source: [pcie-cem-5]; looked up: ATX12VO design
// guide 2.01, section 3.2.
TEST(CardInputs, PublishedRatingsOnBothSides) {
  struct Row {
    const char* connector;
    const char* count;
    int rated_w;
  };
  for (const Row& row : {Row{"pcie6", "1", 75}, Row{"pcie8", "1", 150}, Row{"pcie8", "3", 450},
                         Row{"12v-2x6", "1", 600}}) {
    for (const int over_w : {0, 1}) {
      TestTables tables;
      tables.row("gpu", {{"id", "card"},
                         {"slot_power_w", "50"},
                         {"sustained_power_w", std::to_string(50 + row.rated_w + over_w)}});
      tables.plus_minus("gpu", "*", "*", 0);
      tables.row("gpu_inputs",
                 {{"gpu", "card"}, {"connector", row.connector}, {"count", row.count}});
      Scene scene(tables);
      const Claim claim = scene.take("card").claim(rule("power.card-inputs"));
      EXPECT_DOUBLE_EQ(claim.limit->value, row.rated_w) << row.connector;
      EXPECT_DOUBLE_EQ(claim.margin->value, -over_w) << row.connector;
      EXPECT_EQ(claim.verdict, over_w == 0 ? Verdict::holds : Verdict::fails) << row.connector;
    }
  }
}

TEST(CardInputs, DifferentInputsAddAndNoneIsAWord) {
  TestTables tables;
  tables.row("gpu", {{"id", "both"}, {"slot_power_w", "60"}, {"sustained_power_w", "285"}});
  tables.row("gpu", {{"id", "slot-only"}, {"slot_power_w", "70"}, {"sustained_power_w", "70"}});
  tables.row("gpu", {{"id", "unlisted"}, {"slot_power_w", "70"}, {"sustained_power_w", "70"}});
  tables.row("gpu", {{"id", "no-share"}, {"sustained_power_w", "300"}});
  tables.plus_minus("gpu", "*", "*", 0);
  tables.row("gpu_inputs", {{"gpu", "both"}, {"connector", "pcie8"}, {"count", "1"}});
  tables.row("gpu_inputs", {{"gpu", "both"}, {"connector", "pcie6"}, {"count", "1"}});
  tables.row("gpu_inputs", {{"gpu", "slot-only"}, {"connector", "pcie8"}, {"count", "0"}});
  tables.row("gpu_inputs", {{"gpu", "no-share"}, {"connector", "pcie8"}, {"count", "2"}});
  Scene scene(tables);
  EXPECT_DOUBLE_EQ(scene.take("both").claim(rule("power.card-inputs")).margin->value,
                   0.0);  // 225 - (285 - 60)
  EXPECT_EQ(scene.drop(Kind::gpu).take("slot-only").claim(rule("power.card-inputs")).verdict,
            Verdict::holds);
  const Claim unlisted = scene.drop(Kind::gpu).take("unlisted").claim(rule("power.card-inputs"));
  EXPECT_EQ(unlisted.verdict, Verdict::unknown);
  EXPECT_EQ(missing_cells(unlisted), std::vector<std::string>{"gpu_inputs.unlisted.*"});
  // 300 W less 10...75 W through the slot is 225...290 W, all within two 2x4.
  EXPECT_EQ(scene.drop(Kind::gpu).take("no-share").claim(rule("power.card-inputs")).verdict,
            Verdict::holds);
}

TEST(CardInputs, ASlotCarriesNoMoreThanTheCardDraws) {
  TestTables tables;
  tables.row("gpu", {{"id", "small"}, {"slot_power_w", "75"}, {"sustained_power_w", "60"}});
  tables.plus_minus("gpu", "*", "*", 0);
  tables.row("gpu_inputs", {{"gpu", "small"}, {"connector", "pcie8"}, {"count", "1"}});
  Scene scene(tables);
  const Claim claim = scene.take("small").claim(rule("power.card-inputs"));
  EXPECT_EQ(claim.value->value, 0.0);
  EXPECT_EQ(claim.verdict, Verdict::holds);
}

// One 2x4 input at 28 A and 11.4 V (12 V less 5 %; [atx12v-2] section 3.2.1 Table 2, looked up) is
// 319.2 W; with a 2x2 beside it 42 A, 478.8 W.
TEST(CpuInputs, PeakCurrentOnTheLowestRail) {
  TestTables tables;
  for (const char* peak : {"319", "320", "478", "479"})
    tables.row("cpu", {{"id", std::string("cpu-") + peak}, {"peak_power_w", peak}});
  tables.plus_minus("cpu", "*", "*", 0);
  tables.row("board", {{"id", "one"}, {"eps8_inputs", "1"}, {"eps4_inputs", "0"}});
  tables.row("board", {{"id", "one-and-half"}, {"eps8_inputs", "1"}, {"eps4_inputs", "1"}});
  tables.row("board", {{"id", "unstated"}, {"eps8_inputs", "1"}});
  Scene scene(tables);
  const auto claim_of = [&](const char* cpu, const char* board) {
    return scene.drop(Kind::cpu)
        .drop(Kind::board)
        .take(cpu)
        .take(board)
        .claim(rule("power.cpu-inputs"));
  };
  EXPECT_EQ(claim_of("cpu-319", "one").verdict, Verdict::holds);
  EXPECT_EQ(claim_of("cpu-320", "one").verdict, Verdict::fails);
  EXPECT_EQ(claim_of("cpu-478", "one-and-half").verdict, Verdict::holds);
  EXPECT_EQ(claim_of("cpu-479", "one-and-half").verdict, Verdict::fails);
  EXPECT_NEAR(claim_of("cpu-320", "one").value->value, 28.0702, 1e-4);  // 320 / 11.4
  EXPECT_EQ(missing_cells(claim_of("cpu-319", "unstated")),
            std::vector<std::string>{"board.unstated.eps4_inputs"});
  EXPECT_EQ(claim_of("cpu-320", "one").grade, Grade::tells);
  EXPECT_EQ(scene.drop(Kind::board).places(rule("power.cpu-inputs")), 0);
}

TEST(PowerRules, MeasureAllocatesNothing) {
  const std::size_t before = test_support::allocations;
  TestTables tables = stated();
  EXPECT_GT(test_support::allocations, before);  // the counter counts
  tables.plus_minus("gpu", "card-300", "sustained_power_w", 10);
  tables.row("other", {{"id", "dial"}})
      .row("part_headers",
           {{"part", "dial"}, {"header", "usb2"}, {"count", "1"}, {"current_a", "0.1"}})
      .row("board_headers", {{"board", "board-40"}, {"header", "usb2"}, {"count", "1"}})
      .row("board_headers", {{"board", "board-40"}, {"header", "fan"}, {"count", "3"}});
  Scene scene(tables);
  take_all(scene);
  scene.take("supply-700").take("dial");
  scene.market("IE", "EUR", "2000");
  scene.brief.markets.front().mains_v = 230.0;
  scene.brief.markets.front().circuit_a = 10.0;
  scene.brief.markets.front().kwh_price = 0.3;
  scene.brief.use.hours_per_day = {1.0, 1.0, 1.0, 1.0};
  scene.brief.running_cost_per_year = 100.0;
  scene.brief.limits["wall_power_w"] = {.at_most = 500.0, .load = "title", .distance_m = {}};
  const Facts facts = scene.facts();
  std::size_t asked = 0;
  for (const Rule* each : power_rules()) {
    if (each->places(facts) == 0) continue;  // no advice is stated, the cooler's fans are none
    ++asked;
    EXPECT_EQ(test_support::allocations_of(*each, facts, 0), 0U) << each->id;
  }
  EXPECT_GE(asked, power_rules().size() - 3);
}

// A card whose maker advises 650 W: a 700 W supply is within it by 50 W, a 533 W one 117 W short;
// without advice there is no claim.
TEST(SupplyAdvice, IsToldWhereTheMakerGivesSome) {
  TestTables tables = stated();
  tables.row("gpu", {{"id", "advised"}, {"supply_advice_w", "650"}});
  Scene enough(tables);
  enough.take("advised").take("supply-700");
  const Claim within = enough.claim(rule("power.supply-advice"));
  EXPECT_EQ(within.verdict, Verdict::holds);
  EXPECT_EQ(within.grade, Grade::tells);
  EXPECT_DOUBLE_EQ(within.margin->value, 50.0);
  Scene small(tables);
  small.take("advised").take("supply-533");
  const Claim under = small.claim(rule("power.supply-advice"));
  EXPECT_EQ(under.verdict, Verdict::fails);
  EXPECT_DOUBLE_EQ(under.margin->value, -117.0);
  EXPECT_FALSE(under.remedy.empty());
  Scene silent(tables);
  silent.take("card-300").take("supply-700");
  EXPECT_EQ(silent.places(rule("power.supply-advice")), 0);
}

// 700 W up to 40 degC, 10 W less for each kelvin above. In a room of 20 degC the air it draws in is
// 35 at most: all of it. In one of 30 it is 30 to 45: 650 to 700 W. In one of 45 it is 45 to 60:
// 500 to 650 W.
TEST(Sustained, ASupplyGivesLessInHotAir) {
  TestTables tables = stated();
  tables.row(
      "psu",
      {{"id", "hot"}, {"rated_power_w", "700"}, {"full_power_c", "40"}, {"derating_w_k", "10"}});
  tables.plus_minus("psu", "*", "*", 0);
  const auto limit = [&](double room_c) {
    Scene scene(tables);
    scene.take("cpu-150").take("hot");
    scene.brief.room_c = room_c;
    Measure m;
    rule("power.sustained").measure(scene.facts(), 0, m);
    return std::pair{m.limit.low(), m.limit.high()};
  };
  EXPECT_EQ(limit(20.0), (std::pair{700.0, 700.0}));
  EXPECT_EQ(limit(30.0), (std::pair{650.0, 700.0}));
  EXPECT_EQ(limit(45.0), (std::pair{500.0, 650.0}));
}

// Known terms that are too much fail whatever an absent one is; the cell is still named: 150 W
// against 100 W. Within the capacity the same hole leaves it unknown.
TEST(Sustained, KnownTermsOverTheCapacityFailDespiteAHole) {
  TestTables tables = stated();
  tables.row("gpu", {{"id", "silent-card"}});
  tables.row("psu", {{"id", "supply-100"}, {"rated_power_w", "100"}});
  Scene over(tables);
  over.take("cpu-150").take("silent-card").take("supply-100");
  const Claim fails = over.claim(rule("power.sustained"));
  EXPECT_EQ(fails.verdict, Verdict::fails);
  EXPECT_EQ(missing_cells(fails), std::vector<std::string>{"gpu.silent-card.sustained_power_w"});
  Scene within(tables);
  within.take("cpu-150").take("silent-card").take("supply-700");
  const Claim unknown = within.claim(rule("power.sustained"));
  EXPECT_EQ(unknown.verdict, Verdict::unknown);
  EXPECT_FALSE(unknown.value) << "a sum of some terms is not the value";
}

}  // namespace
}  // namespace rigproof
