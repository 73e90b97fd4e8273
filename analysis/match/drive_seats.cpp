#include "analysis/match/drive_seats.hpp"

#include <algorithm>
#include <cmath>

#include "analysis/match/rule_words.hpp"

namespace rigproof::match {
namespace {

constexpr std::string_view m2_prefix = "M.2-22";          // 22 mm wide; the length in mm follows
constexpr int to_spare_always = 1000 * most_sockets + 1;  // more than all sockets can cost
constexpr double per_gb_s = 1e6;                          // bandwidth is compared in whole kB/s

// Where the author of the build has put the drive; "" when free.
std::string_view fixed_socket(const Facts& facts, Row drive) {
  if (facts.setup)
    for (const auto& [what, where] : facts.setup->mounts)
      if (what == facts.catalog.id({Kind::storage, drive})) return where;
  return {};
}

bool is_number(const Facts& facts, Row socket, std::string_view text) {
  int value = 0;
  for (const char c : text)
    value = c >= '0' && c <= '9' && value < 1000 ? value * 10 + (c - '0') : -1000;
  return value == static_cast<int>(facts.catalog.number(socket_number, socket));
}

// A socket that speaks every link there is takes a drive whose link is not known.
bool speaks_all(const Facts& facts, Row socket) {
  std::string_view left = spec(drive_link).choices;
  while (!left.empty()) {
    const auto bar = left.find('|');
    if (!facts.catalog.has_token(socket_links, socket, left.substr(0, bar))) return false;
    left = bar == std::string_view::npos ? std::string_view() : left.substr(bar + 1);
  }
  return true;
}

enum class Fits { no, perhaps, yes };

Fits fits(const Facts& facts, Row socket, Row drive) {
  const auto fixed = fixed_socket(facts, drive);
  if (!fixed.empty() && !is_number(facts, socket, fixed)) return Fits::no;
  auto length = facts.catalog.word(drive_mounting, drive);
  length.remove_prefix(m2_prefix.size());
  if (!facts.catalog.has_token(socket_lengths, socket, length)) return Fits::no;
  if (facts.catalog.absent(socket_links, socket)) return Fits::perhaps;
  if (facts.catalog.absent(drive_link, drive))
    return speaks_all(facts, socket) ? Fits::yes : Fits::perhaps;
  return facts.catalog.has_token(socket_links, socket, facts.catalog.word(drive_link, drive))
             ? Fits::yes
             : Fits::no;
}

int count_at(const Facts& facts, ColumnId id, Row row) {
  return static_cast<int>(facts.catalog.number(id, row));
}

// kB/s that the drive loses in this socket; where its own link is not known it loses nothing
// anywhere, so that drives of which more is known come first.
std::uint32_t bandwidth_lost(const Facts& facts, Row socket, Row drive) {
  const PcieLink own = link_of_drive(facts, drive);
  if (facts.catalog.word(drive_link, drive) != "NVMe" || !own.known()) return 0;
  const PcieLink got = between(own, link_of_socket(facts, socket));
  const double lost = own.gb_s() - (got.known() ? got.gb_s() : 0.0);
  return static_cast<std::uint32_t>(std::llround(lost * per_gb_s));
}

// SATA ports that may die before a drive in a bay lacks one.
int spare_ports(const Facts& facts) {
  int needed = 0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (facts.catalog.word(drive_mounting, drive.row).starts_with("bay-") &&
        facts.catalog.word(drive_link, drive.row) == "SATA")
      needed += drive.count;
  if (needed == 0) return to_spare_always;
  const Row board = facts.build.one(Kind::board);
  return (facts.catalog.absent(board_ports, board) ? 0 : count_at(facts, board_ports, board)) -
         needed;
}

Sockets usable(const M2Drives& drives) {
  Sockets out = 0;
  for (std::size_t d = 0; d < drives.count; ++d)
    out = static_cast<Sockets>(out | drives.perhaps[d]);
  return out;
}

}  // namespace

bool is_m2(const Facts& facts, Row drive) {
  return facts.catalog.word(drive_mounting, drive).starts_with(m2_prefix);
}

bool bay_or_unknown(const Facts& facts, Row drive, std::string_view bay) {
  const auto word = facts.catalog.word(drive_mounting, drive);
  return word.empty() || word.starts_with(bay);
}

PcieLink link_of_drive(const Facts& facts, Row drive) {
  return {facts.catalog.number(drive_generation, drive), facts.catalog.number(drive_lanes, drive)};
}

PcieLink link_of_socket(const Facts& facts, Row socket) {
  return {facts.catalog.number(socket_generation, socket),
          facts.catalog.number(socket_lanes, socket)};
}

M2Drives m2_drives(const Facts& facts) {
  M2Drives out;
  const Row board = facts.build.one(Kind::board);
  if (board != no_row)
    out.sockets = facts.catalog.rows_of(table("board_m2"), only(facts, Kind::board));
  if (out.sockets.size() > most_sockets) out.sockets = out.sockets.first(most_sockets);
  for (const Chosen& drive : facts.build.of(Kind::storage)) {
    if (!is_m2(facts, drive.row)) continue;
    Sockets surely = 0;
    Sockets perhaps = 0;
    for (std::size_t s = 0; s < out.sockets.size(); ++s) {
      const Fits fit = fits(facts, out.sockets[s], drive.row);
      const auto bit = static_cast<Sockets>(1U << s);
      if (fit == Fits::yes) surely = static_cast<Sockets>(surely | bit);
      if (fit != Fits::no) perhaps = static_cast<Sockets>(perhaps | bit);
    }
    for (int piece = 0; piece < drive.count; ++piece) {
      if (out.count == most_drives) {
        ++out.beyond;
        continue;
      }
      out.rows[out.count] = drive.row;
      out.surely[out.count] = surely;
      out.perhaps[out.count++] = perhaps;
    }
  }
  return out;
}

Row card_slot_row(const Facts& facts) {
  Row first = no_row;
  if (!facts.build.has(Kind::board)) return first;
  for (const Row slot : facts.catalog.rows_of(table("board_slots"), only(facts, Kind::board)))
    if (facts.catalog.word(slot_length, slot) == "x16" &&
        (first == no_row ||
         count_at(facts, slot_number, slot) < count_at(facts, slot_number, first)))
      first = slot;
  return first;
}

int lanes_taken(const Facts& facts, Row socket) {
  const Row card = facts.build.one(Kind::gpu);
  if (card == no_row) return 0;
  const Catalog& catalog = facts.catalog;
  if (catalog.absent(socket_shares, socket)) return unknown_loss;
  const int shares = count_at(facts, socket_shares, socket);
  if (shares == 0) return 0;
  if (catalog.rows_of(table("board_slots"), only(facts, Kind::board)).empty()) return unknown_loss;
  const Row slot = card_slot_row(facts);
  if (slot == no_row || count_at(facts, slot_number, slot) != shares) return 0;
  const double left = catalog.number(socket_lanes_left, socket);
  const double wired = catalog.number(slot_lanes, slot);
  const double own = catalog.number(card_lanes, card);
  if (wired <= left || own <= left) return 0;  // it keeps all it can use
  if (std::isnan(left) || std::isnan(wired) || std::isnan(own)) return unknown_loss;
  return static_cast<int>(std::min(wired, own) - left);
}

SeatProblem seat_problem(const Facts& facts, const M2Drives& drives, Outlook outlook) {
  SeatProblem out;
  out.drives = drives.count;
  out.spare_ports = spare_ports(facts);
  const bool hopeful = outlook != Outlook::stated;
  for (std::size_t s = 0; s < drives.sockets.size(); ++s) {
    const Row socket = drives.sockets[s];
    const int lanes = lanes_taken(facts, socket);
    out.lanes[s] = static_cast<std::int16_t>(
        outlook == Outlook::ports_only || (hopeful && lanes == unknown_loss) ? 0 : lanes);
    const int if_absent = hopeful ? 0 : unknown_loss;
    out.ports[s] = static_cast<std::int16_t>(facts.catalog.absent(socket_ports_off, socket)
                                                 ? if_absent
                                                 : count_at(facts, socket_ports_off, socket));
    for (std::size_t d = 0; d < drives.count; ++d)
      out.loss[d][s] = bandwidth_lost(facts, socket, drives.rows[d]);
  }
  for (std::size_t d = 0; d < drives.count; ++d) {
    out.fits[d] = drives.perhaps[d];
    if (!hopeful) out.unsure[d] = static_cast<Sockets>(drives.perhaps[d] & ~drives.surely[d]);
  }
  return out;
}

Seats seats_of(const Facts& facts, const M2Drives& drives) {
  return first_best_seats(seat_problem(facts, drives, Outlook::stated));
}

bool seats_in_doubt(const Facts& facts, const M2Drives& drives, bool with_ports, Measure* m) {
  bool doubt = false;
  const auto absent = [&](ColumnId id, Row row) {
    if (!facts.catalog.absent(id, row)) return;
    doubt = true;
    if (m)
      m->note_missing(
          {id, row, id.table < kind_count ? PartRef{static_cast<Kind>(id.table), row} : PartRef{}},
          false);
  };
  const Row card = facts.build.one(Kind::gpu);
  const Row slot = card_slot_row(facts);
  const Sockets used = usable(drives);
  for (std::size_t d = 0; d < drives.count; ++d)
    if (drives.perhaps[d] != drives.surely[d]) absent(drive_link, drives.rows[d]);
  for (std::size_t s = 0; s < drives.sockets.size(); ++s) {
    if ((used >> s & 1U) == 0) continue;
    const Row socket = drives.sockets[s];
    absent(socket_links, socket);
    if (with_ports) absent(socket_ports_off, socket);
    if (card == no_row || lanes_taken(facts, socket) != unknown_loss) continue;
    absent(socket_shares, socket);
    if (facts.catalog.absent(socket_shares, socket)) continue;
    if (slot == no_row) {
      doubt = true;
      if (m)
        m->note_missing({{static_cast<std::uint8_t>(table("board_slots")), 1},
                         no_row,
                         only(facts, Kind::board)},
                        false);
      continue;
    }
    absent(socket_lanes_left, socket);
    absent(slot_lanes, slot);
    absent(card_lanes, card);
  }
  return doubt;
}

void note_places(const Facts& facts, const M2Drives& drives, const Seats& seats,
                 std::span<const ColumnId> columns, Measure& m) {
  for (std::size_t d = 0; d < drives.count; ++d) {
    if (seats.socket_of[d] < 0) continue;
    const Row socket = drives.sockets[static_cast<std::size_t>(seats.socket_of[d])];
    for (const ColumnId id : columns)
      if (!facts.catalog.absent(id, socket)) m.note_seen(id, socket);
  }
}

}  // namespace rigproof::match
