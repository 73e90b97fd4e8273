// Use case `air`: flow, temperatures, kept power and noise of a build, load by load.
#pragma once

#include <functional>

#include "app/workshop.hpp"
#include "sheet/air_answer.hpp"

namespace rigproof::app {

struct AirAsked {
  const Brief* brief = nullptr;  ///< its room and limits; null: none
  double speed_frac = 0.0;       ///< of the case's fans; 0: the quietest that keeps the limits
  double distance_m = 1.0;       ///< from where it is heard, where the brief does not say
  bool show_work = false;
  std::function<bool()> stop = {};
};

[[nodiscard]] sheet::Air air_of_build(const Workshop& workshop, const BuildFile& build,
                                      const AirAsked& asked);

}  // namespace rigproof::app
