// The margin bar of a claim in fractions of its limit: what is drawn, before anyone draws it.
// 0 is the limit; room left is positive and grows to the right, overshoot negative.
#pragma once

#include <optional>

#include "claims/claim.hpp"

namespace rigproof::sheet {

/// All bars share one scale: from a fifth of the limit over it to two fifths of room.
inline constexpr double bar_low_frac = -0.20;
inline constexpr double bar_high_frac = 0.40;

struct Spread {
  double low = 0.0, high = 0.0;
};
/// The 90 % interval of a number; nullopt when it is certain.
[[nodiscard]] std::optional<Spread> spread_of(const Quantity& quantity);

struct MarginBar {
  std::optional<double> middle;    ///< absent: nothing to draw (unknown, or a matter of yes and no)
  std::optional<Spread> spread;    ///< 90 % interval; absent when certain
  std::optional<double> measured;  ///< room left by what was measured
  bool unknown = false;
};

/// The interval and the measured value are put on the scale of margin_frac: fraction = margin in
/// its unit over the limit's size, that size being margin / margin_frac, or |limit| when the margin
/// is 0. Equality limits have no measured mark: which side is room is not known.
[[nodiscard]] MarginBar margin_bar(const Claim& claim);

}  // namespace rigproof::sheet
