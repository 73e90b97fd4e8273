// A place of its own for every drive: M.2 sockets, SATA ports, bays.
#include <fmt/format.h>

#include <algorithm>

#include "analysis/match/drive_seats.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr std::array board_storage = {Kind::board, Kind::storage};
constexpr std::array board_gpu_storage = {Kind::board, Kind::gpu, Kind::storage};
constexpr std::array m2_places_reads = {column("board_m2", "board"),
                                        socket_number,
                                        socket_lengths,
                                        socket_links,
                                        drive_mounting,
                                        drive_link};

int m2_place_count(const Facts& facts) {
  if (!facts.build.has(Kind::board)) return 0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (is_m2(facts, drive.row) || facts.catalog.absent(drive_mounting, drive.row)) return 1;
  return 0;
}

// The fewest drives without a socket, over places that fit for sure or perhaps. It does not hang on
// what else is weighed, so this rule looks at board and drives alone.
int without_socket(const M2Drives& drives, const std::array<Sockets, most_drives>& fits) {
  return place_drives(std::span(fits).first(drives.count)).without + drives.beyond;
}

// The absent cells on which it hangs.
void note_links(const Facts& facts, Measure& m) {
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (is_m2(facts, drive.row)) m.read_word(facts, drive_link, drive.row);
  for (const Row row : facts.catalog.rows_of(table("board_m2"), only(facts, Kind::board)))
    if (facts.catalog.absent(socket_links, row)) m.note_missing({socket_links, row, {}}, false);
}

void measure_m2_places(const Facts& facts, int, Measure& m) {
  m.limit = 0.0;
  const bool listed = !m.read_rows(facts, table("board_m2"), only(facts, Kind::board)).empty();
  for (const Chosen& drive : facts.build.of(Kind::storage)) {
    if (m.read_word(facts, drive_mounting, drive.row).empty()) continue;
    if (is_m2(facts, drive.row)) m.note_seen(drive_link, drive.row);
  }
  if (!listed) return;
  const M2Drives drives = m2_drives(facts);
  for (const Row socket : drives.sockets)
    for (const ColumnId id : {socket_number, socket_lengths, socket_links}) m.note_seen(id, socket);
  const int at_least = without_socket(drives, drives.perhaps);
  if (at_least == 0 && without_socket(drives, drives.surely) > 0) note_links(facts, m);
  set_need(at_least, 0.0, m.unknown, m);
}

void tell_m2_places(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const M2Drives drives = m2_drives(facts);
  const auto sockets = static_cast<double>(drives.sockets.size());
  t.statement = fmt::format(
      "Every M.2 drive has a socket of its own that holds its length and speaks its link on the {} "
      "board ({}, {}).",
      name(facts, board),
      counted(static_cast<double>(drives.count) + drives.beyond, "drive", "drives"),
      sockets == 0.0 ? "sockets not known" : counted(sockets, "socket", "sockets"));
  const Seats seats = seats_of(facts, drives);
  const auto placed = std::span(seats.socket_of).first(drives.count);
  const auto out = std::ranges::find(placed, -1);
  if (out != placed.end() && !m.unknown) {
    const Row drive = drives.rows[static_cast<std::size_t>(out - placed.begin())];
    t.remedy = fmt::format(
        "the {} ({}, {}) has no socket: choose another drive for it or a board with a socket for "
        "it",
        name(facts, {Kind::storage, drive}), cell(facts, drive_mounting, drive),
        cell(facts, drive_link, drive));
  }
  t.subjects = {board};
  for (int i = 0; i < different(facts, Kind::storage); ++i) {
    const PartRef drive = nth(facts, Kind::storage, i);
    if (is_m2(facts, drive.row) || facts.catalog.absent(drive_mounting, drive.row))
      t.subjects.push_back(drive);
  }
}

int sata_port_places(const Facts& facts) {
  if (!facts.build.has(Kind::board)) return 0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (bay_or_unknown(facts, drive.row)) return 1;
  return 0;
}

