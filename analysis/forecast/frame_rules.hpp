// The rules of the forecast engine: frame rates and video memory against the brief's titles.
#pragma once

#include <span>

#include "claims/rule.hpp"

namespace rigproof {

/// In the rulebook's order. The model and its limits: analysis/forecast/README.md.
[[nodiscard]] std::span<const Rule* const> forecast_rules();

/// The cells of parts and titles that mean and slow frame rates are made of.
[[nodiscard]] std::span<const ColumnId> frame_rate_cells();

}  // namespace rigproof
