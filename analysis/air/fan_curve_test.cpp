// Fan curves by hand: ends, humps, speeds.
#include "analysis/air/fan_curve.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace rigproof::air {
namespace {

// The tilt of (A9) lowers a held stretch by less than a millionth of the shut-off pressure.
constexpr double tilt = 1e-6;

FanCurve curve(std::vector<FanPoint> points) {
  auto out = FanCurve::from_points(points);
  EXPECT_TRUE(out) << out.error();
  return std::move(*out);
}

// Measured by straight lines, straight from the table.
double measured_pa(const std::vector<FanPoint>& points, double flow_m3_s) {
  for (std::size_t i = 1; i < points.size(); ++i)
    if (flow_m3_s <= points[i].flow_m3_s)
      return std::lerp(
          points[i - 1].pressure_pa, points[i].pressure_pa,
          (flow_m3_s - points[i - 1].flow_m3_s) / (points[i].flow_m3_s - points[i - 1].flow_m3_s));
  return points.back().pressure_pa;
}

const std::vector<FanPoint> hump = {{0.00, 30}, {0.01, 18}, {0.02, 24}, {0.03, 12}, {0.04, 0}};

TEST(FanCurve, ParabolaOfTwoEnds) {
  const auto fan = FanCurve::from_ends({.free_flow_m3_s = 0.03, .shutoff_pressure_pa = 30});
  ASSERT_TRUE(fan);
  EXPECT_EQ(fan->shutoff_pressure_pa(), 30);
  EXPECT_NEAR(fan->free_flow_m3_s(), 0.03, 1e-16);
  EXPECT_NEAR(fan->pressure_pa(0.015), 22.5, 1e-12);      // 30 (1 - 1/4)
  EXPECT_NEAR(fan->slope_pa_s_m3(0.015), -1000.0, 1e-9);  // -2 x 30 x 0.015 / 0.0009
  EXPECT_NEAR(fan->pressure_pa(0.06), -90.0, 1e-12);      // 30 (1 - 4)
  EXPECT_NEAR(fan->pressure_pa(-0.03), 60.0, 1e-12);      // 30 (1 + 1)
  EXPECT_FALSE(fan->in_stall_range(0.01));
}

TEST(FanCurve, JoinsMeasuredPointsByStraightLinesInAnyOrder) {
  const FanCurve fan = curve({{0.04, 0}, {0, 30}, {0.02, 20}, {0.02, 20}});
  EXPECT_EQ(fan.shutoff_pressure_pa(), 30);
  EXPECT_NEAR(fan.pressure_pa(0.01), 25, 1e-12);
  EXPECT_NEAR(fan.pressure_pa(0.03), 10, 1e-12);
  EXPECT_NEAR(fan.slope_pa_s_m3(0.03), -1000, 1e-9);
  EXPECT_NEAR(fan.free_flow_m3_s(), 0.04, 1e-15);
  for (const double q : {0.0, 0.01, 0.02, 0.039}) EXPECT_FALSE(fan.in_stall_range(q));
}

// By hand: down to 18 at 0.01, held there, until the fall from 24 at 0.02 to 12 at 0.03 meets 18
// at 0.025.
TEST(FanCurve, HoldsTheLowestPressureThroughAHump) {
  const FanCurve fan = curve(hump);
  EXPECT_NEAR(fan.pressure_pa(0.005), 24, 1e-9);
  EXPECT_NEAR(fan.pressure_pa(0.02), 18, 30 * tilt);
  EXPECT_NEAR(fan.pressure_pa(0.025), 18, 30 * tilt);
  EXPECT_NEAR(fan.pressure_pa(0.0275), 15, 30 * tilt);
  EXPECT_NEAR(fan.free_flow_m3_s(), 0.04, 0.04 * tilt);
  for (const double q : {0.0, 0.005, 0.0099, 0.0251, 0.03, 0.05, -0.01})
    EXPECT_FALSE(fan.in_stall_range(q)) << q;
  for (const double q : {0.0101, 0.015, 0.02, 0.0249}) EXPECT_TRUE(fan.in_stall_range(q)) << q;
}

// By hand: the fall comes in two lines, and meets 18 on the second: 0.025 + 0.005 (20-18)/(20-12).
TEST(FanCurve, HoldsUntilTheFallPassesTheLowestPressure) {
  const FanCurve fan = curve({{0.00, 30}, {0.01, 18}, {0.02, 24}, {0.025, 20}, {0.03, 12}});
  EXPECT_NEAR(fan.pressure_pa(0.024), 18, 30 * tilt);
  EXPECT_NEAR(fan.pressure_pa(0.0275), 16, 30 * tilt);
  EXPECT_TRUE(fan.in_stall_range(0.0262));
  EXPECT_FALSE(fan.in_stall_range(0.0263));
}

TEST(FanCurve, NeverClaimsMoreThanMeasured) {
  const std::vector<std::vector<FanPoint>> curves = {
      hump,
      {{0, 10}, {0.01, 20}, {0.02, 5}, {0.03, 8}, {0.035, 8}, {0.04, 4}},
      {{0, 10}, {0.01, 10}, {0.02, 10}, {0.03, 0}},
      {{0, 3}, {0.01, 4}, {0.02, 5}}};
  for (const auto& points : curves) {
    const FanCurve fan = curve(points);
    double before = fan.pressure_pa(-0.0101);
    for (int i = -100; i <= 800; ++i) {
      const double q = 1e-4 * i;
      const double now = fan.pressure_pa(q);
      EXPECT_LT(now, before) << q;
      EXPECT_TRUE(fan.slope_pa_s_m3(q) < 0.0) << q;
      if (q >= 0.0 && q <= points.back().flow_m3_s) {
        EXPECT_LE(now, measured_pa(points, q) + 1e-12) << q;
      }
      before = now;
    }
  }
}

// No step where pieces meet: both sides of each corner, to the slope times the distance.
TEST(FanCurve, PiecesJoin) {
  for (const FanCurve& fan : {curve(hump), curve({{0.005, 12}, {0.02, 3}})})
    for (const auto& piece : fan.pieces()) {
      const double step = 1e-12;
      EXPECT_NEAR(fan.pressure_pa(piece.from_m3_s - step), fan.pressure_pa(piece.from_m3_s + step),
                  1e-7);
    }
}

TEST(FanCurve, LevelIsNoStall) {
  const FanCurve fan = curve({{0, 10}, {0.02, 10}, {0.03, 0}});
  EXPECT_FALSE(fan.in_stall_range(0.01));
  EXPECT_NEAR(fan.pressure_pa(0.01), 10, 10 * tilt);
  // What lies below the lowest flow measured is held, and no stall either.
  const FanCurve late = curve({{0.01, 10}, {0.03, 0}});
  EXPECT_EQ(late.shutoff_pressure_pa(), 10);
  EXPECT_FALSE(late.in_stall_range(0.005));
}

TEST(FanCurve, RisingCurveIsHeldAtItsLowestPressureAndStalls) {
  const FanCurve fan = curve({{0, 10}, {0.01, 20}});
  EXPECT_NEAR(fan.pressure_pa(0.01), 10, 10 * tilt);
  EXPECT_TRUE(fan.in_stall_range(0.005));
  // (A10), K = 10 / 0.01^2 = 1e5: beyond it 10 - 1e5 (q^2 - 0.01^2), zero at 0.01 sqrt 2.
  EXPECT_NEAR(fan.pressure_pa(0.012), 5.6, 10 * tilt);
  EXPECT_NEAR(fan.free_flow_m3_s(), 0.01 * std::sqrt(2.0), 1e-8);
}

// (A10), by hand: the last line falls by 600, the parabola of K = 12 / 0.02^2 = 30000 by
// 2 x 30000 x 0.02 = 1200 at 0.02: the steeper one goes on.
TEST(FanCurve, FallsOnBeyondTheLastPoint) {
  const FanCurve fan = curve({{0, 12}, {0.005, 12}, {0.02, 3}});
  EXPECT_NEAR(fan.stopped_pa_s2_m6(), 30000, 1e-6);
  EXPECT_NEAR(fan.pressure_pa(0.021), 3 - 1200 * 0.001 - 30000 * 1e-6, 1e-4);
  EXPECT_GT(fan.free_flow_m3_s(), 0.02);
}

TEST(FanCurve, IgnoresWhatFollowsTheFirstZero) {
  const FanCurve fan = curve({{0, 10}, {0.02, 0}, {0.03, 0}, {0.04, 5}});
  EXPECT_NEAR(fan.free_flow_m3_s(), 0.02, 1e-9);
  EXPECT_LT(fan.pressure_pa(0.03), -1.0);
}

// AMCA 802 / textbook (from memory; computed): 1200 -> 1500 rpm: flow 60 -> 75.00, pressure 1.5 ->
// 2.3438, power 2.0 -> 3.9063. Rounding.
TEST(FanDrive, AffinityLaws) {
  const auto fan = FanCurve::from_ends({.free_flow_m3_s = 80, .shutoff_pressure_pa = 1.5 * 16 / 7});
  ASSERT_TRUE(fan);  // 1.5 at 60 of 80: 1 - 9/16 = 7/16
  EXPECT_NEAR(fans_pressure_pa(*fan, {}, 60), 1.5, 1e-12);
  const FanDrive faster{.speed_frac = 1500.0 / 1200.0};
  EXPECT_NEAR(fans_pressure_pa(*fan, faster, 75.00), 2.3438, 0.5e-4);
  const double power_ratio = 75 * fans_pressure_pa(*fan, faster, 75) / (60 * 1.5);
  EXPECT_NEAR(2.0 * power_ratio, 3.9063, 0.5e-4);
}

// By hand: 30 (1 - (0.01/0.03)^2) = 26.667 each; thin air scales it.
TEST(FanDrive, CountAndDensity) {
  const auto fan = FanCurve::from_ends({.free_flow_m3_s = 0.03, .shutoff_pressure_pa = 30});
  ASSERT_TRUE(fan);
  EXPECT_NEAR(fans_pressure_pa(*fan, {.count = 3}, 0.03), 80.0 / 3.0, 1e-12);
  EXPECT_NEAR(fans_pressure_pa(*fan, {.count = 3, .density_ratio = 0.75}, 0.03), 20.0, 1e-12);
}

// (A12): 30 / 0.03^2 = 33333.3; two of them carry half each. A fan that hardly turns comes close.
TEST(FanDrive, AStoppedFanOnlyBrakes) {
  const auto fan = FanCurve::from_ends({.free_flow_m3_s = 0.03, .shutoff_pressure_pa = 30});
  ASSERT_TRUE(fan);
  EXPECT_NEAR(fans_pressure_pa(*fan, {.speed_frac = 0, .count = 2}, 0.06), -30.0, 1e-12);
  EXPECT_NEAR(fans_pressure_pa(*fan, {.speed_frac = 0, .count = 2}, -0.06), 30.0, 1e-12);
  EXPECT_NEAR(fans_pressure_pa(*fan, {.speed_frac = 1e-4}, 0.03), -30.0, 1e-6);
  const FanCurve points = curve(hump);
  EXPECT_NEAR(fans_pressure_pa(points, {.speed_frac = 1e-5}, 0.03),
              fans_pressure_pa(points, {.speed_frac = 0}, 0.03), 1e-2);
  EXPECT_NEAR(fans_pressure_pa(points, {.speed_frac = 1e-5}, -0.03),
              fans_pressure_pa(points, {.speed_frac = 0}, -0.03), 1e-2);
}

TEST(FanCurve, RefusesWhatIsNoCurve) {
  const auto refused = [](std::vector<FanPoint> points) {
    return !FanCurve::from_points(points).has_value();
  };
  const double nan = std::nan("");
  EXPECT_TRUE(refused({}));
  EXPECT_TRUE(refused({{0, 10}}));
  EXPECT_TRUE(refused({{0, 10}, {0, 10}}));
  EXPECT_TRUE(refused({{0, 10}, {-0.01, 5}}));
  EXPECT_TRUE(refused({{0, 10}, {0.01, -5}}));
  EXPECT_TRUE(refused({{0, nan}, {0.01, 5}}));
  EXPECT_TRUE(refused({{0, 10}, {nan, 5}}));
  EXPECT_TRUE(refused({{0, 10}, {HUGE_VAL, 5}}));
  EXPECT_TRUE(refused({{0, 0}, {0.01, 0}}));
  EXPECT_TRUE(refused({{0, 0}, {0.01, 5}}));
  EXPECT_TRUE(refused({{0, 10}, {0.01, 5}, {0.01, 4}, {0.02, 0}}));
  EXPECT_TRUE(refused({{0, 10}, {1e-300, 5}}));
  EXPECT_TRUE(refused(std::vector<FanPoint>(1001, {0, 10})));
  for (const double bad : {0.0, -1.0, nan, HUGE_VAL}) {
    EXPECT_FALSE(FanCurve::from_ends({.free_flow_m3_s = bad, .shutoff_pressure_pa = 1}));
    EXPECT_FALSE(FanCurve::from_ends({.free_flow_m3_s = 1, .shutoff_pressure_pa = bad}));
  }
}

}  // namespace
}  // namespace rigproof::air
