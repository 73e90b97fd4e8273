// The rules of the air engine: does it stay as cool and as quiet as the brief asks, and does it
// keep its full power?
#pragma once

#include <span>

#include "claims/rule.hpp"

namespace rigproof {

/// In the rulebook's order. The model and its limits: coupled/air/README.md.
[[nodiscard]] std::span<const Rule* const> air_rules();

/// What is told beside: pressure, and the time until it is warm.
[[nodiscard]] std::span<const Rule* const> air_told_rules();

/// What a planner may ask of fewer parts (Rule::foretells): (B12) to (B15).
[[nodiscard]] std::span<const Rule* const> air_foretelling_rules();

}  // namespace rigproof
