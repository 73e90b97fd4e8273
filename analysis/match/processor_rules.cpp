// The processor on the board: its socket, and the stage that feeds it.
#include <fmt/format.h>

#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr std::array cpu_board = {Kind::cpu, Kind::board};

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

constexpr std::array power_stage_reads = {column("cpu", "sustained_power_w"),
                                          column("board", "cpu_sustained_w")};

void measure_power_stage(const Facts& facts, int, Measure& m) {
  m.value = m.read_claimed(facts, power_stage_reads[0], facts.build.one(Kind::cpu));
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

constexpr std::array power_stage_peak_reads = {column("cpu", "peak_power_w"),
                                               column("board", "cpu_peak_w")};

void measure_power_stage_peak(const Facts& facts, int, Measure& m) {
  m.value = m.read_claimed(facts, power_stage_peak_reads[0], facts.build.one(Kind::cpu));
  m.limit = m.read(facts, power_stage_peak_reads[1], facts.build.one(Kind::board));
}

void tell_power_stage_peak(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef board = only(facts, Kind::board);
  const auto feeds = cell(facts, power_stage_peak_reads[1], board.row);
  t.load = "all-core";
  t.statement = fmt::format(
      "The power stage of the {} ({} W for seconds) feeds the {} at the {} W it draws for seconds.",
      name(facts, board), feeds, name(facts, cpu), cell(facts, power_stage_peak_reads[0], cpu.row));
  t.remedy = fmt::format(
      "limit the processor's short-time power to {} W in the firmware's settings (it is then a "
      "little slower for seconds), or choose a board whose stage feeds more",
      feeds);
  t.subjects = {cpu, board};
}

}  // namespace

constexpr Rule socket = {
    .id = "match.socket",
    .about = "processor and board have the same socket",
    .consequence =
        "The processor would not go into the board's socket; forcing it bends the contacts.",
    .kinds = cpu_board,
    .reads = socket_reads,
    .relation = Relation::equals,
    .equation = "processor's socket = board's socket, (11)",
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::board>,
    .measure = measure_socket,
    .tell = tell_socket};

constexpr Rule power_stage = {
    .id = "match.power-stage",
    .about = "sustained processor power against what the board's stage feeds for long",
    .consequence =
        "The board could not feed the processor for long; it would slow down, and the board's "
        "parts would age.",
    .kinds = cpu_board,
    .reads = power_stage_reads,
    .unit = "W",
    .equation = "sustained processor power <= power the stage feeds for long, (11)",
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::board>,
    .measure = measure_power_stage,
    .tell = tell_power_stage};

constexpr Rule power_stage_peak = {
    .id = "match.power-stage-peak",
    .about = "peak processor power against what the board's stage feeds for seconds",
    .grade = Grade::tells,
    .kinds = cpu_board,
    .reads = power_stage_peak_reads,
    .unit = "W",
    .equation = "peak processor power <= power the stage feeds for seconds, (11)",
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::board>,
    .measure = measure_power_stage_peak,
    .tell = tell_power_stage_peak};

}  // namespace rigproof::match
