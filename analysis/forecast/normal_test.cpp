// Oracles: 30-digit values from outside, closed forms (Sheppard 1899), identities of the plane.
#include "analysis/forecast/normal.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace rigproof::forecast {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// Correlations on both sides of every change of method (0.3, 0.75, 0.925) and at the ends.
constexpr double correlations[] = {
    -1.0,  -0.999999, -0.99, -0.926, -0.924, -0.76, -0.74, -0.31, -0.29, -0.01, 0.0,         0.2,
    0.299, 0.301,     0.5,   0.749,  0.751,  0.9,   0.924, 0.926, 0.95,  0.99,  0.999999999, 1.0};
constexpr double places[] = {-8.0, -3.3, -1.2, -0.4, 0.0, 0.3, 1.1, 2.4, 4.0, 8.5};

// Printed in every table of the normal distribution; more digits computed: mpmath 1.3, 30 digits,
// -sqrt(2) erfinv(1 - 2p).
TEST(NormalQuantile, MatchesTabledValues) {
  EXPECT_NEAR(normal_quantile(0.975), 1.959963984540054, 1e-14);
  EXPECT_NEAR(normal_quantile(0.99), 2.326347874040841, 1e-14);
  EXPECT_NEAR(normal_quantile(0.01), -2.326347874040841, 1e-14);
  EXPECT_NEAR(normal_quantile(0.999), 3.090232306167813, 1e-13);
  EXPECT_NEAR(normal_quantile(0.5), 0.0, 1e-16);
  EXPECT_EQ(normal_quantile(0.0), -infinity);
  EXPECT_EQ(normal_quantile(1.0), infinity);
}

TEST(NormalQuantile, UndoesTheDistributionFarIntoTheTail) {
  for (const double p : {1e-300, 1e-100, 1e-20, 1e-6, 0.02, 0.3, 0.4999}) {
    EXPECT_NEAR(normal_cdf(normal_quantile(p)) / p, 1.0, 1e-12) << p;
  }
}

// Computed outside: mpmath 1.3 at 30 digits, P = integral over u <= h of phi(u) Phi((k - r u) /
// sqrt(1 - r^2)) by its adaptive tanh-sinh quadrature, intervals split about u = k / r.
TEST(NormalPair, MatchesThirtyDigitValues) {
  struct Row {
    double h, k, r, p;
  };
  for (const Row& row :
       {Row{0.5, 0.25, 0.3, 0.4560805666636964}, Row{1.2, -0.7, -0.6, 0.16790840375005791},
        Row{-1.5, -2.0, 0.8, 0.0165059294978098438}, Row{2.0, 2.5, 0.95, 0.977015132523915429},
        Row{0.1, -0.1, 0.99, 0.45816372763619911}, Row{1.0, 1.0, -0.99, 0.682689492137085897},
        Row{2.3, 2.4, -0.95, 0.981078354053728065}, Row{-0.3, 0.4, 0.9999, 0.382088577811047363},
        Row{3.0, -3.0, 0.5, 0.00134989796015507271},
        Row{-4.0, -4.0, 0.97, 0.0000190718440819475111}, Row{0.7, 0.7, 0.93, 0.711286964986712037},
        Row{5.0, 1.0, -0.3, 0.841344460486867952}}) {
    EXPECT_NEAR(NormalPair(row.r).both_below(row.h, row.k), row.p, 3e-15)
        << row.h << ' ' << row.k << ' ' << row.r;
  }
}

// [sheppard-1899]: P(X <= 0, Y <= 0) = 1/4 + asin(r) / (2 pi).
TEST(NormalPair, SheppardAtTheOrigin) {
  for (const double r : correlations) {
    const double expected = 0.25 + std::asin(r) / (2.0 * std::acos(-1.0));
    EXPECT_NEAR(NormalPair(r).both_below(0.0, 0.0), expected, 1e-15) << r;
  }
}

TEST(NormalPair, IndependentAndCompleteLimits) {
  const NormalPair independent(0.0), together(1.0), against(-1.0);
  for (const double h : places) {
    for (const double k : places) {
      EXPECT_NEAR(independent.both_below(h, k), normal_cdf(h) * normal_cdf(k), 1e-16);
      EXPECT_NEAR(together.both_below(h, k), std::min(normal_cdf(h), normal_cdf(k)), 1e-16);
      EXPECT_NEAR(against.both_below(h, k), std::max(0.0, normal_cdf(h) + normal_cdf(k) - 1.0),
                  3e-16);
    }
  }
}

TEST(NormalPair, IdentitiesOfThePlane) {
  for (const double r : correlations) {
    const NormalPair pair(r), mirrored(-r);
    for (const double h : places) {
      EXPECT_NEAR(pair.both_below(h, infinity), normal_cdf(h), 1e-16);
      EXPECT_EQ(pair.both_below(h, -infinity), 0.0);
      for (const double k : places) {
        const double p = pair.both_below(h, k);
        EXPECT_NEAR(pair.both_below(k, h), p, 1e-15) << h << ' ' << k << ' ' << r;
        // {X <= h} is split by Y at k; (X, -Y) has correlation -r.
        EXPECT_NEAR(p + mirrored.both_below(h, -k), normal_cdf(h), 3e-15)
            << h << ' ' << k << ' ' << r;
        // Frechet bounds.
        EXPECT_LE(p, std::min(normal_cdf(h), normal_cdf(k)) + 1e-15);
        EXPECT_GE(p, normal_cdf(h) + normal_cdf(k) - 1.0 - 1e-15);
      }
    }
  }
}

// The methods must meet where they change, up to the true change with r (at most 0.16 / rest x dr).
TEST(NormalPair, MethodsMeetWhereTheyChange) {
  for (const double r : {0.3, 0.75, 0.925, -0.3, -0.75, -0.925}) {
    for (const double h : places) {
      for (const double k : places) {
        EXPECT_NEAR(NormalPair(r * (1 - 1e-15)).both_below(h, k),
                    NormalPair(r * (1 + 1e-15)).both_below(h, k), 4e-15)
            << h << ' ' << k << ' ' << r;
      }
    }
  }
}

// Central difference of the value: error about step^2 plus 1e-15 / step.
TEST(NormalPair, GradientIsTheDerivative) {
  constexpr double step = 1e-4;
  for (const double r : {-0.95, -0.5, 0.0, 0.6, 0.95}) {
    const NormalPair pair(r);
    for (const double h : {-1.5, 0.2, 2.0}) {
      for (const double k : {-0.7, 0.4, 2.3}) {
        const auto [by_h, by_k] = pair.gradient(h, k);
        const double rise_h = pair.both_below(h + step, k) - pair.both_below(h - step, k);
        const double rise_k = pair.both_below(h, k + step) - pair.both_below(h, k - step);
        EXPECT_NEAR(by_h, rise_h / (2.0 * step), 2e-7) << h << ' ' << k << ' ' << r;
        EXPECT_NEAR(by_k, rise_k / (2.0 * step), 2e-7) << h << ' ' << k << ' ' << r;
      }
    }
  }
}

}  // namespace
}  // namespace rigproof::forecast
