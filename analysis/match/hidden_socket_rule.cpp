// M.2 sockets under the graphics card: a drive there goes in before the card, comes out after it,
// and sits in the card's warm air.
#include <fmt/format.h>

#include <cmath>

#include "analysis/match/drive_seats.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId socket_position = column("board_m2", "position");
constexpr ColumnId slot_position = column("board_slots", "position");
constexpr ColumnId card_slots_filled = column("gpu", "slots");
constexpr std::array board_gpu_storage = {Kind::board, Kind::gpu, Kind::storage};
constexpr std::array hidden_sockets_reads = {
    drive_mounting, drive_link,  socket_number, socket_lengths,  socket_links,
    slot_number,    slot_length, slot_position, socket_position, card_slots_filled};

// Asked where a board says of at least one socket where it lies, and has a drive for it.
int hidden_sockets_places(const Facts& facts) {
  if (!facts.build.has(Kind::board) || !facts.build.has(Kind::gpu)) return 0;
  const auto drives = facts.build.of(Kind::storage);
  const auto sockets = facts.catalog.rows_of(table("board_m2"), only(facts, Kind::board));
  const bool drive =
      std::ranges::any_of(drives, [&](const Chosen& each) { return is_m2(facts, each.row); });
  const bool stated = std::ranges::any_of(
      sockets, [&](Row row) { return !facts.catalog.absent(socket_position, row); });
  return drive && stated ? 1 : 0;
}

enum class Hidden { no, perhaps, yes };

// (17) The card lies over the rear slots from its own on.
Hidden hidden(const Facts& facts, Row socket) {
  const Catalog& catalog = facts.catalog;
  const double at = catalog.number(socket_position, socket);
  if (at == 0.0) return Hidden::no;
  const Row slot = card_slot_row(facts);
  if (slot == no_row) return Hidden::perhaps;
  const double behind = at - catalog.number(slot_position, slot);
  const double filled = catalog.number(card_slots_filled, facts.build.one(Kind::gpu));
  if (behind < 0.0) return Hidden::no;
  if (std::isnan(behind) || std::isnan(filled)) return Hidden::perhaps;
  return behind < filled ? Hidden::yes : Hidden::no;
}

// The fewest drives that must sit under the card, of those that have a socket at all.
int must_hide(const Facts& facts, const M2Drives& drives, bool doubt_hides) {
  Sockets open = 0;
  for (std::size_t s = 0; s < drives.sockets.size() && s < most_sockets; ++s) {
    const Hidden is = hidden(facts, drives.sockets[s]);
    if (is == Hidden::no || (is == Hidden::perhaps && !doubt_hides))
      open = static_cast<Sockets>(open | 1U << s);
  }
  std::array<Sockets, most_drives> in_open{};
  for (std::size_t d = 0; d < drives.count; ++d)
    in_open[d] = static_cast<Sockets>(drives.perhaps[d] & open);
  const auto without = [&](const std::array<Sockets, most_drives>& fits) {
    return place_drives(std::span(fits).first(drives.count)).without;
  };
  return without(in_open) - without(drives.perhaps);
}

void note_positions(const Facts& facts, const M2Drives& drives, bool missing, Measure& m) {
  const auto look = [&](ColumnId cell, Row row) {
    if (missing)
      m.read(facts, cell, row);
    else
      m.note_seen(cell, row);
  };
  for (const Row socket : drives.sockets) look(socket_position, socket);
  look(card_slots_filled, facts.build.one(Kind::gpu));
  if (const Row slot = card_slot_row(facts); slot != no_row)
    look(slot_position, slot);
  else if (missing)
    m.note_missing({slot_length, no_row, only(facts, Kind::board)}, false);
}

void measure_hidden_sockets(const Facts& facts, int, Measure& m) {
  m.limit = 0.0;
  const M2Drives drives = m2_drives(facts);
  const int at_least = must_hide(facts, drives, false);
  const bool hangs = at_least == 0 && must_hide(facts, drives, true) > 0;
  note_positions(facts, drives, hangs, m);
  set_need(at_least, 0.0, m.unknown, m);
}

void tell_hidden_sockets(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef card = only(facts, Kind::gpu);
  t.subjects = {board, card};
  for (int i = 0; i < different(facts, Kind::storage); ++i)
    if (const PartRef drive = nth(facts, Kind::storage, i); is_m2(facts, drive.row))
      t.subjects.push_back(drive);
  std::vector<std::string> under;
  for (const Row socket : m2_drives(facts).sockets)
    if (hidden(facts, socket) == Hidden::yes)
      under.push_back(fmt::format("socket {}", cell(facts, socket_number, socket)));
  t.statement = fmt::format(
      "Every M.2 drive can sit in a socket of the {} board that the {} does not lie over{}.",
      name(facts, board), name(facts, card),
      under.empty() ? "" : fmt::format(" (it lies over {})", listed(under)));
  if (!m.unknown)
    t.remedy =
        "put that drive in before the card; a thinner card, or one drive of twice the size, "
        "leaves it free";
}

}  // namespace

constexpr Rule hidden_sockets = {
    .id = "match.hidden-sockets",
    .about = "M.2 drives in sockets that the graphics card does not lie over, where that is stated",
    .consequence =
        "A drive would sit under the card: it goes in first, comes out only when the card is out, "
        "and is warmed by it.",
    .grade = Grade::tells,
    .kinds = board_gpu_storage,
    .reads = hidden_sockets_reads,
    .unit = "drives under the card",
    .equation = "drives with a socket - drives that can have one not under the card <= 0, (17)",
    .source = part_data,
    .places = hidden_sockets_places,
    .measure = measure_hidden_sockets,
    .tell = tell_hidden_sockets};

}  // namespace rigproof::match
