// What the rules and the command ask of a build's air: the quietest fan speed that keeps its
// limits, and what holds at that speed in every draw.
#pragma once

#include "coupled/air/air_state.hpp"

namespace rigproof::coupled {

/// One load, at one speed of the case's fans, over all draws.
struct AirAnswer {
  bool known = false;  ///< nothing that is needed is absent, and every draw closed its balances
  double speed_frac = 1.0;
  AirState middle;
  Draws cpu_c = Draws::absent();
  Draws gpu_c = Draws::absent();
  Draws exhaust_c = Draws::absent();
  Draws cpu_lost_frac = Draws::absent();
  Draws gpu_lost_frac = Draws::absent();
};

/// Kelvin that the fans are kept from letting a part come to where it slows itself down; ours.
inline constexpr double margin_k = 5.0;

/// At the quietest speed that keeps them (B9), or at full speed. Absent cells are noted in `m`.
/// Remembered in facts.draws.
[[nodiscard]] AirAnswer air_answer(const Facts& facts, power::Load load, bool full_speed,
                                   Measure& m);

/// That speed alone.
[[nodiscard]] double quietest_speed_frac(const Facts& facts, const AirCase& of, power::Load load);

/// At a given speed, not remembered.
[[nodiscard]] AirAnswer air_at_speed(const Facts& facts, power::Load load, double speed_frac,
                                     Measure& m);

/// Where all that makes sound is heard from, and how fast the fans turn.
struct Heard {
  double speed_frac = 1.0;
  double distance_m = 1.0;
  /// While only the verdict is asked: the level that is allowed.
  double at_most_dba = 0.0;
};
/// Level, dB(A), of all that makes sound (B10). Absent where a level is: its cell is noted. While
/// only the verdict is asked, one end of all draws where that settles it.
[[nodiscard]] Draws noise_dba(const Facts& facts, const AirCase& of, const Heard& heard,
                              Measure& m);
/// While only the verdict is asked: does it hold in no draw, or in every draw, whatever the speed
/// turns out to be? The level then, at the least speed or at full speed; absent: it hangs on it.
[[nodiscard]] Draws noise_at_any_speed(const Facts& facts, const AirCase& of, double distance_m,
                                       double at_most_dba);

}  // namespace rigproof::coupled
