// The quietest speed that keeps every limit, common to all fans that no setting steers: equation
// (B9) of README.md.
#pragma once

#include "coupled/air/air_steering.hpp"

namespace rigproof::coupled {

/// Kelvin that the fans are kept from letting a part come to where it slows itself down; ours.
inline constexpr double margin_k = 5.0;

/// What a speed has to keep.
struct Limits {
  SpeedLimits middle;      ///< by the middle draw, with nothing slowed down
  SpeedLimits every_draw;  ///< those of the brief alone
};
[[nodiscard]] Limits limits_of(const Brief& brief, const AirCase& of, power::Load load);
/// Infinity where the brief has no such limit under this load.
[[nodiscard]] double brief_limit_c(const Brief& brief, Watched which, power::Load load);

/// The speeds it may come to: of step 0, the least, to step speed_steps, full speed.
inline constexpr int speed_steps = 256;
[[nodiscard]] constexpr double speed_of_step(int step) {
  return least_speed_frac + (1.0 - least_speed_frac) * step / speed_steps;
}

/// Above all steps: not even full speed keeps the limits.
inline constexpr int no_step = speed_steps + 1;

/// Temperatures fall with the speed, so steps are found by bisection; the one that is found is one
/// that all were seen to keep.
class SpeedSearch {
 public:
  SpeedSearch(AirSteering& steering, const Limits& limits) : steering_(steering), limits_(limits) {}

  /// The least step that all keep, or no_step, where it is known to lie in [low, high]; and which
  /// draw asks for it, or AirModel::middle.
  struct Least {
    int step = no_step;
    int draw = AirModel::middle;
  };
  /// `hottest`: a draw that is likely to.
  [[nodiscard]] Least least(int low = 0, int high = no_step, int hottest = AirModel::middle);

 private:
  [[nodiscard]] bool keeps_at(int draw, int step);
  [[nodiscard]] int first(int draw, int low, int high);
  [[nodiscard]] bool asks_every_draw() const;

  AirSteering& steering_;
  const Limits& limits_;
};

/// Of that step; full speed where there is none.
[[nodiscard]] constexpr double speed_of(SpeedSearch::Least least) {
  return speed_of_step(least.step == no_step ? speed_steps : least.step);
}
[[nodiscard]] double quietest_speed_frac(AirModel& model, const Limits& limits);

}  // namespace rigproof::coupled
