// A closed liquid loop once its radiator has a place: do the tubes reach it (T10), and is its
// highest point in the radiator and not in the pump (T11).
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/seat_rules.hpp"

namespace rigproof::fit {
namespace {

constexpr ColumnId face = column("case_mounts", "face");
constexpr ColumnId tube_way = column("case_mounts", "tube_way_mm");
constexpr ColumnId end_above_socket = column("case_mounts", "end_above_socket_mm");
constexpr ColumnId tube = column("cooler", "tube_mm");

// The radiator's mount; no_row where there is none.
Row radiator_mount(const Facts& facts) {
  if (!facts.build.has(Kind::chassis) || !has_radiator(facts)) return no_row;
  return choose_mounting(facts).radiator;
}

// --- fit.tube-reach

int tube_places(const Facts& facts) {
  const Row mount = radiator_mount(facts);
  return mount == no_row || facts.catalog.absent(tube_way, mount) ? 0 : 1;
}

// (T10)
void measure_tube(const Facts& facts, int, Measure& m) {
  m.value = m.read_claimed(facts, tube_way, radiator_mount(facts));
  m.limit = m.read(facts, tube, part_of(facts, Kind::cooler).row);
}

void tell_tube(const Facts& facts, int, const Measure& m, Telling& out) {
  out.subjects = {part_of(facts, Kind::cooler), part_of(facts, Kind::chassis)};
  out.where = mount_name(facts.catalog, radiator_mount(facts));
  out.statement =
      fmt::format("The tubes of {} reach from the processor to the radiator on {} of the case {}.",
                  facts.catalog.name(part_of(facts, Kind::cooler)), out.where,
                  facts.catalog.name(part_of(facts, Kind::chassis)));
  out.remedy = fmt::format("the radiator on a nearer mount, or a cooler with tubes of {:.0f} mm",
                           std::ceil(m.value.quantile(0.95)));
}

constexpr Rule tube_rule = {
    .id = "fit.tube-reach",
    .about = "the loop's tubes against the way to the radiator, where the case states it",
    .consequence =
        "The tubes would pull at the pump block or kink; the radiator could not be put where it "
        "was planned.",
    .grade = Grade::must,
    .kinds = seat_kinds,
    .reads = seat_cells,
    .brief_keys = seat_brief_keys,
    .relation = Relation::at_most,
    .unit = "mm",
    .basis = Basis::part_data,
    .equation = "way of the tubes <= tube length, (T10)",
    .source = "part data; analysis/fit/README.md (T10)",
    .places = tube_places,
    .measure = measure_tube,
    .tell = tell_tube,
    .burdens = burdens_beside<Kind::cooler, Kind::chassis>,
    .family = seat_family};

// --- fit.pump-height

// On top and bottom it is plain; elsewhere the case has to state it.
bool is_plain(const Facts& facts, Row mount) {
  const std::string_view where = facts.catalog.word(face, mount);
  return where == "top" || where == "bottom";
}

int pump_places(const Facts& facts) {
  const Row mount = radiator_mount(facts);
  if (mount == no_row) return 0;
  return is_plain(facts, mount) || !facts.catalog.absent(end_above_socket, mount) ? 1 : 0;
}

// (T11)
void measure_pump(const Facts& facts, int, Measure& m) {
  const Row mount = radiator_mount(facts);
  if (is_plain(facts, mount)) {
    const std::string_view where = m.read_word(facts, face, mount);
    m.compare_text(where == "top" ? "above the pump" : "below the pump", "above the pump",
                   where == "top");
    return;
  }
  m.value = m.read_claimed(facts, end_above_socket, mount);
  m.limit = 0.0;
}

void tell_pump(const Facts& facts, int, const Measure& m, Telling& out) {
  out.subjects = {part_of(facts, Kind::cooler), part_of(facts, Kind::chassis)};
  out.where = mount_name(facts.catalog, radiator_mount(facts));
  out.statement = fmt::format(
      "The radiator of {} on {} of the case {} reaches higher than the pump on the processor.",
      facts.catalog.name(part_of(facts, Kind::cooler)), out.where,
      facts.catalog.name(part_of(facts, Kind::chassis)));
  out.remedy = "the radiator on a mount that reaches higher";
  if (!m.is_text) out.remedy += ", with its tubes downwards";
}

constexpr Rule pump_rule = {
    .id = "fit.pump-height",
    .about = "the highest point of a loop lies in its radiator, not in the pump",
    .consequence =
        "Air in the loop would gather in the pump, which then rattles, cools badly and wears out "
        "early.",
    .grade = Grade::must,
    .kinds = seat_kinds,
    .reads = seat_cells,
    .brief_keys = seat_brief_keys,
    .relation = Relation::at_least,
    .unit = "mm",
    .basis = Basis::common_practice,
    .equation = "upper end of the radiator above the pump >= 0, (T11)",
    .source = "common practice, no source",
    .places = pump_places,
    .measure = measure_pump,
    .tell = tell_pump,
    .burdens = burdens_beside<Kind::cooler, Kind::chassis>,
    .family = seat_family};

constexpr std::array<const Rule*, 2> rules = {&tube_rule, &pump_rule};

}  // namespace

std::span<const Rule* const> loop_rules() { return rules; }

}  // namespace rigproof::fit
