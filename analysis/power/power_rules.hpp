// The rules of the power engine: does what flows stay within what may flow?
#pragma once

#include <span>

#include "claims/rule.hpp"

namespace rigproof {

/// In the rulebook's order. The model and its limits: analysis/power/README.md.
[[nodiscard]] std::span<const Rule* const> power_rules();

/// What a planner may ask of processor and card alone (Rule::foretells).
[[nodiscard]] std::span<const Rule* const> power_foretelling_rules();

}  // namespace rigproof
