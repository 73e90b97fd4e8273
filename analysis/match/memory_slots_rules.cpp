// Memory in its slots and channels: speed with every slot filled, width, and which slots to fill.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "analysis/match/memory_sums.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"
#include "catalog/fill_order.hpp"

namespace rigproof::match {
namespace {

constexpr std::array cpu_memory = {Kind::cpu, Kind::memory};
constexpr std::array cpu_board_memory = {Kind::cpu, Kind::board, Kind::memory};

constexpr ColumnId cpu_max = column("cpu", "memory_max_mt_s");
constexpr ColumnId channels_of_cpu = column("cpu", "memory_channels");
constexpr ColumnId board_max = column("board", "memory_max_mt_s");
constexpr ColumnId board_full = column("board", "memory_full_mt_s");
constexpr ColumnId slots_of_board = column("board", "memory_slots");
constexpr ColumnId order_of_board = column("board", "memory_fill_order");
constexpr ColumnId kit_speed = column("memory", "speed_mt_s");
constexpr ColumnId kit_modules = column("memory", "modules");
constexpr ColumnId kit_module_gib = column("memory", "module_gib");

// --- match.memory-speed

constexpr std::array memory_speed_reads = {cpu_max,        channels_of_cpu, board_max,  board_full,
                                           slots_of_board, kit_speed,       kit_modules};

int memory_speed_places(const Facts& facts) {
  return once_with<Kind::cpu, Kind::board>(facts) * different(facts, Kind::memory);
}

enum class Full { no, yes, not_known };

// Every slot filled, with more slots than channels: two modules share a channel and slow it down.
Full filled_twice(const Facts& facts, Measure& notes) {
  const Draws modules = all_modules(facts, notes);
  const Draws& slots = notes.read(facts, slots_of_board, facts.build.one(Kind::board));
  const bool counted = !modules.is_absent() && !slots.is_absent();
  if (counted && modules.high() < slots.low()) return Full::no;
  const Draws& channels = notes.read(facts, channels_of_cpu, facts.build.one(Kind::cpu));
  if (channels.is_absent() || slots.is_absent()) return Full::not_known;
  if (slots.high() <= channels.low()) return Full::no;
  return counted && modules.low() >= slots.high() ? Full::yes : Full::not_known;
}

// (12) What is not known matters only where the two speeds the board may list disagree.
void measure_memory_speed(const Facts& facts, int place, Measure& m) {
  m.value = m.read_claimed(facts, kit_speed, nth(facts, Kind::memory, place).row);
  const Draws& of_cpu = m.read(facts, cpu_max, facts.build.one(Kind::cpu));
  const Row board = facts.build.one(Kind::board);
  const Draws few = Draws::smaller(of_cpu, m.read(facts, board_max, board));
  m.limit = few;
  if (m.unknown) return;
  Measure notes;
  notes.deciding = m.deciding;
  const Full full = filled_twice(facts, notes);
  if (full != Full::no) {
    const Draws many = Draws::smaller(of_cpu, notes.read(facts, board_full, board));
    if (full == Full::yes && !many.is_absent()) {
      m.limit = many;
    } else if (m.value.low() <= few.high()) {  // else too fast however many slots are filled
      if (many.is_absent() || m.value.high() > std::min(many.low(), few.low())) {
        take_missing(notes, m);
        m.limit = Draws::absent();
      } else {
        m.limit = Draws::smaller(few, many);
      }
    }
  }
  take_seen(notes, m);
}

void tell_memory_speed(const Facts& facts, int place, const Measure& m, Telling& t) {
  const PartRef kit = nth(facts, Kind::memory, place);
  const PartRef board = only(facts, Kind::board);
  Measure notes;
  const bool full = filled_twice(facts, notes) == Full::yes;
  t.statement = fmt::format(
      "The {} kit is listed to run at its rated {} MT/s by board and processor{}.",
      name(facts, kit), cell(facts, kit_speed, kit.row),
      full ? fmt::format(" with every slot filled, two modules a channel (the board lists {} MT/s "
                         "then, {} with fewer)",
                         cell(facts, board_full, board.row), cell(facts, board_max, board.row))
           : std::string());
  t.remedy = m.limit.is_absent()
                 ? "look up the fastest memory that board and processor list"
                 : fmt::format("count on {} MT/s, or choose a board and processor that list more",
                               number(m.limit.median()));
  if (full && !m.limit.is_absent())
    t.remedy =
        fmt::format("count on {} MT/s, or take fewer and larger modules", number(m.limit.median()));
  where_kit(facts, kit, t);
  t.subjects = {only(facts, Kind::cpu), board, kit};
}

// --- match.memory-width

constexpr std::array memory_width_reads = {channels_of_cpu, kit_modules};

void measure_memory_width(const Facts& facts, int, Measure& m) {
  m.value = all_modules(facts, m);
  m.limit = m.read(facts, channels_of_cpu, facts.build.one(Kind::cpu));
}

std::string share_words(double modules, double channels) {
  const double share = std::min(modules, channels) / channels;
  if (share == 1.0) return "the full width";
  if (share == 0.5) return "half the width";
  return fmt::format("{:.0f} % of the width", 100.0 * share);
}

void tell_memory_width(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef cpu = only(facts, Kind::cpu);
  t.subjects = {cpu};
  all_kits(facts, t);
  t.statement =
      fmt::format("The modules fill the memory channels of the {} processor.", name(facts, cpu));
  if (m.value.is_absent() || m.limit.is_absent()) return;
  const double modules = m.value.median();
  const double channels = m.limit.median();
  t.statement =
      fmt::format("The modules fill the memory channels of the {} processor ({} in {}: {}).",
                  name(facts, cpu), counted(modules, "module", "modules"),
                  counted(channels, "channel", "channels"), share_words(modules, channels));
  t.remedy = fmt::format("take a kit of {} modules", number(channels));
}

// --- match.memory-fill

constexpr std::array memory_fill_reads = {channels_of_cpu, slots_of_board, order_of_board,
                                          kit_modules, kit_module_gib};
constexpr int most_modules = 16;  // as many as a board has slots

// Modules beyond the slots are match.memory-slots' to refuse.
int memory_fill_places(const Facts& facts) {
  if (once_with<Kind::cpu, Kind::board, Kind::memory>(facts) == 0) return 0;
  double modules = 0.0;  // of kits that say how many
  for (const Chosen& kit : facts.build.of(Kind::memory)) {
    const double of_kit = facts.catalog.number(kit_modules, kit.row);
    if (!std::isnan(of_kit)) modules += of_kit * kit.count;
  }
  const double slots = facts.catalog.number(slots_of_board, facts.build.one(Kind::board));
  return modules > (std::isnan(slots) ? double{most_modules} : slots) ? 0 : 1;
}

struct Channel {
  double gib = 0.0;
  int places = 0;  // filled slots it has
};

// (14) The slots are filled round the channels; which module goes where is free: the largest first,
// each to the emptiest channel with a place.
double uneven_gib(const Facts& facts, int modules, int channels) {
  std::array<double, most_modules> sizes{};
  int count = 0;
  for (const Chosen& kit : facts.build.of(Kind::memory)) {
    const int pieces = static_cast<int>(facts.catalog.number(kit_modules, kit.row)) * kit.count;
    for (int i = 0; i < pieces && count < modules; ++i)
      sizes[static_cast<std::size_t>(count++)] = facts.catalog.number(kit_module_gib, kit.row);
  }
  std::sort(sizes.begin(), sizes.begin() + count, std::greater<>());
  std::array<Channel, most_modules> all{};
  const auto used = std::span(all).first(static_cast<std::size_t>(std::min(modules, channels)));
  for (int i = 0; i < modules; ++i) ++used[static_cast<std::size_t>(i) % used.size()].places;
  for (int i = 0; i < count; ++i) {
    Channel* emptiest = nullptr;
    for (Channel& each : used)
      if (each.places > 0 && (emptiest == nullptr || each.gib < emptiest->gib ||
                              (each.gib == emptiest->gib && each.places < emptiest->places)))
        emptiest = &each;
    if (emptiest == nullptr) break;
    emptiest->gib += sizes[static_cast<std::size_t>(i)];
    --emptiest->places;
  }
  const auto [least, most] = std::ranges::minmax_element(used, {}, &Channel::gib);
  return most->gib - least->gib;
}

void measure_memory_fill(const Facts& facts, int, Measure& m) {
  const Row board = facts.build.one(Kind::board);
  m.limit = 0.0;
  const Draws modules = all_modules(facts, m);
  const Draws& slots = m.read(facts, slots_of_board, board);
  if (m.unknown) return;
  const int count = static_cast<int>(std::lround(modules.median()));
  if (count < slots.median() && !m.read_word(facts, order_of_board, board).empty() &&
      fill_order(facts.catalog, board).count < count)
    m.note_missing({order_of_board, board, {Kind::board, board}}, false);
  const Draws& channels = m.read(facts, channels_of_cpu, facts.build.one(Kind::cpu));
  if (m.unknown) return;
  const int wide = static_cast<int>(std::lround(channels.median()));
  // Equal modules, as many in every channel that is used: their size does not matter.
  if (different(facts, Kind::memory) == 1 && (count <= wide || count % wide == 0)) {
    m.value = 0.0;
    return;
  }
  for (const Chosen& kit : facts.build.of(Kind::memory)) m.read(facts, kit_module_gib, kit.row);
  if (!m.unknown) m.value = uneven_gib(facts, count, wide);
}

std::string slots_to_fill(const Facts& facts, Row board, int modules) {
  const double slots = facts.catalog.number(slots_of_board, board);
  if (modules >= slots) return modules == 1 ? "the only slot" : "every slot";
  const FillOrder order = fill_order(facts.catalog, board);
  if (order.count < modules) return "the slots its maker says (which are not known)";
  std::vector<int> sorted(order.first(modules).begin(), order.first(modules).end());
  std::ranges::sort(sorted);
  std::vector<std::string> words;
  words.reserve(sorted.size());
  for (const int slot : sorted) words.push_back(number(slot));
  return (modules == 1 ? "slot " : "slots ") + listed(words);
}

void tell_memory_fill(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  Measure notes;
  const Draws modules = all_modules(facts, notes);
  const int count = modules.is_absent() ? 0 : static_cast<int>(std::lround(modules.median()));
  t.statement = fmt::format(
      "The memory fills {} of the {} board, counted from the processor, and every channel in use "
      "holds as much.",
      count == 0 ? "the right slots" : slots_to_fill(facts, board.row, count), name(facts, board));
  t.remedy = m.unknown ? "look up in the board's manual which slots are filled first"
                       : "take one kit of equal modules, as many as there are channels or twice "
                         "as many: memory beyond the smaller channel runs at a part of the width";
  t.subjects = {only(facts, Kind::cpu), board};
  all_kits(facts, t);
}

}  // namespace

constexpr Rule memory_speed = {
    .id = "match.memory-speed",
    .about = "the kit's rated speed against what board and processor list for so many modules",
    .consequence = "The memory would run slower than what is printed on it and paid for.",
    .grade = Grade::tells,
    .kinds = cpu_board_memory,
    .reads = memory_speed_reads,
    .unit = "MT/s",
    .equation = "kit's rated speed <= smaller of what board and processor list, (12)",
    .source = part_data,
    .places = memory_speed_places,
    .measure = measure_memory_speed,
    .tell = tell_memory_speed};

constexpr Rule memory_width = {.id = "match.memory-width",
                               .about = "modules against the channels of the memory controller",
                               .grade = Grade::tells,
                               .kinds = cpu_memory,
                               .reads = memory_width_reads,
                               .relation = Relation::at_least,
                               .unit = "modules",
                               .equation = "memory modules >= channels of the controller, (14)",
                               .source = part_data,
                               .places = once_with<Kind::cpu, Kind::memory>,
                               .measure = measure_memory_width,
                               .tell = tell_memory_width};

constexpr Rule memory_fill = {
    .id = "match.memory-fill",
    .about = "which slots the modules go into, and whether the channels then hold as much",
    .grade = Grade::tells,
    .kinds = cpu_board_memory,
    .reads = memory_fill_reads,
    .unit = "GiB",
    .basis = Basis::common_practice,
    .equation = "fullest channel - emptiest channel in use <= 0, (14)",
    .source = "part data; that an order goes round the channels is common practice, no source",
    .places = memory_fill_places,
    .measure = measure_memory_fill,
    .tell = tell_memory_fill};

}  // namespace rigproof::match
