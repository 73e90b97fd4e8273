// Rewriting: what is not touched stays byte for byte, in every dialect a table may have.
#include "catalog/rewrite_table.hpp"

#include <gtest/gtest.h>

#include "catalog/import_scene.hpp"

namespace rigproof {
namespace {

constexpr std::string_view mapping = R"(
[mapping]
table = "gpu"
[provenance]
source = "x"
seen = 2026-10-01
[columns.id]
from = "id"
[columns.name]
from = "name"
[columns.length_mm]
from = "length"
)";

std::string after(std::string_view before, std::string_view pasted) {
  ImportFolder folder = import_folder();
  folder["gpu.csv"] = before;
  folder["offers.csv"] = "part,seller,market,seen,condition,price,currency,tax_included\n";
  const ImportTry tried = try_import(folder, mapping, pasted);
  EXPECT_EQ(tried.complaints, "");
  (void)catalog_of(tried.after);
  return tried.after.at("gpu.csv");
}

TEST(Rewrite, UntouchedRowsStayByteForByte) {
  const std::string top = "length_mm ,\"name\",id\n\n   \n 300.00 ,\"Odd \"\"one\"\"\",a\n";
  const std::string bottom = "\t\n310, B ,b\n";
  EXPECT_EQ(after(top + "1e2,C,c\n" + bottom, "id,name,length\nc,,250.5\nd,\"D, new\",200\n"),
            top + "250.5,C,c\n" + bottom + "200,\"D, new\",d\n");
}

TEST(Rewrite, BlankLinesBeforeAChangedRowStay) {
  EXPECT_EQ(after("id,name,length_mm\n\n \na,A,100\n", "id,name,length\na,,101\n"),
            "id,name,length_mm\n\n \na,A,101\n");
}

TEST(Rewrite, LineEndsMarkAndAMissingLastOne) {
  EXPECT_EQ(after("\xEF\xBB\xBFid,name,length_mm\r\na,A,100\r\nb,B,200",
                  "id,name,length\nb,,201\nc,C,300\n"),
            "\xEF\xBB\xBFid,name,length_mm\r\na,A,100\r\nb,B,201\r\nc,C,300\r\n");
}

TEST(Rewrite, SemicolonsAndTheirDecimalSign) {
  EXPECT_EQ(after("id;name;length_mm\na;A, one;100,5\nb;B;\n", "id,name,length\nb,,200.25\n"),
            "id;name;length_mm\na;A, one;100,5\nb;B;200,25\n");
  EXPECT_EQ(after("id;name;length_mm\na;A;100.5\nb;B;\n", "id,name,length\nb,,200.25\n"),
            "id;name;length_mm\na;A;100.5\nb;B;200.25\n");
  EXPECT_EQ(after("id;name;length_mm\nb;B;\n", "id,name,length\nc,C;D,200\n"),
            "id;name;length_mm\nb;B;\nc;\"C;D\";200\n");
}

TEST(Rewrite, AColumnTheFileDidNotHave) {
  EXPECT_EQ(after("id,name\na,A\n\nb,B\n", "id,name,length\nb,,200\n"),
            "id,name,length_mm\na,A,\n\nb,B,200\n");
}

TEST(Rewrite, ATableThatWasNotThere) {
  const Catalog catalog = catalog_of(import_folder());
  ImportPlan plan{
      .table = *find_table("cooler_sockets"), .added = {}, .changed = {}, .unmatched = {}};
  plan.added.push_back({.key = "low-disc/K7",
                        .cells = {{.column = 0, .old_text = {}, .new_text = "low-disc"},
                                  {.column = 1, .old_text = {}, .new_text = "K7"}}});
  EXPECT_EQ(rewrite_table(catalog, plan, "").bytes, "cooler,socket\nlow-disc,K7\n");
}

}  // namespace
}  // namespace rigproof
