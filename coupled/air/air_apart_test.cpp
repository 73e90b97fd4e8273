// The quietest speeds of two groups of fans against all pairs of speeds, sound added by hand.
#include "coupled/air/air_apart.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/tower_air.hpp"

namespace rigproof::coupled {
namespace {

struct Asked {
  double cpu_c;
  double gpu_c;
  double case_dba;    // of each of three fans
  double cooler_dba;  // of the one
};

void ask(Scene& scene, const Asked& asked) {
  scene.take("box");
  for (const std::string& part : whole) scene.take(part);
  scene.brief.room_c = 25.0;
  scene.brief.limits["cpu_c"] = {.at_most = asked.cpu_c, .load = "everything", .distance_m = {}};
  scene.brief.limits["gpu_c"] = {.at_most = asked.gpu_c, .load = "everything", .distance_m = {}};
}

TestTables tables_of(const Asked& asked) {
  Made made;
  made.case_dba = std::to_string(asked.case_dba);
  made.cooler_dba = std::to_string(asked.cooler_dba);
  return tower(made);
}

// Sound power of the fans alone: card and supply sound the same whatever they do.
double power_of(const Asked& asked, double case_frac, double cooler_frac) {
  const auto of = [](double level_dba, double frac) {
    return std::pow(10.0, (level_dba + 50.0 * std::log10(frac)) / 10.0);
  };
  return 3.0 * of(asked.case_dba, case_frac) + of(asked.cooler_dba, cooler_frac);
}

TEST(Apart, IsTheQuietestOfAllPairs) {
  int quieter = 0;
  for (const Asked& asked : {Asked{60.0, 85.0, 30.0, 28.0}, Asked{58.0, 90.0, 36.0, 20.0},
                             Asked{90.0, 76.0, 22.0, 38.0}, Asked{70.0, 78.0, 30.0, 30.0}}) {
    Scene scene(tables_of(asked));
    ask(scene, asked);
    Measure m;
    const AirCase of = air_case(scene.facts(), Load::everything, m);
    const AirAnswer answer = air_answer(scene.facts(), Load::everything, false, m);
    ASSERT_TRUE(answer.known);
    ASSERT_EQ(answer.from, SpeedsFrom::least);
    AirModel model(of);
    const Limits limits = limits_of(scene.brief, of, Load::everything);
    double least = power_of(asked, answer.speeds.chassis_frac, answer.speeds.cooler_frac);
    const double common = least;
    for (int chassis = 0; chassis <= speed_steps; chassis += 16)
      for (int cooler = 0; cooler <= speed_steps; ++cooler) {
        const FanSpeeds speeds(speed_of_step(chassis), speed_of_step(cooler));
        const double power = power_of(asked, speeds.chassis_frac, speeds.cooler_frac);
        if (power < least && keeps(model.at(AirModel::middle, speeds), limits.middle))
          least = power;
      }
    const auto found = quietest_apart(scene.facts(), of, Load::everything, answer);
    ASSERT_EQ(found.has_value(), least < common);
    if (!found) continue;
    ++quieter;
    EXPECT_NEAR(power_of(asked, found->chassis_frac, found->cooler_frac) / least, 1.0, 1e-9);
    EXPECT_TRUE(keeps(model.at(AirModel::middle, *found), limits.middle));
  }
  EXPECT_GE(quieter, 2);
}

TEST(Apart, IsNotSoughtWhereSpeedsAreSetOrNoneKeepsTheLimits) {
  const Asked asked{60.0, 85.0, 30.0, 28.0};
  Scene scene(tables_of(asked));
  ask(scene, asked);
  scene.brief.limits["cpu_c"].at_most = 26.0;
  Measure m;
  const AirCase of = air_case(scene.facts(), Load::everything, m);
  const AirAnswer hopeless = air_answer(scene.facts(), Load::everything, false, m);
  EXPECT_EQ(hopeless.from, SpeedsFrom::no_speed);
  EXPECT_EQ(hopeless.speeds, FanSpeeds(1.0));
  EXPECT_FALSE(quietest_apart(scene.facts(), of, Load::everything, hopeless));
  EXPECT_EQ(holds_speed(scene.facts(), of, Load::everything, hopeless), Watched::cpu);
}

}  // namespace
}  // namespace rigproof::coupled
