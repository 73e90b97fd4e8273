// A place of its own for every drive: M.2 sockets, SATA ports, bays.
#include <fmt/format.h>

#include "analysis/match/drive_places.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId mounting = column("storage", "mounting");
constexpr ColumnId link = column("storage", "link");
constexpr ColumnId socket_number = column("board_m2", "socket");
constexpr ColumnId socket_lengths = column("board_m2", "lengths_mm");
constexpr ColumnId socket_links = column("board_m2", "links");
constexpr std::string_view m2_prefix = "M.2-22";  // 22 mm wide; the length in mm follows

constexpr std::array board_storage = {Kind::board, Kind::storage};
constexpr std::array m2_places_reads = {
    column("board_m2", "board"), socket_number, socket_lengths, socket_links, mounting, link};

bool is_m2(const Facts& facts, Row drive) {
  return facts.catalog.word(mounting, drive).starts_with(m2_prefix);
}

int m2_place_count(const Facts& facts) {
  if (!facts.build.has(Kind::board)) return 0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (is_m2(facts, drive.row) || facts.catalog.absent(mounting, drive.row)) return 1;
  return 0;
}

// Where the author of the build has put the drive; "" when free.
std::string_view fixed_socket(const Facts& facts, Row drive) {
  if (facts.mounts)
    for (const auto& [what, where] : *facts.mounts)
      if (what == facts.catalog.id({Kind::storage, drive})) return where;
  return {};
}

bool is_number(const Facts& facts, Row socket_row, std::string_view text) {
  int value = 0;
  for (const char c : text)
    value = c >= '0' && c <= '9' && value < 1000 ? value * 10 + (c - '0') : -1000;
  return value == static_cast<int>(facts.catalog.number(socket_number, socket_row));
}

// A socket that speaks every link there is takes a drive whose link is not known.
bool speaks_all(const Facts& facts, Row socket_row) {
  std::string_view left = spec(link).choices;
  while (!left.empty()) {
    const auto bar = left.find('|');
    if (!facts.catalog.has_token(socket_links, socket_row, left.substr(0, bar))) return false;
    left = bar == std::string_view::npos ? std::string_view() : left.substr(bar + 1);
  }
  return true;
}

enum class Fits { no, perhaps, yes };

Fits fits(const Facts& facts, Row socket_row, Row drive) {
  const auto fixed = fixed_socket(facts, drive);
  if (!fixed.empty() && !is_number(facts, socket_row, fixed)) return Fits::no;
  auto length = facts.catalog.word(mounting, drive);
  length.remove_prefix(m2_prefix.size());
  if (!facts.catalog.has_token(socket_lengths, socket_row, length)) return Fits::no;
  if (facts.catalog.absent(socket_links, socket_row)) return Fits::perhaps;
  if (facts.catalog.absent(link, drive))
    return speaks_all(facts, socket_row) ? Fits::yes : Fits::perhaps;
  return facts.catalog.has_token(socket_links, socket_row, facts.catalog.word(link, drive))
             ? Fits::yes
             : Fits::no;
}

// Every M.2 drive, piece by piece, with the sockets it surely or perhaps fits.
struct Drives {
  static constexpr std::size_t most = 32;
  std::array<Row, most> rows{};
  std::array<Sockets, most> surely{};
  std::array<Sockets, most> perhaps{};
  std::size_t count = 0;
  int beyond = 0;  ///< more pieces than there can be sockets: without a place in any case
  [[nodiscard]] Places sure() const { return place_drives(std::span(surely).first(count)); }
  [[nodiscard]] Places best() const { return place_drives(std::span(perhaps).first(count)); }
};

