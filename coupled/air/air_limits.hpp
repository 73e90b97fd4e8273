// What the brief's limits on air say, and the cells that whoever judges them reads.
#pragma once

#include <algorithm>
#include <array>
#include <string_view>

#include "analysis/fit/seat_rules.hpp"
#include "coupled/air/air_case.hpp"

namespace rigproof::coupled {

/// Null where the brief has no such limit.
[[nodiscard]] inline const PhysicalLimit* limit_of(const Brief& brief, const char* key) {
  const auto found = brief.limits.find(key);
  return found == brief.limits.end() ? nullptr : &found->second;
}
[[nodiscard]] inline power::Load load_of(const Brief& brief, const PhysicalLimit& limit) {
  return power::find_load(brief, limit.load).value_or(power::Load::everything);
}

/// Their own cells, those of the loads, and those on which it hangs where things sit.
inline constexpr auto air_reads = [] {
  std::array<ColumnId, air_cells.size() + power::load_cells.size() + fit::supply_seat_cells.size()>
      all{};
  auto at = std::ranges::copy(air_cells, all.begin()).out;
  at = std::ranges::copy(power::load_cells, at).out;
  std::ranges::copy(fit::supply_seat_cells, at);
  return all;
}();
inline constexpr std::array air_kinds = {Kind::cpu,     Kind::board,  Kind::memory,  Kind::gpu,
                                         Kind::storage, Kind::cooler, Kind::chassis, Kind::psu,
                                         Kind::fan,     Kind::other};
[[nodiscard]] inline bool can_be_computed(const Facts& facts) {
  return facts.build.has(Kind::chassis) && facts.build.has(Kind::cpu) &&
         facts.build.has(Kind::cooler);
}
inline constexpr std::array<std::string_view, 3> air_keys = {"limits", "room", "accept"};

}  // namespace rigproof::coupled
