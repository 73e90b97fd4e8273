// PCI Express lanes: what a drive gets in its socket, what the card gets in its slot, and whether
// drives take lanes from the card.
#include <fmt/format.h>

#include <cmath>

#include "analysis/match/drive_seats.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr std::string_view rates = "[pcie-rates] line rates and codings; part data";
constexpr ColumnId cpu_generation = column("cpu", "pcie_generation");

std::string link_words(const PcieLink& link) {
  return fmt::format("generation {} x{}", number(link.generation), number(link.lanes));
}

// "half its rate", "63 % of its rate".
std::string share_words(double share) {
  if (share > 0.995) return "its full rate";
  if (std::fabs(share - 0.5) < 0.005) return "half its rate";
  if (std::fabs(share - 0.25) < 0.005) return "a quarter of its rate";
  return fmt::format("{} % of its rate", number(std::round(share * 100.0)));
}

// The drives that have a place and speak NVMe, or may: a claim each.
struct Linked {
  M2Drives drives;
  Seats seats;
  std::array<std::size_t, most_drives> which{};
  int count = 0;
};

Linked linked(const Facts& facts) {
  Linked out;
  out.drives = m2_drives(facts);
  out.seats = seats_of(facts, out.drives);
  for (std::size_t d = 0; d < out.drives.count; ++d)
    if (out.seats.socket_of[d] >= 0 && facts.catalog.word(drive_link, out.drives.rows[d]) != "SATA")
      out.which[static_cast<std::size_t>(out.count++)] = d;
  return out;
}

struct Place {
  Row drive;
  Row socket;
  bool sure;
};

Place place_at(const Facts& facts, int place) {
  const Linked all = linked(facts);
  const std::size_t d = all.which[static_cast<std::size_t>(place)];
  const auto s = static_cast<std::size_t>(all.seats.socket_of[d]);
  return {all.drives.rows[d], all.drives.sockets[s], (all.drives.surely[d] >> s & 1U) != 0};
}

constexpr std::array board_gpu_storage = {Kind::board, Kind::gpu, Kind::storage};

int drive_link_places(const Facts& facts) { return linked(facts).count; }

void measure_drive_link(const Facts& facts, int place, Measure& m) {
  const Place at = place_at(facts, place);
  m.read_word(facts, drive_link, at.drive);
  if (!at.sure) m.read_word(facts, socket_links, at.socket);
  for (const ColumnId id : {drive_generation, drive_lanes}) m.read(facts, id, at.drive);
  for (const ColumnId id : {socket_number, socket_generation, socket_lanes})
    m.read(facts, id, at.socket);
  const PcieLink own = link_of_drive(facts, at.drive);
  const PcieLink got = between(own, link_of_socket(facts, at.socket));
  if (own.known()) m.limit = own.gb_s();
  if (got.known()) m.value = got.gb_s();
}

void tell_drive_link(const Facts& facts, int place, const Measure& m, Telling& t) {
  const Place at = place_at(facts, place);
  const PartRef board = only(facts, Kind::board);
  const PartRef drive{Kind::storage, at.drive};
  const std::string socket = cell(facts, socket_number, at.socket);
  t.where = "socket " + socket;
  t.subjects = {board, drive};
  if (m.unknown) {
    t.statement = fmt::format(
        "The {} in socket {} of the {} board runs at its own rate ({}: generation {} "
        "x{}; {}: generation {} x{}).",
        name(facts, drive), socket, name(facts, board), "drive",
        cell(facts, drive_generation, at.drive), cell(facts, drive_lanes, at.drive), "socket",
        cell(facts, socket_generation, at.socket), cell(facts, socket_lanes, at.socket));
    return;
  }
  const PcieLink own = link_of_drive(facts, at.drive);
  const PcieLink got = between(own, link_of_socket(facts, at.socket));
  t.statement =
      fmt::format("The {} runs at {} in socket {} of the {} board: {}{}.", name(facts, drive),
                  link_words(got), socket, name(facts, board), share_words(got.gb_s() / own.gb_s()),
                  got.gb_s() < own.gb_s() ? " (" + link_words(own) + ")" : "");
  t.remedy = fmt::format(
      "a board with a {} socket for it; if the rate does not matter, a drive of the socket's "
      "generation costs less",
      link_words(own));
}

