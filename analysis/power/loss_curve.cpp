#include "analysis/power/loss_curve.hpp"

#include <algorithm>
#include <span>

#include "base/contract.hpp"

namespace rigproof::power {
namespace {

struct Level {
  std::string_view name;
  std::array<double, 3> v115;  // at 20, 50 and 100 % of the rating
  std::array<double, 3> v230;
};
// [eighty-plus], looked up in a page that prints the whole table; internal supplies, 115 V and 230
// V EU.
constexpr std::array levels = {
    Level{"standard", {0.80, 0.80, 0.80}, {0.82, 0.85, 0.82}},
    Level{"bronze", {0.82, 0.85, 0.82}, {0.85, 0.88, 0.85}},
    Level{"silver", {0.85, 0.88, 0.85}, {0.87, 0.90, 0.87}},
    Level{"gold", {0.87, 0.90, 0.87}, {0.90, 0.92, 0.89}},
    Level{"platinum", {0.90, 0.92, 0.89}, {0.92, 0.94, 0.90}},
    Level{"titanium", {0.92, 0.94, 0.90}, {0.94, 0.96, 0.94}},
};
constexpr std::array load_fracs = {0.2, 0.5, 1.0};
// The one level that is certified at a tenth of the rating as well.
constexpr std::string_view lowest_level = "titanium";
constexpr CertifiedPoint tenth{0.1, 0.90};

// The parabola through three points of the loss, by divided differences (Newton).
std::array<double, 3> through(std::span<const CertifiedPoint, 3> points, double rated_w) {
  std::array<double, 3> x{};
  std::array<double, 3> y{};
  for (std::size_t i = 0; i < 3; ++i) {
    x[i] = points[i].load_frac * rated_w;
    y[i] = x[i] * (1.0 / points[i].efficiency_frac - 1.0);
  }
  const double first = (y[1] - y[0]) / (x[1] - x[0]);
  const double second = ((y[2] - y[1]) / (x[2] - x[1]) - first) / (x[2] - x[0]);
  return {y[0] - first * x[0] + second * x[0] * x[1], first - second * (x[0] + x[1]), second};
}

}  // namespace

CertifiedPoints certified_points(std::string_view level, Mains mains) {
  CertifiedPoints out;
  const auto found = std::ranges::find(levels, level, &Level::name);
  if (found == levels.end()) return out;
  if (level == lowest_level) out.points[out.count++] = tenth;
  const auto& efficiencies = mains == Mains::v115 ? found->v115 : found->v230;
  for (std::size_t i = 0; i < load_fracs.size(); ++i)
    out.points[out.count++] = {load_fracs[i], efficiencies[i]};
  return out;
}

std::optional<LossCurve> LossCurve::make(std::string_view level, Mains mains, double rated_w) {
  RP_EXPECT(rated_w > 0.0);
  const CertifiedPoints certified = certified_points(level, mains);
  if (certified.count < 3) return {};
  const std::span points(certified.points);
  LossCurve curve;
  curve.low_ = through(points.first<3>(), rated_w);
  curve.high_ = certified.count == 4 ? through(points.last<3>(), rated_w) : curve.low_;
  curve.lowest_w_ = points[0].load_frac * rated_w;
  // The two parabolas of four points share the middle two; they change over at the first of these.
  curve.joint_w_ = points[1].load_frac * rated_w;
  return curve;
}

std::array<double, 3> LossCurve::coefficients(double load_w) const {
  return load_w < joint_w_ ? low_ : high_;
}

double LossCurve::most_loss_w(double load_w) const {
  const double at_w = std::max(load_w, lowest_w_);
  const auto& c = at_w < joint_w_ ? low_ : high_;
  return c[0] + c[1] * at_w + c[2] * at_w * at_w;
}

}  // namespace rigproof::power
