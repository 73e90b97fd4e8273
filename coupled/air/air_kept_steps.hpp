// Which steps of the speed keep the limits by the middle of every number: what a planner asks of
// thousands of cases that have their flows in common. (B24) of README.md.
#pragma once

#include "coupled/air/air_speed.hpp"

namespace rigproof::coupled {

/// True: of the steps below `steps` none keeps them, and every one of them was solved. What is
/// found is kept in `draws` and shared with cases of the same flows. Contract: !of.unknown.
[[nodiscard]] bool none_keeps(CellDraws& draws, const AirCase& of, const SpeedLimits& middle,
                              int steps);

}  // namespace rigproof::coupled
