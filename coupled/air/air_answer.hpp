// What the rules and the command ask of a build's air: how fast its fans turn, by settings or by
// the search for the quietest speed that keeps its limits, and what holds then in every draw.
#pragma once

#include <optional>

#include "coupled/air/air_speed.hpp"

namespace rigproof::coupled {

/// How its fans' speeds came about.
enum class SpeedsFrom : std::uint8_t {
  least,     ///< the least that keeps every limit (B9)
  no_speed,  ///< full speed, as not even that keeps every limit
  settings,  ///< every group follows a temperature (B20)
  asked,     ///< full speed, or a speed that was given
};

/// One load over all draws.
struct AirAnswer {
  bool known = false;  ///< nothing that is needed is absent, and every draw closed its balances
  SpeedsFrom from = SpeedsFrom::asked;
  FanSpeeds speeds;  ///< of the middle draw
  SpeedDraws speeds_by_draw;
  AirState middle;
  ByWatched<Draws> temp_c = ByWatched<Draws>::filled(Draws::absent());
  Draws cpu_lost_frac = Draws::absent();
  Draws gpu_lost_frac = Draws::absent();
};

/// At the speeds of the build's settings (B20), and where there are none at the quietest that keeps
/// the limits (B9); or at full speed. Absent cells are noted in `m`. Remembered in facts.draws.
/// Contract: facts.seats is null.
[[nodiscard]] AirAnswer air_answer(const Facts& facts, power::Load load, bool full_speed,
                                   Measure& m);

/// What sets the speed of an answer at its quietest: the limit that is nearest to be passed, or
/// where no speed keeps them all the one that is passed furthest. None where the fans run at their
/// least, or by settings.
[[nodiscard]] std::optional<Watched> holds_speed(const Facts& facts, const AirCase& of,
                                                 power::Load load, const AirAnswer& answer);

/// At given speeds, not remembered.
[[nodiscard]] AirAnswer air_at_speeds(const Facts& facts, power::Load load, FanSpeeds speeds,
                                      Measure& m);

/// The settings of a build's fans; null: none is set.
[[nodiscard]] const FanSettings* settings_of(const Facts& facts);

}  // namespace rigproof::coupled
