// Mappings: the page and its examples, and what is refused with its place.
#include "catalog/mapping.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "catalog/import_scene.hpp"
#include "catalog/mapping_keys.hpp"

namespace rigproof {
namespace {

using testing::HasSubstr;

TEST(MappingPage, IsWhatTheDeclaredKeysGive) {
  std::ifstream file("docs/mapping.md", std::ios::binary);  // ctest runs at the top of the tree
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  EXPECT_TRUE(page == mapping_page())
      << "docs/mapping.md is stale: bin/mapping_page docs/mapping.md";
  for (const KeySpec& key : keys::mapping_keys)
    EXPECT_THAT(page, HasSubstr(std::string(key.meaning)));
  for (const SectionSpec& section : keys::mapping_sections)
    EXPECT_THAT(page, HasSubstr(std::string(section.meaning)));
}

TEST(MappingPage, ItsExamplesLoad) {
  const Catalog catalog = catalog_of(import_folder());
  const Mapping cards = mapping_of(mapping_example(), catalog);
  EXPECT_EQ(cards.table, *find_table("gpu"));
  EXPECT_EQ(cards.decimal, ',');
  EXPECT_EQ(cards.thousands, '.');
  EXPECT_EQ(cards.unknown, (std::vector<std::string>{"n/a", "-"}));
  EXPECT_EQ(cards.by, MatchBy::maker_code);
  EXPECT_EQ(cards.unmatched, Unmatched::add);
  EXPECT_EQ(cards.columns.size(), 7U);
  EXPECT_EQ(cards.columns[4].unit, "cm");
  EXPECT_EQ(cards.columns[4].convert(35.6), 356.0);
  const Mapping prices = mapping_of(offers_mapping_example(), catalog);
  EXPECT_EQ(prices.unmatched, Unmatched::skip);
  EXPECT_EQ(prices.aliases.at("Pillar 4, second colour"), "fjellum-pillar");
}

std::string refusal(const std::string& toml) {
  const auto mapping = read_mapping(toml, "map.toml", catalog_of(import_folder()));
  return mapping ? "" : mapping.error().report();
}

const std::string head = "[mapping]\ntable = \"gpu\"\n";
const std::string from = "[provenance]\nsource = \"a page\"\nseen = 2026-10-01\n";
const std::string id = "[columns.id]\nfrom = \"Id\"\n";

TEST(Mapping, SmallestOne) { EXPECT_EQ(refusal(head + from + id), ""); }

TEST(Mapping, SaysWhatIsMissing) {
  EXPECT_THAT(refusal(""), HasSubstr("there is no [mapping]"));
  EXPECT_THAT(refusal(head + id), HasSubstr("there is no [provenance]"));
  EXPECT_THAT(refusal(head + "[provenance]\nsource = \"x\"\n" + id), HasSubstr("has no seen"));
  EXPECT_THAT(refusal(head + from), HasSubstr("no column is mapped"));
  EXPECT_THAT(refusal(head + from + "[columns.name]\nfrom = \"N\"\n"),
              HasSubstr("nothing says which row is which"));
  EXPECT_THAT(
      refusal("[mapping]\ntable = \"offers\"\n" + from + "[columns.market]\nconstant = \"IE\"\n"),
      HasSubstr("rows of offers need a [match]"));
}

TEST(Mapping, SaysWhatIsWrongAndWhatIsNear) {
  EXPECT_THAT(refusal("[mapping]\ntable = \"gpus\"\n" + from + id),
              HasSubstr("map.toml:2:9: the catalog has no such table to feed; expected \"gpu\""));
  EXPECT_THAT(refusal("[mapping]\ntable = \"provenance\"\n" + from + id),
              HasSubstr("no such table"));
  EXPECT_THAT(refusal(head + from + id + "[columns.lenght_mm]\nfrom = \"L\"\n"),
              HasSubstr("\"length_mm\", the nearest column"));
  EXPECT_THAT(refusal(head + from + id + "[columns.length_mm]\nfrom = \"L\"\nunit = \"kW\"\n"),
              HasSubstr("one of mm, cm, m, in, ft"));
  EXPECT_THAT(refusal(head + from + id + "[columns.chip]\nfrom = \"L\"\nunit = \"cm\"\n"),
              HasSubstr("no unit, since the column has none"));
  EXPECT_THAT(refusal(head + from + id + "[columns.chip]\nfrom = \"L\"\nconstant = \"x\"\n"),
              HasSubstr("either from or constant"));
  EXPECT_THAT(refusal(head + from + id + "[columns.chip]\n"), HasSubstr("either from or constant"));
  EXPECT_THAT(refusal(head + "decimals = \"comma\"\n" + from + id),
              HasSubstr("\"decimal\", the nearest key"));
  EXPECT_THAT(refusal(head + "decimal = \"comma\"\nthousands = \"comma\"\n" + from + id),
              HasSubstr("one sign"));
  EXPECT_THAT(refusal(head + from + id + "[aliases]\n\"x\" = \"nobody\"\n"),
              HasSubstr("x: no such part in the catalog"));
  EXPECT_THAT(refusal(head + from + id + "[aliases]\n\"x\" = \"low-disc\"\n"),
              HasSubstr("an id of gpu.csv"))
      << "a cooler is no card";
  EXPECT_THAT(refusal(head + from + id + "[columns.wat]\n[what]\n"), HasSubstr("unknown key"));
  EXPECT_THAT(refusal("[mapping]\ntable = \"offers\"\nunmatched = \"new\"\n" + from +
                      "[match]\nby = \"id\"\nfrom = \"P\"\n[columns.price]\nfrom = \"P\"\n"),
              testing::AllOf(HasSubstr("must be there"), HasSubstr("without its currency")));
}

}  // namespace
}  // namespace rigproof