// Ports that die with the drives in their places; -1 where that is not known and matters. (Places
// that cost too many ports only for want of a cell, or beside which others are not known, settle
// nothing unless even the most hopeful ones cost too many.)
int ports_off(const Facts& facts, Measure& m) {
  const M2Drives drives = m2_drives(facts);
  if (drives.count == 0) return 0;
  if (m.read_rows(facts, table("board_m2"), only(facts, Kind::board)).empty()) return -1;
  const SeatProblem stated = seat_problem(facts, drives, Outlook::stated);
  const Seats seats = m.deciding ? best_seats(stated) : first_best_seats(stated);
  const int off = seats.ports(stated);
  note_places(facts, drives, seats, std::array{socket_number, socket_ports_off}, m);
  if (seats.short_ports == 0 && seats.unsure == 0) return off;
  if (!seats_in_doubt(facts, drives, true, nullptr)) return off;
  const SeatProblem hopeful = seat_problem(facts, drives, Outlook::ports_only);
  const Seats fewest = best_seats(hopeful);
  if (seats.unsure == 0 && fewest.short_ports > 0)
    return off < unknown_loss ? off : fewest.ports(hopeful);
  seats_in_doubt(facts, drives, true, &m);
  return -1;
}

void measure_sata_ports(const Facts& facts, int, Measure& m) {
  double needed = 0.0;
  for (const Chosen& drive : facts.build.of(Kind::storage)) {
    if (!bay_or_unknown(facts, drive.row)) continue;
    m.read_word(facts, drive_mounting, drive.row);
    if (m.read_word(facts, drive_link, drive.row) == "SATA") needed += drive.count;
  }
  const bool unknown = m.unknown;
  const Draws& ports = m.read(facts, board_ports, facts.build.one(Kind::board));
  if (!ports.is_absent() && needed > ports.high()) {  // whatever the sockets cost
    set_need(needed, ports, unknown, m);
    return;
  }
  const int off = ports_off(facts, m);
  const Draws left =
      off < 0 || ports.is_absent() ? Draws::absent() : Draws::larger(0.0, ports - Draws(off));
  set_need(needed, left, unknown, m);
}

// ", less 2 for the drive in socket 3": which sockets cost how many ports.
std::string ports_off_words(const Facts& facts) {
  const M2Drives drives = m2_drives(facts);
  const Seats seats = seats_of(facts, drives);
  std::string out;
  for (std::size_t d = 0; d < drives.count; ++d) {
    if (seats.socket_of[d] < 0) continue;
    const Row socket = drives.sockets[static_cast<std::size_t>(seats.socket_of[d])];
    const bool absent = facts.catalog.absent(socket_ports_off, socket);
    if (!absent && facts.catalog.number(socket_ports_off, socket) == 0.0) continue;
    out += fmt::format(", less {} for the drive in socket {}",
                       absent ? "a number not known" : cell(facts, socket_ports_off, socket),
                       cell(facts, socket_number, socket));
  }
  return out;
}

void tell_sata_ports(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  t.statement =
      fmt::format("Every SATA drive in a bay has a port on the {} board (drives: {}, ports: {}{}).",
                  name(facts, board), m.value.is_absent() ? "not known" : number(m.value.median()),
                  cell(facts, board_ports, board.row), ports_off_words(facts));
  t.remedy =
      "choose a board with more SATA ports, fewer SATA drives, or another socket for an M.2 drive "
      "that costs ports";
  t.subjects = {board};
  for (int i = 0; i < different(facts, Kind::storage); ++i) {
    const PartRef drive = nth(facts, Kind::storage, i);
    if (bay_or_unknown(facts, drive.row)) t.subjects.push_back(drive);
  }
}

struct Bay {
  std::string_view mounting;
  ColumnId places;
  std::string_view where;
};
constexpr std::array bays = {Bay{"bay-2.5", column("case", "bays_2_5"), "2.5 inch places"},
                             Bay{"bay-3.5", column("case", "bays_3_5"), "3.5 inch places"}};
