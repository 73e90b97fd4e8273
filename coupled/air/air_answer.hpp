// What the rules and the command ask of a build's air: the quietest fan speed that keeps its
// limits, and what holds at that speed in every draw.
#pragma once

#include <optional>

#include "coupled/air/air_speed.hpp"

namespace rigproof::coupled {

/// One load, at one speed of the case's fans, over all draws.
struct AirAnswer {
  bool known = false;  ///< nothing that is needed is absent, and every draw closed its balances
  double speed_frac = 1.0;
  AirState middle;
  ByWatched<Draws> temp_c = ByWatched<Draws>::filled(Draws::absent());
  Draws cpu_lost_frac = Draws::absent();
  Draws gpu_lost_frac = Draws::absent();
};

/// At the quietest speed that keeps the limits (B9), or at full speed. Absent cells are noted in
/// `m`. Remembered in facts.draws.
[[nodiscard]] AirAnswer air_answer(const Facts& facts, power::Load load, bool full_speed,
                                   Measure& m);

/// What sets the speed of an answer at its quietest: the limit that is nearest to be passed. None
/// where the fans run at their least.
[[nodiscard]] std::optional<Watched> holds_speed(const Facts& facts, const AirCase& of,
                                                 power::Load load, const AirAnswer& answer);

/// At a given speed, not remembered.
[[nodiscard]] AirAnswer air_at_speed(const Facts& facts, power::Load load, double speed_frac,
                                     Measure& m);

}  // namespace rigproof::coupled
