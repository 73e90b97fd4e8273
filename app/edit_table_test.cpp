// Every expectation is written by hand from RFC 4180 and the header: which bytes may change and
// which may not.
#include "app/edit_table.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>

namespace rigproof::app {
namespace {

using testing::HasSubstr;

const int sellers = *find_table("sellers");

std::string edited(std::string_view bytes, const std::vector<RowEdit>& edits) {
  const auto now = edited_table(bytes, sellers, edits);
  EXPECT_TRUE(now) << (now ? "" : now.error().message);
  return now.value_or("");
}

std::string refused(std::string_view bytes, const std::vector<RowEdit>& edits) {
  const auto now = edited_table(bytes, sellers, edits);
  EXPECT_FALSE(now);
  return now ? "" : now.error().message;
}

// The columns the tests use are the schema's.
TEST(EditTable, KnowsTheseColumns) {
  std::vector<std::string_view> names;
  for (const ColumnSpec& column : spec(sellers).columns) names.push_back(column.name);
  EXPECT_THAT(names, testing::IsSupersetOf({"id", "name", "market"}));
}

TEST(EditTable, OtherRowsStayByteForByte) {
  EXPECT_EQ(edited("id,name,market\n\"a\",  Ay ,IE\nb,Bee,GB\n\"c\",\"Cee, \"\"x\"\"\",IE\n",
                   {{.line = 3, .cells = {{"name", "Buzz"}}}}),
            "id,name,market\n\"a\",  Ay ,IE\nb,Buzz,GB\n\"c\",\"Cee, \"\"x\"\"\",IE\n");
}

TEST(EditTable, LineEndsAndSeparatorsStay) {
  EXPECT_EQ(edited("id;name;market\r\na;Ay;IE\r\nb;Bee;GB\r\n",
                   {{.line = 2, .cells = {{"name", "A; y"}}}}),
            "id;name;market\r\na;\"A; y\";IE\r\nb;Bee;GB\r\n");
  EXPECT_EQ(edited("id;name;market\r\na;Ay;IE\r\n", {{.cells = {{"id", "c"}, {"market", "GB"}}}}),
            "id;name;market\r\na;Ay;IE\r\nc;;GB\r\n");
}

TEST(EditTable, MarkBlankLinesAndAMissingLastEndStay) {
  EXPECT_EQ(edited("\xEF\xBB\xBF\nid,name\n\n \t\na,Ay\n\nb,Bee\n  \n\n",
                   {{.line = 5, .cells = {{"name", "Eh"}}}}),
            "\xEF\xBB\xBF\nid,name\n\n \t\na,Eh\n\nb,Bee\n  \n\n");
  EXPECT_EQ(edited("id,name\na,Ay\nb,Bee", {{.line = 3, .cells = {{"name", "Buzz"}}}}),
            "id,name\na,Ay\nb,Buzz");
  EXPECT_EQ(edited("id,name\na,Ay", {{.cells = {{"id", "b"}}}}), "id,name\na,Ay\nb,\n");
  EXPECT_EQ(edited("\xEF\xBB\xBFid,name\r\na,Ay", {{.line = 2, .cells = {{"market", "IE"}}}}),
            "\xEF\xBB\xBFid,name,market\r\na,Ay,IE");
}

TEST(EditTable, QuotedCellsOfSeveralLinesAreOneRow) {
  const std::string_view bytes = "id,name\na,\"Ay\nof two lines\"\nb,Bee\n";
  EXPECT_EQ(edited(bytes, {{.line = 4, .cells = {{"name", "Buzz"}}}}),
            "id,name\na,\"Ay\nof two lines\"\nb,Buzz\n");
  EXPECT_EQ(edited(bytes, {{.line = 2, .cells = {{"id", "z"}}}}),
            "id,name\nz,\"Ay\nof two lines\"\nb,Bee\n");
  EXPECT_THAT(refused(bytes, {{.line = 3, .cells = {{"id", "z"}}}}),
              HasSubstr("line 3: no row begins there"));
}

TEST(EditTable, RowsComeAndGoAndColumnsCome) {
  EXPECT_EQ(edited("id,name\na,Ay\nb,Bee\nc,Cee\n",
                   {{.line = 3, .cells = {}, .remove = true}, {.cells = {{"id", "d"}}}}),
            "id,name\na,Ay\nc,Cee\nd,\n");
  EXPECT_EQ(edited("id,name\na,Ay\n\"b\",Bee\n", {{.line = 2, .cells = {{"market", "IE"}}}}),
            "id,name,market\na,Ay,IE\nb,Bee,\n");
  EXPECT_THAT(edited("", {{.cells = {{"id", "a"}}}}), testing::StartsWith("id,"));
}

// What a spreadsheet would take for a formula is a text like any other: it is kept as it was given.
TEST(EditTable, FormulaLikeTextsStayWhatTheyAre) {
  for (const char* text : {"=1+1", "+1", "-1", "@x", "'=1"})
    EXPECT_EQ(edited("id,name\na,Ay\n", {{.line = 2, .cells = {{"name", text}}}}),
              fmt::format("id,name\na,{}\n", text));
}

TEST(EditTable, CellsBeyondTheHeaderAreNotLost) {
  EXPECT_EQ(edited("id,name\na,Ay,more\n", {{.line = 2, .cells = {{"name", "Eh"}}}}),
            "id,name\na,Eh,more\n");
}

TEST(EditTable, RefusesWhatItCannotDo) {
  const std::string_view bytes = "id,name\na,Ay\n";
  EXPECT_THAT(refused(bytes, {{.line = 1, .cells = {{"name", "x"}}}}), HasSubstr("line 1"));
  EXPECT_THAT(refused(bytes, {{.line = 9, .cells = {{"name", "x"}}}}), HasSubstr("line 9"));
  EXPECT_THAT(refused(bytes, {{.line = 2, .cells = {{"nmae", "x"}}}}), HasSubstr("mean name?"));
  EXPECT_THAT(refused(bytes, {{.line = 2, .cells = {}}, {.line = 2, .cells = {}}}),
              HasSubstr("edited twice"));
  EXPECT_THAT(refused(bytes, {{.line = 2, .cells = {{"name", "a\nb"}}}}), HasSubstr("one line"));
  EXPECT_THAT(refused(bytes, {{.line = 2, .cells = {{"name", std::string("a\0b", 3)}}}}),
              HasSubstr("control"));
  EXPECT_THAT(refused(bytes, {{.line = 2, .cells = {{"name", std::string(65537, 'x')}}}}),
              HasSubstr("65536"));
  EXPECT_THAT(refused("id,name\na,\"Ay\n", {{.line = 2, .cells = {{"name", "x"}}}}),
              HasSubstr("sellers.csv:2:3"));
}

TEST(EditTable, ReadsWithLines) {
  const auto text = read_table_text("\xEF\xBB\xBFid,name\r\n\r\na,\"A\r\ny\"\r\nb,\r\n", "x.csv");
  ASSERT_TRUE(text);
  EXPECT_THAT(text->columns, testing::ElementsAre("id", "name"));
  ASSERT_EQ(text->rows.size(), 2U);
  EXPECT_EQ(text->rows[0].line, 3U);
  EXPECT_EQ(text->rows[0].cells[1], "A\r\ny");
  EXPECT_EQ(text->rows[1].line, 5U);
}

// A hundred thousand edits of a hundred thousand rows: with a search through all rows for each,
// some 5e9 steps, minutes; the test then meets the limit of ctest.
TEST(EditTable, ManyEditsOfManyRows) {
  std::string bytes = "id,name\n";
  std::vector<RowEdit> edits;
  for (std::size_t i = 0; i < 100'000; ++i) {
    bytes += fmt::format("s{},x\n", i);
    edits.push_back({.line = i + 2, .cells = {{"name", "y"}}});
  }
  const std::string now = edited(bytes, edits);
  EXPECT_EQ(now.size(), bytes.size());
  EXPECT_EQ(now.find('x'), std::string::npos);
}

}  // namespace
}  // namespace rigproof::app
