// Card slots: cards beside the graphics card need one that it does not cover.
#include <fmt/format.h>

#include <cmath>

#include "analysis/match/drive_seats.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId other_what = column("other", "what");
constexpr ColumnId other_slot = column("other", "slot");
constexpr ColumnId slot_position = column("board_slots", "position");
constexpr ColumnId card_slots_filled = column("gpu", "slots");
constexpr std::array board_gpu_other = {Kind::board, Kind::gpu, Kind::other};
constexpr std::array covered_slots_reads = {other_what,  other_slot,    slot_number,
                                            slot_length, slot_position, card_slots_filled};

// Lanes in the name of a connector: how long it is. 0: none, or not stated.
int length_of(std::string_view word) {
  for (const int lanes : {16, 8, 4, 1})
    if (word == (lanes == 16 ? "x16" : lanes == 8 ? "x8" : lanes == 4 ? "x4" : "x1")) return lanes;
  return 0;
}

// A part that is no card by what it does needs no slot, said or not.
bool may_need_slot(const Facts& facts, Row other) {
  if (!facts.catalog.absent(other_slot, other))
    return length_of(facts.catalog.word(other_slot, other)) > 0;
  return facts.catalog.absent(other_what, other) ||
         facts.catalog.word(other_what, other) == "wifi-card";
}

int covered_slots_places(const Facts& facts) {
  if (!facts.build.has(Kind::board)) return 0;
  for (const Chosen& part : facts.build.of(Kind::other))
    if (may_need_slot(facts, part.row)) return 1;
  return 0;
}

enum class Free { no, perhaps, yes };

// A card grows away from the processor, so slots before its own stay free; one behind is free when
// it lines up with a rear slot that the card does not fill.
Free free_beside_card(const Facts& facts, Row slot) {
  const Catalog& catalog = facts.catalog;
  const Row card = facts.build.one(Kind::gpu);
  const Row own = card == no_row ? no_row : card_slot_row(facts);
  if (own == no_row) return Free::yes;
  if (slot == own) return Free::no;
  if (catalog.number(slot_number, slot) < catalog.number(slot_number, own)) return Free::yes;
  const double rows_behind =
      catalog.number(slot_position, slot) - catalog.number(slot_position, own);
  const double filled = catalog.number(card_slots_filled, card);
  if (std::isnan(rows_behind) || std::isnan(filled)) return Free::perhaps;
  return rows_behind < filled ? Free::no : Free::yes;
}

struct Cards {
  static constexpr std::size_t most = 48;  // four different parts, twelve pieces each
  std::array<Row, most> rows{};
  std::array<Sockets, most> surely{};
  std::array<Sockets, most> perhaps{};
  std::size_t count = 0;
};

// Cards of which the slot is stated, with the slots each can use. More slots than bits: none.
Cards cards_and_slots(const Facts& facts) {
  Cards out;
  auto slots = facts.catalog.rows_of(table("board_slots"), only(facts, Kind::board));
  if (slots.size() > most_sockets) slots = slots.first(most_sockets);
  for (const Chosen& part : facts.build.of(Kind::other)) {
    const int needed = length_of(facts.catalog.word(other_slot, part.row));
    if (needed == 0) continue;
    Sockets surely = 0;
    Sockets perhaps = 0;
    for (std::size_t s = 0; s < slots.size(); ++s) {
      if (length_of(facts.catalog.word(slot_length, slots[s])) < needed) continue;
      const Free free = free_beside_card(facts, slots[s]);
      const auto bit = static_cast<Sockets>(1U << s);
      if (free == Free::yes) surely = static_cast<Sockets>(surely | bit);
      if (free != Free::no) perhaps = static_cast<Sockets>(perhaps | bit);
    }
    for (int piece = 0; piece < part.count && out.count < Cards::most; ++piece) {
      out.rows[out.count] = part.row;
      out.surely[out.count] = surely;
      out.perhaps[out.count++] = perhaps;
    }
  }
  return out;
}

int without_slot(const Cards& cards, const std::array<Sockets, Cards::most>& fits) {
  return place_drives(std::span(fits).first(cards.count)).without;
}

// The cells that say which slots the card covers.
void note_covered(const Facts& facts, Measure& m, bool missing) {
  const Row card = facts.build.one(Kind::gpu);
  const Row own = card == no_row ? no_row : card_slot_row(facts);
  if (own == no_row) return;
  const auto read = [&](ColumnId id, Row row) {
    if (missing)
      m.read(facts, id, row);
    else
      m.note_seen(id, row);
  };
  read(card_slots_filled, card);
  read(slot_position, own);
  for (const Row slot : facts.catalog.rows_of(table("board_slots"), only(facts, Kind::board)))
    if (slot != own &&
        facts.catalog.number(slot_number, slot) > facts.catalog.number(slot_number, own))
      read(slot_position, slot);
}

void measure_covered_slots(const Facts& facts, int, Measure& m) {
  m.limit = 0.0;
  for (const Chosen& part : facts.build.of(Kind::other))
    if (may_need_slot(facts, part.row)) m.read_word(facts, other_slot, part.row);
  if (m.read_rows(facts, table("board_slots"), only(facts, Kind::board)).empty()) return;
  const Cards cards = cards_and_slots(facts);
  const int at_least = without_slot(cards, cards.perhaps);
  const bool hangs = at_least == 0 && without_slot(cards, cards.surely) > 0;
  note_covered(facts, m, hangs);
  set_need(at_least, 0.0, m.unknown, m);
}

void tell_covered_slots(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef card = only(facts, Kind::gpu);
  t.subjects = {board};
  if (card.row != no_row) t.subjects.push_back(card);
  std::vector<std::string> names;
  for (int i = 0; i < different(facts, Kind::other); ++i) {
    const PartRef part = nth(facts, Kind::other, i);
    if (!may_need_slot(facts, part.row)) continue;
    t.subjects.push_back(part);
    names.push_back(
        fmt::format("the {} ({})", name(facts, part), cell(facts, other_slot, part.row)));
  }
  t.statement = fmt::format(
      "There is a free slot on the {} board for {}{}.", name(facts, board), listed(names),
      card.row == no_row
          ? ""
          : fmt::format(" that the {} (rear slots filled: {}) does not cover", name(facts, card),
                        cell(facts, card_slots_filled, card.row)));
  if (!m.unknown)
    t.remedy =
        "a board with another slot further from the card, a thinner card, or a part that does the "
        "same on the board or by USB";
}

}  // namespace

constexpr Rule covered_slots = {
    .id = "match.covered-slots",
    .about = "a slot that the graphics card does not cover for every other card",
    .consequence =
        "A second card would have no free slot: the graphics card lies over the ones that are "
        "left.",
    .kinds = board_gpu_other,
    .reads = covered_slots_reads,
    .unit = "cards without a slot",
    .equation = "cards - cards that can have a slot at once, of those not covered <= 0, (8)",
    .source = part_data,
    .places = covered_slots_places,
    .measure = measure_covered_slots,
    .tell = tell_covered_slots};

}  // namespace rigproof::match
