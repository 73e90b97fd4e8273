// Small networks whose flows are known by hand, and what is refused.
#include "analysis/air/flow_network.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "analysis/air/test_networks.hpp"

namespace rigproof::air {
namespace {

using test_support::fan_path;
using test_support::opening;
using test_support::parabola;

FlowSolution solved(std::size_t rooms, const std::vector<FlowPath>& paths) {
  auto out = solve_flow(rooms, paths);
  EXPECT_TRUE(out) << out.error();
  EXPECT_TRUE(out->converged);
  EXPECT_LE(out->worst_balance_m3_s, 1e-9);
  return *out;
}

// Identical fans, parabola 30 (1 - (Q/0.03)^2) on dp = 40000 Q^2 (closed form; computed).
// Rounding of the printed digits. A way with next to no resistance carries each fan.
constexpr double bare = 1e-6;

TEST(FlowNetwork, OneFanOnASystem) {
  const FanCurve fan = parabola(0.03, 30);
  const auto s = solved(2, {fan_path(0, 1, bare, fan), opening(1, 0, 40000)});
  EXPECT_NEAR(s.flow_m3_s[0], 0.0202260, 0.5e-7);
  EXPECT_NEAR(s.flow_m3_s[1], 0.0202260, 0.5e-7);
  EXPECT_NEAR(s.pressure_pa[1], 16.3636, 0.5e-4);
  EXPECT_NEAR(s.fan_pressure_pa[0], 16.3636, 0.5e-4);
  EXPECT_EQ(s.fan[0], FanState::works);
  EXPECT_EQ(s.fan[1], FanState::no_fan);
  EXPECT_FALSE(s.sealed[1]);
}

TEST(FlowNetwork, TwoFansSideBySide) {
  const FanCurve fan = parabola(0.03, 30);
  const FlowPath system = opening(1, 0, 40000);
  for (const auto& paths :
       {std::vector{fan_path(0, 1, bare, fan, {.count = 2}), system},
        std::vector{fan_path(0, 1, bare, fan), system, fan_path(0, 1, bare, fan)}}) {
    const auto s = solved(2, paths);
    EXPECT_NEAR(s.flow_m3_s[1], 0.0249136, 0.5e-7);
    EXPECT_NEAR(s.pressure_pa[1], 24.8276, 0.5e-4);
  }
}

TEST(FlowNetwork, TwoFansOneBehindTheOther) {
  const FanCurve fan = parabola(0.03, 30);
  const auto s =
      solved(3, {fan_path(0, 1, bare, fan), fan_path(1, 2, bare, fan), opening(2, 0, 40000)});
  EXPECT_NEAR(s.flow_m3_s[2], 0.0237171, 0.5e-7);
  EXPECT_NEAR(s.pressure_pa[2], 22.5000, 0.5e-4);
}

// By hand: Q = sqrt(P / (sum k + P / Q0^2)); 3 behind each other add, n side by side are k / n^2.
TEST(FlowNetwork, OpeningsInSeriesAndSideBySide) {
  const FanCurve fan = parabola(0.05, 20);
  const double own = 20 / (0.05 * 0.05);
  const auto series = solved(4, {fan_path(0, 1, 1000, fan), opening(1, 2, 2000),
                                 opening(2, 3, 3000), opening(3, 0, 4000)});
  const double expected = std::sqrt(20 / (10000 + own));
  for (std::size_t k = 0; k < 4; ++k) EXPECT_NEAR(series.flow_m3_s[k], expected, 1e-12);
  EXPECT_NEAR(series.pressure_pa[3], 4000 * expected * expected, 1e-10);
  EXPECT_NEAR(series.pressure_pa[1], 9000 * expected * expected, 1e-10);

  // Two ways of 4000 and one of 1000: conductances 1/sqrt: together k = 1 / (2/sqrt(4000) +
  // 1/sqrt(1000))^2 = 250.
  const auto side = solved(2, {fan_path(0, 1, 1000, fan), opening(1, 0, 4000), opening(1, 0, 4000),
                               opening(0, 1, 1000)});
  const double all = std::sqrt(20 / (1250 + own));
  EXPECT_NEAR(side.flow_m3_s[0], all, 1e-12);
  EXPECT_NEAR(side.flow_m3_s[1], all / 4, 1e-12);
  EXPECT_NEAR(side.flow_m3_s[3], -all / 2, 1e-12);
}

// By hand: a linear system a = 500 on the parabola 30 (1 - (Q/0.03)^2): the positive root of
// 33333.3 Q^2 + 500 Q - 30 = 0 is (-500 + sqrt(250000 + 4e6)) / 66666.7 = 0.0234233.
TEST(FlowNetwork, LinearFilter) {
  const FanCurve fan = parabola(0.03, 30);
  const auto s = solved(2, {fan_path(0, 1, bare, fan), opening(1, 0, 0, 500)});
  EXPECT_NEAR(s.flow_m3_s[0], (-500 + std::sqrt(4.25e6)) / (2e5 / 3), 1e-9);
}

TEST(FlowNetwork, OpposedFansCancel) {
  const FanCurve fan = parabola(0.03, 30);
  // Both blow into the room, which is closed else: no flow at the shut-off pressure.
  const auto in = solved(2, {fan_path(0, 1, 500, fan), fan_path(0, 1, 500, fan)});
  EXPECT_NEAR(in.flow_m3_s[0], 0.0, 1e-9);
  EXPECT_NEAR(in.pressure_pa[1], 30.0, 1e-9);
  EXPECT_EQ(in.fan[0], FanState::works);
  // One behind the other and against each other: nothing moves, the room between is at 30 Pa.
  const auto against = solved(2, {fan_path(0, 1, 500, fan), fan_path(1, 0, 500, fan, {}, true)});
  EXPECT_NEAR(against.flow_m3_s[0], 0.0, 1e-9);
  EXPECT_NEAR(against.pressure_pa[1], 30.0, 1e-9);
}

// By hand, both blow into a room of no other way: weak one 10 Pa, strong one 30 Pa at rest. Flow q
// in through the strong one and out against the weak: 30 - K q^2 - k q^2 = 10 + K' q^2 + k q^2 with
// K = 30/0.03^2, K' = 10/0.03^2, k = 500: q^2 = 20 / (44444.4 + 1000).
TEST(FlowNetwork, AWeakFanIsBlownBackwards) {
  const FanCurve strong = parabola(0.03, 30);
  const FanCurve weak = parabola(0.03, 10);
  const auto s = solved(2, {fan_path(0, 1, 500, strong), fan_path(1, 0, 500, weak, {}, true)});
  EXPECT_NEAR(s.flow_m3_s[0], std::sqrt(20 / (40 / 9e-4 + 1000)), 1e-12);
  EXPECT_EQ(s.fan[0], FanState::works);
  EXPECT_EQ(s.fan[1], FanState::blown_backwards);
}

// By hand: 30 Pa and 1 Pa behind each other, no system: K = 30/0.03^2 and 1/0.01^2 = 10000:
// q^2 = 31 / (33333.3 + 10000 + 1000): 0.02645, beyond the 0.01 of the second.
TEST(FlowNetwork, AFanPushedBeyondFreeFlowBrakes) {
  const FanCurve strong = parabola(0.03, 30);
  const FanCurve small = parabola(0.01, 1);
  const auto s = solved(2, {fan_path(0, 1, 500, strong), fan_path(1, 0, 500, small)});
  const double q = std::sqrt(31 / (30 / 9e-4 + 10000 + 1000));
  EXPECT_NEAR(s.flow_m3_s[0], q, 1e-12);
  EXPECT_EQ(s.fan[1], FanState::beyond_free_flow);
  EXPECT_NEAR(s.fan_pressure_pa[1], 1 - 10000 * q * q, 1e-9);
}

// By hand: with K = 1 / 0.025^2 = 1600, q^2 = 31 / (33333.3 + 1600 + 1000): 0.02937, a sixth
// beyond. Two strong ones on 500: Q = sqrt(30 / (500 + 33333.3 / 4)) = 0.05828, each at 0.02914 of
// 0.03.
TEST(FlowNetwork, FreeFlowIsThatOfOneFan) {
  const FanCurve strong = parabola(0.03, 30);
  const FanCurve small = parabola(0.025, 1);
  const auto pushed = solved(2, {fan_path(0, 1, 500, strong), fan_path(1, 0, 500, small)});
  EXPECT_NEAR(pushed.flow_m3_s[0], 0.02937, 0.5e-5);
  EXPECT_EQ(pushed.fan[1], FanState::beyond_free_flow);
  const auto two = solved(2, {fan_path(0, 1, 250, strong, {.count = 2}), opening(1, 0, 250)});
  EXPECT_NEAR(two.flow_m3_s[0], 0.05828, 0.5e-5);
  EXPECT_EQ(two.fan[0], FanState::works);
}

TEST(FlowNetwork, SealedBoxStandsAtShutOffPressure) {
  const FanCurve fan = parabola(0.03, 30);
  for (const bool reversed : {false, true}) {
    const auto s = solved(2, {fan_path(0, 1, 500, fan, {.speed_frac = 0.5}, reversed)});
    EXPECT_NEAR(s.flow_m3_s[0], 0.0, 1e-9);
    EXPECT_NEAR(s.pressure_pa[1], reversed ? -7.5 : 7.5, 1e-9);  // 30 x 0.5^2
    EXPECT_EQ(s.fan[0], FanState::works);
    EXPECT_FALSE(s.sealed[1]);
  }
}

// Rooms 2 and 3 are joined to each other alone; 4 to nothing. By hand: air goes round through a fan
// and an opening: q = sqrt(30 / (1000 + 3000 + 33333.3)).
TEST(FlowNetwork, RoomsWithoutAWayOut) {
  const FanCurve fan = parabola(0.03, 30);
  const auto s = solved(5, {fan_path(0, 1, bare, fan), opening(1, 0, 40000),
                            fan_path(2, 3, 1000, fan), opening(3, 2, 3000)});
  const double q = std::sqrt(30 / (4000 + 30 / 9e-4));
  EXPECT_NEAR(s.flow_m3_s[0], 0.0202260, 0.5e-7);
  EXPECT_NEAR(s.flow_m3_s[2], q, 1e-12);
  EXPECT_EQ(s.pressure_pa[2], 0.0);
  EXPECT_NEAR(s.pressure_pa[3], 3000 * q * q, 1e-9);
  EXPECT_EQ(s.pressure_pa[4], 0.0);
  EXPECT_EQ(s.sealed, (std::array<bool, most_rooms>{false, false, true, true, true}));
}

TEST(FlowNetwork, NothingMovesWithoutFans) {
  const FanCurve fan = parabola(0.03, 30);
  const std::vector<FlowPath> paths = {opening(0, 1, 4000), opening(1, 2, 100),
                                       opening(0, 2, 4000, 10),
                                       fan_path(0, 1, 100, fan, {.speed_frac = 0})};
  for (const auto& start : {std::vector<double>{}, std::vector<double>{0, 3, -7}}) {
    const auto s = solve_flow(3, paths, start);
    ASSERT_TRUE(s);
    EXPECT_TRUE(s->converged);
    for (std::size_t k = 0; k < 4; ++k) EXPECT_NEAR(s->flow_m3_s[k], 0.0, 1e-9);
    EXPECT_EQ(s->fan[3], FanState::stopped);
  }
  EXPECT_TRUE(solve_flow(1, {})->converged);
  EXPECT_TRUE(solve_flow(12, {})->converged);
}

// By hand: the stopped fan is a resistance of 30/0.03^2 in the way of the other.
TEST(FlowNetwork, AStoppedFanStandsInTheWay) {
  const FanCurve fan = parabola(0.03, 30);
  const auto s = solved(3, {fan_path(0, 1, 1000, fan), opening(1, 2, 2000),
                            fan_path(2, 0, 1000, fan, {.speed_frac = 0}, true)});
  EXPECT_NEAR(s.flow_m3_s[0], std::sqrt(30 / (4000 + 2 * 30 / 9e-4)), 1e-12);
  EXPECT_EQ(s.fan[2], FanState::stopped);
}

// By hand: held at 18 Pa from 0.01 to 0.025 (fan_curve_test), so on 18 / 0.02^2 = 45000 the fan
// works at 0.02, where 24 Pa were measured: stall range. On 6e5 it works at the steep left.
TEST(FlowNetwork, TellsTheStallRange) {
  const auto fan = FanCurve::from_points(
      std::vector<FanPoint>{{0.00, 30}, {0.01, 18}, {0.02, 24}, {0.03, 12}, {0.04, 0}});
  ASSERT_TRUE(fan);
  const auto stalls = solved(2, {fan_path(0, 1, bare, *fan), opening(1, 0, 45000)});
  EXPECT_NEAR(stalls.flow_m3_s[0], 0.02, 1e-7);
  EXPECT_EQ(stalls.fan[0], FanState::stalled);
  // 30 - 1200 q = 6e5 q^2: q = (-1200 + sqrt(1.44e6 + 7.2e7)) / 1.2e6.
  const auto left = solved(2, {fan_path(0, 1, bare, *fan), opening(1, 0, 6e5)});
  EXPECT_NEAR(left.flow_m3_s[0], (-1200 + std::sqrt(7.344e7)) / 1.2e6, 1e-9);
  EXPECT_EQ(left.fan[0], FanState::works);
  // At half speed everything is at half the flow.
  const auto half =
      solved(2, {fan_path(0, 1, bare, *fan, {.speed_frac = 0.5}), opening(1, 0, 45000)});
  EXPECT_NEAR(half.flow_m3_s[0], 0.01, 1e-7);
  EXPECT_EQ(half.fan[0], FanState::stalled);
}

// A symmetric bridge carries nothing, whatever its resistance.
TEST(FlowNetwork, BalancedBridge) {
  const FanCurve fan = parabola(0.03, 30);
  for (const double bridge : {1e-6, 1.0, 1e12}) {
    const auto s = solved(4, {fan_path(0, 1, 500, fan), opening(1, 2, 3000), opening(1, 3, 3000),
                              opening(2, 0, 7000), opening(3, 0, 7000), opening(2, 3, bridge)});
    EXPECT_NEAR(s.flow_m3_s[5], 0.0, 1e-9) << bridge;
    EXPECT_NEAR(s.flow_m3_s[0], std::sqrt(30 / (500 + 2500 + 30 / 9e-4)), 1e-9) << bridge;
  }
}

// The first room is closed off but for a hole a billion times tighter than the rest: by hand, flow
// through the hole sqrt(dp / 2e12).
TEST(FlowNetwork, VeryDifferentResistances) {
  const FanCurve fan = parabola(0.03, 30);
  const auto s = solved(
      3, {fan_path(0, 1, 1, fan), opening(1, 0, 4000), opening(1, 2, 1e12), opening(2, 0, 1e12)});
  EXPECT_NEAR(s.pressure_pa[2], 0.5 * s.pressure_pa[1], 1e-9);
  EXPECT_NEAR(s.flow_m3_s[2], std::sqrt(s.pressure_pa[1] / 2e12), 1e-13);
}

// From one millilitre a second to a cubic metre: all flows and pressures scale.
TEST(FlowNetwork, SmallAndLargeFlows) {
  for (const double scale : {1e-6, 1e-4, 1e-2, 1.0}) {
    const FanCurve fan = parabola(scale, 20);
    const double unit = 20 / (scale * scale);
    const auto s = solved(3, {fan_path(0, 1, unit, fan), opening(1, 2, unit), opening(2, 0, unit),
                              opening(1, 0, 1e3 * unit)});
    // The side way at 1000, the main one 2: joined k = 1 / (1/sqrt(1000) + 1/sqrt(2))^2.
    const double joined = 1 / std::pow(1 / std::sqrt(1000.0) + 1 / std::sqrt(2.0), 2);
    EXPECT_NEAR(s.flow_m3_s[0] / scale, std::sqrt(1 / (2 + joined)), 1e-9) << scale;
  }
}

TEST(FlowNetwork, AWarmStartGivesTheSameAnswerInFewerSteps) {
  test_support::Random random(7);
  int cold_steps = 0;
  int warm_steps = 0;
  for (int i = 0; i < 200; ++i) {
    test_support::RandomNetwork net(random, {});
    const auto cold = solve_flow(net.rooms, net.paths);
    ASSERT_TRUE(cold && cold->converged);
    const auto warm =
        solve_flow(net.rooms, net.paths, std::span(cold->pressure_pa).first(net.rooms));
    ASSERT_TRUE(warm && warm->converged);
    cold_steps += cold->iterations;
    warm_steps += warm->iterations;
    // Near no flow a square law of 1e3 takes the root of a pressure's digits: 2e-9 each.
    for (std::size_t k = 0; k < net.paths.size(); ++k)
      EXPECT_NEAR(warm->flow_m3_s[k], cold->flow_m3_s[k], 1e-8);
  }
  EXPECT_LT(warm_steps, cold_steps / 4);
}

TEST(FlowNetwork, RefusesBadInput) {
  const FanCurve fan = parabola(0.03, 30);
  const auto refused = [](std::size_t rooms, const std::vector<FlowPath>& paths,
                          const std::vector<double>& start = {}) {
    return !solve_flow(rooms, paths, start).has_value();
  };
  const double nan = std::nan("");
  const double infinite = std::numeric_limits<double>::infinity();
  EXPECT_TRUE(refused(0, {}));
  EXPECT_TRUE(refused(13, {}));
  EXPECT_TRUE(refused(2, std::vector<FlowPath>(65, opening(0, 1, 1))));
  EXPECT_TRUE(refused(2, {opening(0, 2, 1)}));
  EXPECT_TRUE(refused(2, {opening(2, 0, 1)}));
  EXPECT_TRUE(refused(2, {opening(1, 1, 1)}));
  for (const double bad : {0.0, -1.0, nan, infinite, 1e19})
    EXPECT_TRUE(refused(2, {opening(0, 1, bad)})) << bad;
  EXPECT_TRUE(refused(2, {opening(0, 1, 1, -1)}));
  EXPECT_TRUE(refused(2, {opening(0, 1, 1, nan)}));
  for (const double bad : {-0.1, 11.0, nan})
    EXPECT_TRUE(refused(2, {fan_path(0, 1, 1, fan, {.speed_frac = bad})}));
  for (const int bad : {0, -1, 1001})
    EXPECT_TRUE(refused(2, {fan_path(0, 1, 1, fan, {.count = bad})}));
  for (const double bad : {0.0, -1.0, 11.0, nan})
    EXPECT_TRUE(refused(2, {fan_path(0, 1, 1, fan, {.density_ratio = bad})}));
  FlowPath no_curve = opening(0, 1, 1);
  no_curve.fan = FanOnPath{.curve = nullptr, .drive = {}};
  EXPECT_TRUE(refused(2, {no_curve}));
  EXPECT_TRUE(refused(2, {opening(0, 1, 1)}, {0}));
  EXPECT_TRUE(refused(2, {opening(0, 1, 1)}, {0, nan}));
  EXPECT_EQ(solve_flow(2, std::vector{opening(0, 1, 1), opening(1, 1, 1)}).error(),
            "path 1: from a room to itself");
}

}  // namespace
}  // namespace rigproof::air