int shared_lanes_places(const Facts& facts) {
  if (!facts.build.has(Kind::board) || !facts.build.has(Kind::gpu)) return 0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (is_m2(facts, drive.row) || facts.catalog.absent(drive_mounting, drive.row)) return 1;
  return 0;
}

// Where the brief accepts it the card must keep one lane: without any it does not run.
int lanes_that_may_be_taken(const Facts& facts, int taken) {
  const Row slot = card_slot_row(facts);
  if (!facts.brief.accept_shared_lanes || taken <= 0 || slot == no_row) return 0;
  const double usable = std::min(facts.catalog.number(slot_lanes, slot),
                                 facts.catalog.number(card_lanes, facts.build.one(Kind::gpu)));
  return std::isnan(usable) ? 0 : static_cast<int>(usable) - 1;
}

constexpr std::array lane_cells = {socket_number, socket_shares, socket_lanes_left};

void measure_shared_lanes(const Facts& facts, int, Measure& m) {
  m.limit = 0.0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    m.read_word(facts, drive_mounting, drive.row);
  if (m.read_rows(facts, table("board_m2"), only(facts, Kind::board)).empty() || m.unknown) return;
  const M2Drives drives = m2_drives(facts);
  const SeatProblem stated = seat_problem(facts, drives, Outlook::stated);
  const Seats seats = m.deciding ? best_seats(stated) : first_best_seats(stated);
  note_places(facts, drives, seats, lane_cells, m);
  const bool known = seats.unsure == 0 && seats.lanes < unknown_loss;
  if (known && seats.lanes > 0) {
    m.note_seen(slot_lanes, card_slot_row(facts));
    m.note_seen(card_lanes, facts.build.one(Kind::gpu));
  }
  const int least = known && seats.lanes == 0
                        ? 0
                        : best_seats(seat_problem(facts, drives, Outlook::hopeful)).lanes;
  const int taken = known ? seats.lanes : least;
  const int allowed = lanes_that_may_be_taken(facts, taken);
  m.limit = allowed;
  const bool settled = (known && taken <= allowed) || (seats.unsure == 0 && least > allowed);
  if (settled) {
    m.value = taken;
    return;
  }
  m.unknown = true;
  seats_in_doubt(facts, drives, false, &m);
}

// "the Fast 80 in socket 2".
std::string in_socket(const Facts& facts, const M2Drives& drives, std::size_t d, Row socket) {
  return fmt::format("the {} in socket {}", name(facts, {Kind::storage, drives.rows[d]}),
                     cell(facts, socket_number, socket));
}

