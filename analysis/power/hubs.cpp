#include "analysis/power/hubs.hpp"

#include <algorithm>

namespace rigproof::power {

Row hub_row(const Facts& facts, PartRef part, std::string_view feeds) {
  if (part.kind == Kind::other)
    for (const Row row : facts.catalog.rows_of(table("other_hubs"), part))
      if (facts.catalog.word(column("other_hubs", "feeds"), row) == feeds) return row;
  return no_row;
}

Fed fed(const Facts& facts, PartRef hub) {
  const auto rows = facts.catalog.rows_of(table("part_headers"), hub);
  if (rows.empty()) return Fed::untold;
  const bool powered = std::ranges::any_of(rows, [&](Row row) {
    return facts.catalog.word(column("part_headers", "header"), row) == "sata-power" &&
           facts.catalog.number(column("part_headers", "count"), row) > 0.0;
  });
  return powered ? Fed::by_supply : Fed::by_header;
}

}  // namespace rigproof::power
