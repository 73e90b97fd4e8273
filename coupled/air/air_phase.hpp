// One draw under one load as a balance that changes with time: what stores heat, where it goes,
// what is asked and kept. Equation (B16) of README.md. For the sources of this folder.
#pragma once

#include <array>
#include <optional>

#include "analysis/air/transient.hpp"
#include "coupled/air/air_state.hpp"

namespace rigproof::coupled {

struct Stores {
  Draws cooler_j_k, gpu_j_k, plate_k_w;
};
[[nodiscard]] Stores stores_of(const Facts& facts, Measure& m);

/// Of the processor's cooler and the card.
using Watts = std::array<double, 2>;

/// Its balance, what stores heat in it, and where all ends.
struct Phase {
  air::HeatNetwork network;
  double chip_k_w = 0.0;  ///< the processor above what stores its cooler's heat
  Watts asked_w{};
  Watts kept_w{};
  std::array<double, 2> limit_c{};
  std::array<double, 2> capacity_j_k{};
  Watts ends_c{};  ///< of the bodies, at the power that is kept
};
/// None where the balances do not close.
[[nodiscard]] std::optional<Phase> phase_of(AirModel& model, const AirCase& of, int draw,
                                            FanSpeeds speeds, const Stores& stores);

/// From these temperatures of the bodies on, with so much heat in them. Rooms store nothing.
[[nodiscard]] std::optional<air::Transient> transient_of(const Phase& phase, const Watts& watts,
                                                         const Watts& start_c);
[[nodiscard]] std::size_t node_of(const Phase& phase, std::size_t body);

}  // namespace rigproof::coupled
