// What is told beside the limits: the sign of the pressure by which fans there are, the time until
// it is warm against the closed form of one body (T = T_end + (T_0 - T_end) e^(-t / tau),
// textbook).
#include <gtest/gtest.h>

#include <cmath>

#include "coupled/air/air_rules.hpp"
#include "coupled/air/air_state.hpp"
#include "tests/support/tower_air.hpp"

namespace rigproof::coupled {
namespace {

using test_support::rule_of;

Claim told(const Made& made, const char* id, const std::vector<std::string>& parts = whole) {
  Scene scene(tower(made));
  scene.take("box");
  for (const std::string& part : parts) scene.take(part);
  scene.brief.room_c = 25.0;
  return scene.claim(rule_of(air_told_rules(), id));
}

TEST(AirTold, FansThatBlowInAreAbovePressureFansThatBlowOutBelow) {
  Made in;
  in.front_fans = "3";
  in.rear_fans = "0";
  const Claim above = told(in, "air.pressure", {"cpu", "board", "tower"});
  EXPECT_EQ(above.verdict, Verdict::holds);
  EXPECT_GT(above.value->value, 0.0);
  Made out;
  out.front_fans = "0";
  out.rear_fans = "1";
  const Claim below = told(out, "air.pressure", {"cpu", "board", "tower"});
  EXPECT_EQ(below.verdict, Verdict::fails);
  EXPECT_LT(below.value->value, 0.0);
  EXPECT_FALSE(below.remedy.empty());
  EXPECT_EQ(below.grade, Grade::tells);
}

TEST(AirTold, WithACardTheRoomBelowCountsToo) {
  // Two fans in front blow one into each room; the card's length leaves little between them.
  Made made;
  made.rear_fans = "1";
  Scene scene(tower(made));
  scene.take("box");
  for (const std::string& part : whole) scene.take(part);
  Measure m;
  const AirCase of = air_case(scene.facts(), Load::everything, m);
  AirModel model(of);
  const AirState state = model.at(AirModel::middle, 1.0);
  EXPECT_LE(state.least_pa, state.upper_pa);
}

TEST(AirTold, ItIsWarmAsLateAsTheClosedFormSays) {
  Made made;
  made.cpu_w = "40";
  made.plate_rise_k = "1";  // at 200 W: of 40 W the processor is 0.2 K above what stores its heat
  const std::vector<std::string> parts = {"cpu", "board", "tower"};
  const auto hot_c = [&](const char* watts) {
    Made other = made;
    other.cpu_w = watts;
    // At the least speed, at which the fans stay as no limit asks for more.
    return solved(tower(other), parts, Load::everything, least_speed_frac).state.cpu.temp_c;
  };
  const double end_c = hot_c("40");
  const double plate_k_w = 1.0 / 200.0;
  const double k_w = (hot_c("41") - end_c) / 1.0 - plate_k_w;
  const double tau_s = 500.0 * k_w;  // heat_capacity_j_k of the cooler
  const double expected_min = tau_s * std::log((end_c - 40.0 * plate_k_w - 25.0) / 1.0) / 60.0;
  const Claim claim = told(made, "air.steady-time", parts);
  ASSERT_TRUE(claim.value.has_value());
  EXPECT_NEAR(claim.value->value / expected_min, 1.0, 2e-3);
  EXPECT_EQ(claim.verdict, expected_min < 30.0 ? Verdict::holds : Verdict::fails);
  made.cooler_j_k = "20000";
  const Claim slow = told(made, "air.steady-time", parts);
  EXPECT_NEAR(slow.value->value / (40.0 * expected_min), 1.0, 2e-3);
  EXPECT_EQ(slow.verdict, Verdict::fails);
}

TEST(AirTold, NothingIsSaidWithoutFansOrACooler) {
  Made none;
  none.front_fans = "0";
  none.rear_fans = "0";
  for (const char* id : {"air.pressure", "air.steady-time"}) {
    Scene scene(tower(none));
    for (const char* part : {"box", "cpu", "board", "tower"}) scene.take(part);
    EXPECT_EQ(scene.places(rule_of(air_told_rules(), id)), 0) << id;
    Scene bare(tower());
    for (const char* part : {"box", "cpu", "board"}) bare.take(part);
    EXPECT_EQ(bare.places(rule_of(air_told_rules(), id)), 0) << id;
  }
}

}  // namespace
}  // namespace rigproof::coupled
