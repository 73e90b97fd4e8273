#include "analysis/power/supply_rating.hpp"

namespace rigproof::power {

// (P16)
Draws rated_w(const Facts& facts, Measure& m) {
  const Row psu = facts.build.one(Kind::psu);
  Draws rated = m.read(facts, column("psu", "rated_power_w"), psu);
  if (rated.is_absent() || facts.catalog.absent(column("psu", "derating_w_k"), psu)) return rated;
  const double less_w_k = m.read(facts, column("psu", "derating_w_k"), psu).median();
  const Draws& full_c = m.read(facts, column("psu", "full_power_c"), psu);
  const double room_c = facts.brief.room_c;
  if (room_c + air_at_supply_k <= full_c.low()) return rated;
  const Draws air_c =
      Draws::between(room_c, room_c + air_at_supply_k, stream("power", "supply", "air drawn in"));
  rated -= Draws::larger(air_c - full_c, 0.0) * less_w_k;
  return Draws::larger(rated, 0.0);
}

}  // namespace rigproof::power
