// Memory kits against board and processor: type, slots, size, speed.
#include <fmt/format.h>

#include "analysis/match/memory_sums.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr std::array board_memory = {Kind::board, Kind::memory};
constexpr std::array cpu_memory = {Kind::cpu, Kind::memory};
constexpr std::array cpu_board_memory = {Kind::cpu, Kind::board, Kind::memory};

void all_kits(const Facts& facts, Telling& t) {
  for (int i = 0; i < different(facts, Kind::memory); ++i)
    t.subjects.push_back(nth(facts, Kind::memory, i));
}

// Which kit, where a build mixes several.
void where_kit(const Facts& facts, PartRef kit, Telling& t) {
  if (different(facts, Kind::memory) > 1) t.where = std::string(facts.catalog.id(kit));
}

constexpr std::array memory_type_reads = {column("board", "memory_type"),
                                          column("memory", "memory_type")};

void measure_memory_type(const Facts& facts, int place, Measure& m) {
  const auto takes = m.read_word(facts, memory_type_reads[0], facts.build.one(Kind::board));
  const auto is = m.read_word(facts, memory_type_reads[1], nth(facts, Kind::memory, place).row);
  m.compare_text(is, takes, is == takes);
}

void tell_memory_type(const Facts& facts, int place, const Measure&, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef kit = nth(facts, Kind::memory, place);
  const auto takes = cell(facts, memory_type_reads[0], board.row);
  t.statement =
      fmt::format("The slots of the {} board ({}) take the {} kit ({}).", name(facts, board), takes,
                  name(facts, kit), cell(facts, memory_type_reads[1], kit.row));
  t.remedy = fmt::format("choose memory of type {}", takes);
  where_kit(facts, kit, t);
  t.subjects = {board, kit};
}

constexpr std::array memory_type_cpu_reads = {column("cpu", "memory_types"),
                                              column("memory", "memory_type")};

void measure_memory_type_cpu(const Facts& facts, int place, Measure& m) {
  const Row cpu = facts.build.one(Kind::cpu);
  const auto types = m.read_word(facts, memory_type_cpu_reads[0], cpu);
  const auto is = m.read_word(facts, memory_type_cpu_reads[1], nth(facts, Kind::memory, place).row);
  m.compare_text(is, types, facts.catalog.has_token(memory_type_cpu_reads[0], cpu, is));
}

void tell_memory_type_cpu(const Facts& facts, int place, const Measure&, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const PartRef kit = nth(facts, Kind::memory, place);
  t.limit_text = cell(facts, memory_type_cpu_reads[0], cpu.row);
  t.statement = fmt::format("The memory controller of the {} (for {}) takes the {} kit ({}).",
                            name(facts, cpu), t.limit_text, name(facts, kit),
                            cell(facts, memory_type_cpu_reads[1], kit.row));
  t.remedy = fmt::format("choose memory of type {}", t.limit_text);
  where_kit(facts, kit, t);
  t.subjects = {cpu, kit};
}

constexpr std::array memory_slots_reads = {column("board", "memory_slots"),
                                           column("memory", "modules")};

void measure_memory_slots(const Facts& facts, int, Measure& m) {
  m.value = all_modules(facts, m);
  m.limit = m.read(facts, memory_slots_reads[0], facts.build.one(Kind::board));
}

void tell_memory_slots(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  t.statement = fmt::format(
      "Every memory module has a slot on the {} board ({}, slots: {}).", name(facts, board),
      m.value.is_absent() ? "modules not known" : counted(m.value.median(), "module", "modules"),
      cell(facts, memory_slots_reads[0], board.row));
  t.remedy = "choose fewer and larger modules, or a board with more slots";
  t.subjects = {board};
  all_kits(facts, t);
}

constexpr std::array memory_capacity_reads = {
    column("board", "memory_max_gib"), column("memory", "modules"), column("memory", "module_gib")};
constexpr std::array memory_capacity_cpu_reads = {
    column("cpu", "memory_max_gib"), column("memory", "modules"), column("memory", "module_gib")};

std::string gib(const Draws& sum) {
  return sum.is_absent() ? "size not known" : number(sum.median()) + " GiB";
}

void measure_memory_capacity(const Facts& facts, int, Measure& m) {
  m.value = all_memory_gib(facts, m);
  m.limit = m.read(facts, memory_capacity_reads[0], facts.build.one(Kind::board));
}

void tell_memory_capacity(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const auto most = cell(facts, memory_capacity_reads[0], board.row);
  t.statement = fmt::format("The {} board can use all the memory ({}; it takes {} GiB).",
                            name(facts, board), gib(m.value), most);
  t.remedy = fmt::format("take at most {} GiB, or a board that takes more", most);
  t.subjects = {board};
  all_kits(facts, t);
}

void measure_memory_capacity_cpu(const Facts& facts, int, Measure& m) {
  m.value = all_memory_gib(facts, m);
  m.limit = m.read(facts, memory_capacity_cpu_reads[0], facts.build.one(Kind::cpu));
}

