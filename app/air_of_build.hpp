// Use case `air`: flow, temperatures, kept power and noise of a build, load by load.
#pragma once

#include <functional>

#include "app/workshop.hpp"
#include "sheet/air_answer.hpp"

namespace rigproof::app {

struct AirAsked {
  const Brief* brief = nullptr;  ///< its room and limits; null: none
  /// Of all fans, and of the cooler's alone, instead of the build's own settings; 0: not given.
  double speed_frac = 0.0;
  double cooler_speed_frac = 0.0;
  double distance_m = 1.0;  ///< from where it is heard, where the brief does not say
  bool show_work = false;
  std::function<bool()> stop = {};
};

[[nodiscard]] sheet::Air air_of_build(const Workshop& workshop, const BuildFile& build,
                                      const AirAsked& asked);

}  // namespace rigproof::app
