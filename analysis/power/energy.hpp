// What running a build costs: hours a day under each load, at a market's price of energy.
#pragma once

#include <cstddef>

#include "analysis/power/wall.hpp"

namespace rigproof::power {

inline constexpr double days_per_year = 365.25;
inline constexpr double months_per_year = 12.0;

/// Of one build in one market.
struct Energy {
  Draws kwh_per_year = Draws::absent();   ///< (P14)
  Draws cost_per_year = Draws::absent();  ///< in the market's currency; absent without a price
};
/// Zero hours of a load need no cell of it. Absent cells are noted in `m`.
[[nodiscard]] Energy energy_of(const Facts& facts, std::size_t market, Measure& m);

/// What a build costs a year beyond another; the same load on the same supply costs the same,
/// whatever is not known of it. Absent without a price, or where a load is not known.
[[nodiscard]] Draws cost_beside_per_year(const Facts& facts, const Facts& other, std::size_t market,
                                         Measure& m);

/// What the parts take themselves, kWh a year: what is lost in the supply comes on top.
[[nodiscard]] Draws kwh_of_parts_per_year(const Facts& facts, Measure& m);

/// Price of a kWh as it is used: of the day's, and of the night's for the share used at night. NaN
/// where the market states none.
[[nodiscard]] double mean_kwh_price(const Facts& facts, std::size_t market);

}  // namespace rigproof::power
