// Warming over time: closed forms, and a fine Runge-Kutta integration on random networks.
#include "analysis/air/transient.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "analysis/air/matrix_exponential.hpp"
#include "analysis/air/random_network.hpp"

namespace rigproof::air {
namespace {

TEST(MatrixExponential, KnowsItsClosedForms) {
  Matrix turn(2);  // a rotation, also where it is scaled
  turn(0, 1) = 1.0;
  turn(1, 0) = -1.0;
  for (const double t : {0.0, 1e-9, 0.3, 5.0, 200.0}) {
    const Matrix e = matrix_exponential(turn, t);
    EXPECT_NEAR(e(0, 0), std::cos(t), 1e-15 * (4.0 + t));
    EXPECT_NEAR(e(0, 1), std::sin(t), 1e-15 * (4.0 + t));
  }
  Matrix shift(4);  // nilpotent: 1, t, t^2 / 2, t^3 / 6
  for (std::size_t i = 0; i < 3; ++i) shift(i, i + 1) = 1.0;
  EXPECT_NEAR(matrix_exponential(shift, 7.0)(0, 3), 343.0 / 6.0, 1e-12);
  Matrix stiff(2);
  stiff(0, 0) = -1e6;
  stiff(0, 1) = 1e6;
  stiff(1, 1) = -1.0;  // closed form: e^-t and (e^-t - e^(-1e6 t)) 1e6 / (1e6 - 1)
  const Matrix e = matrix_exponential(stiff, 1.0);
  EXPECT_NEAR(e(1, 1), std::exp(-1.0), 1e-9);
  EXPECT_NEAR(e(0, 1), std::exp(-1.0) * 1e6 / (1e6 - 1.0), 1e-9);
  EXPECT_NEAR(e(0, 0), 0.0, 1e-12);
}

// Bodies in a room of given temperature; links as pairs.
struct Chain {
  HeatNetwork network;
  std::vector<double> capacity_j_k;
  std::vector<double> start_c;

