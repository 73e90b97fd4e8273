// Losses of a supply by its certified efficiency level: equation (P9) of README.md.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace rigproof::power {

enum class Mains { v115, v230 };

/// One certified point: at this share of the rating at least this efficiency.
struct CertifiedPoint {
  double load_frac;
  double efficiency_frac;
};

/// The points of a level (`psu.efficiency`: standard, bronze ... titanium) at a mains voltage,
/// rising loads; at most four. None for another word. Source: [eighty-plus] program table, looked
/// up.
struct CertifiedPoints {
  std::array<CertifiedPoint, 4> points{};
  std::size_t count = 0;
};
[[nodiscard]] CertifiedPoints certified_points(std::string_view level, Mains mains);

/// Loss of a supply of rating R at a load P in W: c0 + c1 P + c2 P^2 through three neighboring
/// points. Certified efficiencies are minima, so it is the most that a certified unit may lose.
class LossCurve {
 public:
  /// Nothing for an unknown level. Contract: rated_w > 0.
  static std::optional<LossCurve> make(std::string_view level, Mains mains, double rated_w);

  /// The load of the lowest point: below it nothing is certified.
  [[nodiscard]] double lowest_w() const { return lowest_w_; }
  /// (P9) from the lowest certified load to the rating; beyond the rating it is continued. Below
  /// the lowest load: the loss there, which is a bound, since losses grow with the load.
  [[nodiscard]] double most_loss_w(double load_w) const;
  /// The three coefficients that hold at this load.
  [[nodiscard]] std::array<double, 3> coefficients(double load_w) const;

 private:
  std::array<double, 3> low_{};   // up to the third point
  std::array<double, 3> high_{};  // from there on; the same where there are three points
  double lowest_w_ = 0.0;
  double joint_w_ = 0.0;
};

}  // namespace rigproof::power
