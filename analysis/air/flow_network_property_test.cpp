// Laws that hold in every network, on random ones.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <new>

#include "analysis/air/test_networks.hpp"

namespace rigproof::air::test_support {

std::size_t allocations = 0;

}  // namespace rigproof::air::test_support

// Not inlined: seen through, malloc and delete look like a mismatch to the compiler.
[[gnu::noinline]] void* operator new(std::size_t size) {
  ++rigproof::air::test_support::allocations;
  if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
  throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* memory) noexcept { std::free(memory); }
[[gnu::noinline]] void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

namespace rigproof::air {
namespace {

// A pressure of some 30 Pa has digits of 4e-15 Pa; a square of 1e3 at no flow takes the root of
// them, 2e-9 m3/s. Twice that on each side.
constexpr double two_answers_m3_s = 8e-9;

using test_support::fan_path;
using test_support::Kind;
using test_support::opening;
using test_support::parabola;
using test_support::Random;
using test_support::RandomNetwork;

constexpr Kind usual{};
constexpr Kind large{.most_rooms = 12, .most_more_paths = 50};
// Vents and holes a million million apart.
constexpr Kind wide{
    .most_rooms = 12, .most_more_paths = 50, .least_square = 1e-1, .most_square = 1e11};
constexpr Kind square_only{.with_linear = false};

FlowSolution solved(const RandomNetwork& net) {
  const auto out = solve_flow(net.rooms, net.paths);
  EXPECT_TRUE(out) << out.error();
  return *out;
}

// Each path again, straight from (A1) and the fan's own function.
TEST(FlowLaws, MassAndPressureBalance) {
  Random random(1);
  int most_steps = 0;
  for (const Kind& kind : {usual, large, wide})
    for (int i = 0; i < 2000; ++i) {
      const RandomNetwork net(random, kind);
      const FlowSolution s = solved(net);
      ASSERT_TRUE(s.converged) << i << " balance " << s.worst_balance_m3_s << " law "
                               << s.worst_law_pa;
      most_steps = std::max(most_steps, s.iterations);
      std::array<double, most_rooms> into{};
      double largest_pa = 0.0;
      for (std::size_t k = 0; k < net.paths.size(); ++k) {
        const FlowPath& path = net.paths[k];
        const double q = s.flow_m3_s[k];
        into[path.from] -= q;
        into[path.to] += q;
        double rise = 0.0;
        if (path.fan) {
          const double sign = path.fan->reversed ? -1.0 : 1.0;
          rise = sign * fans_pressure_pa(*path.fan->curve, path.fan->drive, sign * q);
          EXPECT_NEAR(s.fan_pressure_pa[k], sign * rise, 1e-12);
        }
        const double gap =
            s.pressure_pa[path.from] + rise - drop_pa(path.resistance, q) - s.pressure_pa[path.to];
        largest_pa = std::max(largest_pa, std::abs(rise));
        EXPECT_LE(std::abs(gap), 1e-7) << i;  // of pressures up to some 100 Pa
      }
      for (std::size_t room = 0; room < net.rooms; ++room)
        ASSERT_NEAR(into[room], 0.0, 1e-9);  // the outside too
    }
  EXPECT_LE(most_steps, 40);  // ours: a limit on cost, not on truth
  RecordProperty("most_steps", most_steps);
}

// What the fans give, the resistances take: sum of Q dp on both sides.
TEST(FlowLaws, EnergyBalance) {
  Random random(2);
  for (int i = 0; i < 1000; ++i) {
    const RandomNetwork net(random, large);
    const FlowSolution s = solved(net);
    double given_w = 0.0;
    double taken_w = 0.0;
    double turned_w = 0.0;
    for (std::size_t k = 0; k < net.paths.size(); ++k) {
      const double q = s.flow_m3_s[k];
      taken_w += q * drop_pa(net.paths[k].resistance, q);
      const auto& fan = net.paths[k].fan;
      if (!fan) continue;
      const double along = fan->reversed ? -q : q;
      given_w += along * s.fan_pressure_pa[k];
      turned_w += std::abs(along * s.fan_pressure_pa[k]);
    }
    // Pressure laws are met to 1e-9; what rounding leaves of no flow counts for nothing.
    EXPECT_NEAR(given_w, taken_w, 1e-9 * std::max(turned_w, taken_w) + 1e-15);
  }
}

// Where all laws are squares, a network with one fan more opened carries more: seen from the fan it
// is one square resistance, and that falls ([calvert-keady-1993]: one exponent, no paradox).
TEST(FlowLaws, OneMoreOpeningNeverLowersTheFlowOfASingleFan) {
  Random random(3);
  const FanCurve fan = parabola(0.04, 25);
  for (int i = 0; i < 1000; ++i) {
    RandomNetwork net(random, {.with_linear = false, .fan_frac = 0.0});
    net.paths.push_back(fan_path(0, 1 + random.below(net.rooms - 1), 500, fan));
    const std::size_t at = net.paths.size() - 1;
    const double before = solved(net).flow_m3_s[at];
    const std::size_t from = random.below(net.rooms);
    net.paths.push_back(opening(from, (from + 1 + random.below(net.rooms - 1)) % net.rooms,
                                random.log_between(1e2, 1e7)));
    EXPECT_GE(solved(net).flow_m3_s[at], before * (1 - 1e-9)) << i;
  }
}

// With linear and square ways mixed it can: by hand, a bridge. Each way is a filter (100 Q) and a
// hole (1e4 Q^2) behind each other, in the other order on the other side. At 1.71 Pa each carries
// 0.009: 0.9 + 0.81 Pa, 0.018 in all. Joined in the middle, at 1.71 / 2 each: 0.00855 + 0.0092466 =
// 0.0177966. The fan gives 1.71 Pa at 0.018, so with the bridge it delivers less than that.
TEST(FlowLaws, OneMoreOpeningCanLowerTheFlowWhereLawsDiffer) {
  const FanCurve fan = parabola(0.036, 1.71 / 0.75);  // 1 - (0.018 / 0.036)^2 = 0.75
  std::vector<FlowPath> paths = {fan_path(0, 1, 1e-6, fan), opening(1, 2, 0, 100),
                                 opening(2, 0, 1e4), opening(1, 3, 1e4), opening(3, 0, 0, 100)};
  const auto apart = solve_flow(4, paths);
  ASSERT_TRUE(apart && apart->converged);
  EXPECT_NEAR(apart->flow_m3_s[0], 0.018, 1e-9);
  paths.push_back(opening(2, 3, 1e-6));
  const auto bridged = solve_flow(4, paths);
  ASSERT_TRUE(bridged && bridged->converged);
  EXPECT_LT(bridged->flow_m3_s[0], 0.018 - 1e-5);
  EXPECT_GT(bridged->flow_m3_s[0], 0.0177966);
}

TEST(FlowLaws, PathsWrittenTheOtherWayRoundMirrorTheResult) {
  Random random(4);
  for (int i = 0; i < 500; ++i) {
    RandomNetwork net(random, usual);
    const FlowSolution before = solved(net);
    for (FlowPath& path : net.paths) {
      std::swap(path.from, path.to);
      if (path.fan) path.fan->reversed = !path.fan->reversed;
    }
    const FlowSolution after = solved(net);
    for (std::size_t k = 0; k < net.paths.size(); ++k) {
      EXPECT_NEAR(after.flow_m3_s[k], -before.flow_m3_s[k], two_answers_m3_s);
      EXPECT_EQ(after.fan[k], before.fan[k]);
    }
  }
}

// Resistances are odd in the flow, so a fan blown round the other way draws what it pushed. (Not so
// with several fans: one that is blown backwards does not act as one that is blown forwards.)
TEST(FlowLaws, BlowingOutMirrorsBlowingIn) {
  const FanCurve fan = parabola(0.03, 30);
  std::vector<FlowPath> paths = {fan_path(0, 1, 900, fan), opening(0, 1, 8000, 20),
                                 opening(1, 2, 3000), opening(2, 0, 7000)};
  const auto in = solve_flow(3, paths);
  paths[0] = fan_path(0, 1, 900, fan, {}, true);
  const auto out = solve_flow(3, paths);
  ASSERT_TRUE(in && out);
  for (std::size_t k = 0; k < paths.size(); ++k)
    EXPECT_NEAR(out->flow_m3_s[k], -in->flow_m3_s[k], 1e-11);
  EXPECT_NEAR(out->pressure_pa[1], -in->pressure_pa[1], 1e-9);
}

// (A11) with square laws only: twice the speed, twice the flow, four times the pressure.
TEST(FlowLaws, SpeedScalesASquareNetwork) {
  Random random(5);
  for (int i = 0; i < 500; ++i) {
    RandomNetwork net(random, square_only);
    const FlowSolution before = solved(net);
    for (FlowPath& path : net.paths)
      if (path.fan) path.fan->drive.speed_frac *= 2.0;
    const FlowSolution after = solved(net);
    for (std::size_t k = 0; k < net.paths.size(); ++k)
      EXPECT_NEAR(after.flow_m3_s[k], 2.0 * before.flow_m3_s[k], two_answers_m3_s);
    for (std::size_t room = 0; room < net.rooms; ++room)
      EXPECT_NEAR(after.pressure_pa[room], 4.0 * before.pressure_pa[room], 1e-8);
  }
}

// Thinner air: fans and square resistances scale alike, flow stays.
TEST(FlowLaws, DensityLeavesTheFlowOfASquareNetwork) {
  Random random(6);
  for (int i = 0; i < 500; ++i) {
    RandomNetwork net(random, square_only);
    const FlowSolution before = solved(net);
    for (FlowPath& path : net.paths) {
      path.resistance.square_pa_s2_m6 *= 0.8345;
      if (path.fan) path.fan->drive.density_ratio *= 0.8345;
    }
    const FlowSolution after = solved(net);
    for (std::size_t k = 0; k < net.paths.size(); ++k)
      EXPECT_NEAR(after.flow_m3_s[k], before.flow_m3_s[k], two_answers_m3_s);
  }
}

// From end to end of every range at once, 10^27 between resistances: no promise to converge, but a
// finite answer that says whether it did.
TEST(FlowLaws, ExtremeInputStaysFinite) {
  Random random(9);
  for (int i = 0; i < 5000; ++i) {
    std::deque<FanCurve> curves;
    std::vector<FlowPath> paths;
    const std::size_t rooms = 2 + random.below(most_rooms - 1);
    for (std::size_t k = random.below(most_paths + 1); k > 0; --k) {
      const std::size_t from = random.below(rooms);
      const std::size_t to = (from + 1 + random.below(rooms - 1)) % rooms;
      paths.push_back(opening(from, to, random.log_between(1e-9, 1e18)));
      if (random.below(2) == 0)
        paths.back().resistance.linear_pa_s_m3 = random.log_between(1e-9, 1e18);
      if (random.below(2) == 0) continue;
      curves.push_back(parabola(random.log_between(1e-9, 100), random.log_between(1e-9, 1e6)));
      paths.back().fan = FanOnPath{.curve = &curves.back(),
                                   .drive = {.speed_frac = random.log_between(1e-8, 10),
                                             .count = 1 + static_cast<int>(random.below(1000)),
                                             .density_ratio = random.log_between(0.01, 10)},
                                   .reversed = random.below(2) == 0};
    }
    const auto s = solve_flow(rooms, paths);
    ASSERT_TRUE(s) << s.error();
    for (const double flow : s->flow_m3_s) ASSERT_TRUE(std::isfinite(flow)) << i;
    for (const double pressure : s->pressure_pa) ASSERT_TRUE(std::isfinite(pressure)) << i;
    if (s->converged) {
      ASSERT_LE(s->worst_balance_m3_s, 1e-9) << i;
    }
  }
}

TEST(FlowLaws, SolvingAllocatesNothing) {
  Random random(8);
  const RandomNetwork net(random, large);
  const FlowSolution cold = solved(net);
  const auto start = std::span(cold.pressure_pa).first(net.rooms);
  const std::size_t before = test_support::allocations;
  bool all = true;
  for (int i = 0; i < 10; ++i) {
    all = all && solve_flow(net.rooms, net.paths)->converged;
    all = all && solve_flow(net.rooms, net.paths, start)->converged;
  }
  EXPECT_EQ(test_support::allocations, before);
  EXPECT_TRUE(all);
}

}  // namespace
}  // namespace rigproof::air
