// The normal distribution in one and two dimensions, as frame times need it: exact to rounding,
// free of allocation, and quick when many points share one correlation.
#pragma once

#include <array>
#include <cmath>
#include <numbers>

namespace rigproof::forecast {

/// Phi(x) = P(X <= x). Relative error about 1e-15 also far out on the left (it is erfc, not 1 -
/// erf).
[[nodiscard]] inline double normal_cdf(double x) {
  return 0.5 * std::erfc(-x * (0.5 * std::numbers::sqrt2));
}

[[nodiscard]] inline double normal_density(double x) {
  return 0.5 * std::numbers::inv_sqrtpi * std::numbers::sqrt2 * std::exp(-0.5 * x * x);
}

/// The x with Phi(x) = p. In: 0 < p < 1 (0 and 1 give the infinities). Error below 1e-13 for
/// p in [1e-300, 1 - 1e-12]: a rational first guess (4.5e-4), then three Halley steps.
/// Source: [abramowitz-stegun-1964] 26.2.23 for the guess.
[[nodiscard]] double normal_quantile(double p);

/// Two standard normals with a fixed correlation.
///
/// P(X <= h, Y <= k) is Phi(h) Phi(k) plus an integral over the correlation from 0 to r, taken with
/// 6, 12 or 20 Gauss-Legendre points; above |r| = 0.925 the integral is taken from +-1 inward,
/// with the singular part removed in closed form. What depends on r alone is done once, here.
///
/// In:     r in [-1, 1]; h, k any, infinities too.
/// Error:  below 1e-14 absolute (found against 30-digit values and identities; Genz states 1e-15).
/// Source: [drezner-wesolowsky-1990]; [genz-2004], the bivariate part.
class NormalPair {
 public:
  explicit NormalPair(double r);

  [[nodiscard]] double correlation() const { return r_; }
  /// P(X <= h, Y <= k).
  [[nodiscard]] double both_below(double h, double k) const;
  /// The derivatives of both_below. h and k finite.
  struct Gradient {
    double by_h;
    double by_k;
  };
  [[nodiscard]] Gradient gradient(double h, double k) const;

 private:
  [[nodiscard]] double moderate(double h, double k) const;  // |r| < 0.925
  [[nodiscard]] double extreme(double h, double k) const;

  double r_;
  double rest_;  ///< sqrt(1 - r^2)
  bool is_extreme_;
  int points_ = 0;
  struct Node {
    double sine = 0.0;        ///< of the angle whose sine is a correlation between 0 and r
    double inv_cos_sq = 0.0;  ///< 1 / (1 - sine^2)
    double weight = 0.0;      ///< the factor asin(r) / (4 pi) is in it
  };
  std::array<Node, 20> nodes_;
};

}  // namespace rigproof::forecast
