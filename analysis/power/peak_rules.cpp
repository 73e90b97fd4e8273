// What lasts short or sits in one place: excursions past the supply's rating (P10), and the current
// of the hardest-driven contact in the card's plugs (P12).
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "analysis/power/card_plugs.hpp"
#include "analysis/power/conductors.hpp"
#include "analysis/power/connectors.hpp"
#include "analysis/power/excursions.hpp"
#include "analysis/power/load_cases.hpp"
#include "analysis/power/power_families.hpp"
#include "analysis/power/supply_rating.hpp"

namespace rigproof::power {
namespace {

// --- power.excursions: one claim a window

constexpr std::array<std::string_view, 4> window_words = {"100 us", "1 ms", "10 ms", "100 ms"};
constexpr std::array<std::string_view, 4> window_cells = {"100", "1000", "10000", "100000"};
constexpr ColumnId peak_window = column("gpu_peaks", "window_us");
constexpr ColumnId peak_power = column("gpu_peaks", "power_w");

int excursion_places(const Facts& facts) {
  return facts.build.has(Kind::psu) && facts.build.has(Kind::gpu)
             ? static_cast<int>(excursion_windows_us.size())
             : 0;
}

bool has_wide_plug(const Facts& facts) {
  return std::ranges::any_of(
      facts.catalog.rows_of(table("psu_cables"), part_of(facts, Kind::psu)), [&](Row row) {
        return facts.catalog.word(column("psu_cables", "connector"), row) == "12v-2x6" &&
               facts.catalog.number(column("psu_cables", "count"), row) > 0.0;
      });
}

std::optional<ExcursionTable> table_of_supply(const Facts& facts) {
  const Row psu = part_of(facts, Kind::psu).row;
  const double rated_w = facts.catalog.number(column("psu", "rated_power_w"), psu);
  if (std::isnan(rated_w)) return {};
  return excursion_table(facts.catalog.word(column("psu", "edition"), psu), rated_w,
                         has_wide_plug(facts));
}

// The card's measured peak, of all its pieces at once; absent where it was not measured.
Draws card_peak_w(const Facts& facts, std::string_view window, Measure& m) {
  const Chosen& card = facts.build.of(Kind::gpu).front();
  for (const Row row : facts.catalog.rows_of(table("gpu_peaks"), part_of(facts, Kind::gpu)))
    if (facts.catalog.word(peak_window, row) == window)
      return m.read(facts, peak_power, row) * static_cast<double>(card.count);
  m.note_missing({peak_power, no_row, part_of(facts, Kind::gpu)}, false);
  return Draws::absent();
}

// (P10) All others stand somewhere between their mean and the processor's own peak.
void measure_excursions(const Facts& facts, int place, Measure& m) {
  const auto window = static_cast<std::size_t>(place);
  m.read_word(facts, column("psu", "edition"), part_of(facts, Kind::psu).row);
  m.limit = rated_w(facts, m);
  const auto allowed = table_of_supply(facts);
  if (!allowed) {
    m.unknown = true;
    return;
  }
  m.limit *= allowed->at_most_frac[window];
  Draws others = load_w(facts, Load::everything, m);
  others -= m.read(facts, column("gpu", "sustained_power_w"), part_of(facts, Kind::gpu).row) *
            static_cast<double>(facts.build.of(Kind::gpu).front().count);
  Draws others_peak = others;
  if (const Row cpu = facts.build.one(Kind::cpu); cpu != no_row) {
    others_peak -= m.read(facts, column("cpu", "sustained_power_w"), cpu);
    others_peak += m.read(facts, column("cpu", "peak_power_w"), cpu);
    others_peak = Draws::larger(others, others_peak);
  }
  const Draws peak = card_peak_w(facts, window_cells[window], m);
  if (m.unknown) return;
  m.value = Draws::between(peak + others, peak + others_peak,
                           stream("power", "excursion", window_cells[window]));
}

void tell_excursions(const Facts& facts, int place, const Measure& m, Telling& out) {
  const auto window = static_cast<std::size_t>(place);
  out.subjects = {part_of(facts, Kind::gpu), part_of(facts, Kind::psu)};
  out.where = window_words[window];
  out.load = "everything";
  out.statement = fmt::format(
      "The supply {} carries what the card {} asks for over {}, with everything else running.",
      facts.catalog.name(part_of(facts, Kind::psu)), facts.catalog.name(part_of(facts, Kind::gpu)),
      window_words[window]);
  const auto edition = facts.catalog.word(column("psu", "edition"), part_of(facts, Kind::psu).row);
  const bool rated =
      !facts.catalog.absent(column("psu", "rated_power_w"), part_of(facts, Kind::psu).row);
  if (!edition.empty() && rated && !table_of_supply(facts)) {
    out.remedy = fmt::format(
        "edition {} of its design guide, as far as it is known here, promises nothing for so short "
        "a time: take a supply of a later edition, or one with more in reserve",
        edition);
    return;
  }
  if (!m.value.is_absent()) out.remedy = "a larger supply, or a lower power limit for the card";
}

constexpr auto excursion_cells = [] {
  constexpr std::array own = {column("psu", "edition"),          column("psu", "rated_power_w"),
                              column("psu", "full_power_c"),     column("psu", "derating_w_k"),
                              column("psu_cables", "connector"), column("psu_cables", "count"),
                              column("cpu", "peak_power_w"),     column("gpu_peaks", "window_us"),
                              column("gpu_peaks", "power_w")};
  std::array<ColumnId, load_cells.size() + own.size()> all{};
  std::ranges::copy(own, std::ranges::copy(load_cells, all.begin()).out);
  return all;
}();

constexpr std::array<std::string_view, 1> room_keys = {"room"};  // the rating hangs on its air

constexpr Rule excursions_rule = {
    .id = "power.excursions",
    .about = "the card's shortest peaks against what the supply's edition promises",
    .consequence =
        "The supply could switch off for a peak of a thousandth of a second, and the machine with "
        "it.",
    .grade = Grade::tells,
    .kinds = load_kinds,
    .reads = excursion_cells,
    .brief_keys = room_keys,
    .relation = Relation::at_most,
    .unit = "W",
    .basis = Basis::standard,
    .equation = "card's peak + all others, from their mean to their peak <= rating x share, (P10)",
    .source = "[atx12vo-2-01] Table 3-3",
    .places = excursion_places,
    .measure = measure_excursions,
    .tell = tell_excursions};

// --- power.card-contacts: one claim a type of plug the card has

// How much more than its even share one contact of several may carry.
constexpr double most_uneven = 1.25;

std::span<const Row> inputs_of(const Facts& facts) {
  return facts.catalog.rows_of(table("gpu_inputs"), part_of(facts, Kind::gpu));
}

Row input_at(const Facts& facts, int place) {
  for (const Row row : inputs_of(facts))
    if (facts.catalog.number(card_input_count, row) > 0.0 && place-- == 0) return row;
  return no_row;
}

int contact_places(const Facts& facts) {
  if (!facts.build.has(Kind::gpu)) return 0;
  int places = 0;
  while (input_at(facts, places) != no_row) ++places;
  return places;
}

// (P12)
void measure_contacts(const Facts& facts, int place, Measure& m) {
  const Row input = input_at(facts, place);
  m.note_seen(card_input_connector, input);
  const auto plug = plug_named(facts.catalog.word(card_input_connector, input));
  const Draws load = card_plugs_w(facts, part_of(facts, Kind::gpu).row, m);
  const double count = m.read(facts, card_input_count, input).median();
  if (!plug || m.unknown) {
    m.unknown = true;
    return;
  }
  m.limit = plug->contact_a;
  const double even =
      contact_current_a(card_input_share(facts.catalog, part_of(facts, Kind::gpu).row, input),
                        fan_rail_v, plug->circuits, static_cast<int>(count), 1.0);
  const Draws even_a = load * even;
  m.value = Draws::between(even_a, even_a * most_uneven, stream("power", "contacts", plug->name));
}

void tell_contacts(const Facts& facts, int place, const Measure&, Telling& out) {
  out.subjects = {part_of(facts, Kind::gpu)};
  out.where = facts.catalog.word(card_input_connector, input_at(facts, place));
  out.load = "everything";
  out.statement = fmt::format(
      "No contact of the {} plugs of {} carries more than it may, up to a quarter unevenly loaded.",
      out.where, facts.catalog.name(part_of(facts, Kind::gpu)));
  out.remedy =
      "a lower power limit for the card; push every plug in until it clicks and bend its cable "
      "gently: uneven contact is what overheats";
}

constexpr std::array card_only = {Kind::gpu};
constexpr std::array contact_cells = {column("gpu", "sustained_power_w"),
                                      column("gpu", "slot_power_w"), card_input_connector,
                                      card_input_count};

constexpr Rule contacts_rule = {
    .id = "power.card-contacts",
    .about = "the hardest-driven contact in the card's power plugs",
    .consequence = "One contact of a plug could overheat while the others carry little.",
    .grade = Grade::tells,
    .kinds = card_only,
    .reads = contact_cells,
    .relation = Relation::at_most,
    .unit = "A",
    .basis = Basis::common_practice,
    .equation = "1 to 1.25 x power of the plugs / (12 V x circuits) <= rating of a contact, (P12)",
    .source = "[pcie-cem-5] contacts, from memory; unevenness is common practice, no source",
    .places = contact_places,
    .measure = measure_contacts,
    .tell = tell_contacts};

constexpr std::array<const Rule*, 2> rules = {&excursions_rule, &contacts_rule};

}  // namespace

std::span<const Rule* const> peak_rules() { return rules; }

}  // namespace rigproof::power
