// What a supply gives for long in the air it draws in: equation (P16) of README.md.
#pragma once

#include <array>

#include "claims/rule.hpp"

namespace rigproof::power {

/// The air in a case is so much warmer than the room at most (common practice, no source).
inline constexpr double air_at_supply_k = 15.0;

/// Its rating, less what it states for air hotter than its rating holds in; where it states
/// nothing, its rating. W. Absent cells are noted in `m`.
[[nodiscard]] Draws rated_w(const Facts& facts, Measure& m);

inline constexpr std::array rating_cells = {
    column("psu", "rated_power_w"), column("psu", "full_power_c"), column("psu", "derating_w_k")};

}  // namespace rigproof::power
