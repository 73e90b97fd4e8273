// A load over time under fans that follow a temperature: step by step, as the balance changes with
// their speed. Equation (B22) of README.md. For the sources of this folder.
#pragma once

#include <functional>

#include "coupled/air/air_phase.hpp"
#include "coupled/air/air_steering.hpp"

namespace rigproof::coupled {

struct MarchPoint {
  double time_s = 0.0;
  Watts body_c{};      ///< of the processor's cooler and the card
  double cpu_c = 0.0;  ///< of the processor itself
  FanSpeeds speeds;
};

/// What is run: the middle draw, from these temperatures of the bodies on.
struct Marched {
  AirModel& model;
  const AirCase& of;
  const Stores& stores;
  const FanSettings& settings;
  FanSpeeds otherwise;  ///< of fans that are not set
  Watts start_c{};
};

/// `points` of them, from 0 to `until_s`. From when a part is first as hot as it slows down at, all
/// draw what they keep up; `slows` is told which and when. Empty where a balance did not close.
[[nodiscard]] std::vector<MarchPoint> march(
    const Marched& what, double until_s, std::size_t points,
    const std::function<void(std::size_t body, double time_s)>& slows);

}  // namespace rigproof::coupled
