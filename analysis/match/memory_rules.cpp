// Memory kits against board and processor: type, slots, size, latency.
#include <fmt/format.h>

#include "analysis/match/memory_sums.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr std::array board_memory = {Kind::board, Kind::memory};
constexpr std::array cpu_memory = {Kind::cpu, Kind::memory};

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

constexpr std::array module_capacity_reads = {column("board", "module_max_gib"),
                                              column("memory", "module_gib")};

void measure_module_capacity(const Facts& facts, int place, Measure& m) {
  m.value = m.read_claimed(facts, module_capacity_reads[1], nth(facts, Kind::memory, place).row);
  m.limit = m.read(facts, module_capacity_reads[0], facts.build.one(Kind::board));
}

void tell_module_capacity(const Facts& facts, int place, const Measure&, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef kit = nth(facts, Kind::memory, place);
  const auto most = cell(facts, module_capacity_reads[0], board.row);
  t.statement = fmt::format(
      "Each slot of the {} board takes a module of the {} kit ({} GiB of {}).", name(facts, board),
      name(facts, kit), cell(facts, module_capacity_reads[1], kit.row), most);
  t.remedy =
      fmt::format("choose modules of at most {} GiB, or a board that takes larger ones", most);
  where_kit(facts, kit, t);
  t.subjects = {board, kit};
}

// What is sold for this purpose lies at 9 to 14 ns.
constexpr double slowest_usual_ns = 15.0;
constexpr std::array memory_latency_reads = {column("memory", "latency_clocks"),
                                             column("memory", "speed_mt_s")};
constexpr std::array memory_only = {Kind::memory};

// (16) Two transfers a clock: a clock lasts 2000 / (MT/s) ns.
void measure_memory_latency(const Facts& facts, int place, Measure& m) {
  const Row kit = nth(facts, Kind::memory, place).row;
  const Draws& clocks = m.read(facts, memory_latency_reads[0], kit);
  const Draws& speed = m.read(facts, memory_latency_reads[1], kit);
  m.limit = slowest_usual_ns;
  if (m.unknown) return;
  if (clocks.is_certain() && speed.is_certain()) {
    m.value = 2000.0 * clocks.low() / speed.low();
    return;
  }
  std::array<double, draw_count> samples;
  for (int i = 0; i < draw_count; ++i)
    samples[static_cast<std::size_t>(i)] = 2000.0 * clocks[i] / speed[i];
  m.value = Draws::of(samples);
}

void tell_memory_latency(const Facts& facts, int place, const Measure& m, Telling& t) {
  const PartRef kit = nth(facts, Kind::memory, place);
  t.statement = fmt::format(
      "The {} kit brings the first word of what is asked for as soon as is usual (CL{} at {} "
      "MT/s{}).",
      name(facts, kit), cell(facts, memory_latency_reads[0], kit.row),
      cell(facts, memory_latency_reads[1], kit.row),
      m.value.is_absent() ? "" : fmt::format(": {:.1f} ns", m.value.median()));
  t.remedy = fmt::format("a kit with fewer clocks of latency at its speed, {} ns or less",
                         number(slowest_usual_ns));
  where_kit(facts, kit, t);
  t.subjects = {kit};
}

int each_kit(const Facts& facts) { return different(facts, Kind::memory); }

}  // namespace

constexpr Rule memory_type = {
    .id = "match.memory-type",
    .about = "the board's slots take this type of memory",
    .consequence =
        "The memory would not go into its slots: the notch is elsewhere, and forcing it breaks it.",
    .kinds = board_memory,
    .reads = memory_type_reads,
    .relation = Relation::equals,
    .equation = "kit's type = board's type, (11)",
    .source = part_data,
    .places = once_for_each<Kind::board, Kind::memory>,
    .measure = measure_memory_type,
    .tell = tell_memory_type};

constexpr Rule memory_type_cpu = {
    .id = "match.memory-type-cpu",
    .about = "the processor's controller takes this type of memory",
    .consequence = "The processor could not talk to the memory and the machine would not start.",
    .kinds = cpu_memory,
    .reads = memory_type_cpu_reads,
    .relation = Relation::one_of,
    .equation = "kit's type is one of the controller's, (11)",
    .source = part_data,
    .places = once_for_each<Kind::cpu, Kind::memory>,
    .measure = measure_memory_type_cpu,
    .tell = tell_memory_type_cpu};

constexpr Rule memory_slots = {
    .id = "match.memory-slots",
    .about = "modules against slots",
    .consequence = "A memory module would be left over with no slot to go into.",
    .kinds = board_memory,
    .reads = memory_slots_reads,
    .unit = "modules",
    .equation = "memory modules <= memory slots, (2)",
    .source = part_data,
    .places = once_with<Kind::board, Kind::memory>,
    .measure = measure_memory_slots,
    .tell = tell_memory_slots};

constexpr Rule memory_capacity = {
    .id = "match.memory-capacity",
    .about = "memory in all against what the board takes",
    .consequence = "The board would not see all of the memory, or would not start with it.",
    .kinds = board_memory,
    .reads = memory_capacity_reads,
    .unit = "GiB",
    .equation = "memory in all <= memory the board takes, (2)",
    .source = part_data,
    .places = once_with<Kind::board, Kind::memory>,
    .measure = measure_memory_capacity,
    .tell = tell_memory_capacity};

constexpr Rule memory_capacity_cpu = {
    .id = "match.memory-capacity-cpu",
    .about = "memory in all against what the processor takes",
    .consequence = "The processor would not see all of the memory, or would not start with it.",
    .kinds = cpu_memory,
    .reads = memory_capacity_cpu_reads,
    .unit = "GiB",
    .equation = "memory in all <= memory the processor takes, (2)",
    .source = part_data,
    .places = once_with<Kind::cpu, Kind::memory>,
    .measure = measure_memory_capacity_cpu,
    .tell = tell_memory_capacity_cpu};

constexpr Rule module_capacity = {
    .id = "match.module-capacity",
    .about = "the size of a module against the largest that a slot takes",
    .consequence =
        "The machine would not start with these modules, or would see only a part of each.",
    .kinds = board_memory,
    .reads = module_capacity_reads,
    .unit = "GiB",
    .equation = "size of a module <= largest a slot takes, (11)",
    .source = part_data,
    .places = once_for_each<Kind::board, Kind::memory>,
    .measure = measure_module_capacity,
    .tell = tell_module_capacity};

constexpr Rule memory_latency = {.id = "match.memory-latency",
                                 .about = "the kit's first-word latency against what is usual",
                                 .grade = Grade::tells,
                                 .kinds = memory_only,
                                 .reads = memory_latency_reads,
                                 .unit = "ns",
                                 .basis = Basis::common_practice,
                                 .equation = "2000 x latency in clocks / rated MT/s <= 15 ns, (16)",
                                 .source = habit,
                                 .places = each_kit,
                                 .measure = measure_memory_latency,
                                 .tell = tell_memory_latency};

}  // namespace rigproof::match