void tell_shared_lanes(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef card = only(facts, Kind::gpu);
  const M2Drives drives = m2_drives(facts);
  const Seats seats = seats_of(facts, drives);
  std::vector<std::string> takers;
  for (std::size_t d = 0; d < drives.count; ++d) {
    if (seats.socket_of[d] < 0) continue;
    const Row socket = drives.sockets[static_cast<std::size_t>(seats.socket_of[d])];
    const int taken = lanes_taken(facts, socket);
    if (taken > 0 && taken < unknown_loss)
      takers.push_back(
          fmt::format("{} leaves it {}", in_socket(facts, drives, d, socket),
                      counted(facts.catalog.number(socket_lanes_left, socket), "lane", "lanes")));
    else if (taken > 0 && m.unknown)
      takers.push_back(fmt::format("not known for {}", in_socket(facts, drives, d, socket)));
  }
  const bool accepted = !m.unknown && !m.value.is_absent() && m.value.median() > 0.0 &&
                        facts.brief.accept_shared_lanes;
  t.statement = accepted
                    ? fmt::format(
                          "Drives take no more lanes from the {}'s slot on the {} board than the "
                          "brief accepts ({}).",
                          name(facts, card), name(facts, board), listed(takers))
                    : fmt::format("No M.2 drive takes lanes from the {}'s slot on the {} board{}.",
                                  name(facts, card), name(facts, board),
                                  takers.empty() ? "" : " (" + listed(takers) + ")");
  t.remedy =
      "another socket for the drive ([mounts]), a SATA drive in a bay, a board whose sockets share "
      "nothing with the slot, or accept.shared_lanes in the brief";
  t.subjects = {board, card};
  for (int i = 0; i < different(facts, Kind::storage); ++i) {
    const PartRef drive = nth(facts, Kind::storage, i);
    if (is_m2(facts, drive.row) || facts.catalog.absent(drive_mounting, drive.row))
      t.subjects.push_back(drive);
  }
}

constexpr std::array cpu_board_gpu_storage = {Kind::cpu, Kind::board, Kind::gpu, Kind::storage};
constexpr std::array card_link_reads = [] {
  std::array<ColumnId, seats_read.size() + 3> all{};
  std::size_t i = 0;
  for (const ColumnId id : seats_read) all[i++] = id;
  all[i++] = cpu_generation;
  all[i++] = card_generation;
  all[i++] = slot_generation;
  return all;
}();

// Slots that are listed without a full-length one: match.card-slot speaks of that.
int card_link_places(const Facts& facts) {
  if (!once_with<Kind::cpu, Kind::board, Kind::gpu>(facts)) return 0;
  const bool listed_slots =
      !facts.catalog.rows_of(table("board_slots"), only(facts, Kind::board)).empty();
  return listed_slots && card_slot_row(facts) == no_row ? 0 : 1;
}

// What the slot gives this card, with the drives in their places.
PcieLink card_slot_link(const Facts& facts, Row slot) {
  const M2Drives drives = m2_drives(facts);
  const Seats seats = seats_of(facts, drives);
  PcieLink out{std::min(facts.catalog.number(slot_generation, slot),
                        facts.catalog.number(cpu_generation, facts.build.one(Kind::cpu))),
               facts.catalog.number(slot_lanes, slot)};
  if (facts.catalog.absent(slot_generation, slot) ||
      facts.catalog.absent(cpu_generation, facts.build.one(Kind::cpu)))
    out.generation = no_number;
  for (std::size_t d = 0; d < drives.count; ++d) {
    if (seats.socket_of[d] < 0) continue;
    const Row socket = drives.sockets[static_cast<std::size_t>(seats.socket_of[d])];
    const int taken = lanes_taken(facts, socket);
    if (taken == unknown_loss) out.lanes = no_number;
    if (taken > 0 && taken < unknown_loss && !std::isnan(out.lanes))
      out.lanes = std::min(out.lanes, facts.catalog.number(socket_lanes_left, socket));
  }
  return out;
}

void measure_card_link(const Facts& facts, int, Measure& m) {
  const Row card = facts.build.one(Kind::gpu);
  m.read(facts, card_generation, card);
  m.read(facts, card_lanes, card);
  const PcieLink own{facts.catalog.number(card_generation, card),
                     facts.catalog.number(card_lanes, card)};
  if (own.known()) m.limit = own.gb_s();
  const auto slots = m.read_rows(facts, table("board_slots"), only(facts, Kind::board));
  const Row slot = card_slot_row(facts);
  if (slots.empty() || slot == no_row) return;
  m.read(facts, slot_generation, slot);
  m.read(facts, slot_lanes, slot);
  m.read(facts, cpu_generation, facts.build.one(Kind::cpu));
  const M2Drives drives = m2_drives(facts);
  const Seats seats = seats_of(facts, drives);
  note_places(facts, drives, seats, lane_cells, m);
  if (drives.count > 0) m.read_rows(facts, table("board_m2"), only(facts, Kind::board));
  if (seats.lanes == unknown_loss || seats.unsure > 0) {
    m.unknown = true;
    seats_in_doubt(facts, drives, false, &m);
  }
  const PcieLink got = between(own, card_slot_link(facts, slot));
  if (got.known() && !m.unknown) m.value = got.gb_s();
}

