// The claims of the air engine on one small tower: limits on both sides, what is asked when, and
// what is said where a cell is absent. Numbers by the laws of air_state_test.cpp.
#include "coupled/air/air_rules.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "coupled/air/air_answer.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using coupled::Watched;
using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::Contains;
using testing::HasSubstr;

const Rule& rule(std::string_view id) { return rule_of(air_rules(), id); }

TestTables tables(bool certain = true) {
  TestTables t;
  t.row("case", {{"id", "box"},
                 {"width_mm", "210"},
                 {"depth_mm", "430"},
                 {"leak_cm2", "60"},
                 {"supply_chamber", "yes"}});
  for (const char* name : {"front", "rear"}) {
    t.row("case_mounts", {{"case", "box"},
                          {"mount", name},
                          {"face", name},
                          {"fan_sizes_mm", "120"},
                          {"fan_places", "1"},
                          {"radiators_mm", "none"},
                          {"depth_mm", "60"},
                          {"open_frac", "0.6"},
                          {"filter_pa", "3"}});
    t.row("case_fans", {{"case", "box"},
                        {"mount", name},
                        {"size_mm", "120"},
                        {"count", "1"},
                        {"flow_m3_h", "90"},
                        {"pressure_pa", "15"},
                        {"noise_dba", "30"}});
  }
  t.row("cpu",
        {{"id", "cpu"}, {"title_power_w", "60"}, {"sustained_power_w", "120"}, {"limit_c", "95"}})
      .row("cpu", {{"id", "hot"},
                   {"title_power_w", "60"},
                   {"sustained_power_w", "300"},
                   {"limit_c", "80"}});
  t.row("board", {{"id", "board"}, {"power_w", "30"}});
  t.row("gpu", {{"id", "card"},
                {"length_mm", "300"},
                {"idle_power_w", "10"},
                {"sustained_power_w", "150"},
                {"rise_k", "40"},
                {"limit_c", "90"},
                {"noise_dba", "33"}})
      .row("gpu", {{"id", "silent-sheet"},
                   {"length_mm", "300"},
                   {"idle_power_w", "10"},
                   {"sustained_power_w", "150"},
                   {"rise_k", "40"},
                   {"limit_c", "90"}});
  t.row("cooler", {{"id", "tower"},
                   {"type", "air"},
                   {"rated_heat_w", "200"},
                   {"rise_at_rating_k", "50"},
                   {"power_w", "1"},
                   {"fans", "1"},
                   {"noise_dba", "28"}});
  for (const char* table : {"case", "case_mounts", "case_fans", "cpu", "board", "gpu", "cooler"})
    t.plus_minus(table, "*", "*", 0);
  if (!certain) {
    t.plus_minus("cooler", "tower", "rise_at_rating_k", 5);
    t.plus_minus("gpu", "card", "rise_k", 4);
    t.plus_minus("cpu", "cpu", "sustained_power_w", 6);
  }
  return t;
}

struct Asked {
  explicit Asked(const std::vector<std::string>& parts, bool certain = true)
      : scene(tables(certain)) {
    scene.take("box");
    for (const std::string& part : parts) scene.take(part);
    scene.brief.room_c = 25.0;
  }
  Claim limited(const char* key, const char* id, double at_most, const char* load = "everything",
                double distance_m = 1.0) {
    scene.brief.limits[key] = {.at_most = at_most, .load = load, .distance_m = distance_m};
    return scene.claim(rule(id));
  }
  Scene scene;
};

const std::vector<std::string> whole = {"cpu", "board", "card", "tower"};

// What full speed reaches is the coldest there is: a limit just above holds, one below fails.
TEST(AirRules, ALimitOnBothSidesOfWhatFullSpeedReaches) {
  Asked asked(whole);
  Measure m;
  const auto full = coupled::air_answer(asked.scene.facts(), power::Load::everything, true, m);
  ASSERT_TRUE(full.known);
  const double coldest_c = full.middle.cpu.temp_c;
  EXPECT_NEAR(coldest_c - full.middle.upper_c, 120.0 / 4.0, 1e-9);  // 200 W / 50 K = 4 W/K
  const Claim holds = asked.limited("cpu_c", "air.cpu-temperature", coldest_c + 0.5);
  EXPECT_EQ(holds.verdict, Verdict::holds);
  EXPECT_LE(holds.value->value, coldest_c + 0.5);
  const Claim fails = asked.limited("cpu_c", "air.cpu-temperature", coldest_c - 0.5);
  EXPECT_EQ(fails.verdict, Verdict::fails);
  EXPECT_NEAR(fails.value->value, coldest_c, 1e-6);
  EXPECT_THAT(fails.statement, HasSubstr("at full speed"));
}

