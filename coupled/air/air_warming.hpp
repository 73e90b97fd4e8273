// How a build warms after a load has begun and cools after it ends: over time, until it is warm,
// and until a part slows itself down. Its fans turn at one speed, or follow a temperature.
// Equations (B16) to (B18) and (B22) of README.md.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "coupled/air/air_state.hpp"

namespace rigproof::coupled {

/// A body that stores heat and is warm some time later.
enum class Warmed : std::size_t { cpu, gpu, coolant };
inline constexpr std::array all_warmed = {Warmed::cpu, Warmed::gpu, Warmed::coolant};

struct WarmingOf {
  std::vector<double> temp_c;  ///< at Warming::time_s, middle draw
  /// From when on it is within settled_k of where it ends; absent: a draw did not close.
  Draws settled_s = Draws::absent();
  double limit_c = no_limit_c;  ///< middle draw: what it slows down at
  /// When it first is that hot with all the power that the load asks; none where it never is.
  std::optional<double> slows_after_s;
};
inline constexpr double settled_k = 1.0;

struct Warming {
  std::vector<double> time_s;
  std::vector<FanSpeeds> speeds;  ///< one for each time; empty: they stay as they are
  std::array<std::optional<WarmingOf>, all_warmed.size()> of;  ///< none: not there
  [[nodiscard]] const std::optional<WarmingOf>& operator[](Warmed which) const {
    return of[static_cast<std::size_t>(which)];
  }
};

/// A load with the fans at these speeds, which with settings are those that it ends at.
struct Running {
  const AirCase* of = nullptr;
  FanSpeeds speeds;
  const FanSettings* settings = nullptr;  ///< null: they stay as they are
};

/// From `before`, held until nothing changes, to `after`; without `before` all is as cold as the
/// room. Absent cells are noted in `m`. None where the middle draw's balances did not close.
[[nodiscard]] std::optional<Warming> warming(const Facts& facts, const Running* before,
                                             const Running& after, Measure& m);

}  // namespace rigproof::coupled
