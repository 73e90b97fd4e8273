// Exchangers against printed tables, worked examples, and the cross-flow equations solved on a
// grid.
#include "analysis/air/exchanger.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace rigproof::air {
namespace {

using enum Arrangement;
constexpr double infinity = std::numeric_limits<double>::infinity();

// Check values C4: every row computed outside from the formulas of Kays and London (formulas from
// memory). Tolerance: half a unit of the last printed digit.
TEST(Effectiveness, ReproducesTheTable) {
  struct Row {
    double ntu, ratio, parallel, counter, unmixed, max_mixed, min_mixed;
  };
  constexpr Row rows[] = {{0.5, 0.25, 0.37179, 0.37759, 0.37509, 0.37474, 0.37501},
                          {0.5, 0.5, 0.35176, 0.36227, 0.35783, 0.35718, 0.35751},
                          {0.5, 1, 0.31606, 0.33333, 0.32633, 0.32529, 0.32529},
                          {1, 0.25, 0.57080, 0.59829, 0.58801, 0.58470, 0.58720},
                          {1, 0.5, 0.51791, 0.56473, 0.54749, 0.54197, 0.54476},
                          {1, 1, 0.43233, 0.50000, 0.47622, 0.46854, 0.46854},
                          {2, 0.25, 0.73433, 0.82277, 0.79742, 0.77759, 0.79276},
                          {2, 0.5, 0.63348, 0.77460, 0.73241, 0.70201, 0.71755},
                          {2, 1, 0.49084, 0.66667, 0.61425, 0.57881, 0.57881},
                          {3, 0.25, 0.78119, 0.91881, 0.88846, 0.84578, 0.87883},
                          {3, 0.5, 0.65926, 0.87443, 0.81971, 0.75636, 0.78854},
                          {3, 1, 0.49876, 0.75000, 0.68129, 0.61334, 0.61334},
                          {5, 0.25, 0.79846, 0.98226, 0.95907, 0.87954, 0.94239},
                          {5, 0.5, 0.66630, 0.95720, 0.90167, 0.78285, 0.84052},
                          {5, 1, 0.49998, 0.83333, 0.75090, 0.62963, 0.62963}};
  constexpr double rounding = 0.5e-5 + 1e-9;
  for (const Row& row : rows) {
    SCOPED_TRACE(testing::Message() << "N " << row.ntu << ", C " << row.ratio);
    EXPECT_NEAR(*effectiveness(parallel, row.ntu, row.ratio), row.parallel, rounding);
    EXPECT_NEAR(*effectiveness(counter, row.ntu, row.ratio), row.counter, rounding);
    EXPECT_NEAR(*effectiveness(cross_unmixed, row.ntu, row.ratio), row.unmixed, rounding);
    EXPECT_NEAR(*effectiveness(cross_max_mixed, row.ntu, row.ratio), row.max_mixed, rounding);
    EXPECT_NEAR(*effectiveness(cross_min_mixed, row.ntu, row.ratio), row.min_mixed, rounding);
  }
}

// The same series with 80 digits (mpmath 1.3.0): computed. At its ends the plain form cancels.
TEST(Effectiveness, SeriesHoldsItsDigitsFromSmallToLarge) {
  struct Row {
    double ntu, ratio, unmixed;
  };
  constexpr Row rows[] = {{1e-06, 0.5, 9.9999925000045829e-7},
                          {0.01, 1.0, 0.0099008275348175145},
                          {0.5, 1e-09, 0.39346934021155024},
                          {3.0, 0.0001, 0.95019052633124549},
                          {10.0, 0.3, 0.9914299348189271},
                          {20.0, 1.0, 0.87423949105032261},
                          {50.0, 0.02, 1.0},
                          {50.0, 0.5, 0.99983590182294255},
                          {50.0, 0.97, 0.93300136310122831},
                          {50.0, 1.0, 0.92031146767577306},
                          {200.0, 1.0, 0.96011824475915647},
                          {700.0, 1.0, 0.97867754235369694}};
  for (const Row& row : rows)
    EXPECT_NEAR(*effectiveness(cross_unmixed, row.ntu, row.ratio), row.unmixed, 2e-13 * row.unmixed)
        << row.ntu << " " << row.ratio;
}

// Cross flow, both unmixed, as its two equations: along x the hot stream cools by N (h - c), along
// y the cold one warms by C N (h - c). Boxes of second order (trapezoids).
double unmixed_on_grid(double ntu, double ratio, int cells) {
  const double a = ntu / cells / 2.0;
  const double b = ratio * ntu / cells / 2.0;
  std::vector<double> cold(static_cast<std::size_t>(cells),
                           0.0);  // entering each column
  double out = 0.0;
  for (int y = 0; y < cells; ++y) {
    double hot = 1.0;
    for (double& c : cold) {
      // h' = h - a (h + h' - c - c'), c' = c + b (h + h' - c - c'), with difference d = h - c:
      const double difference = hot - c;
      const double mean = 2.0 * difference / (1.0 + a + b);  // d + d'
      hot -= a * mean;
      c += b * mean;
    }
    out += hot / cells;
  }
  return 1.0 - out;
}

// Halving the cells quarters the error; extrapolated, the grid is good to 1e-6.
TEST(Effectiveness, SeriesSolvesTheCrossFlowEquations) {
  for (const double ntu : {0.3, 1.0, 4.0, 12.0})
    for (const double ratio : {0.1, 0.6, 1.0}) {
      const double coarse = unmixed_on_grid(ntu, ratio, 400);
      const double fine = unmixed_on_grid(ntu, ratio, 800);
      EXPECT_NEAR(*effectiveness(cross_unmixed, ntu, ratio), fine + (fine - coarse) / 3.0, 1e-6)
          << ntu << " " << ratio;
    }
}

// Identities of the closed forms: small N (eps -> N), C = 0 (all alike), C = 1 (both mixed cases
// alike), counter flow above all others, more N never less.
TEST(Effectiveness, KeepsTheIdentities) {
  constexpr Arrangement all[] = {counter, parallel, cross_unmixed, cross_max_mixed,
                                 cross_min_mixed};
  for (const Arrangement one : all) {
    EXPECT_EQ(*effectiveness(one, 0.0, 0.7), 0.0);
    EXPECT_NEAR(*effectiveness(one, 1e-9, 0.7), 1e-9, 1e-17);
    for (const double ntu : {0.1, 1.0, 7.0, 50.0}) {
      EXPECT_NEAR(*effectiveness(one, ntu, 0.0), 1.0 - std::exp(-ntu), 1e-15);
      EXPECT_NEAR(*effectiveness(one, ntu, 1e-14), 1.0 - std::exp(-ntu), 1e-12);
    }
    double last = 0.0;
    for (double ntu = 0.0; ntu < 60.0; ntu += 0.37)
      for (const double ratio : {0.05, 0.5, 0.999, 1.0}) {
        const double here = *effectiveness(one, ntu, ratio);
        EXPECT_LE(here, *effectiveness(counter, ntu, ratio) + 1e-14);
        EXPECT_GE(here, *effectiveness(parallel, ntu, ratio) - 1e-14);
        if (ratio == 1.0) {
          EXPECT_GE(here, last - 1e-14);
          last = here;
        }
      }
  }
  EXPECT_NEAR(*effectiveness(cross_max_mixed, 2.3, 1.0), *effectiveness(cross_min_mixed, 2.3, 1.0),
              1e-15);
  EXPECT_NEAR(*effectiveness(counter, 2.0, 1.0 - 1e-15), 2.0 / 3.0, 1e-14);
  EXPECT_NEAR(*effectiveness(counter, 2.0, 1.0 - 1e-9), 2.0 / 3.0, 1e-9);
}

TEST(Effectiveness, RefusesWhatIsNoNumberOfUnits) {
  EXPECT_FALSE(effectiveness(counter, -0.1, 0.5));
  EXPECT_FALSE(effectiveness(counter, std::nan(""), 0.5));
  EXPECT_FALSE(effectiveness(counter, infinity, 0.5));
  EXPECT_FALSE(effectiveness(counter, 1.0, 1.1));
  EXPECT_FALSE(effectiveness(counter, 1.0, std::nan("")));
  EXPECT_NE(effectiveness(counter, 1.0, 2.0).error().message.find("capacity_ratio_frac"),
            std::string::npos);
}

// Incropera, Example 11.3 (looked up: a textbook companion): gas 300 -> 100, water 1 kg/s (cp 4197)
// 35 -> 125 degC. eps = 200 / 265, C_r = 90 / 200. Exact series NTU 2.0808, A = NTU C_min / U =
// 39.30 m2 (computed); the book reads 2.1 off a chart: 3 %.
TEST(NtuOf, FindsTheAreaOfAFinnedTubeExchanger) {
  const double ntu = *ntu_of(cross_unmixed, 200.0 / 265.0, 90.0 / 200.0);
  EXPECT_NEAR(ntu, 2.0808, 0.5e-4);
  EXPECT_NEAR(ntu * (4197.0 * 90.0 / 200.0) / 100.0, 39.30, 0.005);
  EXPECT_NEAR(ntu, 2.1, 0.03 * 2.1);
}

// Cengel, Example 11-8 (from memory; agrees: computed): brine 2 kg/s (4.31 kJ/kgK) at 160 degC
// heats water 1.2 kg/s (4.18) from 20 to 80 degC: eps 0.42857, NTU 0.65236, L = 108.50 m of 15 mm
// tube.
TEST(NtuOf, FindsTheLengthOfACounterFlowExchanger) {
  const double water = 1.2 * 4180.0;
  const double ntu = *ntu_of(counter, 60.0 / 140.0, water / (2.0 * 4310.0));
  EXPECT_NEAR(ntu, 0.65236, 0.5e-5);
  EXPECT_NEAR(ntu * water / 640.0 / (3.14159265 * 0.015), 108.50, 0.02);
}

TEST(NtuOf, TurnsEffectivenessBack) {
  for (const Arrangement one : {counter, parallel, cross_unmixed, cross_max_mixed, cross_min_mixed})
    for (const double ratio : {0.0, 0.2, 0.8, 1.0})
      for (const double ntu : {0.001, 0.4, 1.7, 4.0})
        EXPECT_NEAR(*ntu_of(one, *effectiveness(one, ntu, ratio), ratio), ntu, 1e-8 * ntu);
  EXPECT_FALSE(ntu_of(parallel, 0.51, 1.0));  // parallel flow never passes 1 / (1 + C)
  EXPECT_FALSE(ntu_of(counter, 1.0, 0.0));
}

// Incropera, Example 11.4 (looked up: the same companion): gas 1.5 kg/s (cp 1000) at 250 degC,
// water 1 kg/s (cp 4197: Cr 0.357) at 35 degC, UA = 4000 W/K; eps 0.8358, q 2.695e5 W (computed,
// series).
TEST(InletConductance, GivesTheHeatOfTheFinnedTubeExchanger) {
  const double g = *inlet_conductance_w_k(
      {.arrangement = cross_unmixed, .ua_w_k = 4000.0, .air_w_k = 1500.0, .other_w_k = 4197.0});
  EXPECT_NEAR(g / 1500.0, 0.8358, 0.5e-4);
  EXPECT_NEAR(g * 215.0, 2.695e5, 50.0);
  EXPECT_NEAR(250.0 - g * 215.0 / 1500.0, 70.3, 0.05);
  EXPECT_NEAR(35.0 + g * 215.0 / 4197.0, 99.2, 0.05);
}

TEST(InletConductance, HasItsLimits) {
  const auto at = [](double ua, double air, double other) {
    return *inlet_conductance_w_k(
        {.arrangement = cross_unmixed, .ua_w_k = ua, .air_w_k = air, .other_w_k = other});
  };
  EXPECT_EQ(at(5.0, 0.0, 10.0), 0.0);
  EXPECT_EQ(at(5.0, 10.0, 0.0), 0.0);
  EXPECT_EQ(at(0.0, 10.0, 10.0), 0.0);
  EXPECT_NEAR(at(5.0, 8.0, infinity), 8.0 * (1.0 - std::exp(-5.0 / 8.0)), 1e-13);
  EXPECT_NEAR(at(5.0, 1e-200, 30.0), 1e-200,
              1e-212);  // all the little air can take
  EXPECT_NEAR(at(5.0, 8.0, 30.0), at(5.0, 30.0, 8.0), 1e-14);
}

// By hand: 10 W/K at 0.02 m3/s, m 0.5; at 0.08 twice that, 20; with 20 in series 10.
TEST(UaAt, FollowsTheFlow) {
  AirSide side{.reference_ua_w_k = 10.0, .reference_flow_m3_s = 0.02, .exponent = 0.5};
  EXPECT_NEAR(*ua_at_w_k(side, 0.08), 20.0, 1e-13);
  side.series_w_k = 20.0;
  EXPECT_NEAR(*ua_at_w_k(side, 0.08), 10.0, 1e-13);
  EXPECT_EQ(*ua_at_w_k(side, 0.0), 0.0);
  side.exponent = 0.0;
  EXPECT_NEAR(*ua_at_w_k(side, 0.0), 1.0 / (0.1 + 0.05), 1e-13);
  EXPECT_FALSE(ua_at_w_k(side, -1.0));
  side.reference_flow_m3_s = 0.0;
  EXPECT_FALSE(ua_at_w_k(side, 0.02));
}

// By hand: R = 1 / (eps C) with eps = 1 - e^-2 and C = 5 came from UA = 10.
TEST(UaOfResistance, TurnsAStatedResistanceBack) {
  const double resistance = 1.0 / (5.0 * (1.0 - std::exp(-2.0)));
  EXPECT_NEAR(*ua_of_resistance_w_k(resistance, 5.0), 10.0, 1e-12);
  EXPECT_FALSE(ua_of_resistance_w_k(0.2, 5.0));  // the air would leave as hot as the base
  EXPECT_FALSE(ua_of_resistance_w_k(0.1, 5.0));
  EXPECT_FALSE(ua_of_resistance_w_k(0.3, 0.0));
}

// By hand, 100 W, air at 30: liquid 50 W/K, exchanger 25 W/K between inlets: hot liquid 34, cold
// 32; plate 20 W/K: source at 37. So 100 / 7 W/K.
TEST(LoopConductance, AddsPlateAndExchangerLessTheLiquidsOwnStep) {
  EXPECT_NEAR(*loop_conductance_w_k(20.0, 25.0, 50.0), 100.0 / 7.0, 1e-12);
  EXPECT_FALSE(loop_conductance_w_k(20.0, 60.0, 50.0));
}

// Check values C5. The trade's rule CFM = 1.76 W / K (looked up: a maker's FAQ), 2 %; exact with
// the air of 20 degC 1.7476, of 25 degC 1.7772 (computed).
TEST(AirHeat, KeepsTheRuleOfSensibleHeat) {
  constexpr double cfm_m3_s = 4.719474e-4;  // exact definition
  const auto cfm_k_per_w = [&](const AirHeat& air) { return 1.0 / air.capacity_w_k(cfm_m3_s); };
  EXPECT_NEAR(cfm_k_per_w({.density_kg_m3 = 1.204}), 1.7476, 0.5e-4);
  EXPECT_NEAR(cfm_k_per_w({}), 1.7772, 0.5e-4);
  EXPECT_NEAR(cfm_k_per_w({}), 1.76, 0.02 * 1.76);
}

}  // namespace
}  // namespace rigproof::air
