// What hangs down from the top of the case, against the board under it (T9): it ends above the
// board's upper edge, or it passes beside everything that stands there.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/seat_rules.hpp"

namespace rigproof::fit {
namespace {

constexpr ColumnId face = column("case_mounts", "face");
constexpr ColumnId beyond_board = column("case_mounts", "beyond_board_mm");
constexpr ColumnId middle_from_board = column("case_mounts", "middle_from_board_mm");
constexpr ColumnId radiator_fan = column("cooler", "fan_mm");
constexpr ColumnId fan_size = column("fan", "size_mm");
constexpr ColumnId module_height = column("memory", "height_mm");
constexpr ColumnId upper_edge = column("board", "upper_edge_mm");

// Mounts on the top that something hangs from, in the order in which they were given something.
struct Hanging {
  Mounting mounting;
  std::array<Row, most_mounts> mounts{};
  int count = 0;
};

Hanging hanging(const Facts& facts) {
  Hanging out{.mounting = choose_mounting(facts)};
  const auto add = [&](Row mount) {
    if (mount == no_row || facts.catalog.word(face, mount) != "top") return;
    const auto known = std::span(out.mounts).first(static_cast<std::size_t>(out.count));
    if (std::ranges::find(known, mount) != known.end() || out.count == most_mounts) return;
    out.mounts[static_cast<std::size_t>(out.count++)] = mount;
  };
  add(out.mounting.radiator);
  for (const FanGroup& group : out.mounting.groups()) add(group.mount);
  return out;
}

int over_board_places(const Facts& facts) {
  if (!facts.build.has(Kind::chassis) || !facts.build.has(Kind::board)) return 0;
  return hanging(facts).count;
}

// The most of one cell over what hangs from the mount. Of a radiator both are its cooler's.
Draws over_fans(const Facts& facts, const Mounting& mounting, Row mount, ColumnId cell,
                Measure& m) {
  Draws most;
  for (const FanGroup& group : mounting.groups()) {
    if (group.mount != mount) continue;
    const Row fan = facts.build.of(Kind::fan)[static_cast<std::size_t>(group.model)].row;
    most = Draws::larger(most, m.read(facts, cell, fan));
  }
  return most;
}

// How far it hangs down.
Draws stack_depth_mm(const Facts& facts, const Mounting& mounting, Row mount, Measure& m) {
  if (mount == mounting.radiator) return radiator_stack_mm(facts, m);
  return over_fans(facts, mounting, mount, column("fan", "thickness_mm"), m);
}

// How wide it is across the mount.
Draws stack_width_mm(const Facts& facts, const Mounting& mounting, Row mount, Measure& m) {
  if (mount == mounting.radiator) return m.read(facts, radiator_fan, facts.build.one(Kind::cooler));
  return over_fans(facts, mounting, mount, fan_size, m);
}

Draws tallest_at_the_edge(const Facts& facts, Measure& m) {
  Draws tallest = m.read(facts, upper_edge, facts.build.one(Kind::board));
  for (const Chosen& kit : facts.build.of(Kind::memory))
    tallest = Draws::larger(tallest, m.read(facts, module_height, kit.row));
  return tallest;
}

// One of the two ways past the board; `wanting` where a cell of the case is absent.
struct Way {
  Draws value;
  Draws limit;
  [[nodiscard]] bool wanting() const { return value.is_absent() || limit.is_absent(); }
  // Over class ranges only what holds over all of them.
  [[nodiscard]] bool holds() const {
    if (wanting()) return false;
    if (value.spans() || limit.spans()) return value.high() <= limit.low();
    return verdict_of(static_cast<int>(Draws::at_most(value, limit).count())) == Verdict::holds;
  }
  [[nodiscard]] double room_mm() const { return limit.median() - value.median(); }
};

// (T9) A way that is not needed is not missed: the first that holds is the claim, else
// the one with more room.
void measure_over_board(const Facts& facts, int place, Measure& m) {
  const Hanging hung = hanging(facts);
  const Row mount = hung.mounts[static_cast<std::size_t>(place)];
  Measure above = m;
  const Draws depth_mm = stack_depth_mm(facts, hung.mounting, mount, above);
  const Way ends_above{depth_mm, above.read(facts, beyond_board, mount)};
  if (ends_above.holds()) {
    m = above;
    m.value = ends_above.value;
    m.limit = ends_above.limit;
    return;
  }
  Measure beside = m;
  const Draws tallest = tallest_at_the_edge(facts, beside);
  Draws edge = beside.read(facts, middle_from_board, mount);
  edge -= stack_width_mm(facts, hung.mounting, mount, beside) * 0.5;  // absent if either is
  const Way passes_beside{tallest, edge};
  const bool take_beside =
      !passes_beside.wanting() &&
      (passes_beside.holds() ||
       (!ends_above.wanting() && passes_beside.room_mm() > ends_above.room_mm()));
  if (!take_beside && (ends_above.wanting() || passes_beside.wanting())) {
    // The way that is not known may hold: what it wants has to be looked up.
    if (ends_above.wanting()) {
      (void)stack_depth_mm(facts, hung.mounting, mount, m);
      m.read(facts, beyond_board, mount);
    }
    if (passes_beside.wanting()) {
      m.read(facts, middle_from_board, mount);
      (void)stack_width_mm(facts, hung.mounting, mount, m);
      (void)tallest_at_the_edge(facts, m);
    }
    m.unknown = true;
    return;
  }
  const Way& taken = take_beside ? passes_beside : ends_above;
  m = take_beside ? beside : above;
  m.value = taken.value;
  m.limit = taken.limit;
}

void tell_over_board(const Facts& facts, int place, const Measure& m, Telling& out) {
  const Hanging hung = hanging(facts);
  const Row mount = hung.mounts[static_cast<std::size_t>(place)];
  const std::string_view name = mount_name(facts.catalog, mount);
  const bool radiator = mount == hung.mounting.radiator;
  const PartRef board{Kind::board, facts.build.one(Kind::board)};
  out.subjects = {board, {Kind::chassis, facts.build.one(Kind::chassis)}};
  if (radiator) out.subjects.push_back({Kind::cooler, facts.build.one(Kind::cooler)});
  for (const FanGroup& group : hung.mounting.groups())
    if (group.mount == mount)
      out.subjects.push_back(
          {Kind::fan, facts.build.of(Kind::fan)[static_cast<std::size_t>(group.model)].row});
  for (const Chosen& kit : facts.build.of(Kind::memory))
    out.subjects.push_back({Kind::memory, kit.row});
  out.where = name;
  const std::string what =
      radiator ? fmt::format("The radiator of {} with its fans",
                             facts.catalog.name({Kind::cooler, facts.build.one(Kind::cooler)}))
               : std::string("What the added fans take");
  out.statement =
      fmt::format("{} on {} of the case {} clears the memory and the upper edge of {}.", what, name,
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
