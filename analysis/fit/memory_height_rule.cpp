// The memory under the cooler (T6): modules in slots that it reaches over, against the height it
// leaves there.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <span>

#include "analysis/fit/fit_rules.hpp"
#include "catalog/fill_order.hpp"

namespace rigproof::fit {
namespace {

constexpr ColumnId slots_of_board = column("board", "memory_slots");
constexpr ColumnId order_of_board = column("board", "memory_fill_order");
constexpr ColumnId kit_modules = column("memory", "modules");
constexpr ColumnId kit_height = column("memory", "height_mm");
constexpr ColumnId cooler_type = column("cooler", "type");
constexpr ColumnId covers = column("cooler", "covers_memory_slots");
constexpr ColumnId clearance = column("cooler", "memory_clearance_mm");

int memory_height_places(const Facts& facts) {
  return facts.build.has(Kind::board) && facts.build.has(Kind::memory) &&
                 facts.build.has(Kind::cooler)
             ? 1
             : 0;
}

std::optional<int> whole(const Catalog& catalog, ColumnId column, Row row) {
  const double value = catalog.number(column, row);
  if (std::isnan(value)) return {};
  return static_cast<int>(std::lround(value));
}

// Slots the cooler reaches over; absent when it does not say. A pump block that does not say
// reaches over none.
std::optional<int> covered_slots(const Facts& facts) {
  const Row cooler = facts.build.one(Kind::cooler);
  if (const auto stated = whole(facts.catalog, covers, cooler)) return stated;
  if (facts.catalog.word(cooler_type, cooler) == "liquid") return 0;
  return {};
}

std::optional<int> all_modules(const Facts& facts) {
  int sum = 0;
  for (const Chosen& kit : facts.build.of(Kind::memory)) {
    const auto of_kit = whole(facts.catalog, kit_modules, kit.row);
    if (!of_kit) return {};
    sum += *of_kit * kit.count;
  }
  return sum;
}

// How many of the covered slots are filled: at least, at most. Equal when it is known.
struct Under {
  int least = 0;
  int most = 0;
};

Under filled_under(const Facts& facts, int covered) {
  const Row board = facts.build.one(Kind::board);
  const auto modules = all_modules(facts);
  const auto slots = whole(facts.catalog, slots_of_board, board);
  const FillOrder order = fill_order(facts.catalog, board);
  if (modules && order.count >= *modules) {
    const auto filled = order.first(*modules);
    const int under =
        static_cast<int>(std::ranges::count_if(filled, [&](int slot) { return slot <= covered; }));
    return {under, under};
  }
  const int most = modules ? std::min(*modules, covered) : covered;
  // Those that find no slot beside the cooler stand under it.
  const int beside = slots ? std::max(*slots - covered, 0) : FillOrder::most_slots;
  const int least = std::max(modules.value_or(1) - beside, 0);
  return {std::min(least, most), most};
}

// The height of the highest of `count` modules, the lowest ones being put there.
Draws height_under(const Facts& facts, int count, Measure& m) {
  std::array<Chosen, Build::most_of_a_kind> kits{};
  std::size_t count_of_kits = 0;
  const auto height = [&](const Chosen& kit) {
    return facts.draws.of(kit_height, kit.row).median();
  };
  for (const Chosen& kit : facts.build.of(Kind::memory)) {  // the lowest kit first
    std::size_t at = count_of_kits++;
    for (; at > 0 && height(kits[at - 1]) > height(kit); --at) kits[at] = kits[at - 1];
    kits[at] = kit;
  }
  const auto all = std::span(kits).first(count_of_kits);
  for (const Chosen& kit : all) m.note_seen(kit_height, kit.row);
  Draws height_mm = m.read(facts, kit_height, all.front().row);
  int below = 0;
  for (const Chosen& kit : all) {
    if (below >= count) break;
    height_mm = Draws::larger(height_mm, m.read(facts, kit_height, kit.row));
    below += whole(facts.catalog, kit_modules, kit.row).value_or(1) * kit.count;
  }
  return height_mm;
}

void note_unplaced(const Facts& facts, Measure& m) {
  const Row board = facts.build.one(Kind::board);
  for (const Chosen& kit : facts.build.of(Kind::memory)) m.read(facts, kit_modules, kit.row);
  m.read(facts, slots_of_board, board);
  if (!m.unknown) m.note_missing({order_of_board, board, {Kind::board, board}}, false);
}

void note_board_seen(const Facts& facts, Measure& m) {
  const Row board = facts.build.one(Kind::board);
  m.note_seen(slots_of_board, board);
  m.note_seen(order_of_board, board);
  for (const Chosen& kit : facts.build.of(Kind::memory)) m.note_seen(kit_modules, kit.row);
}

// (T6) Where the slots that are filled are not known, the two ends decide when they agree.
void measure_memory_height(const Facts& facts, int, Measure& m) {
  const Row cooler = facts.build.one(Kind::cooler);
  m.note_seen(cooler_type, cooler);
  m.note_seen(covers, cooler);
  const auto covered = covered_slots(facts);
  if (!covered) {
    m.read_word(facts, cooler_type, cooler);
    m.read(facts, covers, cooler);
    return;
  }
  if (*covered == 0) {
    m.compare_text("it reaches over no slot", {}, true);
    return;
  }
  note_board_seen(facts, m);
  const Under under = filled_under(facts, *covered);
  if (under.most == 0) {
    m.compare_text("no module stands under it", {}, true);
    return;
  }
  m.limit = m.read(facts, clearance, cooler);
  const Draws highest = height_under(facts, under.most, m);
  if (m.unknown || under.least == under.most || highest.high() <= m.limit.low()) {
    m.value = highest;
    return;
  }
  if (under.least > 0) {
    const Draws lowest = height_under(facts, under.least, m);
    if (lowest.low() > m.limit.high()) {
      m.value = lowest;
      return;
    }
  }
  note_unplaced(facts, m);
}

std::string_view height_words(const Facts& facts, const Measure& m) {
  if (!covered_slots(facts)) return " (how far it reaches over the slots is not known)";
  if (m.is_text)
    return m.value_text == "it reaches over no slot" ? ", which reaches over no slot"
                                                     : ", which reaches over empty slots only";
  return {};
}

void tell_memory_height(const Facts& facts, int, const Measure& m, Telling& out) {
  const PartRef cooler{Kind::cooler, facts.build.one(Kind::cooler)};
  const PartRef board{Kind::board, facts.build.one(Kind::board)};
  out.subjects = {board};
  for (const Chosen& kit : facts.build.of(Kind::memory))
    out.subjects.push_back({Kind::memory, kit.row});
  out.subjects.push_back(cooler);
  out.statement = fmt::format("The memory is low enough for the cooler {}{}.",
                              facts.catalog.name(cooler), height_words(facts, m));
  const auto covered = covered_slots(facts);
  if (!m.is_text && covered && *covered > 0)
    out.statement = fmt::format(
        "The memory is low enough for the cooler {}, which reaches over the first {} slot{} of the "
        "{} board.",
        facts.catalog.name(cooler), *covered, *covered == 1 ? "" : "s", facts.catalog.name(board));
  if (m.limit.is_absent()) return;
  out.remedy = fmt::format(
      "memory at most {:.0f} mm high, or a cooler that reaches over no filled slot; a fan of the "
      "cooler can often be moved up, which raises the cooler by as much",
      std::floor(m.limit.quantile(0.05)));
}

constexpr std::array memory_height_kinds = {Kind::board, Kind::memory, Kind::cooler};
constexpr std::array memory_height_cells = {slots_of_board, order_of_board, kit_modules, kit_height,
                                            cooler_type,    covers,         clearance};

constexpr Rule memory_height_rule = {
    .id = "fit.memory-height",
    .about = "the memory under the cooler against the height it leaves there",
    .consequence =
        "The cooler would sit on the memory and could not be pressed onto the processor.",
    .grade = Grade::must,
    .kinds = memory_height_kinds,
    .reads = memory_height_cells,
    .brief_keys = {},
    .relation = Relation::at_most,
    .unit = "mm",
    .basis = Basis::part_data,
    .equation = "highest module in a slot the cooler reaches over <= height it leaves, (T6)",
    .source = "part data; that a pump block reaches over no slot is common practice, no source",
    .places = memory_height_places,
    .measure = measure_memory_height,
    .tell = tell_memory_height};

constexpr std::array<const Rule*, 1> rules = {&memory_height_rule};

}  // namespace

std::span<const Rule* const> memory_height_rules() { return rules; }

}  // namespace rigproof::fit
