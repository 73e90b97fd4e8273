// Warming of random heat networks against a general library: SUNDIALS CVODE integrates the heats
// that cvode_warming.cpp sums link by link, step by step; ours has the matrix exponential.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>

#include "analysis/air/cvode_warming.hpp"
#include "analysis/air/random_network.hpp"
#include "analysis/air/transient.hpp"
#include "tests/support/sanitized.hpp"

namespace rigproof::air {
namespace {

using namespace by_sundials;

constexpr int networks = rigproof::test_support::sanitized ? 60 : 1000;
constexpr Tolerance fine{.relative_frac = 1e-9, .absolute_k = 1e-8};
constexpr Tolerance coarse{.relative_frac = 1e-7, .absolute_k = 1e-6};

// An error of one step never grows later: the largest difference of two temperature curves falls
// (A54). So errors add up at most, some 600 steps here, each within the tolerance. They do not all
// lean the same way: a hundred tolerances are allowed, 37 were seen.
constexpr double allowed_tolerances = 100.0;

class RandomWarming {
 public:
  explicit RandomWarming(std::uint64_t seed) : engine_(seed) {}

  // Up to 8 rooms and 11 bodies; capacities over five decades, one node in five without any. In one
  // of ten a pair of bodies has no way out for its heat.
  WarmingStart next() {
    WarmingStart out{.network = trial::random_network(engine_, {.rooms = 2 + below(7),
                                                                .bodies = 2 + below(8),
                                                                .streams = 1 + below(5),
                                                                .loop = below(2) == 0}),
                     .capacity_j_k = {},
                     .start_c = {}};
    if (below(10) == 0) add_enclosed_pair(out.network);
    const std::size_t nodes = out.network.rooms - 1 + out.network.bodies;
    for (std::size_t i = 0; i < nodes; ++i) {
      out.capacity_j_k.push_back(below(5) == 0 ? 0.0 : log_between(0.1, 1e4));
      out.start_c.push_back(between(15.0, 90.0));
    }
    out.capacity_j_k.back() = log_between(10.0, 1e4);  // one of the pair, where there is one
    return out;
  }

  std::vector<double> times_s() {
    std::vector<double> out(5);
    for (double& time_s : out) time_s = log_between(0.1, 1e5);
    std::ranges::sort(out);
    return out;
  }

 private:
  std::size_t below(std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(engine_);
  }
  double between(double low, double high) {
    return std::uniform_real_distribution(low, high)(engine_);
  }
  double log_between(double low, double high) {
    return std::exp(between(std::log(low), std::log(high)));
  }

  void add_enclosed_pair(HeatNetwork& network) {
    const std::size_t first = network.bodies;
    network.bodies += 2;
    network.conductances.add({.a = body(first), .b = body(first + 1), .w_k = between(0.5, 5.0)});
    network.body_heat_w[first] = between(0.1, 1.0);
  }

  std::mt19937_64 engine_;
};

Transient ours_of(const WarmingStart& start) {
  return Transient::of(HeatField::of(start.network).value().balance(), start.capacity_j_k,
                       start.start_c)
      .value();
}

double in_tolerances(double off_k, double temp_c, const Tolerance& tolerance) {
  return std::abs(off_k) / (tolerance.relative_frac * std::abs(temp_c) + tolerance.absolute_k);
}

// The largest difference at any of these times, in tolerances.
double worst_gap(const WarmingStart& start, const std::vector<double>& times_s,
                 const Tolerance& tolerance) {
  const Transient ours = ours_of(start);
  WarmingByCvode cvode(start, tolerance);
  double worst = 0.0;
  for (const double time_s : times_s) {
    const auto theirs_c = cvode.temps_c(time_s);
    const auto ours_c = ours.temps_c(time_s);
    if (!theirs_c || !ours_c) {
      ADD_FAILURE() << "no temperatures at " << time_s << " s";
      continue;
    }
    for (std::size_t i = 0; i < theirs_c->size(); ++i) {
      const double off = in_tolerances((*ours_c)[i] - (*theirs_c)[i], (*theirs_c)[i], tolerance);
      worst = std::max(worst, std::isfinite(off) ? off : 1e300);
    }
  }
  return worst;
}

TEST(TransientCvode, AgreesOnRandomNetworks) {
  RandomWarming random(41);
  double worst = 0.0;
  int without_end = 0;
  int following = 0;
  for (int i = 0; i < networks; ++i) {
    const WarmingStart start = random.next();
    const double gap = worst_gap(start, random.times_s(), fine);
    EXPECT_LE(gap, allowed_tolerances) << "network " << i;
    worst = std::max(worst, gap);
    if (!ours_of(start).steady_c()) ++without_end;
    following += static_cast<int>(std::ranges::count(start.capacity_j_k, 0.0));
  }
  std::printf(
      "%d networks, %d without a way out for some heat, %d nodes without capacity: at most "
      "%.1f tolerances of 1e-9 and 1e-8 K apart\n",
      networks, without_end, following, worst);
  EXPECT_GE(without_end, networks / 20);
  EXPECT_GE(following, networks);
}

// What is apart is CVODE's own error: a hundred times coarser, it lies some hundred times further
// off, and not nearer than thirty times. (In tolerances of its own it is then about the same.)
TEST(TransientCvode, ComesCloserAsCvodeIsMadeFiner) {
  RandomWarming random(42);
  double sum_fine_k = 0.0;
  double sum_coarse_k = 0.0;
  for (int i = 0; i < networks / 10; ++i) {
    const WarmingStart start = random.next();
    const auto times_s = random.times_s();
    sum_fine_k += worst_gap(start, times_s, fine) * fine.absolute_k;
    sum_coarse_k += worst_gap(start, times_s, coarse) * coarse.absolute_k;
  }
  std::printf("a hundred times finer: %.0f times closer\n", sum_coarse_k / sum_fine_k);
  EXPECT_GE(sum_coarse_k, 30.0 * sum_fine_k);
}

// After forty of the slowest time constants nothing is left of the start (e^-40 of some 100 K): the
// ends of all three, ours by elimination twice, CVODE's by waiting.
TEST(TransientCvode, EndsWhereCvodeEnds) {
  RandomWarming random(43);
  int ended = 0;
  double worst = 0.0;
  for (int i = 0; i < networks / 2; ++i) {
    const WarmingStart start = random.next();
    const Transient ours = ours_of(start);
    if (!ours.steady_c()) continue;
    ++ended;
    const HeatState state = HeatField::of(start.network).value().state();
    WarmingByCvode cvode(start, fine);
    const auto theirs_c = cvode.temps_c(40.0 * ours.slowest_time_constant_s().value());
    ASSERT_TRUE(theirs_c) << "network " << i;
    const std::size_t inner_rooms = start.network.rooms - 1;
    for (std::size_t n = 0; n < theirs_c->size(); ++n) {
      const double at_c = (*theirs_c)[n];
      const double field_c = n < inner_rooms ? state.room_c[n + 1] : state.body_c[n - inner_rooms];
      const double off = std::max(in_tolerances((*ours.steady_c())[n] - at_c, at_c, fine),
                                  in_tolerances(field_c - at_c, at_c, fine));
      EXPECT_LE(off, allowed_tolerances) << "network " << i << " node " << n;
      worst = std::max(worst, off);
    }
  }
  std::printf("%d ends: at most %.1f tolerances apart\n", ended, worst);
  EXPECT_GE(ended, networks / 4);
}

}  // namespace
}  // namespace rigproof::air