void tell_card_link(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef board = only(facts, Kind::board);
  const PartRef card = only(facts, Kind::gpu);
  t.subjects = {cpu, board, card};
  if (m.unknown) {
    const Row slot = card_slot_row(facts);
    t.statement = fmt::format(
        "The {} gets its own generation and lanes on the {} board (card: generation {} x{}; slot: "
        "generation {} x{}; processor: generation {}).",
        name(facts, card), name(facts, board), cell(facts, card_generation, card.row),
        cell(facts, card_lanes, card.row),
        slot == no_row ? "not known" : cell(facts, slot_generation, slot),
        slot == no_row ? "not known" : cell(facts, slot_lanes, slot),
        cell(facts, cpu_generation, cpu.row));
    return;
  }
  const PcieLink own{facts.catalog.number(card_generation, card.row),
                     facts.catalog.number(card_lanes, card.row)};
  const PcieLink got = between(own, card_slot_link(facts, card_slot_row(facts)));
  t.statement = fmt::format("The {} runs at {} on the {} board with the {} processor: {}{}.",
                            name(facts, card), link_words(got), name(facts, board),
                            name(facts, cpu), share_words(got.gb_s() / own.gb_s()),
                            got.gb_s() < own.gb_s() ? " (" + link_words(own) + ")" : "");
  t.remedy = fmt::format(
      "a board and a processor that give the card's slot {}, and drives in sockets that share "
      "nothing with it",
      link_words(own));
}

constexpr std::array shared_lanes_keys = {std::string_view("accept.shared_lanes")};

}  // namespace

constexpr Rule drive_rate = {
    .id = "match.drive-link",
    .about = "what each NVMe drive's socket carries of its rate",
    .consequence = "The drive would run slower than what is printed on it and paid for.",
    .grade = Grade::tells,
    .kinds = board_gpu_storage,
    .reads = seats_read,
    .relation = Relation::at_least,
    .unit = "GB/s",
    .basis = Basis::standard,
    .equation = "rate of the link between drive and socket >= rate of the drive's own link, (4)",
    .source = rates,
    .places = drive_link_places,
    .measure = measure_drive_link,
    .tell = tell_drive_link};

constexpr Rule shared_lanes = {
    .id = "match.shared-lanes",
    .about = "no M.2 drive takes lanes from the graphics card",
    .consequence =
        "A drive would take lanes away from the graphics card, and the card would run slower.",
    .kinds = board_gpu_storage,
    .reads = seats_read,
    .brief_keys = shared_lanes_keys,
    .unit = "lanes",
    .equation = "lanes the card loses to the sockets in use, (1) and (5) <= 0, or what is accepted",
    .source = part_data,
    .places = shared_lanes_places,
    .measure = measure_shared_lanes,
    .tell = tell_shared_lanes};

constexpr Rule card_rate = {
    .id = "match.card-link",
    .about = "what the graphics card's slot carries of its rate",
    .consequence =
        "The card's slot would be slower than the card; it would lose some of its speed.",
    .grade = Grade::tells,
    .kinds = cpu_board_gpu_storage,
    .reads = card_link_reads,
    .relation = Relation::at_least,
    .unit = "GB/s",
    .basis = Basis::standard,
    .equation =
        "rate of the link between card, slot and processor >= rate of the card's own link, "
        "(4) and (5)",
    .source = rates,
    .places = card_link_places,
    .measure = measure_card_link,
    .tell = tell_card_link};

}  // namespace rigproof::match
