// The processor: its socket on the board and under the cooler, its heat, and the stage that feeds
// it.
#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr std::array cpu_board = {Kind::cpu, Kind::board};
constexpr std::array cpu_cooler = {Kind::cpu, Kind::cooler};

constexpr std::array socket_reads = {column("cpu", "socket"), column("board", "socket")};

void measure_socket(const Facts& facts, int, Measure& m) {
  const auto has = m.read_word(facts, socket_reads[0], facts.build.one(Kind::cpu));
  const auto takes = m.read_word(facts, socket_reads[1], facts.build.one(Kind::board));
  m.compare_text(has, takes, has == takes);
}

void tell_socket(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef board = only(facts, Kind::board);
  const auto has = cell(facts, socket_reads[0], cpu.row);
  const auto takes = cell(facts, socket_reads[1], board.row);
  t.statement = fmt::format(
      "The {} board takes the {} processor: socket {} on the board, {} on the processor.",
      name(facts, board), name(facts, cpu), takes, has);
  t.remedy = fmt::format("choose a board with socket {}, or a processor for socket {}", has, takes);
  t.subjects = {cpu, board};
}

constexpr std::array cooler_socket_reads = {column("cpu", "socket"),
                                            column("cooler_sockets", "cooler"),
                                            column("cooler_sockets", "socket")};

void measure_cooler_socket(const Facts& facts, int, Measure& m) {
  const auto has = m.read_word(facts, cooler_socket_reads[0], facts.build.one(Kind::cpu));
  bool fits = false;
  for (const Row row : m.read_rows(facts, table("cooler_sockets"), only(facts, Kind::cooler)))
    fits = fits || facts.catalog.word(cooler_socket_reads[2], row) == has;
  m.compare_text(has, {}, fits);
}

void tell_cooler_socket(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef cooler = only(facts, Kind::cooler);
  const auto has = cell(facts, cooler_socket_reads[0], cpu.row);
  std::vector<std::string> sockets;
  for (const Row row : facts.catalog.rows_of(table("cooler_sockets"), cooler))
    sockets.push_back(cell(facts, cooler_socket_reads[2], row));
  std::ranges::sort(sockets);  // the order of the rows says nothing
  for (const std::string& socket : sockets)
    t.limit_text += (t.limit_text.empty() ? "" : ", ") + socket;
  t.statement = fmt::format(
      "The mounting set of the {} (for {}) fits the socket of the {} ({}).", name(facts, cooler),
      t.limit_text.empty() ? "sockets not known" : t.limit_text, name(facts, cpu), has);
  t.remedy = fmt::format("choose a cooler with a mounting set for socket {}", has);
  t.subjects = {cpu, cooler};
}

constexpr std::array cooler_heat_reads = {column("cpu", "sustained_power_w"),
                                          column("cooler", "rated_heat_w")};

void measure_cooler_heat(const Facts& facts, int, Measure& m) {
  m.value = m.read(facts, cooler_heat_reads[0], facts.build.one(Kind::cpu));
  m.limit = m.read(facts, cooler_heat_reads[1], facts.build.one(Kind::cooler));
}

void tell_cooler_heat(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef cooler = only(facts, Kind::cooler);
  const auto heat = cell(facts, cooler_heat_reads[0], cpu.row);
  t.load = "all-core";
  t.statement = fmt::format(
      "The {} W that the {} keeps up are within the {} W its maker rates the {} for; a rating, not "
      "a temperature.",
      heat, name(facts, cpu), cell(facts, cooler_heat_reads[1], cooler.row), name(facts, cooler));
  t.remedy = fmt::format(
      "choose a cooler rated above {} W, or hold the processor to the cooler's rating", heat);
  t.subjects = {cpu, cooler};
}

constexpr std::array power_stage_reads = {column("cpu", "sustained_power_w"),
                                          column("board", "cpu_sustained_w")};

void measure_power_stage(const Facts& facts, int, Measure& m) {
  m.value = m.read(facts, power_stage_reads[0], facts.build.one(Kind::cpu));
  m.limit = m.read(facts, power_stage_reads[1], facts.build.one(Kind::board));
}

void tell_power_stage(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef board = only(facts, Kind::board);
  const auto power = cell(facts, power_stage_reads[0], cpu.row);
  t.load = "all-core";
  t.statement = fmt::format(
      "The power stage of the {} ({} W for long) feeds the {} at the {} W it keeps up.",
      name(facts, board), cell(facts, power_stage_reads[1], board.row), name(facts, cpu), power);
  t.remedy = fmt::format(
      "choose a board whose stage feeds more than {} W for long, or limit the processor's power",
      power);
  t.subjects = {cpu, board};
}

}  // namespace

constexpr Rule socket = {
    .id = "match.socket",
    .about = "processor and board have the same socket",
    .consequence =
        "The processor would not go into the board's socket; forcing it bends the contacts.",
    .shape = Shape::two,
    .kinds = cpu_board,
    .reads = socket_reads,
    .relation = Relation::equals,
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::board>,
    .measure = measure_socket,
    .tell = tell_socket};

constexpr Rule cooler_socket = {.id = "match.cooler-socket",
                                .about = "the cooler's mounting set fits the processor's socket",
                                .consequence =
                                    "The cooler could not be fastened on this board, and a "
                                    "processor without a cooler shuts down.",
                                .shape = Shape::two,
                                .kinds = cpu_cooler,
                                .reads = cooler_socket_reads,
                                .relation = Relation::one_of,
                                .source = part_data,
                                .places = once_with<Kind::cpu, Kind::cooler>,
                                .measure = measure_cooler_socket,
                                .tell = tell_cooler_socket};

constexpr Rule cooler_heat = {
    .id = "match.cooler-heat",
    .about = "sustained processor power against the heat the cooler is rated for",
    .consequence =
        "The cooler could not carry the processor's heat; the processor would slow itself down, "
        "hot and loud.",
    .shape = Shape::two,
    .kinds = cpu_cooler,
    .reads = cooler_heat_reads,
    .unit = "W",
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::cooler>,
    .measure = measure_cooler_heat,
    .tell = tell_cooler_heat};

constexpr Rule power_stage = {
    .id = "match.power-stage",
    .about = "sustained processor power against what the board's stage feeds for long",
    .consequence =
        "The board could not feed the processor for long; it would slow down, and the board's "
        "parts would age.",
    .shape = Shape::two,
    .kinds = cpu_board,
    .reads = power_stage_reads,
    .unit = "W",
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::board>,
    .measure = measure_power_stage,
    .tell = tell_power_stage};

}  // namespace rigproof::match
