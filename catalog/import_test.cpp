// Imports: what is new, changed and the same, by hand; every fault at its place.
#include "catalog/import.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalog/import_scene.hpp"
#include "catalog/mapping_keys.hpp"

namespace rigproof {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// "column: old -> new" of one row.
std::vector<std::string> cells(const ImportPlan& plan, const RowChange& row) {
  std::vector<std::string> out;
  for (const CellChange& cell : row.cells)
    out.push_back(std::string(spec(plan.table).columns[cell.column].name) + ": " + cell.old_text +
                  " -> " + cell.new_text);
  return out;
}

// The page's own example: tabs, other headers, other order, an inch sign, centimeters, kilowatts.
TEST(Import, CardsFromAPastedPage) {
  const std::string_view pasted =
      "Plugs\tModel\tAwards\tLength\tOrder no.\tBoard power (kW)\n"
      "up\tBroad Card\tbest \"27 inch\" card\t31\tBC-9\t0,25\n"
      "\tLong Card\t\t29,85\tLC-7\tn/a\n"
      "rear\tQuill 3 (second run)\t\t20,0 cm\tQ3\t0,1\n";
  const ImportTry tried = try_import(import_folder(), mapping_example(), pasted);
  EXPECT_EQ(tried.complaints, "");
  ASSERT_EQ(tried.plan.changed.size(), 2U);
  EXPECT_EQ(tried.plan.changed[0].key, "broad-card");
  EXPECT_EQ(tried.plan.changed[0].line, 2U);
  EXPECT_THAT(cells(tried.plan, tried.plan.changed[0]),
              ElementsAre("name: Broad, Card -> Broad Card", "maker:  -> Brantoak",
                          "sustained_power_w: 220 -> 250"));
  EXPECT_THAT(cells(tried.plan, tried.plan.changed[1]),
              ElementsAre("maker:  -> Brantoak", "length_mm:  -> 298.5"));
  ASSERT_EQ(tried.plan.added.size(), 1U);
  EXPECT_THAT(cells(tried.plan, tried.plan.added[0]),
              ElementsAre("id:  -> quill-3-second-run", "name:  -> Quill 3 (second run)",
                          "maker:  -> Brantoak", "maker_code:  -> Q3", "length_mm:  -> 200",
                          "plug_side:  -> end", "sustained_power_w:  -> 100"));
  const Catalog now = catalog_of(tried.after);
  EXPECT_EQ(now.rows(*find_table("gpu")), 3U);
  const ImportTry again = try_import(tried.after, mapping_example(), pasted);
  EXPECT_TRUE(again.plan.empty());
  EXPECT_EQ(again.plan.unchanged, 3U);
}

TEST(Import, PricesByMakersCodeAndAlias) {
  const std::string_view pasted =
      "Art.;What;Price;Day\n"
      "BC-9;card;1.499,00 EUR;1.10.2026\n"
      "\"Pillar 4, second colour\";cooler;49,9;30.9.2026\n"
      "ZZ-1;a cable nobody asked for;not even a price;never\n"
      "BC-9;the same day twice;1,00;1.10.2026\n";
  const ImportTry tried = try_import(import_folder(), offers_mapping_example(), pasted);
  EXPECT_THAT(tried.complaints,
              HasSubstr("pasted.txt:5: speaks of broad-card/larkmoor/IE/2026-10-01/new again"));
  EXPECT_THAT(tried.plan.unmatched, ElementsAre("ZZ-1"));
  EXPECT_EQ(tried.plan.left_out, 1U);
  ASSERT_EQ(tried.plan.added.size(), 2U) << "another day is another offer";
  EXPECT_THAT(tried.after.at("offers.csv"),
              HasSubstr("broad-card,larkmoor,IE,2026-10-01,new,1499.00,EUR,yes\n"
                        "fjellum-pillar,larkmoor,IE,2026-09-30,new,49.90,EUR,yes\n"));
  EXPECT_THAT(tried.after.at("provenance.csv"),
              HasSubstr("offers,broad-card/larkmoor/IE/2026-10-01/new,*,price list of the "
                        "shop,2026-10-01,stated,"));
  EXPECT_EQ(catalog_of(tried.after).rows(*find_table("offers")), 3U);
}

constexpr std::string_view coolers = R"(
[mapping]
table = "cooler"
[provenance]
source = "measured here"
seen = 2026-10-02
method = "measured"
[columns.id]
from = "id"
[columns.name]
from = "name"
[columns.height_mm]
from = "height"
[columns.fans]
from = "fans"
)";

TEST(Import, AnEmptyCellSaysNothing) {
  const ImportTry tried = try_import(import_folder(), coolers,
                                     "id,name,height,fans\nfjellum-pillar,,158,\nlow-disc,,,1\n");
  EXPECT_EQ(tried.complaints, "");
  EXPECT_TRUE(tried.plan.empty());
  EXPECT_EQ(tried.plan.unchanged, 2U);
  EXPECT_EQ(tried.after, import_folder()) << "nothing to write";
}

