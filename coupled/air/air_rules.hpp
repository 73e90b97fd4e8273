// The rules of the air engine: does it stay as cool and as quiet as the brief asks, and does it
// keep its full power?
#pragma once

#include <span>

#include "claims/rule.hpp"

namespace rigproof {

/// In the rulebook's order. The model and its limits: coupled/air/README.md.
[[nodiscard]] std::span<const Rule* const> air_rules();

}  // namespace rigproof
