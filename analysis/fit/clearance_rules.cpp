// One size of one part against the room for it in the case (T4), six times, and the case's volume.
#include <fmt/format.h>

#include <cmath>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/seat_rules.hpp"
#include "base/contract.hpp"

namespace rigproof::fit {
namespace {

struct Clearance {
  std::string_view limits;  ///< as in case_clearances.limits
  Kind kind;
  ColumnId size;
  std::string_view what;  ///< "card" ...
  std::string_view fits;  ///< "is short enough for" ...
  std::string_view adjective;
  bool always_asked;  ///< a case that states no such room: unknown; else the rule does not apply
  bool needs_more = false;  ///< of a column of its own behind it, (T15)
  ColumnId behind = {};
};

constexpr Clearance card_length{
    "card-length", Kind::gpu, column("gpu", "length_mm"), "card", "is short enough for",
    "long",        true};
constexpr Clearance card_height{"card-height", Kind::gpu,           column("gpu", "height_mm"),
                                "card",        "is low enough for", "high",
                                false};
constexpr Clearance card_thickness{
    "card-thickness", Kind::gpu, column("gpu", "thickness_mm"), "card", "is thin enough for",
    "thick",          false};
constexpr Clearance cooler_height{
    "cooler-height", Kind::cooler, column("cooler", "height_mm"), "cooler", "is low enough for",
    "high",          true};
constexpr Clearance supply_length{
    "supply-length", Kind::psu, column("psu", "length_mm"), "supply", "is short enough for",
    "long",          true};

constexpr Clearance supply_cables{"supply-and-cables",
                                  Kind::psu,
                                  column("psu", "length_mm"),
                                  "supply",
                                  "with its bent cables is short enough for",
                                  "long with them",
                                  false,
                                  true,
                                  column("psu", "cable_bend_mm")};

template <const Clearance& clearance>
int clearance_places(const Facts& facts) {
  if (!facts.build.has(clearance.kind) || !facts.build.has(Kind::chassis)) return 0;
  return clearance.always_asked || always_row(facts, clearance.limits) != no_row ? 1 : 0;
}

template <const Clearance& clearance>
void measure_clearance(const Facts& facts, int, Measure& m) {
  const Row part = facts.build.one(clearance.kind);
  if constexpr (clearance.needs_more) {
    m.value = m.read(facts, clearance.size, part);
    m.value += m.read(facts, clearance.behind, part);
  } else {
    m.value = m.read_claimed(facts, clearance.size, part);
  }
  m.limit = room_mm(facts, clearance.limits, m);
}

template <const Clearance& clearance>
void tell_clearance(const Facts& facts, int, const Measure& m, Telling& out) {
  const PartRef part{clearance.kind, facts.build.one(clearance.kind)};
  const PartRef chassis{Kind::chassis, facts.build.one(Kind::chassis)};
  const std::string mounted = mounting_text(facts, choose_mounting(facts));
  out.subjects = {part, chassis};
  out.statement = fmt::format("The {} {} {} the case {}{}{}.", clearance.what,
                              facts.catalog.name(part), clearance.fits, facts.catalog.name(chassis),
                              mounted.empty() ? "" : ", ", mounted);
  if (m.limit.is_absent()) return;
  out.remedy = fmt::format("a {} at most {:.0f} mm {}", clearance.what,
                           std::floor(m.limit.quantile(0.05)), clearance.adjective);
  const Row always = always_row(facts, clearance.limits);
  if (m.limit.high() < facts.draws.of(column("case_clearances", "by_mm"), always).high())
    out.remedy += ", or the radiator and fans where they take nothing from it";
}

template <const Clearance& clearance>
constexpr Rule clearance_rule(std::string_view id, std::string_view about,
                              std::string_view consequence, std::string_view equation) {
  return {.id = id,
          .about = about,
          .consequence = consequence,
          .grade = Grade::must,
          .kinds = clearance.kind == Kind::psu ? std::span<const Kind>(supply_seat_kinds)
                                               : std::span<const Kind>(seat_kinds),
          .reads = clearance.kind == Kind::psu ? std::span<const ColumnId>(supply_seat_cells)
                                               : std::span<const ColumnId>(seat_cells),
          .brief_keys = seat_brief_keys,
          .relation = Relation::at_most,
          .unit = "mm",
          .basis = Basis::part_data,
          .equation = equation,
          .source = clearance.needs_more ? "part data; analysis/fit/README.md (T15)"
                                         : "part data; analysis/fit/README.md (T4)",
          .places = clearance_places<clearance>,
          .measure = measure_clearance<clearance>,
          .tell = tell_clearance<clearance>,
          .burdens = burdens_beside<clearance.kind, Kind::chassis>,
          .family = clearance.kind == Kind::psu ? std::string_view{} : seat_family};
}

constexpr Rule card_length_rule = clearance_rule<card_length>(
    "fit.card-length", "the card's length against the room behind the bracket",
    "The card would hit what stands in front of it and could not be put into its slot.",
    "card length <= room, (T4)");
constexpr Rule card_height_rule = clearance_rule<card_height>(
    "fit.card-height",
    "the card's height against the room above the slot, where the case states it",
    "The card would stick out past the case's side, and the side panel would not close.",
    "card height <= room, (T4)");
constexpr Rule card_thickness_rule = clearance_rule<card_thickness>(
    "fit.card-thickness",
    "the card's thickness against the room beside it, where the case states it",
    "The card would press against what lies beside it; its fans would get no air or it would not "
    "go in.",
    "card thickness <= room, (T4)");
constexpr Rule cooler_height_rule = clearance_rule<cooler_height>(
    "fit.cooler-height", "the cooler's height against the room above the board",
    "The side panel would not close over the cooler.", "cooler height <= room, (T4)");
constexpr Rule supply_length_rule = clearance_rule<supply_length>(
    "fit.supply-length", "the supply's length against the room in its chamber",
    "The supply would not go into its chamber, or would leave no room for its cables.",
    "supply length <= room, (T4)");
constexpr Rule supply_cables_rule = clearance_rule<supply_cables>(
    "fit.supply-cables",
    "the supply with its bent cables against the depth of its chamber, where the case states it",
    "The cables would be bent sharply behind the supply, or would not go in beside what lies "
    "there.",
    "supply length + plugs and bent cables <= depth of the chamber, (T15)");

int volume_places(const Facts& facts) {
  return facts.brief.volume_l_at_most && facts.build.has(Kind::chassis) ? 1 : 0;
}

// (T5) The stated volume, else the box around the case.
void measure_volume(const Facts& facts, int, Measure& m) {
  const Row chassis = facts.build.one(Kind::chassis);
  const Catalog& catalog = facts.catalog;
  RP_EXPECT(facts.brief.volume_l_at_most.has_value());  // else the rule has no places
  m.limit = facts.brief.volume_l_at_most.value_or(0.0);
  const double box_l = catalog.number(column("case", "width_mm"), chassis) *
                       catalog.number(column("case", "height_mm"), chassis) *
                       catalog.number(column("case", "depth_mm"), chassis) * 1e-6;
  const bool use_box = catalog.absent(column("case", "volume_l"), chassis) && !std::isnan(box_l);
  m.value = use_box ? Draws(box_l) : m.read_claimed(facts, column("case", "volume_l"), chassis);
}

void tell_volume(const Facts& facts, int, const Measure& m, Telling& out) {
  const PartRef chassis{Kind::chassis, facts.build.one(Kind::chassis)};
  out.subjects = {chassis};
  out.statement =
      fmt::format("The case {} is no larger than the brief allows.", facts.catalog.name(chassis));
  out.remedy = fmt::format("a case of at most {:g} l", m.limit.median());
}

constexpr std::array case_only = {Kind::chassis};
constexpr std::array volume_cells = {column("case", "volume_l"), column("case", "width_mm"),
                                     column("case", "height_mm"), column("case", "depth_mm")};
constexpr std::array<std::string_view, 1> volume_keys = {"limits.volume_l"};

constexpr Rule volume_rule = {
    .id = "fit.case-volume",
    .about = "the case's outside volume against the brief's limit",
    .consequence = "The case would be larger than the place kept for it and would not fit there.",
    .grade = Grade::must,
    .kinds = case_only,
    .reads = volume_cells,
    .brief_keys = volume_keys,
    .relation = Relation::at_most,
    .unit = "l",
    .basis = Basis::part_data,
    .equation = "outside volume of the case <= volume the brief allows, (T5)",
    .source = "part data; analysis/fit/README.md (T5)",
    .places = volume_places,
    .measure = measure_volume,
    .tell = tell_volume};

constexpr std::array<const Rule*, 7> rules = {
    &card_length_rule,   &card_height_rule,   &card_thickness_rule, &cooler_height_rule,
    &supply_length_rule, &supply_cables_rule, &volume_rule};

}  // namespace

std::span<const Rule* const> clearance_rules() { return rules; }

}  // namespace rigproof::fit