TEST(Import, EveryBadCellAtItsPlace) {
  const ImportTry tried = try_import(import_folder(), coolers,
                                     "id,name,height,fans\n"
                                     "fjellum-pillar,x,tall,two\n"
                                     "low-disc,y,9999,1\n"
                                     "new-one,,50,1\n"
                                     "Bad Id,z,50,1\n"
                                     "short,row\n"
                                     "quick-six,a processor,50,1\n");
  EXPECT_THAT(
      tried.complaints,
      testing::AllOf(
          HasSubstr("pasted.txt:2:18: not a number as this table writes them; expected "
                    "digits with a decimal point"),
          HasSubstr("got \"tall\""), HasSubstr("pasted.txt:2:23: "), HasSubstr("got \"two\""),
          HasSubstr("pasted.txt:3:12: height_mm is too large; expected 10 to 250 mm; got "
                    "\"9999\""),
          HasSubstr("pasted.txt:4: a new row of cooler needs name"),
          HasSubstr("pasted.txt:5:1: id is not a slug"),
          HasSubstr("pasted.txt:6: the row has 2 cells; expected 4"),
          HasSubstr("pasted.txt:7: the id quick-six is taken by a part of another kind")));
  EXPECT_EQ(tried.plan.left_out, 6U);
  EXPECT_TRUE(tried.plan.empty());
}

TEST(Import, HeadersThatAreNotThere) {
  const ImportTry tried = try_import(import_folder(), coolers, "id,name,heigth,fans\nx,y,1,1\n");
  EXPECT_THAT(tried.complaints,
              testing::AllOf(HasSubstr("map.toml:"), HasSubstr("no header of that name"),
                             HasSubstr("\"heigth\" perhaps")));
  EXPECT_EQ(tried.plan.rows, 0U);
  EXPECT_THAT(try_import(import_folder(), coolers, "id,name,height,fans,id\n").complaints,
              HasSubstr("pasted.txt:1:1: the header stands twice"));
  EXPECT_THAT(try_import(import_folder(), coolers, " \n").complaints,
              HasSubstr("the pasted table is empty"));
}

TEST(Import, TwoPartsWithOneCodeAreNotGuessed) {
  ImportFolder folder = import_folder();
  folder["cooler.csv"] = "id,name,maker_code\none,One,SAME\ntwo,Two,SAME\n";
  const std::string toml =
      "[mapping]\ntable = \"cooler\"\n[match]\nby = \"maker_code\"\nfrom = \"code\"\n[provenance]\n"
      "source = \"x\"\nseen = 2026-10-01\n[columns.height_mm]\nfrom = \"h\"\n";
  const ImportTry tried = try_import(folder, toml, "code,h\nSAME,100\n");
  EXPECT_THAT(tried.complaints, testing::AllOf(HasSubstr("pasted.txt:2:1: several parts"),
                                               HasSubstr("\"SAME\" = \"one\"")));
  const ImportTry named =
      try_import(folder, toml + "[aliases]\n\"SAME\" = \"two\"\n", "code,h\nSAME,100\n");
  EXPECT_EQ(named.complaints, "");
  ASSERT_EQ(named.plan.changed.size(), 1U);
  EXPECT_EQ(named.plan.changed[0].key, "two");
}

TEST(Provenance, OneRowAChangedCellOneANewRow) {
  ImportFolder folder = import_folder();
  folder["provenance.csv"] =
      "table,row,column,source,seen,method,plus_minus\n"
      "cooler,*,*,\"the maker, long ago\",2020-01-01,stated,\n"
      "cooler,fjellum-pillar,height_mm,a page,2024-01-01,stated,0.5\n";
  const ImportTry tried = try_import(folder, coolers,
                                     "id,name,height,fans\n"
                                     "fjellum-pillar,Fjellum Pillar,160,2\n"
                                     "new-one,New,50,1\n");
  EXPECT_EQ(tried.complaints, "");
  EXPECT_EQ(tried.after.at("provenance.csv"),
            "table,row,column,source,seen,method,plus_minus\n"
            "cooler,*,*,\"the maker, long ago\",2020-01-01,stated,\n"
            "cooler,fjellum-pillar,height_mm,measured here,2026-10-02,measured,\n"
            "cooler,new-one,*,measured here,2026-10-02,measured,\n"
            "cooler,fjellum-pillar,fans,measured here,2026-10-02,measured,\n");
  const Catalog now = catalog_of(tried.after);
  const Row pillar = now.find_part("fjellum-pillar")->row;
  const auto source = now.provenance(column("cooler", "height_mm"), pillar);
  EXPECT_EQ(now.word(column("provenance", "method"), *source), "measured");
  EXPECT_EQ(now.half_width(column("cooler", "height_mm"), pillar), 1.0)
      << "the old half-width spoke of the old value: the column's tolerance holds again";
}

TEST(Import, RelationsThroughTheirPart) {
  const ImportTry tried = try_import(import_folder(), R"(
[mapping]
table = "cooler_sockets"
[match]
by = "maker_code"
from = "code"
[provenance]
source = "box"
seen = 2026-10-01
[columns.socket]
from = "fits"
)",
                                     "code,fits\nFP-4,K7\nFP-4,K8\nNO,K7\n");
  EXPECT_THAT(tried.complaints,
              HasSubstr("pasted.txt:4:1: no part of the catalog answers to this"));
  EXPECT_EQ(tried.after.at("cooler_sockets.csv"),
            "cooler,socket\nfjellum-pillar,K7\nfjellum-pillar,K8\n");
}

}  // namespace
}  // namespace rigproof
