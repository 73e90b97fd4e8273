#include "analysis/fit/room.hpp"

#include <algorithm>

namespace rigproof::fit {
namespace {

constexpr int case_clearances = table("case_clearances");
constexpr ColumnId limits_column = column("case_clearances", "limits");
constexpr ColumnId when_column = column("case_clearances", "when");
constexpr ColumnId by_column = column("case_clearances", "by_mm");

// Takes the deepest of the things on the mount, and what the row adds, from the room.
void take_mount(const Facts& facts, const Mounting& mounting, Row clearance, Draws& room_mm,
                Measure& measure) {
  const Row mount = find_mount(facts, facts.catalog.word(when_column, clearance));
  if (mount == no_row) return;
  bool used = false;
  Draws depth_mm;
  if (mount == mounting.radiator) {
    used = true;
    depth_mm = radiator_stack_mm(facts, measure);
  }
  for (const FanGroup& group : mounting.groups()) {
    if (group.mount != mount) continue;
    used = true;
    const Row fan = facts.build.of(Kind::fan)[static_cast<std::size_t>(group.model)].row;
    depth_mm = Draws::larger(depth_mm, measure.read(facts, column("fan", "thickness_mm"), fan));
  }
  if (!used) return;
  room_mm -= depth_mm;
  room_mm -= measure.read(facts, by_column, clearance);
}

// A cage of bays stands in the way only when drives use it; else it is left out.
bool is_used_bay(const Facts& facts, std::string_view bay) {
  return std::ranges::any_of(facts.build.of(Kind::storage), [&](const Chosen& drive) {
    return facts.catalog.word(column("storage", "mounting"), drive.row) == bay;
  });
}

}  // namespace

Row always_row(const Facts& facts, std::string_view limits) {
  for (const Row row : facts.catalog.rows_of(case_clearances, part_of(facts, Kind::chassis)))
    if (facts.catalog.word(limits_column, row) == limits &&
        facts.catalog.word(when_column, row) == "always")
      return row;
  return no_row;
}

Draws radiator_stack_mm(const Facts& facts, Measure& measure) {
  const Row cooler = facts.build.one(Kind::cooler);
  Draws stack_mm = measure.read(facts, column("cooler", "radiator_thickness_mm"), cooler);
  return stack_mm += measure.read(facts, column("cooler", "fan_thickness_mm"), cooler);
}

Draws room_mm(const Facts& facts, std::string_view limits, Measure& measure) {
  const Row always = always_row(facts, limits);
  if (always == no_row) {
    measure.note_missing({limits_column, no_row, part_of(facts, Kind::chassis)}, false);
    return Draws::absent();
  }
  Draws room = measure.read(facts, by_column, always);
  Mounting mounting;
  bool mounted = false;
  for (const Row row : facts.catalog.rows_of(case_clearances, part_of(facts, Kind::chassis))) {
    if (row == always || facts.catalog.word(limits_column, row) != limits) continue;
    if (const auto when = facts.catalog.word(when_column, row); when.starts_with(bay_prefix)) {
      if (is_used_bay(facts, when)) room -= measure.read(facts, by_column, row);
      continue;
    }
    if (!mounted) mounting = choose_mounting(facts);
    mounted = true;
    take_mount(facts, mounting, row, room, measure);
  }
  return room;
}

}  // namespace rigproof::fit