constexpr std::array storage_case = {Kind::storage, Kind::chassis};
constexpr std::array bay_places_reads = {drive_mounting, column("case", "bays_2_5"),
                                         column("case", "bays_3_5")};

// Sizes of bay that some drive needs, or may need.
std::array<bool, bays.size()> bays_needed(const Facts& facts) {
  std::array<bool, bays.size()> set{};
  if (!facts.build.has(Kind::chassis)) return set;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    for (std::size_t i = 0; i < set.size(); ++i)
      set[i] = set[i] || bay_or_unknown(facts, drive.row, bays[i].mounting);
  return set;
}

const Bay& bay_at(const Facts& facts, int place) {
  return bays[static_cast<std::size_t>(nth_set(bays_needed(facts), place))];
}

int bay_place_count(const Facts& facts) { return how_many(bays_needed(facts)); }

void measure_bay_places(const Facts& facts, int place, Measure& m) {
  const Bay& bay = bay_at(facts, place);
  double needed = 0.0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (m.read_word(facts, drive_mounting, drive.row) == bay.mounting) needed += drive.count;
  const bool unknown = m.unknown;
  set_need(needed, m.read(facts, bay.places, facts.build.one(Kind::chassis)), unknown, m);
}

void tell_bay_places(const Facts& facts, int place, const Measure& m, Telling& t) {
  const Bay& bay = bay_at(facts, place);
  const PartRef chassis = only(facts, Kind::chassis);
  t.where = bay.where;
  t.statement =
      fmt::format("The {} case has a place for every {} inch drive (drives: {}, places: {}).",
                  name(facts, chassis), bay.mounting.substr(4),
                  m.value.is_absent() ? "not known" : number(m.value.median()),
                  cell(facts, bay.places, chassis.row));
  t.remedy =
      fmt::format("choose a case with more {}, or drives that sit in M.2 sockets", bay.where);
  for (int i = 0; i < different(facts, Kind::storage); ++i) {
    const PartRef drive = nth(facts, Kind::storage, i);
    if (bay_or_unknown(facts, drive.row, bay.mounting)) t.subjects.push_back(drive);
  }
  t.subjects.push_back(chassis);
}

}  // namespace

constexpr Rule m2_places = {
    .id = "match.m2-places",
    .about = "an M.2 socket of the right length and link for every M.2 drive",
    .consequence = "A drive would have no socket to sit in, or its socket would not talk to it.",
    .kinds = board_storage,
    .reads = m2_places_reads,
    .unit = "drives without a place",
    .equation = "M.2 drives - drives that can have a socket at once <= 0, (1)",
    .source = "[pcie-m2] module nomenclature; part data",
    .places = m2_place_count,
    .measure = measure_m2_places,
    .tell = tell_m2_places};

constexpr Rule sata_ports = {
    .id = "match.sata-ports",
    .about = "a SATA port for every SATA drive in a bay",
    .consequence = "A drive would have no port for its data cable and would not be there.",
    .kinds = board_gpu_storage,
    .reads = seats_read,
    .unit = "drives",
    .equation =
        "SATA drives in bays <= SATA ports - ports that die with "
        "the sockets in use, (1) and (2)",
    .source = part_data,
    .places = sata_port_places,
    .measure = measure_sata_ports,
    .tell = tell_sata_ports};

constexpr Rule bay_places = {.id = "match.bay-places",
                             .about = "a place in the case for every drive that sits in a bay",
                             .consequence = "A drive would have no place to be screwed on.",
                             .kinds = storage_case,
                             .reads = bay_places_reads,
                             .unit = "drives",
                             .equation = "drives for a bay of that size <= bays of that size, (2)",
                             .source = part_data,
                             .places = bay_place_count,
                             .measure = measure_bay_places,
                             .tell = tell_bay_places};

}  // namespace rigproof::match
