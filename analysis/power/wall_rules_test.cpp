// The wall by hand: load, loss, circuit, energy. Efficiencies are those of the certification table
// ([eighty-plus], looked up); cells are exact unless a test says so.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/power/energy.hpp"
#include "analysis/power/power_rules.hpp"
#include "analysis/power/wall.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::HasSubstr;

const Rule& rule(std::string_view id) { return rule_of(power_rules(), id); }

TestTables tables() {
  TestTables t;
  t.row("cpu", {{"id", "cpu"},
                {"idle_power_w", "10"},
                {"title_power_w", "60"},
                {"sustained_power_w", "100"}});
  t.row("board", {{"id", "board"}, {"power_w", "40"}});
  t.row("gpu", {{"id", "card"}, {"idle_power_w", "20"}, {"sustained_power_w", "260"}});
  t.row("psu", {{"id", "gold"}, {"rated_power_w", "800"}, {"efficiency", "gold"}})
      .row("psu", {{"id", "bare"}, {"rated_power_w", "800"}});
  t.row("case", {{"id", "box"}});
  for (const char* table : {"cpu", "board", "gpu", "psu"}) t.plus_minus(table, "*", "*", 0);
  return t;
}

void in_market(Scene& scene, const char* code, double mains_v) {
  scene.market(code, code == std::string_view("US") ? "USD" : "EUR", "2000");
  scene.brief.markets.back().mains_v = mains_v;
}

// 100 + 40 + 260 = 400 W, half of the rating: 90 % at 115 V, 92 % at 230 V.
TEST(Wall, LoadAndLossAtHalfTheRating) {
  for (const auto& [volts, efficiency] : {std::pair{115.0, 0.90}, {230.0, 0.92}}) {
    Scene scene(tables());
    scene.take("cpu").take("board").take("card").take("gold");
    in_market(scene, "IE", volts);
    scene.brief.limits["wall_power_w"] = {.at_most = 440.0, .load = "everything", .distance_m = {}};
    const Claim claim = scene.claim(rule("power.wall"));
    EXPECT_NEAR(claim.value->value, 400.0 / efficiency, 1e-6);
    EXPECT_EQ(claim.verdict, volts > 200 ? Verdict::holds : Verdict::fails);  // 434.8 and 444.4
  }
}

// The card rests at 20 W while every core works: 100 + 40 + 20 = 160 W, a fifth: 87 % at 115 V.
TEST(Wall, EachLoadHasItsOwnPowers) {
  Scene scene(tables());
  scene.take("cpu").take("board").take("card").take("gold");
  in_market(scene, "US", 120.0);
  scene.brief.limits["wall_power_w"] = {.at_most = 200.0, .load = "all-core", .distance_m = {}};
  EXPECT_NEAR(scene.claim(rule("power.wall")).value->value, 160.0 / 0.87, 1e-6);
}

// Idle: 10 + 20 + 12 to 40 W, far below a fifth: at least that, at most with the loss of 160 W at
// 90 %, 17.78 W.
TEST(Wall, BelowTheCertifiedPointsItIsBounded) {
  Scene scene(tables());
  scene.take("cpu").take("board").take("card").take("gold");
  in_market(scene, "IE", 230.0);
  scene.brief.limits["wall_power_w"] = {.at_most = 60.0, .load = "idle", .distance_m = {}};
  const Claim claim = scene.claim(rule("power.wall"));
  EXPECT_EQ(claim.verdict, Verdict::unknown);  // 42 to 87.8 W
  scene.brief.limits["wall_power_w"].at_most = 88.0;
  EXPECT_EQ(scene.claim(rule("power.wall")).verdict, Verdict::holds);
  scene.brief.limits["wall_power_w"].at_most = 41.0;
  EXPECT_EQ(scene.claim(rule("power.wall")).verdict, Verdict::fails);
}

TEST(Wall, WithoutALevelItIsUnknown) {
  Scene scene(tables());
  scene.take("cpu").take("board").take("card").take("bare");
  in_market(scene, "IE", 230.0);
  scene.brief.limits["wall_power_w"] = {.at_most = 440.0, .load = "everything", .distance_m = {}};
  const Claim claim = scene.claim(rule("power.wall"));
  EXPECT_EQ(claim.verdict, Verdict::unknown);
  EXPECT_EQ(test_support::missing_cells(claim), std::vector<std::string>{"psu.bare.efficiency"});
}

