// Power at the wall: what the supply gives and what it loses, in one market's mains.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>

#include "analysis/power/load_cases.hpp"
#include "analysis/power/loss_curve.hpp"

namespace rigproof::power {

/// What a load draws at the wall, W.
struct Wall {
  Draws load_w = Draws::absent();  ///< what the supply gives
  Draws wall_w = Draws::absent();  ///< (P13); the loss is the most that its level allows
  std::optional<LossCurve> curve;
  Mains mains = Mains::v115;
  bool mains_stated = false;
  bool below_certified = false;  ///< in some draw the load is below the lowest certified point
};

/// The mains of a market of the brief; where it states none, 115 V, at which losses are larger.
[[nodiscard]] Mains mains_of(const Facts& facts, std::size_t market);

/// Absent cells are noted in `m`; wall_w is absent without a level that is known or a rating.
[[nodiscard]] Wall wall_power(const Facts& facts, Load load, std::size_t market, Measure& m);

inline constexpr auto wall_cells = [] {
  std::array<ColumnId, load_cells.size() + 2> all{column("psu", "rated_power_w"),
                                                  column("psu", "efficiency")};
  std::ranges::copy(load_cells, all.begin() + 2);
  return all;
}();

}  // namespace rigproof::power
