#include "analysis/power/power_rules.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "analysis/power/card_plugs.hpp"
#include "analysis/power/connectors.hpp"
#include "analysis/power/header_rules.hpp"
#include "analysis/power/load_cases.hpp"
#include "analysis/power/power_families.hpp"
#include "analysis/power/supply_rating.hpp"

namespace rigproof {
namespace {

using namespace power;

// --- power.sustained

int sustained_places(const Facts& facts) { return facts.build.has(Kind::psu) ? 1 : 0; }

double reserve_frac(const Facts& facts) { return facts.brief.supply_reserve_frac.value_or(0.0); }

// (P1)
void measure_sustained(const Facts& facts, int, Measure& m) {
  m.value = 0.0;
  const PowerTerms terms = power_terms(facts, Load::everything);
  for (std::size_t i = 0; i < terms.count; ++i) {
    const Draws part = power_w(facts, terms.all[i], Load::everything, m);
    if (!part.is_absent()) m.value += part;  // noted; the known terms may be too much already
  }
  m.limit = rated_w(facts, m);
  m.limit *= 1.0 - reserve_frac(facts);
}

void tell_sustained(const Facts& facts, int, const Measure& m, Telling& out) {
  const PartRef psu = part_of(facts, Kind::psu);
  const PowerTerms terms = power_terms(facts, Load::everything);
  for (std::size_t i = 0; i < terms.count; ++i)
    out.subjects.push_back({terms.all[i].kind, terms.all[i].row});
  out.subjects.push_back(psu);
  out.load = "everything";
  out.statement =
      facts.brief.supply_reserve_frac
          ? fmt::format("The supply {} carries everything at once and keeps {:g} % in reserve.",
                        facts.catalog.name(psu), 100.0 * reserve_frac(facts))
          : fmt::format("The supply {} carries everything at once; no reserve is asked.",
                        facts.catalog.name(psu));
  if (!m.value.is_absent())
    out.remedy = fmt::format("a supply rated {:.0f} W or more",
                             std::ceil(m.value.quantile(0.95) / (1.0 - reserve_frac(facts))));
}

// Not what it draws idle: a planner would tell parts apart that are alike here.
constexpr std::array sustained_cells = {
    column("psu", "rated_power_w"),     column("psu", "full_power_c"),
    column("psu", "derating_w_k"),      column("cpu", "sustained_power_w"),
    column("board", "power_w"),         column("memory", "power_w"),
    column("gpu", "sustained_power_w"), column("storage", "power_w"),
    column("cooler", "power_w"),        column("fan", "current_a"),
    column("other", "power_w")};
constexpr std::array<std::string_view, 2> sustained_keys = {"limits.supply_reserve_frac", "room"};

constexpr Rule sustained_rule = {
    .id = "power.sustained",
    .about = "all sustained powers together against the supply's rating",
    .consequence =
        "Under full load the supply would be asked for more than it may give; it would switch off "
        "in the middle of work.",
    .grade = Grade::must,
    .kinds = load_kinds,
    .reads = sustained_cells,
    .brief_keys = sustained_keys,
    .relation = Relation::at_most,
    .unit = "W",
    .basis = Basis::part_data,
    .equation = "sum of sustained powers <= rating in its air x (1 - reserve), (P1), (P16)",
    .source = "part data; analysis/power/README.md (P1)",
    .places = sustained_places,
    .measure = measure_sustained,
    .tell = tell_sustained,
    .capacity = Kind::psu};

// --- power.slot

int card_places(const Facts& facts) { return facts.build.has(Kind::gpu) ? 1 : 0; }

// (P2)
void measure_slot(const Facts& facts, int, Measure& m) {
  m.value = m.read_claimed(facts, column("gpu", "slot_power_w"), facts.build.one(Kind::gpu));
  m.limit = slot_limit_w;
}

void tell_slot(const Facts& facts, int, const Measure&, Telling& out) {
  const PartRef gpu = part_of(facts, Kind::gpu);
  out.subjects = {gpu};
  out.load = "everything";
  out.statement = fmt::format("The card {} draws no more through its slot than the slot may give.",
                              facts.catalog.name(gpu));
  out.remedy = "another card: what a card draws through the slot cannot be changed";
}

constexpr std::array card_only = {Kind::gpu};
constexpr std::array slot_cells = {column("gpu", "slot_power_w")};

constexpr Rule slot_rule = {.id = "power.slot",
                            .about = "the card's share through the slot against the slot's 75 W",
                            .consequence =
                                "The card would draw more through its slot than the slot may give; "
                                "the slot's contacts could overheat.",
                            .grade = Grade::must,
                            .kinds = card_only,
                            .reads = slot_cells,
                            .brief_keys = {},
                            .relation = Relation::at_most,
                            .unit = "W",
                            .basis = Basis::standard,
                            .equation = "power through the slot <= 75 W, (P2)",
                            .source = "[pcie-cem-5] power of an x16 slot",
                            .places = card_places,
                            .measure = measure_slot,
                            .tell = tell_slot};

// --- power.card-inputs

// (P3)
void measure_inputs(const Facts& facts, int, Measure& m) {
  const PartRef gpu = part_of(facts, Kind::gpu);
  m.value = card_plugs_w(facts, gpu.row, m);
  double sum_w = 0.0;
  for (const Row row : m.read_rows(facts, table("gpu_inputs"), gpu)) {
    if (!rated_w(facts.catalog.word(card_input_connector, row)))
      m.note_missing({card_input_connector, row, gpu}, false);
    sum_w += card_input_rated_w(facts.catalog, row);
  }
  if (!m.unknown) m.limit = sum_w;
}

void tell_inputs(const Facts& facts, int, const Measure&, Telling& out) {
  const PartRef gpu = part_of(facts, Kind::gpu);
  out.subjects = {gpu};
  out.load = "everything";
  out.statement = fmt::format(
      "What the card {} draws beside its slot stays within what its power inputs are rated for.",
      facts.catalog.name(gpu));
  out.remedy = "another card, or a lower power limit set on this one";
}

constexpr std::array input_cells = {column("gpu", "sustained_power_w"),
                                    column("gpu", "slot_power_w"), card_input_connector,
                                    card_input_count};

constexpr Rule inputs_rule = {
    .id = "power.card-inputs",
    .about = "the card's power beside the slot against its auxiliary inputs",
    .consequence =
        "The card would draw more through its power plugs than they may carry; a plug could "
        "overheat.",
    .grade = Grade::must,
    .kinds = card_only,
    .reads = input_cells,
    .brief_keys = {},
    .relation = Relation::at_most,
    .unit = "W",
    .basis = Basis::standard,
    .equation = "sustained power - power through the slot <= sum of inputs x rating, (P3)",
    .source = "[pcie-cem-5] auxiliary connectors",
    .places = card_places,
    .measure = measure_inputs,
    .tell = tell_inputs};

// --- power.cpu-inputs

int cpu_places(const Facts& facts) {
  return facts.build.has(Kind::cpu) && facts.build.has(Kind::board) ? 1 : 0;
}

// (P4)
void measure_cpu_inputs(const Facts& facts, int, Measure& m) {
  const Row board = facts.build.one(Kind::board);
  m.value = m.read(facts, column("cpu", "peak_power_w"), facts.build.one(Kind::cpu));
  m.value *= worst_current_per_w();
  m.limit = m.read(facts, column("board", "eps8_inputs"), board) * eps8_a;
  m.limit += m.read(facts, column("board", "eps4_inputs"), board) * eps4_a;
}

void tell_cpu_inputs(const Facts& facts, int, const Measure&, Telling& out) {
  const PartRef cpu = part_of(facts, Kind::cpu);
  const PartRef board = part_of(facts, Kind::board);
  out.subjects = {cpu, board};
  out.load = "all-core";
  out.statement = fmt::format("The processor inputs of {} carry the peak of {} on the lowest 12 V.",
                              facts.catalog.name(board), facts.catalog.name(cpu));
  out.remedy = "a board with one more processor input, or a lower power limit";
}

constexpr std::array cpu_input_kinds = {Kind::cpu, Kind::board};
constexpr std::array cpu_input_cells = {
    column("cpu", "peak_power_w"), column("board", "eps8_inputs"), column("board", "eps4_inputs")};

constexpr Rule cpu_inputs_rule = {
    .id = "power.cpu-inputs",
    .about = "the processor's peak current against the board's processor inputs",
    .consequence =
        "The processor's power plugs would carry more than they may; a plug could overheat.",
    .grade = Grade::tells,
    .kinds = cpu_input_kinds,
    .reads = cpu_input_cells,
    .brief_keys = {},
    .relation = Relation::at_most,
    .unit = "A",
    .basis = Basis::common_practice,
    .equation = "peak power / 11.40 V <= 28 A x 8-pin inputs + 14 A x 4-pin inputs, (P4)",
    .source = "common practice, no source",
    .places = cpu_places,
    .measure = measure_cpu_inputs,
    .tell = tell_cpu_inputs};

// --- power.supply-advice

int advice_places(const Facts& facts) {
  const Row gpu = facts.build.one(Kind::gpu);
  return gpu != no_row && facts.build.has(Kind::psu) &&
                 !facts.catalog.absent(column("gpu", "supply_advice_w"), gpu)
             ? 1
             : 0;
}

void measure_advice(const Facts& facts, int, Measure& m) {
  m.value = m.read_claimed(facts, column("psu", "rated_power_w"), facts.build.one(Kind::psu));
  m.limit = m.read(facts, column("gpu", "supply_advice_w"), facts.build.one(Kind::gpu));
}

void tell_advice(const Facts& facts, int, const Measure&, Telling& out) {
  const PartRef gpu = part_of(facts, Kind::gpu);
  const PartRef psu = part_of(facts, Kind::psu);
  out.subjects = {gpu, psu};
  out.statement = fmt::format("The supply {} is as large as the maker of {} advises.",
                              facts.catalog.name(psu), facts.catalog.name(gpu));
  out.remedy =
      "advice allows for machines of every kind: look at the margin of power.sustained, or take a "
      "larger supply";
}

constexpr std::array advice_kinds = {Kind::gpu, Kind::psu};
constexpr std::array advice_cells = {column("gpu", "supply_advice_w"),
                                     column("psu", "rated_power_w")};

constexpr Rule advice_rule = {
    .id = "power.supply-advice",
    .about = "the supply's rating against what the card's maker advises",
    .consequence =
        "The supply is smaller than the card's maker advises, which "
        "counts for less than the sum worked out here.",
    .grade = Grade::tells,
    .kinds = advice_kinds,
    .reads = advice_cells,
    .brief_keys = {},
    .relation = Relation::at_least,
    .unit = "W",
    .basis = Basis::part_data,
    .equation = "rating of the supply >= rating the card's maker advises, (P5)",
    .source = "part data",
    .places = advice_places,
    .measure = measure_advice,
    .tell = tell_advice};

constexpr std::array<const Rule*, 9> rules = {
    &sustained_rule,  &slot_rule,           &inputs_rule,       &cpu_inputs_rule, &advice_rule,
    &fan_header_rule, &cpu_fan_header_rule, &light_header_rule, &usb_header_rule};

}  // namespace

std::span<const Rule* const> power_rules() {
  static const std::vector<const Rule*> all = [] {
    std::vector<const Rule*> joined(rules.begin(), rules.end());
    for (const auto family : {power::peak_rules(), power::wall_rules()})
      joined.insert(joined.end(), family.begin(), family.end());
    return joined;
  }();
  return all;
}

}  // namespace rigproof
