// What the brief asks outright: memory, storage, a radio. None applies unless it is asked.
#include <fmt/format.h>

#include "analysis/match/memory_sums.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

// Read only where the must was asked (places).
double asked_gib(const Facts& facts) { return facts.brief.memory_gib.value_or(0.0); }
double asked_gb(const Facts& facts) { return facts.brief.storage_gb.value_or(0.0); }

constexpr std::array memory_kind = {Kind::memory};
constexpr std::array must_memory_reads = {column("memory", "modules"),
                                          column("memory", "module_gib")};
constexpr std::array<std::string_view, 1> must_memory_keys = {"musts.memory_gb"};

int must_memory_places(const Facts& facts) {
  return facts.brief.memory_gib && facts.build.has(Kind::memory) ? 1 : 0;
}

void measure_must_memory(const Facts& facts, int, Measure& m) {
  m.value = all_memory_gib(facts, m);
  m.limit = asked_gib(facts);
}

void tell_must_memory(const Facts& facts, int, const Measure&, Telling& t) {
  t.statement = fmt::format("The build has the {} GiB of memory that the brief asks for.",
                            number(asked_gib(facts)));
  t.remedy = fmt::format("choose kits of at least {} GiB together", number(asked_gib(facts)));
  for (int i = 0; i < different(facts, Kind::memory); ++i)
    t.subjects.push_back(nth(facts, Kind::memory, i));
}

constexpr std::array storage_kind = {Kind::storage};
constexpr std::array must_storage_reads = {column("storage", "capacity_gb")};
constexpr std::array<std::string_view, 1> must_storage_keys = {"musts.storage_gb"};

int must_storage_places(const Facts& facts) {
  return facts.brief.storage_gb && facts.build.has(Kind::storage) ? 1 : 0;
}

void measure_must_storage(const Facts& facts, int, Measure& m) {
  m.value = 0.0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    m.value += m.read(facts, must_storage_reads[0], drive.row) * drive.count;
  m.limit = asked_gb(facts);
}

void tell_must_storage(const Facts& facts, int, const Measure&, Telling& t) {
  t.statement =
      fmt::format("The drives hold the {} GB that the brief asks for.", number(asked_gb(facts)));
  t.remedy = fmt::format("choose drives of at least {} GB together", number(asked_gb(facts)));
  for (int i = 0; i < different(facts, Kind::storage); ++i)
    t.subjects.push_back(nth(facts, Kind::storage, i));
}

constexpr std::array board_other = {Kind::board, Kind::other};
constexpr std::array must_wifi_reads = {column("board", "wifi"), column("other", "what")};
constexpr std::array<std::string_view, 1> must_wifi_keys = {"musts.wifi"};

int must_wifi_places(const Facts& facts) {
  return facts.brief.wifi && facts.build.has(Kind::board) ? 1 : 0;
}

// One radio found is enough; what is absent matters only while none is.
void measure_must_wifi(const Facts& facts, int, Measure& m) {
  const Row board = facts.build.one(Kind::board);
  double radios = facts.catalog.flag(must_wifi_reads[0], board) == true ? 1.0 : 0.0;
  for (const Chosen& other : facts.build.of(Kind::other))
    if (facts.catalog.word(must_wifi_reads[1], other.row) == "wifi-card") radios += other.count;
  m.limit = 1.0;
  if (radios == 0.0) {
    m.read_flag(facts, must_wifi_reads[0], board);
    for (const Chosen& other : facts.build.of(Kind::other))
      m.read_word(facts, must_wifi_reads[1], other.row);
  }
  if (!m.unknown) m.value = radios;
}

void tell_must_wifi(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  t.statement = fmt::format("There is a radio, on the {} board or as a card.", name(facts, board));
  t.remedy = "choose a board with a radio, or add a Wi-Fi card";
  t.subjects = {board};
  for (int i = 0; i < different(facts, Kind::other); ++i) {
    const PartRef other = nth(facts, Kind::other, i);
    if (facts.catalog.word(must_wifi_reads[1], other.row) == "wifi-card")
      t.subjects.push_back(other);
  }
}

}  // namespace

constexpr Rule must_memory = {
    .id = "match.must-memory",
    .about = "memory in all against what the brief asks",
    .consequence = "The machine would have less memory than you asked for.",
    .kinds = memory_kind,
    .reads = must_memory_reads,
    .brief_keys = must_memory_keys,
    .relation = Relation::at_least,
    .unit = "GiB",
    .equation = "memory in all >= memory asked for, (2)",
    .source = part_data,
    .places = must_memory_places,
    .measure = measure_must_memory,
    .tell = tell_must_memory};

constexpr Rule must_storage = {.id = "match.must-storage",
                               .about = "drives together against what the brief asks",
                               .consequence = "The machine would store less than you asked for.",
                               .kinds = storage_kind,
                               .reads = must_storage_reads,
                               .brief_keys = must_storage_keys,
                               .relation = Relation::at_least,
                               .unit = "GB",
                               .equation = "capacity of the drives >= capacity asked for, (2)",
                               .source = part_data,
                               .places = must_storage_places,
                               .measure = measure_must_storage,
                               .tell = tell_must_storage};

constexpr Rule must_wifi = {
    .id = "match.must-wifi",
    .about = "a radio, where the brief asks for one",
    .consequence = "The machine would have no radio: without a network cable it would be offline.",
    .kinds = board_other,
    .reads = must_wifi_reads,
    .brief_keys = must_wifi_keys,
    .relation = Relation::at_least,
    .unit = "radios",
    .equation = "radios on the board and as cards >= 1, (2)",
    .source = part_data,
    .places = must_wifi_places,
    .measure = measure_must_wifi,
    .tell = tell_must_wifi};

}  // namespace rigproof::match
