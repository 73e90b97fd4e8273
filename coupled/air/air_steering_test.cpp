// Fans that follow a temperature: against a scan of all speeds, and laws. Over time: against the
// closed form where the setting is level, and the steady state it has to end in.
#include "coupled/air/air_steering.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <optional>

#include "coupled/air/air_answer.hpp"
#include "coupled/air/air_noise.hpp"
#include "coupled/air/air_warming.hpp"
#include "tests/support/tower_air.hpp"

namespace rigproof::coupled {
namespace {

using Follows = FanSetting::Follows;

FanSetting line(Follows follows, double from_c, double from_percent, double to_c,
                double to_percent) {
  return {.follows = follows,
          .points = {{.temp_c = from_c, .speed_percent = from_percent},
                     {.temp_c = to_c, .speed_percent = to_percent}}};
}

FanSettings settings(std::optional<FanSetting> chassis, std::optional<FanSetting> cooler) {
  return {std::move(chassis), std::move(cooler)};
}

AirCase case_of(Scene& scene, const std::vector<std::string>& parts, Load load = Load::everything) {
  scene.take("box");
  for (const std::string& part : parts) scene.take(part);
  scene.brief.room_c = 25.0;
  Measure m;
  return air_case(scene.facts(), load, m);
}

TEST(Steering, TurnsAsFastAsTheTemperatureAtThatSpeedAsks) {
  Scene scene(tower());
  const AirCase of = case_of(scene, whole);
  AirModel model(of);
  for (const double to_c : {45.0, 55.0, 70.0, 95.0}) {
    const FanSetting cpu = line(Follows::cpu, 30.0, 20.0, to_c, 100.0);
    const FanSettings set = settings(cpu, cpu);
    AirSteering steering(model, &set);
    const AirSteering::Run run = steering.at(AirModel::middle, 1.0);
    ASSERT_TRUE(run.state.solved);
    EXPECT_NEAR(set_speed_frac(cpu, run.state), run.speeds.chassis_frac, 1e-8);
    EXPECT_TRUE(std::abs(run.speeds.chassis_frac - run.speeds.cooler_frac) < 1e-7);
    // One speed for both, so a scan of that one speed meets it.
    constexpr int steps = 4000;
    int crossing = 0;
    while (crossing < steps) {
      const double frac = 0.2 + 0.8 * crossing / steps;
      if (set_speed_frac(cpu, model.at(AirModel::middle, frac)) <= frac) break;
      ++crossing;
    }
    EXPECT_NEAR(run.speeds.chassis_frac, 0.2 + 0.8 * crossing / steps, 1.01 * 0.8 / steps) << to_c;
  }
}

TEST(Steering, TwoGroupsThatFollowTwoPartsBothSettle) {
  Scene scene(tower());
  const AirCase of = case_of(scene, {"cpu", "board", "loop", "card"});
  AirModel model(of);
  const FanSettings set = settings(line(Follows::gpu, 40.0, 25.0, 85.0, 100.0),
                                   line(Follows::coolant, 30.0, 20.0, 50.0, 90.0));
  AirSteering steering(model, &set);
  for (int draw = AirModel::middle; draw < 8; ++draw) {
    const AirSteering::Run run = steering.at(draw, 1.0);
    ASSERT_TRUE(run.state.solved);
    EXPECT_NEAR(set_speed_frac(*set[0], run.state), run.speeds.chassis_frac, 1e-6);
    EXPECT_NEAR(set_speed_frac(*set[1], run.state), run.speeds.cooler_frac, 1e-6);
  }
}

TEST(Steering, AHotterRoomTurnsNothingSlower) {
  const FanSettings set = settings(line(Follows::gpu, 40.0, 25.0, 85.0, 100.0),
                                   line(Follows::cpu, 40.0, 20.0, 80.0, 90.0));
  FanSpeeds before(0.0);
  for (const double room_c : {10.0, 18.0, 25.0, 32.0, 40.0, 60.0}) {
    Scene scene(tower());
    AirCase of = case_of(scene, whole);
    of.outside_c = room_c;
    AirModel model(of);
    const FanSpeeds now = AirSteering(model, &set).at(AirModel::middle, 1.0).speeds;
    EXPECT_GE(now.chassis_frac, before.chassis_frac - 1e-9);
    EXPECT_GE(now.cooler_frac, before.cooler_frac - 1e-9);
    before = now;
  }
}

TEST(Steering, OnePointIsASpeedAndNothingToFollowIsFullSpeed) {
  Scene scene(tower());
  const AirCase of = case_of(scene, {"cpu", "board", "tower"});
  AirModel model(of);
  const FanSetting half{.follows = Follows::cpu,
                        .points = {{.temp_c = 0.0, .speed_percent = 50.0}}};
  const FanSettings set = settings(half, line(Follows::gpu, 40.0, 25.0, 85.0, 100.0));
  const AirSteering::Run run = AirSteering(model, &set).at(AirModel::middle, 1.0);
  EXPECT_EQ(run.speeds, FanSpeeds(0.5, 1.0));
  EXPECT_EQ(run.state.cpu.temp_c, model.at(AirModel::middle, {0.5, 1.0}).cpu.temp_c);
}

TEST(Steering, WhatIsNotSetIsSoughtBesideWhatIs) {
  Scene scene(tower());
  const AirCase of = case_of(scene, whole);
  AirModel model(of);
  const FanSettings set = settings(line(Follows::gpu, 40.0, 25.0, 85.0, 100.0), {});
  AirSteering steering(model, &set);
  ASSERT_TRUE(steering.seeks());
  Limits limits{.middle = SpeedLimits::filled(no_limit_c),
                .every_draw = SpeedLimits::filled(no_limit_c)};
  limits.middle[Watched::cpu] = 62.0;
  const int step = SpeedSearch(steering, limits).least().step;
  ASSERT_GT(step, 0);
  ASSERT_LT(step, no_step);
  EXPECT_LE(steering.at(AirModel::middle, speed_of_step(step)).state.cpu.temp_c, 62.0);
  EXPECT_GT(steering.at(AirModel::middle, speed_of_step(step - 1)).state.cpu.temp_c, 62.0);
}

TEST(Steering, TheFansOfTheCoolerDoNotCoolAPassiveOne) {
  const auto rise_k = [](const std::string& fans) {
    Made made;
    made.cooler_fans = fans;
    Scene scene(tower(made));
    const AirCase of = case_of(scene, whole);
    AirModel model(of);
    return model.at(AirModel::middle, {1.0, 0.25}).cpu.temp_c -
           model.at(AirModel::middle, 1.0).cpu.temp_c;
  };
  EXPECT_EQ(rise_k("0"), 0.0);
  EXPECT_GT(rise_k("1"), 10.0);
}

// --- claims and noise follow what is set

TEST(Steering, ClaimsAreAtTheSpeedsThatAreSet) {
  Scene scene(tower());
  (void)case_of(scene, whole);
  const FanSettings set = settings(line(Follows::cpu, 30.0, 20.0, 70.0, 100.0),
                                   line(Follows::cpu, 30.0, 20.0, 70.0, 100.0));
  scene.setup.fans = set;
  Measure m;
  const AirAnswer answer = air_answer(scene.facts(), Load::everything, false, m);
  ASSERT_TRUE(answer.known);
  EXPECT_EQ(answer.from, SpeedsFrom::settings);
  EXPECT_NEAR(set_speed_frac(*set[0], answer.middle), answer.speeds.chassis_frac, 1e-8);
  EXPECT_NEAR(answer.temp_c[Watched::cpu].median(), answer.middle.cpu.temp_c, 1e-6);
  // Again, from what is remembered.
  const AirAnswer again = air_answer(scene.facts(), Load::everything, false, m);
  EXPECT_EQ(again.speeds, answer.speeds);
  EXPECT_EQ(again.from, answer.from);
  // (A64) with 50 lg s, by hand: what turns at s is 50 lg s quieter.
  const AirCase of = air_case(scene.facts(), Load::idle, m);
  const double slower = noise_dba(scene.facts(), of, {.speeds = {0.5, 0.5}}, m).median();
  const double full = noise_dba(scene.facts(), of, {.speeds = 1.0}, m).median();
  EXPECT_NEAR(full - slower, -50.0 * std::log10(0.5), 1e-9);
}

// --- over time

Warming warmed(Scene& scene, const AirCase& of, const FanSettings* set) {
  AirModel model(of);
  AirSteering steering(model, set);
  const AirSteering::Run run = steering.at(AirModel::middle, 0.6);
  Measure m;
  return warming(scene.facts(), nullptr, {&of, run.speeds, set}, m).value();
}

TEST(Steering, ALevelSettingWarmsAsOneSpeedDoes) {
  Scene scene(tower());
  const AirCase of = case_of(scene, whole);
  const FanSettings level = settings(line(Follows::cpu, 30.0, 60.0, 80.0, 60.0),
                                     line(Follows::gpu, 30.0, 60.0, 80.0, 60.0));
  const Warming stepped = warmed(scene, of, &level);
  const Warming closed = warmed(scene, of, nullptr);
  ASSERT_EQ(stepped.time_s, closed.time_s);
  ASSERT_EQ(stepped.speeds.size(), stepped.time_s.size());
  EXPECT_TRUE(closed.speeds.empty());
  for (const Warmed which : {Warmed::cpu, Warmed::gpu})
    for (std::size_t i = 0; i < stepped.time_s.size(); ++i)
      EXPECT_NEAR(stepped[which]->temp_c[i], closed[which]->temp_c[i], 1e-6) << i;
}

TEST(Steering, ItEndsWhereTheFansHaveSettled) {
  Scene scene(tower());
  const AirCase of = case_of(scene, whole);
  const FanSettings set = settings(line(Follows::gpu, 40.0, 25.0, 80.0, 100.0),
                                   line(Follows::cpu, 35.0, 25.0, 75.0, 100.0));
  AirModel model(of);
  const AirSteering::Run run = AirSteering(model, &set).at(AirModel::middle, 1.0);
  const Warming warm = warmed(scene, of, &set);
  EXPECT_NEAR(warm[Warmed::gpu]->temp_c.back(), run.state.gpu.temp_c, 1.0);
  EXPECT_NEAR(warm[Warmed::cpu]->temp_c.back(), run.state.cpu.temp_c, 1.0);
  EXPECT_NEAR(warm.speeds.back().chassis_frac, run.speeds.chassis_frac, 0.03);
  EXPECT_EQ(warm.speeds.front().chassis_frac, 0.25);  // the card is as cold as the room
  for (std::size_t i = 1; i < warm.speeds.size(); ++i)
    EXPECT_GE(warm.speeds[i].chassis_frac, warm.speeds[i - 1].chassis_frac - 1e-9) << i;
}

TEST(Steering, APartThatGrowsTooHotSlowsDownOnItsWay) {
  Made made;
  made.cpu_w = "260";
  made.cpu_limit_c = "80";
  Scene scene(tower(made));
  const AirCase of = case_of(scene, whole);
  const FanSettings set = settings(line(Follows::cpu, 40.0, 25.0, 90.0, 60.0),
                                   line(Follows::cpu, 40.0, 25.0, 90.0, 60.0));
  const Warming warm = warmed(scene, of, &set);
  const auto& cpu = warm[Warmed::cpu];
  ASSERT_TRUE(cpu->slows_after_s.has_value());
  EXPECT_GT(*cpu->slows_after_s, 0.0);
  EXPECT_LT(*cpu->slows_after_s, warm.time_s.back());
  EXPECT_NEAR(cpu->temp_c.back(), 80.0, 1.5);
}

}  // namespace
}  // namespace rigproof::coupled
