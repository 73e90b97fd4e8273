// Which parts are left out because others of their look cost no more: worked out by hand.
#include "decision/plan/outdone.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "decision/plan/options.hpp"
#include "tests/support/scene.hpp"

namespace rigproof::plan {
namespace {

using test_support::TestTables;
using testing::ElementsAre;

// Four drives of one look: a for 50, b for 60, c for 60, d for 40 but of another look.
TestTables four_drives() {
  TestTables tables;
  for (const char* id : {"drive-a", "drive-b", "drive-c", "drive-d"})
    tables.row("storage", {{"id", id}, {"capacity_gb", id[6] == 'd' ? "500" : "1000"}});
  tables.offer("drive-a", "IE", "EUR", "50.00")
      .offer("drive-b", "IE", "EUR", "60.00")
      .offer("drive-c", "IE", "EUR", "60.00")
      .offer("drive-d", "IE", "EUR", "40.00");
  return tables;
}

Brief brief_in(std::initializer_list<std::pair<const char*, const char*>> markets) {
  Brief brief;
  brief.as_of = *make_date(2026, 10, 1);
  for (const auto& [market, currency] : markets)
    brief.markets.push_back({.market = market,
                             .budget = *parse_money("1000.00", *parse_currency(currency)),
                             .sales_tax = {}});
  return brief;
}

std::vector<Row> left(const Catalog& catalog, const Brief& brief, int others, int pieces = 1) {
  const auto prices = PriceBook::make(catalog, brief);
  EXPECT_TRUE(prices);
  const Look look = [&](Kind /*storage*/, Row row) {
    return static_cast<std::uint32_t>(catalog.number(column("storage", "capacity_gb"), row));
  };
  return not_outdone({.catalog = catalog,
                      .prices = *prices,
                      .look = look,
                      .others = others,
                      .most_pieces = pieces},
                     Kind::storage, {0, 1, 2, 3});
}

TEST(Outdone, TheCheapestOfALookStaysAndTheSmallerIdAtItsPrice) {
  const Catalog catalog = four_drives().load();
  const Brief brief = brief_in({{"IE", "EUR"}});
  EXPECT_THAT(left(catalog, brief, 1), ElementsAre(0, 3));
  EXPECT_THAT(left(catalog, brief, 2), ElementsAre(0, 1, 3));
  EXPECT_THAT(left(catalog, brief, 3), ElementsAre(0, 1, 2, 3));
}

// b is dearer than a in the first market and cheaper in the second: neither outdoes the other. c is
// cheaper than a in the second, so a does not outdo it; b does, at one price in the first market
// and a lower one in the second.
TEST(Outdone, EveryMarketCounts) {
  const Catalog catalog = four_drives()
                              .offer("drive-a", "GB", "GBP", "50.00")
                              .offer("drive-b", "GB", "GBP", "30.00")
                              .offer("drive-c", "GB", "GBP", "45.00")
                              .offer("drive-d", "GB", "GBP", "40.00")
                              .load();
  EXPECT_THAT(left(catalog, brief_in({{"IE", "EUR"}, {"GB", "GBP"}}), 1), ElementsAre(0, 1, 3));
}

// One piece of a is in stock, of b and c enough: for two pieces b is the one to have.
TEST(Outdone, EveryNumberOfPiecesCounts) {
  TestTables tables;
  for (const char* id : {"drive-a", "drive-b", "drive-c", "drive-d"})
    tables.row("storage", {{"id", id}, {"capacity_gb", "1000"}});
  const Catalog catalog = tables.offer("drive-a", "IE", "EUR", "50.00", "2026-09-30", "1")
                              .offer("drive-b", "IE", "EUR", "60.00", "2026-09-30", "2")
                              .offer("drive-c", "IE", "EUR", "70.00", "2026-09-30", "9")
                              .offer("drive-d", "IE", "EUR", "55.00", "2026-09-30", "1")
                              .load();
  const Brief brief = brief_in({{"IE", "EUR"}});
  EXPECT_THAT(left(catalog, brief, 1, 2), ElementsAre(0, 1));
  EXPECT_THAT(left(catalog, brief, 1, 1), ElementsAre(0));
}

// Three cards that differ in nothing: of one chip the cheapest is enough; where no chip is stated
// each is a rival of its own, so that the best two stay two.
TEST(Outdone, CardsThatStateNoChipStandAlone) {
  const auto cards_left = [](const char* chip, int keep) {
    TestTables tables;
    for (const char* id : {"card-a", "card-b", "card-c"})
      tables.row("gpu", {{"id", id}, {"chip", chip}});
    const Catalog catalog = tables.offer("card-a", "IE", "EUR", "300.00")
                                .offer("card-b", "IE", "EUR", "310.00")
                                .offer("card-c", "IE", "EUR", "320.00")
                                .load();
    const Brief brief = brief_in({{"IE", "EUR"}});
    const auto prices = PriceBook::make(catalog, brief);
    EXPECT_TRUE(prices);
    const auto slots =
        slot_options(catalog, brief, *prices, {}, [](Kind, Row) { return 0U; }, keep);
    const auto gpu = std::ranges::find(slots, Kind::gpu, &KindSlot::kind);
    return gpu->options.size() - 1;  // one of them is no card
  };
  EXPECT_EQ(cards_left("", 1), 1U);
  EXPECT_EQ(cards_left("", 2), 2U);
}

}  // namespace
}  // namespace rigproof::plan
