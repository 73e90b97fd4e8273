// What hangs down from the top of the case, against an air cooler that reaches up to it (T12).
#include <fmt/format.h>

#include <array>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/hanging.hpp"
#include "analysis/fit/seat_rules.hpp"

namespace rigproof::fit {
namespace {

constexpr ColumnId beyond_board = column("case_mounts", "beyond_board_mm");
constexpr ColumnId socket_from_edge = column("board", "socket_from_edge_mm");
constexpr ColumnId above_socket = column("cooler", "above_socket_mm");
constexpr ColumnId cooler_height = column("cooler", "height_mm");

int over_cooler_places(const Facts& facts) {
  if (!facts.build.has(Kind::chassis) || !facts.build.has(Kind::board) ||
      !facts.build.has(Kind::cooler))
    return 0;
  const bool air =
      facts.catalog.word(column("cooler", "type"), part_of(facts, Kind::cooler).row) == "air";
  return air ? hanging(facts).count : 0;
}

// (T12)
void measure_over_cooler(const Facts& facts, int place, Measure& m) {
  const Hanging hung = hanging(facts);
  const Row mount = hung.mounts[static_cast<std::size_t>(place)];
  compare_ways(
      m,
      [&](Measure& read) {
        Way above{hanging_depth_mm(facts, hung, mount, read),
                  read.read(facts, beyond_board, mount)};
        above.value += read.read(facts, above_socket, part_of(facts, Kind::cooler).row);
        above.limit += read.read(facts, socket_from_edge, part_of(facts, Kind::board).row);
        return above;
      },
      [&](Measure& read) {
        return Way{read.read(facts, cooler_height, part_of(facts, Kind::cooler).row),
                   room_beside_mm(facts, hung, mount, read)};
      });
}

void tell_over_cooler(const Facts& facts, int place, const Measure& m, Telling& out) {
  const Hanging hung = hanging(facts);
  const Row mount = hung.mounts[static_cast<std::size_t>(place)];
  const PartRef chassis{Kind::chassis, facts.build.one(Kind::chassis)};
  out.subjects = {part_of(facts, Kind::board), part_of(facts, Kind::cooler), chassis};
  add_hanging_parts(facts, hung, mount, out.subjects);
  out.where = mount_name(facts.catalog, mount);
  out.statement = fmt::format(
      "{} on {} of the case {} clears the cooler {}.", hanging_words(facts, hung, mount), out.where,
      facts.catalog.name(chassis), facts.catalog.name(part_of(facts, Kind::cooler)));
  if (!m.limit.is_absent())
    out.remedy = "the fans on another mount, thinner ones, or a cooler that reaches up less";
}

constexpr Rule over_cooler_rule = {
    .id = "fit.over-cooler",
    .about = "what hangs from the top of the case against an air cooler that reaches up to it",
    .consequence =
        "The fans at the top would meet the cooler; one of the two could not be screwed on.",
    .grade = Grade::must,
    .kinds = seat_kinds,
    .reads = seat_cells,
    .brief_keys = seat_brief_keys,
    .relation = Relation::at_most,
    .unit = "mm",
    .basis = Basis::part_data,
    .equation =
        "depth of what hangs there + cooler above the socket <= room above the board + socket "
        "below its edge, or the cooler's height <= room beside it, (T12)",
    .source = "part data; analysis/fit/README.md (T12)",
    .places = over_cooler_places,
    .measure = measure_over_cooler,
    .tell = tell_over_cooler,
    .burdens = burdens_beside<Kind::board, Kind::cooler, Kind::chassis>,
    .family = seat_family};

constexpr std::array<const Rule*, 1> rules = {&over_cooler_rule};

}  // namespace

std::span<const Rule* const> over_cooler_rules() { return rules; }

}  // namespace rigproof::fit
