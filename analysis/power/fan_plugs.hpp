// The best way to plug case fans into headers and hubs: the one that leaves most on the outlet that
// is left with least.
#pragma once

#include <limits>
#include <span>

namespace rigproof::power {

/// Fans that are alike: one model, or those of one place of the case.
struct FanGroup {
  double current_a = 0.0;  ///< each of them, steady
  int count = 0;
  bool chains = false;  ///< any number of them hang on one another and share one plug
};

/// What feeds several fans from one place.
struct FanHub {
  double gives_a = 0.0;  ///< all its outputs together; +inf: more than is ever asked
  int outputs = 0;
  bool on_header = false;  ///< fed by a fan header of the board, which it takes once it is used
};

struct FanHeaders {
  int count = 0;
  double gives_a = 0.0;  ///< each of them
};

/// Hubs beyond these many pieces are not used.
inline constexpr int most_fan_hubs = 2;
/// Groups beyond these many do not fit any plug.
inline constexpr int most_fan_groups = 16;

struct FanPlugging {
  bool possible = false;  ///< every fan has a plug
  /// Over all ways to plug them, the most that is left on the tightest outlet; negative:
  /// overloaded.
  double left_a = -std::numeric_limits<double>::infinity();
};

/// Exact: every way to put fans on hubs is tried; a fan that does not chain has a header to itself;
/// a chain is split over the headers left, the next header always to the chain with the largest
/// share, which is the best split (README (P6)).
/// In: currents and gives >= 0, not NaN; counts >= 0.
[[nodiscard]] FanPlugging plug_fans(std::span<const FanGroup> groups, const FanHeaders& headers,
                                    std::span<const FanHub> hubs);

}  // namespace rigproof::power
