#include "analysis/power/energy.hpp"

#include <algorithm>
#include <cmath>
#include <span>

namespace rigproof::power {

double mean_kwh_price(const Facts& facts, std::size_t market) {
  if (market >= facts.brief.markets.size()) return no_number;
  const MarketGoal& goal = facts.brief.markets[market];
  if (!goal.kwh_price) return no_number;
  const double night = goal.kwh_price_night.value_or(*goal.kwh_price);
  const double share = facts.brief.use.night_frac;
  return (1.0 - share) * *goal.kwh_price + share * night;
}

namespace {

template <class WattsOf>
Draws kwh_per_year(const Facts& facts, WattsOf watts_of) {
  Draws out = 0.0;
  for (const Load load : loads_of(facts.brief)) {
    const double hours = hours_per_day(facts.brief, load);
    if (hours > 0.0) out += watts_of(load) * (hours * days_per_year / 1000.0);
  }
  return out;
}

bool draw_the_same(const Facts& one, const Facts& other, Load load) {
  if (one.build.one(Kind::psu) != other.build.one(Kind::psu)) return false;
  const PowerTerms a = power_terms(one, load);
  const PowerTerms b = power_terms(other, load);
  return std::ranges::equal(std::span(a.all).first(a.count), std::span(b.all).first(b.count),
                            [](const PowerTerm& x, const PowerTerm& y) {
                              return x.kind == y.kind && x.row == y.row && x.cell == y.cell &&
                                     x.count == y.count;
                            });
}

}  // namespace

Draws cost_beside_per_year(const Facts& facts, const Facts& other, std::size_t market, Measure& m) {
  const double price = mean_kwh_price(facts, market);
  if (std::isnan(price)) return Draws::absent();
  const auto beside_w = [&](Load load) -> Draws {
    const Draws own = wall_power(facts, load, market, m).wall_w;
    if (own.is_absent()) return Draws::absent();
    if (draw_the_same(facts, other, load)) return 0.0;
    return own - wall_power(other, load, market, m).wall_w;
  };
  return kwh_per_year(facts, beside_w) * price;
}

Draws kwh_of_parts_per_year(const Facts& facts, Measure& m) {
  return kwh_per_year(facts, [&](Load load) { return load_w(facts, load, m); });
}

// (P14)
Energy energy_of(const Facts& facts, std::size_t market, Measure& m) {
  Energy out;
  out.kwh_per_year =
      kwh_per_year(facts, [&](Load load) { return wall_power(facts, load, market, m).wall_w; });
  const double price = mean_kwh_price(facts, market);
  if (!std::isnan(price)) out.cost_per_year = out.kwh_per_year * price;
  return out;
}

}  // namespace rigproof::power