void tell_memory_capacity_cpu(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  const auto most = cell(facts, memory_capacity_cpu_reads[0], cpu.row);
  t.statement = fmt::format("The {} processor can address all the memory ({}; it takes {} GiB).",
                            name(facts, cpu), gib(m.value), most);
  t.remedy = fmt::format("take at most {} GiB, or a processor that takes more", most);
  t.subjects = {cpu};
  all_kits(facts, t);
}

constexpr std::array memory_speed_reads = {column("cpu", "memory_max_mt_s"),
                                           column("board", "memory_max_mt_s"),
                                           column("memory", "speed_mt_s")};

int memory_speed_places(const Facts& facts) {
  return once_with<Kind::cpu, Kind::board>(facts) * different(facts, Kind::memory);
}

void measure_memory_speed(const Facts& facts, int place, Measure& m) {
  m.value = m.read(facts, memory_speed_reads[2], nth(facts, Kind::memory, place).row);
  const Draws& of_cpu = m.read(facts, memory_speed_reads[0], facts.build.one(Kind::cpu));
  const Draws& of_board = m.read(facts, memory_speed_reads[1], facts.build.one(Kind::board));
  m.limit = Draws::smaller(of_cpu, of_board);
}

void tell_memory_speed(const Facts& facts, int place, const Measure& m, Telling& t) {
  const PartRef kit = nth(facts, Kind::memory, place);
  t.statement =
      fmt::format("The {} kit is listed to run at its rated {} MT/s by board and processor.",
                  name(facts, kit), cell(facts, memory_speed_reads[2], kit.row));
  t.remedy = m.limit.is_absent()
                 ? "look up the fastest memory that board and processor list"
                 : fmt::format("count on {} MT/s, or choose a board and processor that list more",
                               number(m.limit.median()));
  where_kit(facts, kit, t);
  t.subjects = {only(facts, Kind::cpu), only(facts, Kind::board), kit};
}

}  // namespace

constexpr Rule memory_type = {
    .id = "match.memory-type",
    .about = "the board's slots take this type of memory",
    .consequence =
        "The memory would not go into its slots: the notch is elsewhere, and forcing it breaks it.",
    .shape = Shape::two,
    .kinds = board_memory,
    .reads = memory_type_reads,
    .relation = Relation::equals,
    .source = part_data,
    .places = once_for_each<Kind::board, Kind::memory>,
    .measure = measure_memory_type,
    .tell = tell_memory_type};

constexpr Rule memory_type_cpu = {
    .id = "match.memory-type-cpu",
    .about = "the processor's controller takes this type of memory",
    .consequence = "The processor could not talk to the memory and the machine would not start.",
    .shape = Shape::two,
    .kinds = cpu_memory,
    .reads = memory_type_cpu_reads,
    .relation = Relation::one_of,
    .source = part_data,
    .places = once_for_each<Kind::cpu, Kind::memory>,
    .measure = measure_memory_type_cpu,
    .tell = tell_memory_type_cpu};

constexpr Rule memory_slots = {
    .id = "match.memory-slots",
    .about = "modules against slots",
    .consequence = "A memory module would be left over with no slot to go into.",
    .shape = Shape::two,
    .kinds = board_memory,
    .reads = memory_slots_reads,
    .unit = "modules",
    .source = part_data,
    .places = once_with<Kind::board, Kind::memory>,
    .measure = measure_memory_slots,
    .tell = tell_memory_slots};

constexpr Rule memory_capacity = {
    .id = "match.memory-capacity",
    .about = "memory in all against what the board takes",
    .consequence = "The board would not see all of the memory, or would not start with it.",
    .shape = Shape::two,
    .kinds = board_memory,
    .reads = memory_capacity_reads,
    .unit = "GiB",
    .source = part_data,
    .places = once_with<Kind::board, Kind::memory>,
    .measure = measure_memory_capacity,
    .tell = tell_memory_capacity};

constexpr Rule memory_capacity_cpu = {
    .id = "match.memory-capacity-cpu",
    .about = "memory in all against what the processor takes",
    .consequence = "The processor would not see all of the memory, or would not start with it.",
    .shape = Shape::two,
    .kinds = cpu_memory,
    .reads = memory_capacity_cpu_reads,
    .unit = "GiB",
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::memory>,
    .measure = measure_memory_capacity_cpu,
    .tell = tell_memory_capacity_cpu};

constexpr Rule memory_speed = {
    .id = "match.memory-speed",
    .about = "the kit's rated speed against what board and processor list",
    .consequence = "The memory would run slower than what is printed on it and paid for.",
    .grade = Grade::tells,
    .shape = Shape::wide,
    .kinds = cpu_board_memory,
    .reads = memory_speed_reads,
    .unit = "MT/s",
    .source = part_data,
    .places = memory_speed_places,
    .measure = measure_memory_speed,
    .tell = tell_memory_speed};

}  // namespace rigproof::match
