// What a planner asks of a build's air: not how hot or how loud, only in which draws a limit holds.
// Other heat than the processor's and the card's can only make it worse, so what holds with more of
// it holds with less: (B9) and "How it is decided" of README.md.
#pragma once

#include "coupled/air/air_noise.hpp"

namespace rigproof::coupled {

/// A temperature that holds in the same draws as the one at the quietest speed (B9), or in as many
/// that the verdict is the same (Measure::verdict_alone). Absent: it is not known. Contract: the
/// brief limits it under this load, `of` is known, and no setting steers the fans (so for both).
[[nodiscard]] Draws decided_temp_c(const Facts& facts, const AirCase& of, power::Load load,
                                   Watched which, bool verdict_alone);

/// A level that does likewise. Contract: every level is known.
[[nodiscard]] Draws decided_noise_dba(const Facts& facts, const AirCase& of, power::Load load,
                                      double distance_m, double at_most_dba);

}  // namespace rigproof::coupled
