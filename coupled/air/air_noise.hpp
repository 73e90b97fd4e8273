// How loud a build is at a speed of its fans: (B10) of README.md.
#pragma once

#include <optional>

#include "coupled/air/air_speed.hpp"

namespace rigproof::coupled {

/// Where all that makes sound is heard from, and how fast the fans turn.
struct Heard {
  SpeedDraws speeds;
  double distance_m = 1.0;
  /// While only the verdict is asked: the level that is allowed.
  double at_most_dba = 0.0;
};
/// From what its cell states to what is heard of one piece at this distance and these speeds, dB:
/// (A62) and (A64).
[[nodiscard]] double heard_change_db(const Sound& sound, FanSpeeds speeds, double distance_m);

/// Level, dB(A), of all that makes sound (B10). Absent where a level is: its cell is noted. While
/// only the verdict is asked, one end of all draws where that settles it.
[[nodiscard]] Draws noise_dba(const Facts& facts, const AirCase& of, const Heard& heard,
                              Measure& m);
/// While only the verdict is asked: does it hold in no draw, or in every draw, whatever the speed
/// turns out to be? The level then, at the least speed or at full speed; absent: it hangs on it.
[[nodiscard]] Draws noise_at_any_speed(const Facts& facts, const AirCase& of, double distance_m,
                                       double at_most_dba);

/// The lowest that (B10) may be in any draw, of the sounds whose level is known; nothing: none is.
[[nodiscard]] std::optional<double> least_noise_dba(const Facts& facts, const Sounds& sounds,
                                                    FanSpeeds speeds, double distance_m);

}  // namespace rigproof::coupled
