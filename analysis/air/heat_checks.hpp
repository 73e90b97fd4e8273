// Whether a heat network can be computed: the door of heat_network.hpp.
#pragma once

#include "analysis/air/heat_network.hpp"

namespace rigproof::air {

/// Errors: as HeatField::of.
[[nodiscard]] Result<void> check(const HeatNetwork& network);

}  // namespace rigproof::air
