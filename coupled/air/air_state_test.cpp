// A case's air by hand: balances, the fan laws, closed forms of its heat, and what must never get
// worse. Physical laws are outside checks here; equations by number are those of README.md.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "coupled/air/air_answer.hpp"
#include "coupled/air/air_noise.hpp"
#include "tests/support/tower_air.hpp"

namespace rigproof::coupled {
namespace {

// First law: what goes in as power goes out with the air and through the walls (1 W/K a room,
// ours).
TEST(AirState, TheHeatLeavesWithTheAir) {
  for (const char* cooler : {"tower", "loop"}) {
    const auto [of, state] = solved(tower(), {"cpu", "board", "card", cooler});
    ASSERT_TRUE(state.solved);
    const double in_w = state.cpu.power_w + state.gpu.power_w + 40.0;
    const double walls_w = 1.0 * (state.upper_c - 25.0) + 1.0 * (state.lower_c - 25.0);
    const double out_w = rho_cp * state.through_m3_s * (state.exhaust_c - 25.0);
    EXPECT_NEAR(out_w + walls_w, in_w, 1e-5 * in_w) << cooler;
  }
}

// A tower of 200 W / 50 K = 4 W/K: 100 W make 25 K over its air; a card of 200 W / 40 K: 40 K.
TEST(AirState, BodiesStandOverTheirAirByPowerOverConductance) {
  const auto [of, state] = solved(tower(), whole);
  EXPECT_NEAR(state.cpu.temp_c - state.upper_c, 25.0, 1e-9);
  EXPECT_NEAR(state.gpu.temp_c - state.lower_c, 40.0, 1e-9);
  EXPECT_GT(state.upper_c, 25.0);
}

// Everything is linear in the room: one degree more is one degree more everywhere.
TEST(AirState, AHotterRoomIsAsMuchHotterInside) {
  const AirState cool = solved(tower(), whole, Load::everything, 1.0, 20.0).state;
  const AirState warm = solved(tower(), whole, Load::everything, 1.0, 30.0).state;
  EXPECT_NEAR(warm.cpu.temp_c - cool.cpu.temp_c, 10.0, 1e-9);
  EXPECT_NEAR(warm.gpu.temp_c - cool.gpu.temp_c, 10.0, 1e-9);
  EXPECT_NEAR(warm.exhaust_c - cool.exhaust_c, 10.0, 1e-9);
  EXPECT_NEAR(warm.through_m3_s, cool.through_m3_s, 1e-12);
}

// Fan laws: every resistance here goes with the square of the flow (no filter), so flow goes with
// the speed and pressure with its square.
TEST(AirState, FlowFollowsTheSpeed) {
  const AirState full = solved(tower(), whole, Load::idle, 1.0).state;
  const AirState half = solved(tower(), whole, Load::idle, 0.5).state;
  EXPECT_NEAR(half.through_m3_s / full.through_m3_s, 0.5, 1e-6);
  EXPECT_NEAR(half.upper_pa / full.upper_pa, 0.25, 1e-5);
}

// Without a card there is one room: one exhaust fan pulls through the open front. By hand: the fan
// 15 (1 - (Q / 0.025)^2) Pa against its own grille and what the front lets in.
TEST(AirState, OneFanAgainstItsOpenings) {
  Made made;
  made.front_fans = "0";
  const auto [of, state] = solved(tower(made), {"cpu", "board", "tower"});
  const double q = state.through_m3_s;
  // zeta of a plate with 0.6 open: 1.9935 (check-values C3, computed from [idelchik-8-1]).
  const double grille = 1.9935 * 0.5 * 1.184 * std::pow(q / 0.0144, 2);
  const double front_m2 = 3 * 0.12 * 0.12;
  const auto into_room = [&](double drop_pa) {
    const double by_front = front_m2 * std::sqrt(2.0 * drop_pa / (1.184 * 1.9935));
    const double by_gaps = 0.61 * 0.006 * std::sqrt(2.0 * drop_pa / 1.184);
    return by_front + by_gaps;
  };
  const double fan_pa = 15.0 * (1.0 - std::pow(q / 0.025, 2));
  const double room_pa = -(fan_pa - grille);  // what is left pulls the room below the outside
  EXPECT_LT(room_pa, 0.0);
  EXPECT_NEAR(state.upper_pa, room_pa, 2e-3 * 15.0);
  EXPECT_NEAR(into_room(-state.upper_pa), q, 2e-3 * q);
}

TEST(AirState, IntakeMakesTheCaseTighterThanOutsideAndExhaustLooser) {
  Made in_only;
  in_only.rear_fans = "0";
  EXPECT_GT(solved(tower(in_only), whole).state.upper_pa, 0.0);
  Made out_only;
  out_only.front_fans = "0";
  EXPECT_LT(solved(tower(out_only), whole).state.upper_pa, 0.0);
}

// 100 W over 200 W / 100 K = 2 W/K would be 50 K over its air; a limit near that costs power, and
// the part then stands at its limit.
TEST(AirState, APartThatIsTooHotGivesUpPower) {
  Made made;
  made.rise_k = "100";
  made.cpu_limit_c = "70";
  const AirState state = solved(tower(made), whole).state;
  EXPECT_NEAR(state.cpu.temp_c, 70.0, 1e-6);
  EXPECT_GT(state.cpu.lost_frac, 0.05);
  EXPECT_NEAR(state.cpu.power_w, 2.0 * (70.0 - state.upper_c), 1e-6);
  EXPECT_NEAR(state.cpu.power_w, 100.0 * (1.0 - state.cpu.lost_frac), 1e-6);
}

// A supply without a chamber of its own warms the case; with one it does not.
TEST(AirState, ASharedSupplyWarmsTheCase) {
  Made shared;
  shared.chamber = false;
  TestTables tables = tower(shared);
  tables.row("psu", {{"id", "supply"}, {"rated_power_w", "680"}, {"efficiency", "gold"}})
      .plus_minus("psu", "supply", "rated_power_w", 0);
  // 340 W of 680 W: 90 % at 115 V, 37.8 W of loss ([eighty-plus], looked up).
  const auto [of, state] = solved(tables, {"cpu", "board", "tower", "card", "supply"});
  EXPECT_NEAR(of.lower_w.median(), 37.78, 0.01);
  EXPECT_GT(state.lower_c, solved(tower(), whole).state.lower_c);
}

// One more exhaust fan at equal speeds never makes the exhaust hotter, nor anything else where
// there is one room. (With two it may pull the card's warm air past the processor; and a fan put
// into an opening that was there before may be worse than the opening.)
TEST(AirState, OneMoreExhaustFanNeverHeats) {
  int trials = 0;
  std::mt19937 random(20261127);
  for (int trial = 0; trial < 60; ++trial) {
    const auto pick = [&](int low, int high) {
      return std::to_string(std::uniform_int_distribution(low, high)(random));
    };
    Made made;
    made.front_fans = pick(0, 3);
    made.rear_fans = pick(0, 1);
    made.front_open = "0." + pick(3, 8);
    made.cpu_w = pick(40, 200);
    made.gpu_w = pick(60, 350);
    made.cpu_limit_c = "130";
    if (made.front_fans == "0" && made.rear_fans == "0") continue;
    Made more = made;
    more.top_fan = true;
    for (const bool card : {true, false}) {
      std::vector<std::string> parts = {"cpu", "board", "tower"};
      if (card) parts.emplace_back("card");
      const AirState before = solved(tower(made), parts).state;
      const AirState after = solved(tower(more), parts).state;
      EXPECT_LE(after.exhaust_c, before.exhaust_c + 1e-9) << trial;
      EXPECT_GE(after.through_m3_s, before.through_m3_s - 1e-12) << trial;
      if (!card) {
        EXPECT_LE(after.cpu.temp_c, before.cpu.temp_c + 1e-9) << trial;
      }
      ++trials;
    }
  }
  EXPECT_GT(trials, 80);
}

Limits only_cpu(double at_most_c) {
  Limits out{SpeedLimits::filled(no_limit_c), SpeedLimits::filled(no_limit_c)};
  out.middle[Watched::cpu] = at_most_c;
  return out;
}

TEST(Speed, TheQuietestThatKeepsTheLimits) {
  Made made;
  made.gpu_w = "60";  // never near its limit
  made.cpu_limit_c = "130";
  Scene scene(tower(made));
  scene.take("box");
  for (const std::string& part : whole) scene.take(part);
  scene.brief.room_c = 25.0;
  Measure m;
  const AirCase of = air_case(scene.facts(), Load::everything, m);
  AirModel model(of);
  const double full_c = model.at(AirModel::middle, 1.0).cpu.temp_c;
  const double least_c = model.at(AirModel::middle, least_speed_frac).cpu.temp_c;
  ASSERT_LT(full_c + 2.0, least_c);
  const double middle_c = 0.5 * (full_c + least_c);
  const double speed = quietest_speed_frac(model, only_cpu(middle_c));
  EXPECT_LE(model.at(AirModel::middle, speed).cpu.temp_c, middle_c);
  EXPECT_GT(model.at(AirModel::middle, speed - 0.005).cpu.temp_c, middle_c);
  EXPECT_EQ(quietest_speed_frac(model, only_cpu(20.0)), 1.0);
  EXPECT_EQ(quietest_speed_frac(model, only_cpu(129.0)), least_speed_frac);
}

// Three case fans of 30 dB(A), a cooler of 28, a card of 33: 10 lg(3 x 10^3 + 10^2.8 + 10^3.3) =
// 37.50 dB(A). At half speed the fans and the cooler lose 50 lg 2 = 15.05: 33.24. At 2 m 6.02 less.
TEST(Noise, LevelsAddAsPowers) {
  Scene scene(tower());
  scene.take("box");
  for (const std::string& part : whole) scene.take(part);
  Measure m;
  const AirCase of = air_case(scene.facts(), Load::title, m);
  EXPECT_NEAR(noise_dba(scene.facts(), of, {.speeds = 1.0, .distance_m = 1.0}, m).median(), 37.50,
              0.01);
  EXPECT_NEAR(noise_dba(scene.facts(), of, {.speeds = 0.5, .distance_m = 1.0}, m).median(), 33.24,
              0.01);
  EXPECT_NEAR(noise_dba(scene.facts(), of, {.speeds = 1.0, .distance_m = 2.0}, m).median(),
              37.50 - 6.02, 0.01);
}

// Asked for the verdict alone, an end of the draws may stand for them: the verdict is the same.
TEST(Noise, TheBoundSettlesWhatAllDrawsSettle) {
  TestTables tables = tower();
  tables.plus_minus("gpu", "card", "noise_dba", 2).plus_minus("cooler", "tower", "noise_dba", 2);
  Scene scene(tables);
  scene.take("box");
  for (const std::string& part : whole) scene.take(part);
  Measure m;
  const AirCase of = air_case(scene.facts(), Load::title, m);
  int settled = 0;
  for (double at_most = 34.0; at_most < 41.0; at_most += 0.05) {
    const Heard heard{.speeds = 1.0, .distance_m = 1.0, .at_most_dba = at_most};
    Measure all;
    Measure deciding;
    deciding.deciding = true;
    const Draws level = noise_dba(scene.facts(), of, heard, all);
    const Draws bound = noise_dba(scene.facts(), of, heard, deciding);
    EXPECT_EQ(Draws::at_most(level, at_most), Draws::at_most(bound, at_most)) << at_most;
    settled += bound.is_certain() ? 1 : 0;
  }
  EXPECT_GT(settled, 50);
}

TEST(Noise, AnUnknownSourceLeavesItOpenAndIsNamed) {
  Scene scene(tower());
  scene.take("box").take("cpu").take("board").take("loop");
  Measure m;
  const AirCase of = air_case(scene.facts(), Load::title, m);
  ASSERT_FALSE(of.unknown);
  EXPECT_TRUE(noise_dba(scene.facts(), of, {.speeds = 1.0, .distance_m = 1.0}, m).is_absent());
  ASSERT_EQ(m.missing_count, 1);
  EXPECT_EQ(m.missing[0].column, column("cooler", "noise_dba"));
}

// By hand: 36.0206 dB(A) at 0.5 m are 30 at 1 m (20 lg 2 = 6.0206); 20 dB(A) at 60 % of the speed
// are 20 - 50 lg 0.6 = 31.0925 at full speed. Both laws are those of (A62) and (A64).
TEST(Noise, PointsTakeThePlaceOfTheCellUnderTheirLoad) {
  TestTables tables = tower();
  tables.row(
      "noise_points",
      {{"part", "card"}, {"load", "everything"}, {"level_dba", "36.0206"}, {"distance_m", "0.5"}});
  tables.row("noise_points",
             {{"part", "card"}, {"load", "idle"}, {"level_dba", "15"}, {"distance_m", "1"}});
  tables.row("noise_points", {{"part", "tower"},
                              {"load", "any"},
                              {"level_dba", "20"},
                              {"distance_m", "1"},
                              {"speed_percent", "60"}});
  tables.plus_minus("noise_points", "*", "*", 0);
  Scene scene(tables);
  scene.take("box");
  for (const std::string& part : whole) scene.take(part);
  const auto level = [&](Load load, FanSpeeds speeds) {
    Measure m;
    const AirCase of = air_case(scene.facts(), load, m);
    return noise_dba(scene.facts(), of, {.speeds = speeds, .distance_m = 1.0}, m).median();
  };
  const auto sum = [](double card_dba, double fans_dba, double cooler_dba) {
    return 10.0 *
           std::log10(std::pow(10.0, card_dba / 10.0) + 3.0 * std::pow(10.0, fans_dba / 10.0) +
                      std::pow(10.0, cooler_dba / 10.0));
  };
  const double cooler_dba = 20.0 - 50.0 * std::log10(0.6);
  EXPECT_NEAR(level(Load::everything, 1.0), sum(30.0, 30.0, cooler_dba), 1e-4);
  EXPECT_NEAR(level(Load::everything, {1.0, 0.6}), sum(30.0, 30.0, 20.0), 1e-4);
  EXPECT_NEAR(level(Load::idle, 1.0), sum(15.0, 30.0, cooler_dba), 1e-4) << "heard at rest too";
  EXPECT_NEAR(level(Load::title, 1.0), sum(33.0, 30.0, cooler_dba), 1e-4) << "the cell of the card";
}

}  // namespace
}  // namespace rigproof::coupled
