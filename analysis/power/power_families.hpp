// The families that power_rules joins. Not for other engines: they use power_rules.hpp.
#pragma once

#include <span>

#include "claims/rule.hpp"

namespace rigproof::power {

[[nodiscard]] std::span<const Rule* const> peak_rules();  ///< excursions, contacts of plugs
[[nodiscard]] std::span<const Rule* const> wall_rules();  ///< wall, circuit, running cost

}  // namespace rigproof::power
