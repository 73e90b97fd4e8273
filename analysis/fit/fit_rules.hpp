// The rules of the fit engine: does everything find its place in the case?
#pragma once

#include <span>

#include "claims/rule.hpp"

namespace rigproof {

/// In the rulebook's order. The model and its limits: analysis/fit/README.md.
[[nodiscard]] std::span<const Rule* const> fit_rules();

namespace fit {
// The families that fit_rules joins.
[[nodiscard]] std::span<const Rule* const> clearance_rules();      ///< lengths, heights, volume
[[nodiscard]] std::span<const Rule* const> card_rules();           ///< plug room, slots, mass
[[nodiscard]] std::span<const Rule* const> memory_height_rules();  ///< memory under the cooler
[[nodiscard]] std::span<const Rule* const> over_board_rules();     ///< what hangs from the top
[[nodiscard]] std::span<const Rule* const> over_cooler_rules();    ///< and reaches an air cooler
[[nodiscard]] std::span<const Rule* const> loop_rules();           ///< tubes, height of the pump
[[nodiscard]] std::span<const Rule* const> mount_rules();          ///< radiator, fans, moving air
[[nodiscard]] std::span<const Rule* const> cable_rules();          ///< reach of the supply's cables
}  // namespace fit

}  // namespace rigproof
