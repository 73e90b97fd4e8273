// Places in the case: the radiator's mount, places for added fans, and air that moves at all.
#include <fmt/format.h>

#include <cmath>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/seat_rules.hpp"

namespace rigproof::fit {
namespace {

constexpr int case_mounts = table("case_mounts");
constexpr int case_fans = table("case_fans");
constexpr ColumnId radiators = column("case_mounts", "radiators_mm");
constexpr ColumnId depth = column("case_mounts", "depth_mm");
constexpr ColumnId radiator_size = column("cooler", "radiator_mm");

// --- fit.radiator-mount

// A cooler whose type is unknown may have one: then the claim is unknown.
int radiator_places(const Facts& facts) {
  if (!facts.build.has(Kind::cooler) || !facts.build.has(Kind::chassis)) return 0;
  const bool type_unknown =
      facts.catalog.absent(column("cooler", "type"), part_of(facts, Kind::cooler).row);
  return type_unknown || has_radiator(facts) ? 1 : 0;
}

void measure_radiator(const Facts& facts, int, Measure& m) {
  m.read_word(facts, column("cooler", "type"), part_of(facts, Kind::cooler).row);
  m.read(facts, radiator_size, part_of(facts, Kind::cooler).row);
  const auto mounts = m.read_rows(facts, case_mounts, part_of(facts, Kind::chassis));
  if (m.unknown) return;
  const Row mount = choose_mounting(facts).radiator;
  const double size_mm = facts.catalog.number(radiator_size, part_of(facts, Kind::cooler).row);
  if (mount == no_row || !takes_radiator(facts.catalog, mount, size_mm)) {
    // Nothing lists the size; a mount whose list is absent might.
    for (const Row row : mounts)
      if (mount == no_row || mount == row) m.read_word(facts, radiators, row);
    m.compare_text("this radiator", "a mount that lists its size", false);
    return;
  }
  m.value = radiator_stack_mm(facts, m);
  m.limit = m.read(facts, depth, mount);
}

void tell_radiator(const Facts& facts, int, const Measure& m, Telling& out) {
  const Row mount = choose_mounting(facts).radiator;
  const std::string_view where = mount == no_row ? "a mount" : mount_name(facts.catalog, mount);
  out.subjects = {part_of(facts, Kind::cooler), part_of(facts, Kind::chassis)};
  out.where = mount == no_row ? "" : where;
  out.statement = fmt::format("The radiator of {} and its fans fit on {} of the case {}.",
                              facts.catalog.name(part_of(facts, Kind::cooler)), where,
                              facts.catalog.name(part_of(facts, Kind::chassis)));
  if (m.is_text)
    out.remedy = "a cooler with a radiator size that a mount of the case lists, or another case";
  else if (!m.limit.is_absent())
    out.remedy = fmt::format("radiator and fans at most {:.0f} mm thick together",
                             std::floor(m.limit.quantile(0.05)));
}

constexpr Rule radiator_rule = {
    .id = "fit.radiator-mount",
    .about = "a mount of the case takes the cooler's radiator with its fans",
    .consequence =
        "The radiator and its fans would have nowhere to be screwed on, so the processor could not "
        "be cooled.",
    .grade = Grade::must,
    .kinds = seat_kinds,
    .reads = seat_cells,
    .brief_keys = seat_brief_keys,
    .relation = Relation::at_most,
    .unit = "mm",
    .basis = Basis::part_data,
    .equation = "radiator + its fans <= depth of the mount",
    .source = "part data",
    .places = radiator_places,
    .measure = measure_radiator,
    .tell = tell_radiator,
    .burdens = burdens_beside<Kind::cooler, Kind::chassis>,
    .family = seat_family};

// --- fit.fan-places: one claim for each model of added fans

const Chosen& added_fan(const Facts& facts, int place) {
  return facts.build.of(Kind::fan)[static_cast<std::size_t>(place)];
}

int fan_claims(const Facts& facts) {
  return facts.build.has(Kind::chassis) ? static_cast<int>(facts.build.of(Kind::fan).size()) : 0;
}

void measure_fan_places(const Facts& facts, int place, Measure& m) {
  const Chosen& fan = added_fan(facts, place);
  m.read(facts, column("fan", "size_mm"), fan.row);
  const auto mounts = m.read_rows(facts, case_mounts, part_of(facts, Kind::chassis));
  if (m.unknown) return;
  const int places = choose_mounting(facts).free_places[static_cast<std::size_t>(place)];
  m.value = fan.count;
  m.limit = places;
  if (fan.count > places) {  // more places may hide in cells that are absent
    for (const Row mount : mounts) {
      m.read_word(facts, column("case_mounts", "fan_sizes_mm"), mount);
      m.read(facts, column("case_mounts", "fan_places"), mount);
    }
  } else {  // its own fans may already sit in them
    m.read_rows(facts, case_fans, part_of(facts, Kind::chassis));
  }
}

void tell_fan_places(const Facts& facts, int place, const Measure&, Telling& out) {
  const PartRef fan{Kind::fan, added_fan(facts, place).row};
  const std::string mounted = mounting_text(facts, choose_mounting(facts));
  out.subjects = {part_of(facts, Kind::chassis), fan};
  if (fan_claims(facts) > 1) out.where = facts.catalog.id(fan);
  out.statement =
      fmt::format("The case {} has free places for {} added {}{}{}.",
                  facts.catalog.name(part_of(facts, Kind::chassis)), added_fan(facts, place).count,
                  facts.catalog.name(fan), mounted.empty() ? "" : ", ", mounted);
  const int unplaced = choose_mounting(facts).unplaced[static_cast<std::size_t>(place)];
  if (unplaced > 0) out.remedy = fmt::format("{} fan{} fewer", unplaced, unplaced == 1 ? "" : "s");
}

constexpr Rule fan_places_rule = {
    .id = "fit.fan-places",
    .about = "free places for the added fans, beside radiator and the case's own",
    .consequence = "A fan would be left over with no place to screw it on.",
    .grade = Grade::must,
    .kinds = seat_kinds,
    .reads = seat_cells,
    .brief_keys = seat_brief_keys,
    .relation = Relation::at_most,
    .unit = "fans",
    .basis = Basis::part_data,
    .equation = "added fans <= free places, (T3)",
    .source = "part data; analysis/fit/README.md (T3)",
    .places = fan_claims,
    .measure = measure_fan_places,
    .tell = tell_fan_places,
    .burdens = burdens_beside<Kind::chassis, Kind::fan>,
    .family = seat_family};

// --- fit.moving-air

int air_places(const Facts& facts) { return facts.build.has(Kind::chassis) ? 1 : 0; }

// The case's own fans, but not those that make room for the radiator.
int own_fans(const Facts& facts, Row radiator_mount) {
  int count = -fans_sold_on(facts, radiator_mount);
  for (const Row row : facts.catalog.rows_of(case_fans, part_of(facts, Kind::chassis)))
    if (!facts.catalog.absent(column("case_fans", "count"), row))
      count += static_cast<int>(facts.catalog.number(column("case_fans", "count"), row));
  return count;
}

// Only fans that are still needed make an absent cell of the cooler matter.
void add_radiator_fans(const Facts& facts, Measure& m) {
  const Row cooler = part_of(facts, Kind::cooler).row;
  if (cooler == no_row) return;
  const bool needed = m.value.low() < m.limit.low();
  if (needed) m.read_word(facts, column("cooler", "type"), cooler);
  if (!has_radiator(facts)) return;
  if (needed || !facts.catalog.absent(column("cooler", "fans"), cooler))
    m.value += m.read(facts, column("cooler", "fans"), cooler);
}

void measure_air(const Facts& facts, int, Measure& m) {
  const Mounting mounting = choose_mounting(facts);
  m.limit = facts.build.has(Kind::gpu) ? 2.0 : 1.0;
  int fans = own_fans(facts, mounting.radiator);
  for (const FanGroup& group : mounting.groups()) fans += group.count;
  m.value = fans;
  add_radiator_fans(facts, m);
  // Fans that are known and enough settle it, whatever the case brings.
  if (m.value.low() < m.limit.low()) m.read_rows(facts, case_fans, part_of(facts, Kind::chassis));
}

void tell_air(const Facts& facts, int, const Measure& m, Telling& out) {
  out.subjects = {part_of(facts, Kind::chassis)};
  for (const Chosen& fan : facts.build.of(Kind::fan)) out.subjects.push_back({Kind::fan, fan.row});
  out.statement =
      fmt::format("At least {} fan{} move{} air through the case {}.", m.limit.median(),
                  m.limit.median() == 1.0 ? "" : "s", m.limit.median() == 1.0 ? "s" : "",
                  facts.catalog.name(part_of(facts, Kind::chassis)));
  if (!m.value.is_absent())
    out.remedy = fmt::format("{:.0f} more fan(s)", std::ceil(m.limit.high() - m.value.low()));
}

constexpr Rule air_rule = {
    .id = "fit.moving-air",
    .about = "fans that move air through the case: two with a card, else one",
    .consequence = "Warm air would stay inside the case; the parts would grow hot, loud and slow.",
    .grade = Grade::must,
    .kinds = seat_kinds,
    .reads = seat_cells,
    .brief_keys = seat_brief_keys,
    .relation = Relation::at_least,
    .unit = "fans",
    .basis = Basis::common_practice,
    .equation = "fans that move air through the case >= 2 with a card, else 1",
    .source = "common practice, no source",
    .places = air_places,
    .measure = measure_air,
    .tell = tell_air,
    .burdens = burdens_beside<Kind::gpu, Kind::cooler, Kind::chassis, Kind::fan>};

constexpr std::array<const Rule*, 3> rules = {&radiator_rule, &fan_places_rule, &air_rule};

}  // namespace

std::span<const Rule* const> mount_rules() { return rules; }

}  // namespace rigproof::fit
