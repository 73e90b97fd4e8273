// Gauss-Legendre over the correlation; see normal.hpp.
#include "analysis/forecast/normal.hpp"

#include <algorithm>
#include <limits>
#include <span>

namespace rigproof::forecast {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double two_pi = 2.0 * pi;
constexpr double extreme_from = 0.925;  // [genz-2004]: the change of method
// Beyond this Phi differs from 0 or 1 by 1.2e-19, less than the rounding of 1.
constexpr double far = 9.0;

// Positive halves of the Gauss-Legendre nodes on [-1, 1] and their weights.
// Computed with mpmath 1.3 at 30 digits from the roots of P6, P12, P20 and 2 / ((1 - x^2) P'^2).
struct HalfPoint {
  double x, weight;
};
constexpr std::array<HalfPoint, 3> points_6{{{0.932469514203152028, 0.171324492379170345},
                                             {0.661209386466264514, 0.360761573048138608},
                                             {0.238619186083196909, 0.467913934572691047}}};
constexpr std::array<HalfPoint, 6> points_12{{{0.981560634246719251, 0.0471753363865118272},
                                              {0.904117256370474857, 0.106939325995318431},
                                              {0.769902674194304687, 0.160078328543346226},
                                              {0.587317954286617447, 0.203167426723065922},
                                              {0.367831498998180194, 0.233492536538354809},
                                              {0.125233408511468915, 0.249147045813402785}}};
constexpr std::array<HalfPoint, 10> points_20{{{0.993128599185094925, 0.0176140071391521183},
                                               {0.963971927277913791, 0.0406014298003869413},
                                               {0.912234428251325906, 0.0626720483341090636},
                                               {0.839116971822218823, 0.0832767415767047487},
                                               {0.746331906460150793, 0.101930119817240435},
                                               {0.636053680726515025, 0.118194531961518417},
                                               {0.510867001950827098, 0.131688638449176627},
                                               {0.373706088715419561, 0.142096109318382051},
                                               {0.227785851141645078, 0.149172986472603747},
                                               {0.0765265211334973338, 0.152753387130725851}}};

std::span<const HalfPoint> points_for(double r) {
  const double size = std::abs(r);
  if (size < 0.3) return points_6;
  if (size < 0.75) return points_12;
  return points_20;
}

// Phi(to) - Phi(from) without losing digits on either side; from <= to.
double between(double from, double to) {
  return from < 0.0 ? normal_cdf(to) - normal_cdf(from) : normal_cdf(-from) - normal_cdf(-to);
}

// Left half only: 0 < p <= 1/2.
double left_quantile(double p) {
  const double t = std::sqrt(-2.0 * std::log(p));
  double x = (2.515517 + t * (0.802853 + t * 0.010328)) /
                 (1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308))) -
             t;
  for (int step = 0; step < 3; ++step) {
    const double density = normal_density(x);
    if (!(density > 0.0)) break;
    const double newton = (normal_cdf(x) - p) / density;
    x -= newton / (1.0 + 0.5 * x * newton);
  }
  return x;
}

}  // namespace

double normal_quantile(double p) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  if (p <= 0.0) return -infinity;
  if (p >= 1.0) return infinity;
  return p <= 0.5 ? left_quantile(p) : -left_quantile(1.0 - p);
}

NormalPair::NormalPair(double r)
    : r_(std::clamp(r, -1.0, 1.0)),
      rest_(std::sqrt((1.0 - r_) * (1.0 + r_))),
      is_extreme_(std::abs(r_) >= extreme_from) {
  if (is_extreme_ || r_ == 0.0) return;
  const double angle = std::asin(r_);
  for (const HalfPoint& point : points_for(r_)) {
    for (const double side : {-1.0, 1.0}) {
      const double sine = std::sin(0.5 * angle * (1.0 + side * point.x));
      nodes_[static_cast<std::size_t>(points_++)] = {
          .sine = sine,
          .inv_cos_sq = 1.0 / ((1.0 - sine) * (1.0 + sine)),
          .weight = point.weight * angle / (2.0 * two_pi)};
    }
  }
}

double NormalPair::both_below(double h, double k) const {
  if (h < -far || k < -far) return 0.0;
  if (h > far) return normal_cdf(k);
  if (k > far) return normal_cdf(h);
  const double p = is_extreme_ ? extreme(h, k) : moderate(h, k);
  return std::clamp(p, 0.0, 1.0);
}

double NormalPair::moderate(double h, double k) const {
  const double half_squares = 0.5 * (h * h + k * k);
  const double product = h * k;
  double sum = 0.0;
  for (int i = 0; i < points_; ++i) {
    const Node& node = nodes_[static_cast<std::size_t>(i)];
    sum += node.weight * std::exp((node.sine * product - half_squares) * node.inv_cos_sq);
  }
  return sum + normal_cdf(h) * normal_cdf(k);
}

// [genz-2004] for |r| near 1, for P(X > h, Y > k), which is both_below(-h, -k).
double NormalPair::extreme(double below_h, double below_k) const {
  const double h = -below_h;
  const double k = r_ < 0.0 ? below_k : -below_k;
  const double hk = h * k;
  double sum = 0.0;
  if (rest_ > 0.0) {
    const double as = rest_ * rest_;
    const double bs = (h - k) * (h - k);
    const double c = (4.0 - hk) / 8.0;
    const double d = (12.0 - hk) / 16.0;
    sum = rest_ * std::exp(-0.5 * (bs / as + hk)) *
          (1.0 - c * (bs - as) * (1.0 - d * bs / 5.0) / 3.0 + c * d * as * as / 5.0);
    if (hk > -100.0) {
      const double b = std::sqrt(bs);
      sum -= std::exp(-0.5 * hk) * std::sqrt(two_pi) * normal_cdf(-b / rest_) * b *
             (1.0 - c * bs * (1.0 - d * bs / 5.0) / 3.0);
    }
    const double half = 0.5 * rest_;
    for (const HalfPoint& point : points_20) {
      for (const double side : {-1.0, 1.0}) {
        const double x = half * (1.0 + side * point.x);
        const double xs = x * x;
        const double rs = std::sqrt(1.0 - xs);
        const double exponent = -0.5 * (bs / xs + hk);
        if (exponent < -100.0) continue;
        sum += half * point.weight * std::exp(exponent) *
               (std::exp(-0.5 * hk * xs / ((1.0 + rs) * (1.0 + rs))) / rs -
                (1.0 + c * xs * (1.0 + d * xs)));
      }
    }
    sum = -sum / two_pi;
  }
  if (r_ > 0.0) return sum + normal_cdf(-std::max(h, k));
  return k > h ? between(h, k) - sum : -sum;
}

NormalPair::Gradient NormalPair::gradient(double h, double k) const {
  // Given X = h, Y is normal with mean r h and deviation rest_; at rest_ = 0 it is one point.
  const auto given = [this](double at, double other) {
    const double gap = other - r_ * at;
    if (rest_ > 0.0) return normal_cdf(gap / rest_);
    return gap > 0.0 ? 1.0 : (gap < 0.0 ? 0.0 : 0.5);
  };
  return {.by_h = normal_density(h) * given(h, k), .by_k = normal_density(k) * given(k, h)};
}

}  // namespace rigproof::forecast
