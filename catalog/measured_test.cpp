// Measured values: which cells they speak of, every fault at its place, and that the tables hold
// them afterwards. Expectations by hand.
#include "catalog/measured.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/text.hpp"
#include "catalog/import_scene.hpp"

namespace rigproof {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr ColumnId length = column("gpu", "length_mm");

struct Read {
  std::vector<std::string> cells;  // row column text plus_minus source
  std::string complaints;
};

Read read(std::string_view bytes) {
  const Catalog catalog = catalog_of(import_folder());
  Complaints complaints;
  Read out;
  for (const MeasuredCell& cell : read_measured(catalog, {"m.csv", bytes}, complaints))
    out.cells.push_back(fmt::format("{} {} {} +-{} {} {}", cell.row_key,
                                    spec(cell.cell.column).name, cell.text, cell.plus_minus,
                                    cell.seen, cell.source));
  if (!complaints.empty()) out.complaints = complaints.report();
  return out;
}

Catalog with(std::string_view bytes) {
  ImportFolder folder = import_folder();
  const Catalog catalog = catalog_of(folder);
  Complaints complaints;
  const auto cells = read_measured(catalog, {"m.csv", bytes}, complaints);
  EXPECT_TRUE(complaints.empty()) << complaints.report();
  for (const ImportPlan& plan : plans_of(catalog, cells)) {
    std::string& table = folder[std::string(spec(plan.table).name) + ".csv"];
    table = rewrite_table(catalog, plan, table).bytes;
  }
  return catalog_of(folder);
}

TEST(Measured, ACellWithAllThatCanBeSaidOfIt) {
  const Read got = read(
      "table,row,column,measured,plus_minus,seen,source\n"
      "gpu,broad-card,length_mm,309.5,0.2,2026-11-20,steel rule\n");
  EXPECT_EQ(got.complaints, "");
  EXPECT_THAT(got.cells, ElementsAre("broad-card length_mm 309.5 +-0.2 2026-11-20 steel rule"));
}

// A length read to the millimetre lies within half of one; of watts the column's tolerance stays.
TEST(Measured, WithoutAHalfWidth) {
  const ColumnSpec& watts = spec(column("gpu", "sustained_power_w"));
  const std::string own_w = shortest(std::max(watts.tolerance, watts.tolerance_frac * 231.0));
  const Read got = read(
      "table,row,column,measured\n"
      "gpu,broad-card,length_mm,309\n"
      "gpu,broad-card,sustained_power_w,231\n"
      "gpu,long-card,plug_side,top\n"
      "cooler,low-disc,fans,2\n");
  EXPECT_EQ(got.complaints, "");
  EXPECT_THAT(got.cells,
              ElementsAre("broad-card length_mm 309 +-0.5  measured, m.csv",
                          "broad-card sustained_power_w 231 +-" + own_w + "  measured, m.csv",
                          "long-card plug_side top +-  measured, m.csv",
                          "low-disc fans 2 +-0  measured, m.csv"));
}

// The form as the program leaves it: its own columns are passed over, empty lines say nothing.
TEST(Measured, TheFormFilledInInASpreadsheet) {
  const Read got = read(
      "part;meaning;now;measured;plus_minus;seen;source;table;row;column\r\n"
      "Broad, Card;length;310 mm, plus-minus 2 mm;309,5;0,25;;;gpu;broad-card;length_mm\r\n"
      "Long Card;length;not known;;;;;gpu;long-card;length_mm\r\n");
  EXPECT_EQ(got.complaints, "");
  EXPECT_THAT(got.cells, ElementsAre("broad-card length_mm 309.5 +-0.25  measured, m.csv"));
}

TEST(Measured, EveryFaultAtItsPlace) {
  const Read got = read(
      "table,row,column,measured,plus_minus\n"
      "gpus,broad-card,length_mm,309,\n"
      "gpu,broad-cart,length_mm,309,\n"
      "gpu,broad-card,lenght_mm,309,\n"
      "gpu,broad-card,length_mm,-3,\n"
      "gpu,broad-card,length_mm,309,wide\n"
      "gpu,broad-card,plug_side,top,1\n"
      "gpu,broad-card,id,other,\n"
      "offers,broad-card/larkmoor/IE/2026-09-30/new,price,1,\n"
      "gpu,broad-card,length_mm,309\n"
      "gpu,broad-card,length_mm,309,\n"
      "gpu,broad-card,length_mm,310,\n");
  EXPECT_THAT(got.cells, ElementsAre("broad-card length_mm 309 +-0.5  measured, m.csv"));
  EXPECT_THAT(got.complaints, HasSubstr("m.csv:2:1: there is no such table; expected \"gpu\""));
  EXPECT_THAT(got.complaints,
              HasSubstr("m.csv:3:5: gpu.csv has no such row; expected \"broad-card\" perhaps"));
  EXPECT_THAT(got.complaints,
              HasSubstr("m.csv:4:16: gpu has no such column; expected \"length_mm\" perhaps"));
  EXPECT_THAT(got.complaints, HasSubstr("m.csv:5:26:"));
  EXPECT_THAT(got.complaints, HasSubstr("m.csv:6:30:"));
  EXPECT_THAT(got.complaints, HasSubstr("m.csv:7:30: a word has no half-width"));
  EXPECT_THAT(got.complaints, HasSubstr("m.csv:8:16: this column is not measured on a part"));
  EXPECT_THAT(got.complaints, HasSubstr("m.csv:9:"));
  EXPECT_THAT(got.complaints, HasSubstr("m.csv:10: the line has 4 cells"));
  EXPECT_THAT(got.complaints, HasSubstr("m.csv:12:5: this cell was measured in a line before"));
  EXPECT_THAT(got.complaints, HasSubstr("10 complaints in all"));
}

TEST(Measured, HeadersAreChecked) {
  EXPECT_THAT(read("").complaints, HasSubstr("nothing in the file"));
  EXPECT_THAT(read("table,row,column\n").complaints, HasSubstr("the column measured is missing"));
  EXPECT_THAT(read("table,row,column,measure\n").complaints, HasSubstr("\"measured\" perhaps"));
  EXPECT_THAT(read("table,row,row,column,measured\n").complaints, HasSubstr("there twice"));
}

// In the tables: the value, its half-width and its source; all other cells as they were.
TEST(Measured, StandsInPlaceOfTheCatalogs) {
  const Catalog before = catalog_of(import_folder());
  const Catalog now = with(
      "table,row,column,measured,plus_minus\n"
      "gpu,broad-card,length_mm,309.5,0.25\n"
      "gpu,long-card,length_mm,298,\n"
      "cooler,low-disc,height_mm,45,\n");
  EXPECT_EQ(now.number(length, 0), 309.5);
  EXPECT_EQ(now.half_width(length, 0), 0.25);
  EXPECT_TRUE(before.absent(length, 1));
  EXPECT_EQ(now.number(length, 1), 298.0);
  EXPECT_EQ(now.half_width(length, 1), 0.5);
  EXPECT_EQ(now.number(column("gpu", "sustained_power_w"), 0), 220.0);
  const auto row = now.provenance(length, 0);
  ASSERT_TRUE(row);
  EXPECT_EQ(now.word(column("provenance", "method"), *row), "measured");
  EXPECT_EQ(now.row_key(table("gpu"), 1), before.row_key(table("gpu"), 1));
}

TEST(Measured, TheSameValueStillNarrowsItsHalfWidth) {
  const Catalog now = with(
      "table,row,column,measured,plus_minus\n"
      "gpu,broad-card,length_mm,310,0.1\n");
  EXPECT_EQ(now.number(length, 0), 310.0);
  EXPECT_EQ(now.half_width(length, 0), 0.1);
}

TEST(Measured, NothingMeasuredChangesNothing) {
  const Catalog catalog = catalog_of(import_folder());
  EXPECT_THAT(plans_of(catalog, {}), IsEmpty());
}

// A file with a value in it, or one that is no form, may not be written over; an empty form may.
TEST(Measured, AFormThatIsFilledIn) {
  const auto filled = [](std::string_view bytes) { return is_filled_in({"m.csv", bytes}); };
  const std::string header(measured_form_header);
  EXPECT_FALSE(filled(""));
  EXPECT_FALSE(filled(header + "\r\n"));
  EXPECT_FALSE(filled(header + "\r\nCard,length,310 mm,, ,,,gpu,broad-card,length_mm\r\n"));
  EXPECT_TRUE(filled(header + "\r\nCard,length,310 mm,309,,,,gpu,broad-card,length_mm\r\n"));
  EXPECT_TRUE(filled("table;row;column;measured\ngpu;broad-card;length_mm;309,5\n"));
  EXPECT_TRUE(filled("something else of mine\n1\n"));
  EXPECT_TRUE(filled(header + "\nCard,length\n"));
  EXPECT_TRUE(filled("\xFF\xFE"));
}

}  // namespace
}  // namespace rigproof
