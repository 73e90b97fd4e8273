// The committed demo loads without a complaint, is as large as it says, and its briefs and builds
// read.
#include "tools/demo_catalog.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "catalog/brief.hpp"
#include "catalog/build.hpp"

namespace rigproof::demo {
namespace {

std::set<std::string_view> words(ColumnId column) {
  std::set<std::string_view> out;
  for (Row row = 0; row < demo_catalog().rows(column.table); ++row)
    out.insert(demo_catalog().word(column, row));
  return out;
}

// The size that was asked for: at least 600 parts over all kinds, three markets, eight sellers,
// about 2,500 offers, twelve titles.
TEST(DemoCatalog, IsAsLargeAsAskedFor) {
  const Catalog& catalog = demo_catalog();
  EXPECT_GE(catalog.part_count(), 600U);
  for (int kind = 0; kind < kind_count; ++kind)
    EXPECT_GE(catalog.rows(kind), 12U) << spec(kind).name;
  EXPECT_GE(words(column("gpu", "chip")).size(), 30U);
  EXPECT_EQ(words(column("cpu", "socket")).size(), 3U);
  EXPECT_EQ(words(column("sellers", "market")), (std::set<std::string_view>{"GB", "IE", "US"}));
  EXPECT_EQ(catalog.rows(table("sellers")), 8U);
  EXPECT_GE(catalog.rows(table("offers")), 2300U);
  EXPECT_LE(catalog.rows(table("offers")), 2800U);
  EXPECT_EQ(catalog.rows(table("titles")), 12U);
}

TEST(DemoCatalog, EveryTableIsThereAndHasRows) {
  for (int t = 0; t < schema::table_count; ++t) {
    EXPECT_TRUE(demo_catalog().present(t)) << spec(t).name;
    EXPECT_GT(demo_catalog().rows(t), 0U) << spec(t).name;
  }
}

// Nothing is measured: each table is covered by a row for all its rows and columns, each row says
// invented.
TEST(DemoCatalog, SaysThatEverythingIsInvented) {
  const Catalog& catalog = demo_catalog();
  std::set<std::string_view> covered;
  int particular = 0;
  for (Row row = 0; row < catalog.rows(table("provenance")); ++row) {
    EXPECT_EQ(catalog.word(column("provenance", "method"), row), "invented");
    const bool all = catalog.word(column("provenance", "row"), row) == "*" &&
                     catalog.word(column("provenance", "column"), row) == "*";
    if (all) covered.insert(catalog.word(column("provenance", "table"), row));
    if (!catalog.absent(column("provenance", "plus_minus"), row)) ++particular;
  }
  EXPECT_EQ(covered.size(),
            static_cast<std::size_t>(schema::table_count) - 1);  // all but provenance itself
  EXPECT_GE(particular, 10);
}

// Rows of provenance that name a row name one that exists, so that their half-widths are really
// used.
TEST(DemoCatalog, ParticularProvenanceNamesRowsThatExist) {
  const Catalog& catalog = demo_catalog();
  for (Row row = 0; row < catalog.rows(table("provenance")); ++row) {
    const auto key = catalog.word(column("provenance", "row"), row);
    if (key == "*") continue;
    const auto of = find_table(catalog.word(column("provenance", "table"), row));
    bool found = false;
    for (Row r = 0; of && r < catalog.rows(*of) && !found; ++r)
      found = catalog.row_key(*of, r) == key;
    EXPECT_TRUE(found) << key;
  }
}

struct MarketRule {
  std::string_view currency;
  bool tax_included;
};
const std::map<std::string_view, MarketRule> market_rules = {
    {"IE", {"EUR", true}}, {"GB", {"GBP", true}}, {"US", {"USD", false}}};

// One currency and one way of showing tax in a market; a seller offers in its own market only, and
// states its delivery in that market's currency.
TEST(DemoOffers, KeepToTheRulesOfTheirMarket) {
  const Catalog& catalog = demo_catalog();
  for (Row row = 0; row < catalog.rows(table("offers")); ++row) {
    const auto market = catalog.word(column("offers", "market"), row);
    const MarketRule& rule = market_rules.at(market);
    const Row seller = catalog.reference(column("offers", "seller"), row);
    ASSERT_EQ(catalog.word(column("offers", "currency"), row), rule.currency) << row;
    ASSERT_EQ(catalog.flag(column("offers", "tax_included"), row), rule.tax_included) << row;
    ASSERT_EQ(market, catalog.word(column("sellers", "market"), seller)) << row;
    ASSERT_EQ(catalog.word(column("sellers", "currency"), seller), rule.currency);
  }
}

// Six months up to 2026-10-01, both ends included; some of a seller's prices are series of days;
// many are older than the 14 days that the briefs allow.
TEST(DemoOffers, SpanSixMonthsInSeries) {
  const Catalog& catalog = demo_catalog();
  const auto october = parse_date("2026-10-01");
  ASSERT_TRUE(october);
  std::map<std::pair<PartRef, Row>, std::set<int>> series;
  int oldest = 0;
  int newest = 1000;
  int old = 0;
  for (Row row = 0; row < catalog.rows(table("offers")); ++row) {
    const auto seen = catalog.date(column("offers", "seen"), row);
    const int age = seen ? days_between(*seen, *october) : -1;
    ASSERT_GE(age, 0);
    oldest = std::max(oldest, age);
    newest = std::min(newest, age);
    if (age > 14) ++old;
    series[{catalog.part(column("offers", "part"), row),
            catalog.reference(column("offers", "seller"), row)}]
        .insert(age);
  }
  EXPECT_EQ(oldest, 183);  // 2026-04-01: 30 + 31 + 30 + 31 + 31 + 30 days before
  EXPECT_EQ(newest, 0);
  EXPECT_GT(old, 300);
  const auto of_three_days =
      std::ranges::count_if(series, [](const auto& each) { return each.second.size() >= 3; });
  EXPECT_GT(of_three_days, 100);
}

// Every choice a column has occurs, and so do unknown cells: a reader of offers meets all of them.
TEST(DemoOffers, VaryInWhatTheySay) {
  const Catalog& catalog = demo_catalog();
  EXPECT_EQ(words(column("offers", "condition")).size(), 3U);
  EXPECT_EQ(words(column("offers", "link_kind")).size(), 2U);
  for (const ColumnId cell : {column("offers", "stock"), column("offers", "delivery_days"),
                              column("offers", "warranty_months")}) {
    std::set<double> values;
    int absent = 0;
    for (Row row = 0; row < catalog.rows(table("offers")); ++row) {
      if (catalog.absent(cell, row)) {
        ++absent;
      } else {
        values.insert(catalog.number(cell, row));
      }
    }
    EXPECT_GT(absent, 100) << spec(cell).name;
    EXPECT_GE(values.size(), 4U) << spec(cell).name;
  }
  int none_left = 0;
  for (Row row = 0; row < catalog.rows(table("offers")); ++row)
    if (catalog.number(column("offers", "stock"), row) == 0.0) ++none_left;
  EXPECT_GT(none_left, 20);
}

// Four parts are sold by nobody, on purpose; all others somewhere.
TEST(DemoOffers, NoPartIsUnsoldByAccident) {
  const Catalog& catalog = demo_catalog();
  std::set<std::string_view> sold;
  for (Row row = 0; row < catalog.rows(table("offers")); ++row)
    sold.insert(catalog.id(catalog.part(column("offers", "part"), row)));
  std::set<std::string_view> unsold;
  for (int kind = 0; kind < kind_count; ++kind)
    for (Row row = 0; row < catalog.rows(kind); ++row) {
      const auto id = catalog.id({static_cast<Kind>(kind), row});
      if (!sold.contains(id)) unsold.insert(id);
    }
  EXPECT_EQ(unsold, (std::set<std::string_view>{"kolbrand-plinth-60", "lumvar-pane-25-quickest",
                                                "thessic-rondo-224", "tidewell-culvert-360-deep"}));
}

TEST(DemoCatalog, HasHoles) {
  const Catalog& catalog = demo_catalog();
  const auto card = catalog.find_part("brantoak-acorn-quill-1");
  if (!card) GTEST_FAIL() << "the card of which little is known is not there";
  for (const ColumnId cell : {column("gpu", "length_mm"), column("gpu", "height_mm"),
                              column("gpu", "thickness_mm"), column("gpu", "slot_power_w")})
    EXPECT_TRUE(catalog.absent(cell, card->row)) << spec(cell).name;
  EXPECT_TRUE(catalog.rows_of(table("gpu_inputs"), *card).empty());
}

TEST(DemoBriefs, AllReadAgainstTheCatalog) {
  int read = 0;
  for (const auto& path : files_in("demo/briefs")) {
    const auto brief = read_brief(read_all(path), path.generic_string(), demo_catalog());
    ASSERT_TRUE(brief) << brief.error().report();
    EXPECT_EQ(to_string(brief->as_of), "2026-10-01");
    ++read;
  }
  EXPECT_EQ(read, 6);
}

TEST(DemoBuilds, AllReadAgainstTheCatalogAndAreComplete) {
  int read = 0;
  for (const auto& path : files_in("demo/builds")) {
    const auto file = read_build(read_all(path), path.generic_string(), demo_catalog());
    ASSERT_TRUE(file) << file.error().report();
    using enum Kind;
    for (const Kind kind : {cpu, board, memory, gpu, storage, cooler, chassis, psu})
      EXPECT_TRUE(file->build.has(kind)) << path << " " << name_of(kind);
    ++read;
  }
  EXPECT_EQ(read, 13);
}

}  // namespace
}  // namespace rigproof::demo