Drives drives(const Facts& facts) {
  Drives out;
  const auto sockets = facts.catalog.rows_of(table("board_m2"), only(facts, Kind::board));
  for (const Chosen& drive : facts.build.of(Kind::storage)) {
    if (!is_m2(facts, drive.row)) continue;
    Sockets surely = 0;
    Sockets perhaps = 0;
    for (std::size_t s = 0; s < sockets.size() && s < most_sockets; ++s) {
      const Fits fit = fits(facts, sockets[s], drive.row);
      const auto bit = static_cast<Sockets>(1U << s);
      if (fit == Fits::yes) surely = static_cast<Sockets>(surely | bit);
      if (fit != Fits::no) perhaps = static_cast<Sockets>(perhaps | bit);
    }
    for (int piece = 0; piece < drive.count; ++piece) {
      if (out.count == Drives::most) {
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

// The absent cells on which it hangs.
void note_links(const Facts& facts, Measure& m) {
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (is_m2(facts, drive.row)) m.read_word(facts, link, drive.row);
  for (const Row row : facts.catalog.rows_of(table("board_m2"), only(facts, Kind::board)))
    if (facts.catalog.absent(socket_links, row)) m.note_missing({socket_links, row, {}}, false);
}

void measure_m2_places(const Facts& facts, int, Measure& m) {
  m.limit = 0.0;
  const bool listed = !m.read_rows(facts, table("board_m2"), only(facts, Kind::board)).empty();
  for (const Chosen& drive : facts.build.of(Kind::storage)) m.read_word(facts, mounting, drive.row);
  if (!listed) return;
  const Drives all = drives(facts);
  const int at_least = all.best().without + all.beyond;
  if (at_least == 0 && all.sure().without > 0) note_links(facts, m);
  set_need(at_least, 0.0, m.unknown, m);
}

void tell_m2_places(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const Drives all = drives(facts);
  const auto sockets = static_cast<double>(facts.catalog.rows_of(table("board_m2"), board).size());
  t.statement = fmt::format(
      "Every M.2 drive has a socket of its own that holds its length and speaks its link on the {} "
      "board ({}, {}).",
      name(facts, board), counted(static_cast<double>(all.count) + all.beyond, "drive", "drives"),
      sockets == 0.0 ? "sockets not known" : counted(sockets, "socket", "sockets"));
  const int out = all.best().first_without;
  if (out >= 0 && !m.unknown) {
    const Row drive = all.rows[static_cast<std::size_t>(out)];
    t.remedy = fmt::format(
        "the {} ({}, {}) has no socket: choose another drive for it or a board with a socket for "
        "it",
        name(facts, {Kind::storage, drive}), cell(facts, mounting, drive),
        cell(facts, link, drive));
  }
  t.subjects = {board};
  for (int i = 0; i < different(facts, Kind::storage); ++i) {
    const PartRef drive = nth(facts, Kind::storage, i);
    if (is_m2(facts, drive.row) || facts.catalog.absent(mounting, drive.row))
      t.subjects.push_back(drive);
  }
}

constexpr std::array sata_ports_reads = {column("board", "sata_ports"), mounting, link};

bool bay_or_unknown(const Facts& facts, Row drive, std::string_view bay) {
  const auto word = facts.catalog.word(mounting, drive);
  return word.empty() || word.starts_with(bay);
}

int sata_port_places(const Facts& facts) {
  if (!facts.build.has(Kind::board)) return 0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (bay_or_unknown(facts, drive.row, "bay-")) return 1;
  return 0;
}

void measure_sata_ports(const Facts& facts, int, Measure& m) {
  double needed = 0.0;
  for (const Chosen& drive : facts.build.of(Kind::storage)) {
    if (!bay_or_unknown(facts, drive.row, "bay-")) continue;
    m.read_word(facts, mounting, drive.row);
    if (m.read_word(facts, link, drive.row) == "SATA") needed += drive.count;
  }
  const bool unknown = m.unknown;
  set_need(needed, m.read(facts, sata_ports_reads[0], facts.build.one(Kind::board)), unknown, m);
}

void tell_sata_ports(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  t.statement =
      fmt::format("Every SATA drive in a bay has a port on the {} board (drives: {}, ports: {}).",
                  name(facts, board), m.value.is_absent() ? "not known" : number(m.value.median()),
                  cell(facts, sata_ports_reads[0], board.row));
  t.remedy = "choose a board with more SATA ports, or fewer SATA drives";
  t.subjects = {board};
  for (int i = 0; i < different(facts, Kind::storage); ++i) {
    const PartRef drive = nth(facts, Kind::storage, i);
    if (bay_or_unknown(facts, drive.row, "bay-")) t.subjects.push_back(drive);
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
constexpr std::array bay_places_reads = {mounting, column("case", "bays_2_5"),
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
    if (m.read_word(facts, mounting, drive.row) == bay.mounting) needed += drive.count;
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
    .shape = Shape::two,
    .kinds = board_storage,
    .reads = m2_places_reads,
    .unit = "drives without a place",
    .source = "[pcie-m2] module nomenclature; part data",
    .places = m2_place_count,
    .measure = measure_m2_places,
    .tell = tell_m2_places};

constexpr Rule sata_ports = {.id = "match.sata-ports",
                             .about = "a SATA port for every SATA drive in a bay",
                             .shape = Shape::two,
                             .kinds = board_storage,
                             .reads = sata_ports_reads,
                             .unit = "drives",
                             .source = part_data,
                             .places = sata_port_places,
                             .measure = measure_sata_ports,
                             .tell = tell_sata_ports};

constexpr Rule bay_places = {.id = "match.bay-places",
                             .about = "a place in the case for every drive that sits in a bay",
                             .shape = Shape::two,
                             .kinds = storage_case,
                             .reads = bay_places_reads,
                             .unit = "drives",
                             .source = part_data,
                             .places = bay_place_count,
                             .measure = measure_bay_places,
                             .tell = tell_bay_places};

}  // namespace rigproof::match