  Transient made() const {
    return Transient::of(HeatField::of(network).value().balance(), capacity_j_k, start_c).value();
  }
};

Chain chain(std::vector<double> capacity_j_k, std::vector<double> start_c, double outside_c) {
  Chain out{.network = {}, .capacity_j_k = std::move(capacity_j_k), .start_c = std::move(start_c)};
  out.network.bodies = out.capacity_j_k.size();
  out.network.outside_c = outside_c;
  return out;
}

// 100 J/K, 2 W/K, 50 W from 25 degC: 25 + 25 (1 - e^(-t / 50)).
TEST(Transient, WarmsOneBody) {
  Chain c = chain({100.0}, {25.0}, 25.0);
  c.network.conductances.add({.a = body(0), .b = room(outside), .w_k = 2.0});
  c.network.body_heat_w[0] = 50.0;
  const Transient t = c.made();
  for (const double at_s : {0.0, 0.01, 10.0, 77.0, 500.0})
    EXPECT_NEAR((*t.temps_c(at_s))[0], 50.0 - 25.0 * std::exp(-at_s / 50.0), 1e-12) << at_s;
  EXPECT_NEAR((*t.steady_c())[0], 50.0, 1e-12);
  EXPECT_NEAR(*t.slowest_time_constant_s(), 50.0, 1e-11);
  EXPECT_NEAR(**t.time_to_reach_s(0, 40.0, 1e4), 50.0 * std::log(25.0 / 10.0), 1e-9);
  EXPECT_EQ(**t.time_to_reach_s(0, 25.0, 1e4), 0.0);
  EXPECT_FALSE(*t.time_to_reach_s(0, 40.0, 45.0));  // later than that
  EXPECT_FALSE(*t.time_to_reach_s(0, 50.5, 1e6));   // never
  EXPECT_FALSE(*t.time_to_reach_s(0, 24.0, 1e6));   // never, below
  EXPECT_NEAR(**t.time_to_settle_s(0, 1.0), 50.0 * std::log(25.0), 1e-9);
  EXPECT_EQ(**t.time_to_settle_s(0, 30.0), 0.0);
}

// Incropera, Example 5.1 (check values C5; looked up: a textbook companion): a bead of 7.0588e-4 m,
// h 400, rho 8500, c 400, from 25 to 199 degC in gas of 200: book 5.2 s, exactly ln 175 = 5.1648
// time constants of 1 s.
TEST(Transient, WarmsTheThermocoupleBead) {
  constexpr double d = 7.0588e-4;
  constexpr double pi = std::numbers::pi;
  Chain c = chain({8500.0 * 400.0 * pi * d * d * d / 6.0}, {25.0}, 200.0);
  c.network.conductances.add({.a = body(0), .b = room(outside), .w_k = 400.0 * pi * d * d});
  const Transient t = c.made();
  EXPECT_NEAR(*t.slowest_time_constant_s(), 1.0, 1e-4);
  EXPECT_NEAR(**t.time_to_reach_s(0, 199.0, 100.0), 5.1648, 0.0005);
  EXPECT_NEAR(**t.time_to_settle_s(0, 1.0), 5.2, 0.05);
}

// Two of 100 J/K, 1 W/K between them and from each to the outside; 10 K and 0 K above it: 5
// e^(-t/100) +- 5 e^(-3t/100). The second rises to 5 (3^-1/2 - 3^-3/2) = 1.9245 K at 50 ln 3 s.
TEST(Transient, PassesHeatThroughASecondBody) {
  Chain c = chain({100.0, 100.0}, {30.0, 20.0}, 20.0);
  c.network.conductances.add({.a = body(0), .b = body(1), .w_k = 1.0});
  for (const std::size_t b : {0U, 1U})
    c.network.conductances.add({.a = body(b), .b = room(outside), .w_k = 1.0});
  const Transient t = c.made();
  const auto exact_k = [](double at_s, double sign) {
    return 5.0 * std::exp(-0.01 * at_s) + sign * 5.0 * std::exp(-0.03 * at_s);
  };
  for (const double at_s : {1.0, 40.0, 300.0}) {
    EXPECT_NEAR((*t.temps_c(at_s))[0], 20.0 + exact_k(at_s, 1.0), 1e-12);
    EXPECT_NEAR((*t.temps_c(at_s))[1], 20.0 + exact_k(at_s, -1.0), 1e-12);
  }
  EXPECT_NEAR(*t.slowest_time_constant_s(), 100.0, 1e-10);
  const double peak_s = 50.0 * std::log(3.0);
  const double peak_k = 5.0 * (std::pow(3.0, -0.5) - std::pow(3.0, -1.5));
  // Just below the peak: reached before it, on the way up; just above: never.
  for (const double below_k : {0.5, 1e-3, 1e-6}) {
    const auto at_s = *t.time_to_reach_s(1, 20.0 + peak_k - below_k, 1e5);
    ASSERT_TRUE(at_s);
    EXPECT_LT(*at_s, peak_s);
    EXPECT_NEAR(exact_k(*at_s, -1.0), peak_k - below_k, 1e-11);
  }
  EXPECT_FALSE(*t.time_to_reach_s(1, 20.0 + peak_k + 1e-6, 1e5));
  // The second stays within 1 K only after its rise; within 2 K it always was.
  const double settled_s = **t.time_to_settle_s(1, 1.0);
  EXPECT_GT(settled_s, peak_s);
  EXPECT_NEAR(exact_k(settled_s, -1.0), 1.0, 1e-11);
  EXPECT_EQ(**t.time_to_settle_s(1, 2.0), 0.0);
  // An excursion of a thousandth of a kelvin.
  const double brief_s = **t.time_to_settle_s(1, peak_k - 1e-3);
  EXPECT_GT(brief_s, peak_s);
  EXPECT_NEAR(exact_k(brief_s, -1.0), peak_k - 1e-3, 1e-11);
}

// Two nodes of 1 W/K in a row without capacity before 50 J/K: 1 / 3 W/K together, 150 s. They lie
// at a third and two thirds of the way at every time.
TEST(Transient, NodesWithoutCapacityFollowAtOnce) {
  Chain c = chain({0.0, 50.0, 0.0}, {99.0, 20.0, -99.0}, 20.0);
  c.network.conductances.add({.a = body(0), .b = room(outside), .w_k = 1.0});
  c.network.conductances.add({.a = body(0), .b = body(2), .w_k = 1.0});
  c.network.conductances.add({.a = body(2), .b = body(1), .w_k = 1.0});
  c.network.body_heat_w[1] = 10.0;
  const Transient t = c.made();
  EXPECT_NEAR(*t.slowest_time_constant_s(), 150.0, 1e-10);
  const auto temps = *t.temps_c(150.0);
  const double rise_k = 30.0 * (1.0 - std::exp(-1.0));
  EXPECT_NEAR(temps[1], 20.0 + rise_k, 1e-12);
  EXPECT_NEAR(temps[0], 20.0 + rise_k / 3.0, 1e-12);
  EXPECT_NEAR(temps[2], 20.0 + rise_k * 2.0 / 3.0, 1e-12);
  EXPECT_NEAR(**t.time_to_reach_s(0, 25.0, 1e4), 150.0 * std::log(2.0), 1e-9);
}

// Nothing stores heat: the steady state at once.
TEST(Transient, WithoutAnyCapacityItIsSteady) {
  Chain c = chain({0.0}, {20.0}, 20.0);
  c.network.conductances.add({.a = body(0), .b = room(outside), .w_k = 2.0});
  c.network.body_heat_w[0] = 10.0;
  const Transient t = c.made();
  EXPECT_NEAR((*t.temps_c(3.0))[0], 25.0, 1e-13);
  EXPECT_EQ(*t.slowest_time_constant_s(), 0.0);
  EXPECT_EQ(**t.time_to_settle_s(0, 0.1), 0.0);
  EXPECT_FALSE(*t.time_to_reach_s(0, 22.0, 10.0));
}

// 10 W into 50 J/K that nothing cools: 0.2 K/s, for ever; and with a second one of 50 J/K behind 1
// W/K: the mean rises by 0.1 K/s, and the difference tends to 10 W / 2 W/K = 5 K by 25 s.
TEST(Transient, WarmsForEverWithoutAWayOut) {
  Chain c = chain({50.0}, {20.0}, 20.0);
  c.network.body_heat_w[0] = 10.0;
  const Transient one = c.made();
  EXPECT_FALSE(one.steady_c());
  EXPECT_FALSE(one.slowest_time_constant_s());
  EXPECT_FALSE(*one.time_to_settle_s(0, 1.0));
  EXPECT_NEAR((*one.temps_c(100.0))[0], 40.0, 1e-10);
  EXPECT_NEAR(**one.time_to_reach_s(0, 100.0, 1e4), 400.0, 1e-7);

  c = chain({50.0, 50.0}, {20.0, 20.0}, 20.0);
  c.network.body_heat_w[0] = 10.0;
  c.network.conductances.add({.a = body(0), .b = body(1), .w_k = 1.0});
  const auto two = *c.made().temps_c(60.0);
  const double apart_k = 5.0 * (1.0 - std::exp(-60.0 / 25.0));
  EXPECT_NEAR(two[0], 20.0 + 6.0 + apart_k / 2.0, 1e-11);
  EXPECT_NEAR(two[1], 20.0 + 6.0 - apart_k / 2.0, 1e-11);
}

TEST(Transient, RefusesWhatCannotBe) {
  Chain c = chain({50.0}, {20.0}, 20.0);
  const HeatBalance balance = HeatField::of(c.network).value().balance();
  const auto refuses = [&](std::vector<double> capacity_j_k, std::vector<double> start_c) {
    return !Transient::of(balance, capacity_j_k, start_c);
  };
  EXPECT_TRUE(refuses({-1.0}, {20.0}));
  EXPECT_TRUE(refuses({std::nan("")}, {20.0}));
  EXPECT_TRUE(refuses({1.0, 1.0}, {20.0}));
  EXPECT_TRUE(refuses({1.0}, {}));
  EXPECT_TRUE(refuses({1.0}, {std::nan("")}));
  EXPECT_TRUE(refuses({0.0}, {20.0}));  // neither capacity nor exchange
  const Transient t = c.made();
  EXPECT_FALSE(t.temps_c(-1.0));
  EXPECT_FALSE(t.temps_c(std::nan("")));
  EXPECT_FALSE(t.time_to_reach_s(1, 30.0, 10.0));
  EXPECT_FALSE(t.time_to_settle_s(0, 0.0));
  std::vector<double> out(2);
  EXPECT_FALSE(t.sample(std::vector{2.0, 1.0}, out));
}

struct RandomCase {
  Chain chain;
  HeatBalance balance;
};

RandomCase random_case(std::mt19937_64& generator) {
  RandomCase out;
  out.chain.network =
      trial::random_network(generator, {.rooms = 4, .bodies = 5, .streams = 3, .loop = true});
  out.balance = HeatField::of(out.chain.network).value().balance();
  std::uniform_real_distribution<double> capacity(20.0, 400.0);
  std::uniform_real_distribution<double> start(10.0, 90.0);
  for (std::size_t i = 0; i < out.balance.a.order(); ++i) {
    out.chain.capacity_j_k.push_back(capacity(generator));
    out.chain.start_c.push_back(start(generator));
  }
  return out;
}

// C dT/dt = b - A T in 20000 steps of the classical method of order 4.
std::vector<double> runge_kutta(const RandomCase& c, double until_s) {
  const std::size_t n = c.chain.start_c.size();
  const auto slope = [&](const std::vector<double>& temps) {
    std::vector<double> out(n);
    for (std::size_t i = 0; i < n; ++i) {
      double sum = c.balance.source_w[i];
      for (std::size_t j = 0; j < n; ++j) sum -= c.balance.a(i, j) * temps[j];
      out[i] = sum / c.chain.capacity_j_k[i];
    }
    return out;
  };
  const auto along = [&](std::vector<double> temps, const std::vector<double>& by, double step) {
    for (std::size_t i = 0; i < n; ++i) temps[i] += step * by[i];
    return temps;
  };
  std::vector<double> t = c.chain.start_c;
  constexpr int steps = 20000;
  const double h = until_s / steps;
  for (int k = 0; k < steps; ++k) {
    const auto k1 = slope(t);
    const auto k2 = slope(along(t, k1, h / 2));
    const auto k3 = slope(along(t, k2, h / 2));
    const auto k4 = slope(along(t, k3, h));
    for (std::size_t i = 0; i < n; ++i) t[i] += h / 6 * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
  }
  return t;
}

// Step 0.005 s at rates below 10 / s: the method's own error is below 1e-8 K.
TEST(TransientLaws, AgreesWithRungeKutta) {
  std::mt19937_64 generator(21);
  for (int i = 0; i < 12; ++i) {
    const RandomCase c = random_case(generator);
    const auto fine = runge_kutta(c, 100.0);
    const auto temps = *c.chain.made().temps_c(100.0);
    for (std::size_t k = 0; k < fine.size(); ++k) EXPECT_NEAR(temps[k], fine[k], 1e-8);
  }
}

// Samples are temps_c; the end is the steady state of the heat network; times found are times of
// that temperature, none is earlier on a fine grid, and none leaves the band later.
TEST(TransientLaws, TimesAndEndsFitTheCurve) {
  std::mt19937_64 generator(22);
  constexpr std::size_t count = 4001;
  for (int i = 0; i < 25; ++i) {
    const RandomCase c = random_case(generator);
    const Transient t = c.chain.made();
    const std::size_t n = c.chain.start_c.size();
    const HeatState steady = HeatField::of(c.chain.network).value().state();
    for (std::size_t r = 1; r < 4; ++r) EXPECT_NEAR((*t.steady_c())[r - 1], steady.room_c[r], 1e-9);
    for (std::size_t b = 0; b < 5; ++b) EXPECT_NEAR((*t.steady_c())[b + 3], steady.body_c[b], 1e-9);
    const double until_s = 12.0 * *t.slowest_time_constant_s();
    std::vector<double> times(count);
    for (std::size_t k = 0; k < count; ++k)
      times[k] = until_s * static_cast<double>(k) / (count - 1.0);
    std::vector<double> curve(count * n);
    ASSERT_TRUE(t.sample(times, curve));
    EXPECT_NEAR(curve[2000 * n + 4], (*t.temps_c(times[2000]))[4], 1e-9);
    for (std::size_t node = 0; node < n; ++node) {
      const double target_c = 0.5 * (c.chain.start_c[node] + (*t.steady_c())[node]) + 3.0;
      const auto reached_s = *t.time_to_reach_s(node, target_c, until_s);
      const double settled_s = **t.time_to_settle_s(node, 0.5);
      if (reached_s) {
        EXPECT_NEAR((*t.temps_c(*reached_s))[node], target_c, 1e-8);
      }
      if (settled_s > 0.0) {
        EXPECT_NEAR(std::abs((*t.temps_c(settled_s))[node] - (*t.steady_c())[node]), 0.5, 1e-8);
      }
      const bool from_below = c.chain.start_c[node] < target_c;
      for (std::size_t k = 0; k < count; ++k) {
        const double now_c = curve[k * n + node];
        if (times[k] < reached_s.value_or(until_s)) {
          EXPECT_EQ(now_c < target_c + (from_below ? 1e-8 : -1e-8), from_below);
        }
        if (times[k] > settled_s) {
          EXPECT_LE(std::abs(now_c - (*t.steady_c())[node]), 0.5 + 1e-8);
        }
      }
    }
  }
}

}  // namespace
}  // namespace rigproof::air
