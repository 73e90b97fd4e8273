// The card beside its length and height: its plug and the bend of the cable (T7), the rear slots it
// covers (T8), and whether it is too heavy to hang from its bracket (T14).
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/seat_rules.hpp"

namespace rigproof::fit {
namespace {

constexpr ColumnId plug_side = column("gpu", "plug_side");
constexpr ColumnId plug_bend = column("gpu", "plug_bend_mm");
constexpr ColumnId card_height = column("gpu", "height_mm");
constexpr ColumnId card_length = column("gpu", "length_mm");
constexpr ColumnId input_count = column("gpu_inputs", "count");
constexpr ColumnId input_connector = column("gpu_inputs", "connector");

// --- fit.plug-room

// Rows that all say 0: there is nothing to plug in. No rows: that is not known.
bool has_no_inputs(const Facts& facts) {
  const auto rows = facts.catalog.rows_of(table("gpu_inputs"), part_of(facts, Kind::gpu));
  return !rows.empty() && std::ranges::all_of(rows, [&](Row row) {
    return facts.catalog.number(input_count, row) == 0.0;
  });
}

int plug_places(const Facts& facts) {
  if (!facts.build.has(Kind::gpu) || !facts.build.has(Kind::chassis)) return 0;
  const bool none = facts.catalog.word(plug_side, part_of(facts, Kind::gpu).row) == "none";
  return none || has_no_inputs(facts) ? 0 : 1;
}

struct Side {
  ColumnId size;
  std::string_view limits;
};
constexpr Side top{card_height, "card-height"};
constexpr Side end{card_length, "card-length"};

void measure_side(const Facts& facts, const Side& side, Measure& m) {
  const Row card = part_of(facts, Kind::gpu).row;
  m.value = m.read(facts, side.size, card);
  m.value += m.read(facts, plug_bend, card);
  m.limit = room_mm(facts, side.limits, m);
}

bool holds_for_certain(const Measure& m) { return !m.unknown && (m.limit - m.value).low() >= 0.0; }

void take_seen(const Measure& from, Measure& m) {
  for (int i = 0; i < from.seen_count; ++i) {
    const SeenCell& cell = from.seen[static_cast<std::size_t>(i)];
    m.note_seen(cell.column, cell.row);
  }
}

// (T7) A card that does not say where its plugs go in must have room for them on both sides.
void measure_plug(const Facts& facts, int, Measure& m) {
  const Row card = part_of(facts, Kind::gpu).row;
  for (const Row row : m.read_rows(facts, table("gpu_inputs"), part_of(facts, Kind::gpu)))
    m.note_seen(input_count, row);
  m.note_seen(plug_side, card);
  const std::string_view word = facts.catalog.word(plug_side, card);
  if (!word.empty()) {
    measure_side(facts, word == "top" ? top : end, m);
    return;
  }
  Measure above;
  Measure behind;
  above.deciding = behind.deciding = m.deciding;
  measure_side(facts, top, above);
  measure_side(facts, end, behind);
  take_seen(above, m);
  take_seen(behind, m);
  if (holds_for_certain(above) && holds_for_certain(behind)) {
    const bool above_is_tighter =
        (above.limit - above.value).median() <= (behind.limit - behind.value).median();
    m.value = above_is_tighter ? above.value : behind.value;
    m.limit = above_is_tighter ? above.limit : behind.limit;
    return;
  }
  m.read_word(facts, plug_side, card);
}

// Only one kind of plug is known to overheat where it is bent sharply.
std::string_view plug_caution(const Facts& facts, const PartRef card) {
  const auto rows = facts.catalog.rows_of(table("gpu_inputs"), card);
  const bool small_contacts = std::ranges::any_of(rows, [&](Row row) {
    return facts.catalog.word(input_connector, row) == "12v-2x6" &&
           facts.catalog.number(input_count, row) != 0.0;
  });
  return small_contacts ? "do not bend the cable sharply at the plug to gain room: a 12V-2x6 plug "
                          "that is bent sharply can overheat"
                        : "do not bend the cable sharply at the plug to gain room";
}

void tell_plug(const Facts& facts, int, const Measure& m, Telling& out) {
  const PartRef card = part_of(facts, Kind::gpu);
  const std::string_view side = facts.catalog.word(plug_side, card.row);
  out.subjects = {card, part_of(facts, Kind::chassis)};
  out.statement = fmt::format(
      "There is room {} for the power plug of the card {} and a gentle bend of its cable in the "
      "case {}.",
      side == "top"   ? "between card and side panel"
      : side == "end" ? "behind the card"
                      : "above and behind the card",
      facts.catalog.name(card), facts.catalog.name(part_of(facts, Kind::chassis)));
  const std::string_view caution = plug_caution(facts, card);
  if (m.value.is_absent() || m.limit.is_absent()) {
    out.remedy = fmt::format("measure it on the finished machine; {}", caution);
    return;
  }
  const double lacking_mm = std::ceil((m.value - m.limit).quantile(0.95));
  out.remedy =
      fmt::format("a card with its plug elsewhere, a {} one or a case with {:.0f} mm more room; {}",
                  side == "top" ? "lower" : "shorter", std::max(lacking_mm, 1.0), caution);
}

constexpr Rule plug_rule = {
    .id = "fit.plug-room",
    .about = "room for the card's power plug and the bend of its cable",
    .consequence =
        "The power cable would be pressed and bent sharply at its plug, which can damage the plug "
        "and the cable.",
    .grade = Grade::must,
    .kinds = seat_kinds,
    .reads = seat_cells,
    .brief_keys = seat_brief_keys,
    .relation = Relation::at_most,
    .unit = "mm",
    .basis = Basis::common_practice,
    .equation = "card height (plug at its end: length) + plug and bend <= room, (T7)",
    .source = "part data; what plug and bend need is common practice, no source",
    .places = plug_places,
    .measure = measure_plug,
    .tell = tell_plug,
    .burdens = burdens_beside<Kind::gpu, Kind::chassis>,
    .family = seat_family};

// --- fit.card-slots: one claim for each card that has a slot

constexpr ColumnId slot_number = column("board_slots", "slot");
constexpr ColumnId slot_position = column("board_slots", "position");
constexpr ColumnId slot_length = column("board_slots", "length");
constexpr ColumnId slots_of_card = column("gpu", "slots");
constexpr ColumnId slots_of_case = column("case", "card_slots");

std::span<const Row> slots_of(const Facts& facts) {
  return facts.catalog.rows_of(table("board_slots"), {Kind::board, facts.build.one(Kind::board)});
}

// The place-th full-length slot from the processor outwards; no_row when there are fewer.
Row long_slot(const Facts& facts, int place) {
  Row found = no_row;
  double last = 0.0;  // slots are numbered from 1
  for (int i = 0; i <= place; ++i) {
    found = no_row;
    double number = 0.0;
    for (const Row row : slots_of(facts)) {
      if (facts.catalog.word(slot_length, row) != "x16") continue;
      const double each = facts.catalog.number(slot_number, row);
      if (each <= last || (found != no_row && each >= number)) continue;
      found = row;
      number = each;
    }
    if (found == no_row) return no_row;
    last = number;
  }
  return found;
}

Row card_at(const Facts& facts, int place) {
  for (const Chosen& card : facts.build.of(Kind::gpu)) {
    if (place < card.count) return card.row;
    place -= card.count;
  }
  return no_row;
}

// A card without a slot is match.card-slot's to refuse.
int card_slots_places(const Facts& facts) {
  if (!facts.build.has(Kind::board) || !facts.build.has(Kind::gpu) ||
      !facts.build.has(Kind::chassis))
    return 0;
  if (slots_of(facts).empty()) return 1;
  int places = 0;
  while (card_at(facts, places) != no_row && long_slot(facts, places) != no_row) ++places;
  return places;
}

// (T8)
void measure_card_slots(const Facts& facts, int place, Measure& m) {
  m.limit = m.read(facts, slots_of_case, part_of(facts, Kind::chassis).row);
  const Draws& fills = m.read(facts, slots_of_card, card_at(facts, place));
  if (m.read_rows(facts, table("board_slots"), {Kind::board, facts.build.one(Kind::board)}).empty())
    return;
  const Row slot = long_slot(facts, place);
  m.note_seen(slot_length, slot);
  m.value = m.read(facts, slot_position, slot);
  m.value += fills;
  m.value -= 1.0;
}

void tell_card_slots(const Facts& facts, int place, const Measure& m, Telling& out) {
  const PartRef card{Kind::gpu, card_at(facts, place)};
  const PartRef board{Kind::board, facts.build.one(Kind::board)};
  out.subjects = {board, card, part_of(facts, Kind::chassis)};
  if (card_slots_places(facts) > 1) out.where = fmt::format("card {}", place + 1);
  out.statement = fmt::format(
      "The case {} has rear slots behind the card {} as far as it reaches in its slot on the {} "
      "board.",
      facts.catalog.name(part_of(facts, Kind::chassis)), facts.catalog.name(card),
      facts.catalog.name(board));
  if (m.value.is_absent() || m.limit.is_absent()) return;
  const double too_many = std::ceil((m.value - m.limit).high());
  out.remedy = fmt::format("a card that fills {:.0f} slot{} fewer, or a case with more rear slots",
                           std::max(too_many, 1.0), too_many > 1.0 ? "s" : "");
}

constexpr std::array card_slots_kinds = {Kind::board, Kind::gpu, Kind::chassis};
constexpr std::array card_slots_cells = {column("board_slots", "board"),
                                         slot_number,
                                         slot_position,
                                         slot_length,
                                         slots_of_card,
                                         slots_of_case};

constexpr Rule card_slots_rule = {
    .id = "fit.card-slots",
    .about = "the rear slots the card covers against those of the case",
    .consequence =
        "The card would reach past the last opening at the back, and the case would be in its way.",
    .grade = Grade::must,
    .kinds = card_slots_kinds,
    .reads = card_slots_cells,
    .brief_keys = {},
    .relation = Relation::at_most,
    .unit = "slots",
    .basis = Basis::part_data,
    .equation = "position of the card's slot + slots it fills - 1 <= rear slots of the case, (T8)",
    .source = "part data",
    .places = card_slots_places,
    .measure = measure_card_slots,
    .tell = tell_card_slots};

// --- fit.card-mass: one claim for each card whose mass is stated

constexpr ColumnId card_mass = column("gpu", "mass_kg");
constexpr double heaviest_card_kg = 1.5;  // [pcie-cem-5], from memory

bool states_mass(const Facts& facts, Row card) { return !facts.catalog.absent(card_mass, card); }

Row card_with_mass(const Facts& facts, int place) {
  for (const Chosen& card : facts.build.of(Kind::gpu))
    if (states_mass(facts, card.row) && place-- == 0) return card.row;
  return no_row;
}

int mass_places(const Facts& facts) {
  return static_cast<int>(std::ranges::count_if(
      facts.build.of(Kind::gpu), [&](const Chosen& card) { return states_mass(facts, card.row); }));
}

// (T14)
void measure_mass(const Facts& facts, int place, Measure& m) {
  m.value = m.read_claimed(facts, card_mass, card_with_mass(facts, place));
  m.limit = heaviest_card_kg;
}

void tell_mass(const Facts& facts, int place, const Measure&, Telling& out) {
  const PartRef card{Kind::gpu, card_with_mass(facts, place)};
  out.subjects = {card};
  if (mass_places(facts) > 1) out.where = facts.catalog.id(card);
  out.statement = fmt::format("The card {} is light enough to hang from its bracket alone.",
                              facts.catalog.name(card));
  out.remedy = "a support under its far end, put in before the machine is moved or sent";
}

constexpr std::array mass_kinds = {Kind::gpu};
constexpr std::array mass_cells = {card_mass};

constexpr Rule mass_rule = {
    .id = "fit.card-mass",
    .about = "the card's mass against what its bracket and slot may carry, where it is stated",
    .consequence =
        "The card would sag at its far end and strain the slot, most of all when the machine is "
        "carried.",
    .grade = Grade::tells,
    .kinds = mass_kinds,
    .reads = mass_cells,
    .relation = Relation::at_most,
    .unit = "kg",
    .basis = Basis::standard,
    .equation = "mass of the card <= 1.5 kg, (T14)",
    .source = "[pcie-cem-5] mass of an add-in card, from memory",
    .places = mass_places,
    .measure = measure_mass,
    .tell = tell_mass};

constexpr std::array<const Rule*, 3> rules = {&plug_rule, &card_slots_rule, &mass_rule};

}  // namespace

std::span<const Rule* const> card_rules() { return rules; }

}  // namespace rigproof::fit