// 15 A at 120 V: 1800 W, 1440 W for hours ([nec-210], looked up; check-values B4). Elsewhere the
// circuit's own rating.
TEST(Circuit, TheContinuousRuleIsAmerican) {
  Scene scene(tables());
  scene.take("cpu").take("board").take("card").take("gold");
  in_market(scene, "US", 120.0);
  scene.brief.markets.back().circuit_a = 15.0;
  in_market(scene, "IE", 230.0);
  scene.brief.markets.back().circuit_a = 10.0;
  in_market(scene, "DE", 230.0);  // states no circuit
  ASSERT_EQ(scene.places(rule("power.circuit")), 2);
  const Claim us = scene.claim(rule("power.circuit"), 0);
  EXPECT_NEAR(us.limit->value, 1440.0, 1e-9);
  EXPECT_NEAR(us.value->value, 400.0 / 0.90, 1e-6);
  EXPECT_EQ(us.where, "US");
  const Claim ie = scene.claim(rule("power.circuit"), 1);
  EXPECT_NEAR(ie.limit->value, 2300.0, 1e-9);  // check-values B4: a C13 cord at 230 V
  EXPECT_NEAR(ie.value->value, 400.0 / 0.92, 1e-6);
  EXPECT_EQ(ie.verdict, Verdict::holds);
}

// Two hours of everything a day at 434.78 W: 0.86957 kWh, 317.61 kWh in 365.25 days. A quarter of
// it at night: 0.75 x 0.40 + 0.25 x 0.20 = 0.35 a kWh, 111.16 a year.
TEST(RunningCost, HoursPowerAndPrice) {
  Scene scene(tables());
  scene.take("cpu").take("board").take("card").take("gold");
  in_market(scene, "IE", 230.0);
  scene.brief.markets.front().kwh_price = 0.40;
  scene.brief.markets.front().kwh_price_night = 0.20;
  scene.brief.use.hours_per_day = {0.0, 0.0, 0.0, 2.0};
  scene.brief.use.night_frac = 0.25;
  scene.brief.running_cost_per_year = 120.0;
  const Claim claim = scene.claim(rule("power.running-cost"));
  EXPECT_NEAR(claim.value->value, 111.16, 0.01);
  EXPECT_EQ(claim.value->unit, "EUR");
  EXPECT_EQ(claim.verdict, Verdict::holds);
  Measure m;
  EXPECT_NEAR(power::energy_of(scene.facts(), 0, m).kwh_per_year.median(), 317.61, 0.01);
  scene.brief.markets.front().kwh_price.reset();
  const Claim unknown = scene.claim(rule("power.running-cost"));
  EXPECT_EQ(unknown.verdict, Verdict::unknown);
  EXPECT_THAT(unknown.remedy, HasSubstr("kwh_price"));
}

// The first market states no price; the limit is in the money of the first one all the same,
// however the planner turns them.
TEST(RunningCost, IsOfTheMarketThatStoodFirst) {
  Scene scene(tables());
  scene.take("cpu").take("board").take("card").take("gold");
  in_market(scene, "GB", 230.0);
  in_market(scene, "IE", 230.0);
  scene.brief.markets[1].kwh_price = 0.40;
  scene.brief.use.hours_per_day = {0.0, 0.0, 0.0, 2.0};
  scene.brief.running_cost_per_year = 200.0;
  scene.brief.running_cost_market = "IE";
  const Claim claim = scene.claim(rule("power.running-cost"));
  EXPECT_EQ(claim.where, "IE");
  EXPECT_NEAR(claim.value->value, 317.61 * 0.40, 0.01);
  scene.brief.running_cost_market = "GB";
  EXPECT_EQ(scene.claim(rule("power.running-cost")).verdict, Verdict::unknown);
}

// (P0): 0.25 of the way from 10 to 100 W and 0.5 of that from 20 to 260 W: 32.5 + 140, 40 of the
// board: 212.5 W; an hour of it a day at 0.40 a kWh, with what the supply loses.
TEST(OwnLoad, LiesBetweenIdleAndSustainedPower) {
  Scene scene(tables());
  scene.take("cpu").take("board").take("card").take("gold");
  in_market(scene, "IE", 230.0);
  scene.brief.loads = {
      {.name = "reading", .cpu_frac = 0.25, .gpu_frac = 0.5, .hours_per_day = 1.0}};
  Measure m;
  const auto load = power::find_load(scene.brief, "reading");
  ASSERT_TRUE(load);
  EXPECT_NEAR(power::load_w(scene.facts(), *load, m).median(), 212.5, 1e-9);
  const double wall_w = power::wall_power(scene.facts(), *load, 0, m).wall_w.median();
  EXPECT_NEAR(power::energy_of(scene.facts(), 0, m).kwh_per_year.median(), wall_w * 365.25 / 1000.0,
              1e-9);
  EXPECT_TRUE(power::works_card(scene.brief, *load));
  EXPECT_FALSE(power::find_load(scene.brief, "writing"));
  scene.brief.limits["wall_power_w"] = {.at_most = 300.0, .load = "reading", .distance_m = {}};
  const Claim claim = scene.claim(rule("power.wall"));
  EXPECT_EQ(claim.load, "reading");
  EXPECT_NEAR(claim.value->value, wall_w, 1e-9);
}

TEST(Wall, NothingIsAskedThatTheBriefDoesNotAsk) {
  Scene scene(tables());
  scene.take("cpu").take("board").take("card").take("gold");
  for (const char* id : {"power.wall", "power.circuit", "power.running-cost"})
    EXPECT_EQ(scene.places(rule(id)), 0) << id;
}

}  // namespace
}  // namespace rigproof
