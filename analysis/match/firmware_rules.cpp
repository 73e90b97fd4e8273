// The firmware that starts a processor against the firmware boards in the shops have, (13).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr std::array cpu_board = {Kind::cpu, Kind::board};
constexpr ColumnId cpu_socket = column("cpu", "socket");
constexpr ColumnId board_socket = column("board", "socket");
constexpr ColumnId shipped_first = column("board", "firmware_shipped_first");
constexpr ColumnId shipped_last = column("board", "firmware_shipped_last");
constexpr ColumnId flash_without_cpu = column("board", "flash_without_cpu");
constexpr ColumnId supported_cpu = column("cpu_support", "cpu");
constexpr ColumnId first_firmware = column("cpu_support", "firmware");
constexpr ColumnId firmware_place = column("board_firmware", "place");
constexpr ColumnId firmware_version = column("board_firmware", "version");
constexpr std::array firmware_reads = {cpu_socket,        board_socket,   shipped_first,
                                       shipped_last,      supported_cpu,  first_firmware,
                                       flash_without_cpu, firmware_place, firmware_version};

// Two sockets that are known to differ are match.socket's to refuse: no list has that pair.
int firmware_places(const Facts& facts) {
  if (once_with<Kind::cpu, Kind::board>(facts) == 0) return 0;
  const auto has = facts.catalog.word(cpu_socket, facts.build.one(Kind::cpu));
  const auto takes = facts.catalog.word(board_socket, facts.build.one(Kind::board));
  return has.empty() || takes.empty() || has == takes ? 1 : 0;
}

// The row of the board's list that names the processor.
Row support_row(const Facts& facts) {
  for (const Row row : facts.catalog.rows_of(table("cpu_support"), only(facts, Kind::board)))
    if (facts.catalog.reference(supported_cpu, row) == facts.build.one(Kind::cpu)) return row;
  return no_row;
}

constexpr std::uint64_t shipped_tag = 0x6D6600;  // "mf", then which

// (13) Whole places from first to last, each as likely. The order of the draws is the board's own,
// so that every claim about this board meets the same ones.
Draws shipped_place(const Facts& facts, Row board, const Draws& first, const Draws& last) {
  const CellDraws::Key key = {shipped_tag, board, 0, 0, 0, 0};
  if (const Draws* known = facts.draws.kept(key)) return *known;
  const Draws part = Draws::uniform(0.0, 1.0,
                                    stream("board", facts.catalog.id({Kind::board, board}),
                                           "firmware_shipped", facts.draws.seed()));
  std::array<double, draw_count> samples;
  for (int i = 0; i < draw_count; ++i) {
    const double low = std::round(first[i]);
    const double high = std::max(low, std::round(last[i]));
    samples[static_cast<std::size_t>(i)] =
        std::min(high, low + std::floor(part[i] * (high - low + 1.0)));
  }
  const Draws made = Draws::of(samples);
  facts.draws.keep(key, made);
  return made;
}

void measure_firmware(const Facts& facts, int, Measure& m) {
  const PartRef board = only(facts, Kind::board);
  m.note_seen(cpu_socket, facts.build.one(Kind::cpu));
  m.note_seen(board_socket, board.row);
  if (m.read_rows(facts, table("cpu_support"), board).empty()) return;
  const Row support = support_row(facts);
  if (support == no_row) {
    m.compare_text("not on the board's list", "on the board's list", false);
    return;
  }
  m.note_seen(supported_cpu, support);
  m.limit = m.read(facts, first_firmware, support);
  // Place 1 is the oldest there is: then it does not matter what the shops have.
  if (!m.limit.is_absent() && m.limit.high() <= 1.0) {
    m.compare_text("any", "the oldest there is", true);
    return;
  }
  const Draws& first = m.read(facts, shipped_first, board.row);
  const Draws& last = m.read(facts, shipped_last, board.row);
  if (m.unknown) return;
  if (first.low() > last.high()) {  // the two contradict each other: neither is known
    m.note_missing({shipped_first, board.row, board}, false);
    m.note_missing({shipped_last, board.row, board}, false);
    return;
  }
  m.value = shipped_place(facts, board.row, first, last);
}

// What the maker calls the firmware at a place of the board's list.
std::string version_at(const Facts& facts, PartRef board, double place) {
  for (const Row row : facts.catalog.rows_of(table("board_firmware"), board))
    if (facts.catalog.number(firmware_place, row) == place)
      return std::string(facts.catalog.word(firmware_version, row));
  return fmt::format("number {} of its list", number(place));
}

std::string shipped_words(const Facts& facts, PartRef board) {
  const double first = facts.catalog.number(shipped_first, board.row);
  const double last = facts.catalog.number(shipped_last, board.row);
  if (std::isnan(first) || std::isnan(last))
    return "which one boards in the shops have is not known";
  if (first == last)
    return fmt::format("boards in the shops have {}", version_at(facts, board, first));
  return fmt::format("boards in the shops have {} to {}", version_at(facts, board, first),
                     version_at(facts, board, last));
}

std::string way_to(const Facts& facts, PartRef board, const std::string& version) {
  constexpr std::string_view caution = "; power must not be lost while firmware is written";
  const auto alone = facts.catalog.flag(flash_without_cpu, board.row);
  if (alone == true)
    return fmt::format("flash firmware {} without a processor (the board can){}", version, caution);
  return fmt::format(
      "ask the seller for firmware {} or newer, or flash it with an older processor{}{}", version,
      alone ? "" : " (whether the board can be flashed without one is not known)", caution);
}

void tell_firmware(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef board = only(facts, Kind::board);
  const Row support = support_row(facts);
  t.subjects = {cpu, board};
  if (support == no_row) {
    t.statement = fmt::format("The maker of the {} board lists the {} processor for it.",
                              name(facts, board), name(facts, cpu));
    t.remedy =
        "choose another board, or a processor on this board's list; where its maker does list this "
        "one, add the row to cpu_support.csv";
    return;
  }
  const double needed = facts.catalog.number(first_firmware, support);
  if (std::isnan(needed)) {
    t.statement = fmt::format(
        "The {} board as sold starts the {}: it is on the board's list, but from which firmware on "
        "is not known.",
        name(facts, board), name(facts, cpu));
    return;
  }
  const std::string version = version_at(facts, board, needed);
  t.statement =
      fmt::format("The {} board as sold starts the {}: that takes firmware {} or newer, and {}.",
                  name(facts, board), name(facts, cpu), version, shipped_words(facts, board));
  t.remedy = way_to(facts, board, version);
}

}  // namespace

constexpr Rule firmware = {
    .id = "match.firmware",
    .about = "the firmware boards in the shops have against what the processor needs",
    .consequence =
        "The machine would not start: the board would not know the processor until newer firmware "
        "is written to it.",
    .kinds = cpu_board,
    .reads = firmware_reads,
    .relation = Relation::at_least,
    .unit = "places in the board's list of firmware",
    .equation = "place of the firmware shipped >= place of the first that starts it, (13)",
    .source = part_data,
    .places = firmware_places,
    .measure = measure_firmware,
    .tell = tell_firmware};

}  // namespace rigproof::match
