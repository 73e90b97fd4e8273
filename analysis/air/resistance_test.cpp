// Resistances against closed forms and printed values.
#include "analysis/air/resistance.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/contract.hpp"

namespace rigproof::air {
namespace {

// ISO 5167 limit Cd 0.61 (textbook); worked: A 0.01 m2, dp 5 Pa, rho 1.204: 0.017580 m3/s
// (computed). Rounding.
TEST(Orifice, WorkedExample) {
  const auto r = orifice({.area_m2 = 0.01, .density_kg_m3 = 1.204, .discharge_frac = 0.61});
  ASSERT_TRUE(r);
  EXPECT_NEAR(flow_m3_s(*r, 5.0), 0.017580, 0.5e-6);
  EXPECT_NEAR(drop_pa(*r, flow_m3_s(*r, 5.0)), 5.0, 1e-12);
  EXPECT_EQ(r->linear_pa_s_m3, 0.0);
}

// Idelchik, diagram 8-1 (formula from memory; values computed). Rounding of the printed digits.
TEST(PerforatedPlate, PrintedValues) {
  struct Row {
    double open_frac, zeta, half_digit;
  };
  for (const Row& row : {Row{0.2, 51.291, 5e-4}, Row{0.3, 18.534, 5e-4}, Row{0.4, 8.232, 5e-4},
                         Row{0.5, 3.9994, 5e-5}, Row{0.6, 1.9935, 5e-5}, Row{0.7, 0.9639, 5e-5},
                         Row{0.8, 0.4163, 5e-5}, Row{0.9, 0.1293, 5e-5}}) {
    const auto r =
        perforated_plate({.area_m2 = 1.0, .open_frac = row.open_frac, .density_kg_m3 = 2.0});
    ASSERT_TRUE(r);  // at 1 m2 and 2 kg/m3, b is zeta
    EXPECT_NEAR(r->square_pa_s2_m6, row.zeta, row.half_digit) << row.open_frac;
  }
}

// Same source; 120 mm square vent, f 0.6, 0.02 m3/s, rho 1.204: 2.315 Pa (computed). Rounding.
TEST(PerforatedPlate, WorkedVent) {
  const auto r =
      perforated_plate({.area_m2 = 0.12 * 0.12, .open_frac = 0.6, .density_kg_m3 = 1.204});
  ASSERT_TRUE(r);
  EXPECT_NEAR(drop_pa(*r, 0.02), 2.315, 0.5e-3);
  EXPECT_NEAR(drop_pa(*r, -0.02), -2.315, 0.5e-3);
}

// By hand: the same vent, 3 mm holes: speed in the holes 1.38889 / 0.6 = 2.31481 m/s,
// Re = 1.204 x 2.31481 x 0.003 / 1.825e-5 = 458.1. Far below the 1e5 that the formula asks for.
TEST(PerforatedPlate, ReynoldsNumberOfAVentIsBelowTheRange) {
  EXPECT_NEAR(hole_reynolds({.flow_m3_s = 0.02,
                             .area_m2 = 0.0144,
                             .open_frac = 0.6,
                             .hole_m = 0.003,
                             .density_kg_m3 = 1.204,
                             .viscosity_pa_s = 1.825e-5}),
              458.1, 0.1);
  EXPECT_THROW((void)hole_reynolds({.flow_m3_s = 1,
                                    .area_m2 = 0,
                                    .open_frac = 1,
                                    .hole_m = 1,
                                    .density_kg_m3 = 1,
                                    .viscosity_pa_s = 1}),
               ContractViolation);
}

// By hand: 8 Pa at 0.02 m3/s, n = 1.25: square part 2 Pa, linear 6 Pa: a = 300, b = 5000.
// At the point d ln dp / d ln Q = (6 + 2 x 2) / 8 = 1.25.
TEST(MeasuredFilter, SplitsOnePoint) {
  const auto r = measured({.flow_m3_s = 0.02, .drop_pa = 8.0, .exponent = 1.25});
  ASSERT_TRUE(r);
  EXPECT_DOUBLE_EQ(r->linear_pa_s_m3, 300.0);
  EXPECT_DOUBLE_EQ(r->square_pa_s2_m6, 5000.0);
  EXPECT_DOUBLE_EQ(drop_pa(*r, 0.02), 8.0);
  EXPECT_DOUBLE_EQ(drop_pa(*r, 0.01), 3.5);  // 3 + 0.5
  EXPECT_EQ(measured({.flow_m3_s = 1, .drop_pa = 1, .exponent = 1})->square_pa_s2_m6, 0.0);
  EXPECT_EQ(measured({.flow_m3_s = 1, .drop_pa = 1, .exponent = 2})->linear_pa_s_m3, 0.0);
}

// By hand: at equal drop each of 3 ways carries a third.
TEST(Resistance, SeriesAndParallel) {
  const Resistance one{.linear_pa_s_m3 = 30, .square_pa_s2_m6 = 900};
  const Resistance two{.linear_pa_s_m3 = 5, .square_pa_s2_m6 = 100};
  EXPECT_EQ(drop_pa(in_series(one, two), 0.5), 35 * 0.5 + 1000 * 0.25);
  const auto three = in_parallel(one, 3);
  ASSERT_TRUE(three);
  EXPECT_EQ(three->linear_pa_s_m3, 10);
  EXPECT_EQ(three->square_pa_s2_m6, 100);
  EXPECT_NEAR(drop_pa(*three, 0.3), drop_pa(one, 0.1), 1e-12);
  EXPECT_FALSE(in_parallel(one, 0));
  EXPECT_FALSE(in_parallel(one, 10001));
}

TEST(Resistance, FlowUndoesDrop) {
  for (const double a : {0.0, 1e-3, 50.0, 1e9})
    for (const double b : {0.0, 1e-3, 4e4, 1e12})
      for (const double q : {-1.0, -1e-6, 0.0, 1e-9, 1e-3, 1.0}) {
        if (a + b == 0.0) continue;
        const Resistance r{.linear_pa_s_m3 = a, .square_pa_s2_m6 = b};
        // A few roundings of both functions.
        EXPECT_NEAR(flow_m3_s(r, drop_pa(r, q)), q, 1e-14 * std::abs(q));
      }
  EXPECT_THROW((void)flow_m3_s({}, 1.0), ContractViolation);
}

TEST(Resistance, RefusesWhatIsOutOfRange) {
  const double nan = std::nan("");
  for (const double bad : {0.0, -1.0, 101.0, nan}) {
    EXPECT_FALSE(orifice({.area_m2 = bad, .density_kg_m3 = 1.2}));
    EXPECT_FALSE(perforated_plate({.area_m2 = bad, .open_frac = 0.5, .density_kg_m3 = 1.2}));
    EXPECT_FALSE(orifice({.area_m2 = 0.01, .density_kg_m3 = bad}));
    EXPECT_FALSE(perforated_plate({.area_m2 = 0.01, .open_frac = 0.5, .density_kg_m3 = bad}));
    EXPECT_FALSE(measured({.flow_m3_s = bad, .drop_pa = 1}));
  }
  for (const double bad : {0.0, -1.0, 1.01, nan}) {
    EXPECT_FALSE(orifice({.area_m2 = 0.01, .density_kg_m3 = 1.2, .discharge_frac = bad}));
    EXPECT_FALSE(perforated_plate({.area_m2 = 0.01, .open_frac = bad, .density_kg_m3 = 1.2}));
  }
  for (const double bad : {0.0, -1.0, 1e7, nan})
    EXPECT_FALSE(measured({.flow_m3_s = 1, .drop_pa = bad}));
  for (const double bad : {0.99, 2.01, nan})
    EXPECT_FALSE(measured({.flow_m3_s = 1, .drop_pa = 1, .exponent = bad}));
}

}  // namespace
}  // namespace rigproof::air
