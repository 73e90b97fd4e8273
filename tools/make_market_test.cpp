// A made market loads, has what was asked for, and is of parts that go together.
#include "tools/make_market.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <vector>

#include "catalog/brief.hpp"
#include "catalog/load.hpp"

namespace rigproof::demo {
namespace {

constexpr int parts = 2000;

const Files& files() {
  static const Files made = make_market(parts);
  return made;
}

const Catalog& market() {
  static const Catalog catalog = [] {
    std::vector<TableFile> tables;
    for (const auto& [name, bytes] : files())
      if (name.starts_with("catalog/")) tables.push_back({name, bytes});
    auto loaded = load_catalog(tables);
    if (!loaded) throw std::runtime_error(loaded.error().report());
    return std::move(loaded->catalog);
  }();
  return catalog;
}

double number(ColumnId column, Row row) { return market().number(column, row); }

TEST(Market, HasAsManyPartsAsAskedForAndThreeOffersEach) {
  for (const int asked : {fewest_market_parts, 1001, parts}) {
    const Files made = make_market(asked);
    std::vector<TableFile> tables;
    for (const auto& [name, bytes] : made)
      if (name.starts_with("catalog/")) tables.push_back({name, bytes});
    const auto loaded = load_catalog(tables);
    ASSERT_TRUE(loaded) << loaded.error().report();
    EXPECT_EQ(loaded->catalog.part_count(), static_cast<std::size_t>(asked));
    EXPECT_EQ(loaded->catalog.rows(table("offers")), static_cast<Row>(3 * asked));
  }
  for (int t = 0; t < schema::table_count; ++t) EXPECT_GT(market().rows(t), 0U) << spec(t).name;
}

// Fewer processors than there are: no table may speak of one that is not there.
TEST(Market, OfEachKindAsManyAsAskedFor) {
  for (const int each : {fewest_of_each, 30, 80}) {
    const Files made = make_market_of_each(each);
    std::vector<TableFile> tables;
    for (const auto& [name, bytes] : made)
      if (name.starts_with("catalog/")) tables.push_back({name, bytes});
    const auto loaded = load_catalog(tables);
    ASSERT_TRUE(loaded) << loaded.error().report();
    for (const Kind kind : {Kind::cpu, Kind::gpu, Kind::memory, Kind::board, Kind::chassis,
                            Kind::cooler, Kind::storage, Kind::psu})
      EXPECT_EQ(loaded->catalog.rows(table_of(kind)), static_cast<Row>(each)) << name_of(kind);
  }
}

TEST(Market, SizesOutOfRangeAreRefused) {
  EXPECT_ANY_THROW((void)make_market_of_each(fewest_of_each - 1));
  EXPECT_ANY_THROW((void)make_market(fewest_market_parts - 1));
  EXPECT_ANY_THROW((void)make_market(most_market_parts + 1));
}

TEST(Market, SameBytesEachTime) { EXPECT_EQ(make_market(parts), files()); }

TEST(Market, ItsBriefReadsAgainstIt) {
  const auto brief = read_brief(files().at("briefs/market.toml"), "market.toml", market());
  ASSERT_TRUE(brief) << brief.error().report();
}

// A board lists all processors of its socket and no other, and its memory is one they take.
TEST(Market, BoardsListTheProcessorsOfTheirSocket) {
  for (Row board = 0; board < market().rows(table("board")); ++board) {
    const auto socket = market().word(column("board", "socket"), board);
    std::size_t of_socket = 0;
    for (Row cpu = 0; cpu < market().rows(table("cpu")); ++cpu)
      if (market().word(column("cpu", "socket"), cpu) == socket) ++of_socket;
    const auto listed = market().rows_of(table("cpu_support"), {Kind::board, board});
    EXPECT_EQ(listed.size(), of_socket);
    for (const Row row : listed) {
      const Row cpu = market().reference(column("cpu_support", "cpu"), row);
      ASSERT_EQ(market().word(column("cpu", "socket"), cpu), socket);
      ASSERT_TRUE(market().has_token(column("cpu", "memory_types"), cpu,
                                     market().word(column("board", "memory_type"), board)));
    }
  }
}

// PCIe CEM, from memory: 75 W through the slot, 150 W an 8-pin input, 600 W a 12V-2x6 one. A card
// fills as many rear slots as its thickness needs at 20.32 mm each.
TEST(Market, CardsAreFedAndAsWideAsTheySay) {
  for (Row card = 0; card < market().rows(table("gpu")); ++card) {
    const double slot_w = number(column("gpu", "slot_power_w"), card);
    EXPECT_LE(slot_w, 75.0);
    double inputs_w = 0.0;
    for (const Row input : market().rows_of(table("gpu_inputs"), {Kind::gpu, card}))
      inputs_w += number(column("gpu_inputs", "count"), input) *
                  (market().word(column("gpu_inputs", "connector"), input) == "pcie8" ? 150 : 600);
    EXPECT_GE(inputs_w + slot_w, number(column("gpu", "sustained_power_w"), card));
    const double slots = number(column("gpu", "slots"), card);
    const double thickness_mm = number(column("gpu", "thickness_mm"), card);
    EXPECT_LE(thickness_mm, 20.32 * slots);
    EXPECT_GT(thickness_mm, 20.32 * (slots - 1));
  }
}

// Every processor has a board that feeds it and a cooler that carries it.
TEST(Market, EveryProcessorHasBoardAndCooler) {
  for (Row cpu = 0; cpu < market().rows(table("cpu")); ++cpu) {
    const double power_w = number(column("cpu", "sustained_power_w"), cpu);
    int boards = 0;
    for (Row board = 0; board < market().rows(table("board")); ++board)
      if (market().word(column("board", "socket"), board) ==
              market().word(column("cpu", "socket"), cpu) &&
          number(column("board", "cpu_sustained_w"), board) >= power_w)
        ++boards;
    EXPECT_GE(boards, 3) << market().id({Kind::cpu, cpu});
    int coolers = 0;
    for (Row cooler = 0; cooler < market().rows(table("cooler")); ++cooler)
      if (number(column("cooler", "rated_heat_w"), cooler) >= power_w) ++coolers;
    EXPECT_GE(coolers, 3) << market().id({Kind::cpu, cpu});
  }
}

}  // namespace
}  // namespace rigproof::demo
