// What to look up first: the counts against a loop over every part and pair that groups nothing,
// on the demo and on scenes counted by hand.
#include "app/look_up.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>

#include "app/workshop.hpp"
#include "tests/support/scene.hpp"

namespace rigproof::app {
namespace {

using test_support::TestTables;

// A rule of two kinds made here: the processor's sustained power against the board's.
constexpr ColumnId cpu_power = column("cpu", "sustained_power_w");
constexpr ColumnId board_power = column("board", "cpu_sustained_w");
constexpr std::array two_kinds = {Kind::cpu, Kind::board};
constexpr std::array two_reads = {cpu_power, board_power};
void measure_power(const Facts& facts, int, Measure& m) {
  const Draws& needed = m.read(facts, cpu_power, facts.build.one(Kind::cpu));
  const Draws& given = m.read(facts, board_power, facts.build.one(Kind::board));
  m.value = needed;
  m.limit = given;
}
int once(const Facts& facts) {
  return facts.build.has(Kind::cpu) && facts.build.has(Kind::board) ? 1 : 0;
}
void say(const Facts&, int, const Measure&, Telling& out) { out.statement = "it is fed"; }
constexpr Rule power_rule = {.id = "test.power",
                             .about = "",
                             .kinds = two_kinds,
                             .reads = two_reads,
                             .unit = "W",
                             .source = "part data",
                             .places = once,
                             .measure = measure_power,
                             .tell = say};

std::map<std::string, std::pair<std::uint64_t, double>> worths(const Catalog& catalog,
                                                               const LookUp& look_up) {
  std::map<std::string, std::pair<std::uint64_t, double>> out;
  for (const CellWorth& cell : look_up.cells)
    out[std::string(spec(int{cell.column.table}).name) + "." + row_name(catalog, cell) + "." +
        std::string(column_name(cell))] = {cell.alone, cell.share};
  return out;
}

// Three processors (one without its power), two boards (one without). Six pairs: the silent
// processor with the silent board misses two cells (1/2 each), with the other board one; the silent
// board with the two other processors one each.
TEST(LookUp, CountsByHand) {
  TestTables tables;
  tables.row("cpu", {{"id", "a"}, {"sustained_power_w", "65"}})
      .row("cpu", {{"id", "b"}, {"sustained_power_w", "65"}})
      .row("cpu", {{"id", "silent"}})
      .row("board", {{"id", "strong"}, {"cpu_sustained_w", "120"}})
      .row("board", {{"id", "mute"}});
  const Catalog catalog = tables.load();
  const std::array<const Rule*, 1> rules = {&power_rule};
  const LookUp found = what_to_look_up({.catalog = catalog, .rules = rules});
  ASSERT_EQ(found.rules.size(), 1U);
  EXPECT_FALSE(found.rules[0].sampled);
  EXPECT_EQ(found.rules[0].judgements, 6U);
  EXPECT_EQ(found.rules[0].unknown, 4U);
  EXPECT_EQ(found.rules[0].parts_set_aside, 0U);
  const auto cells = worths(catalog, found);
  ASSERT_EQ(cells.size(), 2U);
  EXPECT_EQ(cells.at("board.mute.cpu_sustained_w"), (std::pair<std::uint64_t, double>(2, 2.5)));
  EXPECT_EQ(cells.at("cpu.silent.sustained_power_w"), (std::pair<std::uint64_t, double>(1, 1.5)));
  EXPECT_EQ(row_name(catalog, found.cells[0]), "mute") << "what settles most comes first";
}

// An absent cell whose class range decides costs nothing: a kit of memory is 31 to 56 mm high.
TEST(LookUp, AClassRangeThatDecidesCostsNothing) {
  TestTables tables;
  for (const char* limit : {"60", "40"}) {
    const std::string id = std::string("cooler-") + limit;
    tables.row("cooler", {{"id", id}, {"memory_clearance_mm", limit}});
  }
  tables.row("memory", {{"id", "kit"}});
  static constexpr std::array kinds = {Kind::memory, Kind::cooler};
  static constexpr ColumnId height = column("memory", "height_mm");
  static constexpr ColumnId room = column("cooler", "memory_clearance_mm");
  static constexpr std::array reads = {height, room};
  Rule rule = power_rule;
  rule.id = "test.height";
  rule.kinds = kinds;
  rule.reads = reads;
  rule.places = [](const Facts&) { return 1; };
  rule.measure = [](const Facts& facts, int, Measure& m) {
    m.value = m.read(facts, height, facts.build.one(Kind::memory));
    m.limit = m.read(facts, room, facts.build.one(Kind::cooler));
  };
  const Catalog catalog = tables.load();
  const std::array<const Rule*, 1> rules = {&rule};
  const LookUp found = what_to_look_up({.catalog = catalog, .rules = rules});
  ASSERT_EQ(found.rules.size(), 1U);
  EXPECT_EQ(found.rules[0].judgements, 2U);
  EXPECT_EQ(found.rules[0].unknown, 1U) << "under 60 mm it fits anyway";
  EXPECT_EQ(worths(catalog, found).at("memory.kit.height_mm").first, 1U);
}

// More look-alikes than the cap: those with a hole stay in, the rest is counted as set aside.
TEST(LookUp, TheCapKeepsPartsWithHolesAndSaysWhatItLeft) {
  TestTables tables;
  for (int i = 0; i < 600; ++i)
    tables.row("cpu", {{"id", "cpu-" + std::to_string(i)},
                       {"sustained_power_w", std::to_string(65 + 0.5 * i)}});
  tables.row("cpu", {{"id", "silent"}}).row("board", {{"id", "b"}, {"cpu_sustained_w", "120"}});
  const Catalog catalog = tables.load();
  const std::array<const Rule*, 1> rules = {&power_rule};
  const LookUp found = what_to_look_up({.catalog = catalog, .rules = rules});
  ASSERT_EQ(found.rules.size(), 1U);
  EXPECT_EQ(found.rules[0].parts_set_aside, 601U - most_groups);
  EXPECT_EQ(found.rules[0].judgements, most_groups);
  EXPECT_EQ(found.rules[0].unknown, 1U);
}

TEST(LookUp, StopsWhenAskedAndSaysSo) {
  const auto workshop = open_workshop("demo/catalog");
  ASSERT_TRUE(workshop);
  int asked = 0;
  const LookUp found = what_to_look_up({.catalog = workshop->catalog, .rules = planning_rules()},
                                       {.stop = [&] { return ++asked > 5; }, .report = {}});
  EXPECT_TRUE(found.stopped);
  EXPECT_LE(found.rules.size(), 2U);
}

// Every part and pair of the demo, one by one: no groups, no skipping of pairs without holes.
struct Slow {
  std::uint64_t judgements = 0;
  std::uint64_t unknown = 0;
  std::map<std::string, std::pair<std::uint64_t, double>> cells;
};

void judge_one(const Catalog& catalog, const Rule& rule, const Brief& brief, const Build& build,
               CellDraws& draws, Slow& slow,
               std::map<std::string, std::pair<std::uint64_t, double>>& cells) {
  const Facts facts{.catalog = catalog,
                    .brief = brief,
                    .prices = nullptr,
                    .build = build,
                    .draws = draws,
                    .setup = nullptr};
  const int places = rule.places(facts);
  for (int place = 0; place < places; ++place) {
    ++slow.judgements;
    if (judge(rule, facts, place).verdict != Verdict::unknown) continue;
    const Claim claim = explain(rule, facts, place);
    if (claim.missing.empty()) continue;
    ++slow.unknown;
    for (const Missing& missing : claim.missing) {
      auto& cell = cells[missing.table + "." + missing.row + "." + missing.column];
      cell.first += claim.missing.size() == 1 ? 1U : 0U;
      cell.second += 1.0 / static_cast<double>(claim.missing.size());
    }
  }
}

TEST(LookUp, AgreesWithEveryPairOfTheDemo) {
  const auto workshop = open_workshop("demo/catalog");
  ASSERT_TRUE(workshop);
  const Catalog& catalog = workshop->catalog;
  std::vector<const Rule*> rules;
  for (const Rule* rule : planning_rules())
    if (rule->kinds.size() <= 2) rules.push_back(rule);
  const LookUp fast = what_to_look_up({.catalog = catalog, .rules = rules});
  const Brief brief;
  std::map<std::string, std::pair<std::uint64_t, double>> cells;
  std::size_t next = 0;
  for (const Rule* rule : rules) {
    Slow slow;
    CellDraws draws(catalog);
    const auto rows = [&](std::size_t k) {
      return k < rule->kinds.size() ? catalog.rows(table_of(rule->kinds[k])) : Row{1};
    };
    for (Row a = 0; a < rows(0); ++a)
      for (Row b = 0; b < rows(1); ++b) {
        Build build;
        if (!rule->kinds.empty()) build.add(rule->kinds[0], a);
        if (rule->kinds.size() > 1) build.add(rule->kinds[1], b);
        judge_one(catalog, *rule, brief, build, draws, slow, cells);
      }
    if (slow.judgements == 0) continue;
    ASSERT_LT(next, fast.rules.size());
    EXPECT_EQ(fast.rules[next].rule->id, rule->id);
    EXPECT_EQ(fast.rules[next].parts_set_aside, 0U) << rule->id;
    EXPECT_EQ(fast.rules[next].judgements, slow.judgements) << rule->id;
    EXPECT_EQ(fast.rules[next].unknown, slow.unknown) << rule->id;
    ++next;
  }
  EXPECT_EQ(next, fast.rules.size());
  const auto found = worths(catalog, fast);
  ASSERT_EQ(found.size(), cells.size());
  for (const auto& [name, worth] : cells) {
    ASSERT_TRUE(found.contains(name)) << name;
    EXPECT_EQ(found.at(name).first, worth.first) << name;
    EXPECT_NEAR(found.at(name).second, worth.second, 1e-9 * worth.second) << name;
  }
}

}  // namespace
}  // namespace rigproof::app