// A limit that can be kept is kept in every draw, at whatever speed that takes: a looser limit is
// never judged worse, and never by the toss of a coin. One limit more changes nothing of that.
TEST(AirRules, ALooserLimitIsNeverJudgedWorse) {
  for (const bool with_exhaust : {false, true}) {
    Asked asked(whole, false);
    if (with_exhaust)
      asked.scene.brief.limits["exhaust_c"] = {
          .at_most = 35.0, .load = "all-core", .distance_m = {}};
    Measure m;
    const auto full = coupled::air_answer(asked.scene.facts(), power::Load::all_core, true, m);
    ASSERT_TRUE(full.known);
    ASSERT_GT(full.temp_c[Watched::cpu].high() - full.temp_c[Watched::cpu].low(), 2.0);
    int last_holding = 0;
    int held_slower = 0;
    for (int step = 0; step < 120; ++step) {
      const double limit_c = full.temp_c[Watched::cpu].low() - 1.0 + 0.17 * step;
      const Claim claim = asked.limited("cpu_c", "air.cpu-temperature", limit_c, "all-core");
      const int holding = static_cast<int>(std::lround(256.0 * claim.odds.value_or(-1.0)));
      EXPECT_GE(holding, last_holding) << limit_c;
      if (limit_c > full.temp_c[Watched::cpu].high() + 0.5) {
        EXPECT_EQ(claim.verdict, Verdict::holds) << limit_c;
        if (claim.statement.find("at full speed") == std::string::npos) ++held_slower;
      }
      last_holding = holding;
    }
    EXPECT_GT(held_slower, 20);
  }
}

// Slower fans are quieter: the looser the limit on temperature, the lower the level.
TEST(AirRules, TheSpeedIsAsLowAsTheLimitsAllow) {
  Asked asked(whole);
  double last_dba = 1e3;
  for (const double limit_c : {62.0, 66.0, 72.0}) {
    asked.scene.brief.limits["cpu_c"] = {.at_most = limit_c, .load = "all-core", .distance_m = {}};
    const Claim noise = asked.limited("noise_dba", "air.noise", 60.0, "all-core");
    EXPECT_LT(noise.value->value, last_dba) << limit_c;
    last_dba = noise.value->value;
  }
  EXPECT_LT(last_dba, 37.0);
}

// At title the card makes 33 dB(A): nothing is quieter than that at 1 m; at 2 m it is 26.98.
TEST(AirRules, TheCardIsHeardThroughTheFans) {
  Asked asked(whole);
  EXPECT_GT(asked.limited("noise_dba", "air.noise", 60.0, "title").value->value, 33.0);
  const Claim far = asked.limited("noise_dba", "air.noise", 60.0, "title", 2.0);
  EXPECT_GT(far.value->value, 26.98);
  EXPECT_LT(far.value->value, 33.0);
  EXPECT_LT(asked.limited("noise_dba", "air.noise", 60.0, "all-core").value->value, 33.0);
}

TEST(AirRules, AnUnstatedLevelIsNamed) {
  Asked asked({"cpu", "board", "silent-sheet", "tower"});
  const Claim unknown = asked.limited("noise_dba", "air.noise", 60.0, "title");
  EXPECT_EQ(unknown.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(unknown), Contains("gpu.silent-sheet.noise_dba"));
}

// 300 W over 4 W/K are 75 K: over air of 25 degC and more that passes 80 degC, and power is lost.
TEST(AirRules, WhatIsTooHotLosesPower) {
  Asked sound(whole);
  ASSERT_EQ(sound.scene.places(rule("air.full-power")), 2);
  EXPECT_EQ(sound.scene.claim(rule("air.full-power"), 0).verdict, Verdict::holds);
  Asked hot({"hot", "board", "card", "tower"});
  const Claim lost = hot.scene.claim(rule("air.full-power"), 0);
  EXPECT_EQ(lost.verdict, Verdict::fails);
  EXPECT_EQ(lost.grade, Grade::tells);
  EXPECT_GT(lost.value->value, 100.0 * (1.0 - 4.0 * (80.0 - 25.0) / 300.0));  // 26.7 %, by hand
}

TEST(AirRules, NothingIsAskedThatTheBriefDoesNotAsk) {
  Asked asked(whole);
  for (const char* id :
       {"air.cpu-temperature", "air.gpu-temperature", "air.exhaust-temperature", "air.noise"}) {
    EXPECT_EQ(asked.scene.places(rule(id)), 0) << id;
    EXPECT_FALSE(rule(id).concerns(asked.scene.brief)) << id;
  }
}

// The same question asked twice gives the same draws: they are remembered.
TEST(AirRules, AskedTwiceItIsTheSame) {
  Asked asked(whole);
  Measure m;
  const auto one = coupled::air_answer(asked.scene.facts(), power::Load::title, false, m);
  const auto other = coupled::air_answer(asked.scene.facts(), power::Load::title, false, m);
  ASSERT_TRUE(one.known && other.known);
  EXPECT_EQ(one.speeds, other.speeds);
  for (int draw = 0; draw < draw_count; ++draw)
    EXPECT_EQ(one.temp_c[Watched::cpu][draw], other.temp_c[Watched::cpu][draw]);
}

}  // namespace
}  // namespace rigproof
