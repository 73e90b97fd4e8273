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

// The size that was asked for: about 300 parts over all kinds, about 40 processors, 60 cards on 25
// chips.
TEST(DemoCatalog, IsAsLargeAsAskedFor) {
  const Catalog& catalog = demo_catalog();
  EXPECT_GE(catalog.part_count(), 280U);
  EXPECT_LE(catalog.part_count(), 330U);
  for (int kind = 0; kind < kind_count; ++kind)
    EXPECT_GE(catalog.rows(kind), 6U) << spec(kind).name;
  EXPECT_NEAR(catalog.rows(table("cpu")), 40, 5);
  EXPECT_EQ(catalog.rows(table("gpu")), 60U);
  EXPECT_EQ(words(column("gpu", "chip")).size(), 25U);
  EXPECT_EQ(words(column("cpu", "socket")).size(), 3U);
  EXPECT_EQ(words(column("sellers", "market")).size(), 2U);
  EXPECT_EQ(catalog.rows(table("sellers")), 5U);
  EXPECT_EQ(catalog.rows(table("titles")), 8U);
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

// Six weeks of offers up to 2026-10-01; some older than the 14 days that the briefs allow.
TEST(DemoCatalog, OffersAreOfTheSixWeeksBeforeOctober) {
  const Catalog& catalog = demo_catalog();
  const auto october = parse_date("2026-10-01");
  int old = 0;
  int none_left = 0;
  int second_hand = 0;
  for (Row row = 0; row < catalog.rows(table("offers")); ++row) {
    const auto seen = catalog.date(column("offers", "seen"), row);
    const int age = seen && october ? days_between(*seen, *october) : -1;
    EXPECT_GE(age, 0);
    EXPECT_LE(age, 42);
    if (age > 14) ++old;
    if (catalog.number(column("offers", "stock"), row) == 0.0) ++none_left;
    if (catalog.word(column("offers", "condition"), row) == "refurbished") ++second_hand;
    const bool euro = catalog.word(column("offers", "market"), row) == "IE";
    EXPECT_EQ(catalog.word(column("offers", "currency"), row), euro ? "EUR" : "USD");
    EXPECT_EQ(catalog.flag(column("offers", "tax_included"), row), euro);
  }
  EXPECT_GT(old, 50);
  EXPECT_GT(none_left, 5);
  EXPECT_GT(second_hand, 3);
}

// One to four sellers a part; a few parts nobody sells. Every seller sells in its own market only.
TEST(DemoCatalog, PartsHaveOneToFourSellers) {
  const Catalog& catalog = demo_catalog();
  std::map<PartRef, std::set<Row>> sellers;
  for (Row row = 0; row < catalog.rows(table("offers")); ++row) {
    const Row seller = catalog.reference(column("offers", "seller"), row);
    sellers[catalog.part(column("offers", "part"), row)].insert(seller);
    EXPECT_EQ(catalog.word(column("offers", "market"), row),
              catalog.word(column("sellers", "market"), seller));
  }
  for (const auto& [part, who] : sellers) EXPECT_LE(who.size(), 4U) << catalog.id(part);
  const auto unsold = catalog.part_count() - sellers.size();
  EXPECT_GE(unsold, 2U);
  EXPECT_LE(unsold, 8U);
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
  EXPECT_EQ(read, 3);
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
  EXPECT_GE(read, 2);
}

}  // namespace
}  // namespace rigproof::demo
