#include "analysis/power/energy.hpp"

#include <cmath>

namespace rigproof::power {

double mean_kwh_price(const Facts& facts, std::size_t market) {
  if (market >= facts.brief.markets.size()) return no_number;
  const MarketGoal& goal = facts.brief.markets[market];
  if (!goal.kwh_price) return no_number;
  const double night = goal.kwh_price_night.value_or(*goal.kwh_price);
  const double share = facts.brief.use.night_frac;
  return (1.0 - share) * *goal.kwh_price + share * night;
}

// (P14)
Energy energy_of(const Facts& facts, std::size_t market, Measure& m) {
  Energy out;
  out.kwh_per_year = 0.0;
  for (const Load load : all_loads) {
    const double hours = facts.brief.use.hours_per_day[static_cast<std::size_t>(load)];
    if (hours == 0.0) continue;
    out.kwh_per_year +=
        wall_power(facts, load, market, m).wall_w * (hours * days_per_year / 1000.0);
  }
  const double price = mean_kwh_price(facts, market);
  if (!std::isnan(price)) out.cost_per_year = out.kwh_per_year * price;
  return out;
}

}  // namespace rigproof::power
