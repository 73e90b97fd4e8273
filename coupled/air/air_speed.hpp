// The quietest common speed of a case's fans that keeps every limit: equation (B9) of README.md.
#pragma once

#include <optional>

#include "coupled/air/air_state.hpp"

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

/// Temperatures fall with the speed, so steps are found by bisection.
class SpeedSearch {
 public:
  SpeedSearch(AirModel& model, const Limits& limits) : model_(model), limits_(limits) {}

  /// The least that the middle draw keeps; none where it does not at full speed.
  [[nodiscard]] std::optional<int> least_of_middle();
  /// The least that all keep, from a step on below which it is known not to be; none where they do
  /// not at full speed.
  [[nodiscard]] std::optional<int> least(int from_step = 0);
  /// At this step all keep what they have to.
  [[nodiscard]] bool all_keep(int step);

 private:
  template <class Kept>
  [[nodiscard]] static std::optional<int> first(int from_step, Kept kept);
  [[nodiscard]] bool middle_keeps(int step);
  [[nodiscard]] bool draw_keeps(int draw, int step);
  [[nodiscard]] bool asks_every_draw() const;

  AirModel& model_;
  const Limits& limits_;
};

/// Of the least step that all keep; 1 where there is none.
[[nodiscard]] double quietest_speed_frac(AirModel& model, const Limits& limits);

}  // namespace rigproof::coupled
