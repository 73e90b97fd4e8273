// What hangs down from the top of the case, against the board under it (T9): it ends above the
// board's upper edge, or it passes beside everything that stands there.
#include <fmt/format.h>

#include <array>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/hanging.hpp"
#include "analysis/fit/seat_rules.hpp"

namespace rigproof::fit {
namespace {

constexpr ColumnId beyond_board = column("case_mounts", "beyond_board_mm");
constexpr ColumnId module_height = column("memory", "height_mm");
constexpr ColumnId upper_edge = column("board", "upper_edge_mm");

int over_board_places(const Facts& facts) {
  if (!facts.build.has(Kind::chassis) || !facts.build.has(Kind::board)) return 0;
  return hanging(facts).count;
}

Draws tallest_at_the_edge(const Facts& facts, Measure& m) {
  Draws tallest = m.read(facts, upper_edge, facts.build.one(Kind::board));
  for (const Chosen& kit : facts.build.of(Kind::memory))
    tallest = Draws::larger(tallest, m.read(facts, module_height, kit.row));
  return tallest;
}

// (T9)
void measure_over_board(const Facts& facts, int place, Measure& m) {
  const Hanging hung = hanging(facts);
  const Row mount = hung.mounts[static_cast<std::size_t>(place)];
  compare_ways(
      m,
      [&](Measure& read) {
        return Way{hanging_depth_mm(facts, hung, mount, read),
                   read.read(facts, beyond_board, mount)};
      },
      [&](Measure& read) {
        return Way{tallest_at_the_edge(facts, read), room_beside_mm(facts, hung, mount, read)};
      });
}

void tell_over_board(const Facts& facts, int place, const Measure& m, Telling& out) {
  const Hanging hung = hanging(facts);
  const Row mount = hung.mounts[static_cast<std::size_t>(place)];
  const std::string_view name = mount_name(facts.catalog, mount);
  const bool radiator = mount == hung.mounting.radiator;
  const PartRef board{Kind::board, facts.build.one(Kind::board)};
  out.subjects = {board, {Kind::chassis, facts.build.one(Kind::chassis)}};
  add_hanging_parts(facts, hung, mount, out.subjects);
  for (const Chosen& kit : facts.build.of(Kind::memory))
    out.subjects.push_back({Kind::memory, kit.row});
  out.where = name;
  out.statement = fmt::format("{} on {} of the case {} clears the memory and the upper edge of {}.",
                              hanging_words(facts, hung, mount), name,
                              facts.catalog.name({Kind::chassis, facts.build.one(Kind::chassis)}),
                              facts.catalog.name(board));
  if (m.limit.is_absent()) return;
  out.remedy = radiator ? "the radiator on another mount of the case that takes it, or lower memory"
                        : "the fans on another mount, or lower memory";
}

constexpr Rule over_board_rule = {
    .id = "fit.over-board",
    .about = "what hangs from the top of the case against the board's upper edge and the memory",
    .consequence =
        "The radiator or the fans would press on the memory or on the heat sinks of the "
        "board and could not be screwed on.",
    .grade = Grade::must,
    .kinds = seat_kinds,
    .reads = seat_cells,
    .brief_keys = seat_brief_keys,
    .relation = Relation::at_most,
    .unit = "mm",
    .basis = Basis::part_data,
    .equation =
        "depth of what hangs there <= room above the board, or the tallest thing at the "
        "edge <= room beside it, (T9)",
    .source = "part data; analysis/fit/README.md (T9)",
    .places = over_board_places,
    .measure = measure_over_board,
    .tell = tell_over_board,
    .burdens = burdens_beside<Kind::board, Kind::memory, Kind::cooler, Kind::chassis>,
    .family = seat_family};

constexpr std::array<const Rule*, 1> rules = {&over_board_rule};

}  // namespace

std::span<const Rule* const> over_board_rules() { return rules; }

}  // namespace rigproof::fit
