// The reader against RFC 4180's own examples and grammar, and against what real files do wrong.
// Places (line, column) are counted by hand in the texts below.
#include "catalog/csv.hpp"

#include <gtest/gtest.h>

#include <chrono>

namespace rigproof {
namespace {

using Record = std::vector<std::string>;

struct Read {
  std::vector<Record> records;
  std::vector<std::size_t> lines;
  std::vector<std::vector<std::pair<std::uint32_t, std::uint32_t>>>
      places;  // line, column of each cell
  Complaints complaints;
  bool decimal_comma = false;
};

Read read(std::string_view bytes) {
  Read out;
  CsvReader reader(bytes, "t.csv", out.complaints);
  out.decimal_comma = reader.decimal_comma();
  std::vector<CsvCell> cells;
  while (reader.next(cells)) {
    out.lines.push_back(reader.line());
    out.records.emplace_back();
    out.places.emplace_back();
    for (const CsvCell& cell : cells) {
      out.records.back().emplace_back(cell.text);
      out.places.back().emplace_back(cell.line, cell.column);
    }
  }
  return out;
}

// line:column of the only complaint, and that it says `what`.
void expect_one(const Read& got, std::size_t line, std::size_t column, std::string_view what) {
  ASSERT_EQ(got.complaints.count(), 1U) << got.complaints.report();
  const Complaint& c = got.complaints.shown()[0];
  EXPECT_EQ(c.file, "t.csv");
  EXPECT_EQ(c.line, line) << to_string(c);
  EXPECT_EQ(c.column, column) << to_string(c);
  EXPECT_NE(c.what.find(what), std::string::npos) << to_string(c);
}

// [rfc-4180] section 2, rules 1 to 7, its examples.
TEST(CsvReader, ReadsTheExamplesOfTheStandard) {
  const Read got = read(
      "field_name,field_name2,field_name3\r\n"
      "aaa,bbb,ccc\r\n"
      "\"aaa\",\"b\r\nbb\",\"ccc\"\r\n"
      "\"aaa\",\"b\"\"bb\",\"ccc\"\r\n"
      "zzz,yyy,xxx");
  EXPECT_TRUE(got.complaints.empty()) << got.complaints.report();
  EXPECT_EQ(got.records, (std::vector<Record>{{"field_name", "field_name2", "field_name3"},
                                              {"aaa", "bbb", "ccc"},
                                              {"aaa", "b\r\nbb", "ccc"},
                                              {"aaa", "b\"bb", "ccc"},
                                              {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(got.lines, (std::vector<std::size_t>{1, 2, 3, 5, 6}));
}

TEST(CsvReader, CellsKnowTheirOwnLineAndColumn) {
  // Record in line 2; its third cell begins in line 3 after `d",` (column 4). 'é' is one character.
  const Read got = read("a,b,c\né,\"c\nd\",e\n");
  ASSERT_EQ(got.records.size(), 2U) << got.complaints.report();
  EXPECT_EQ(got.records[1], (Record{"é", "c\nd", "e"}));
  EXPECT_EQ(got.places[1],
            (std::vector<std::pair<std::uint32_t, std::uint32_t>>{{2, 1}, {2, 3}, {3, 4}}));
}

TEST(CsvReader, FindsTheDialectInTheHeader) {
  EXPECT_FALSE(read("a,b\n1,2\n").decimal_comma);
  const Read semicolon = read("a;b\n1,5;\"x;y\"\n");
  EXPECT_TRUE(semicolon.decimal_comma);
  EXPECT_EQ(semicolon.records[1], (Record{"1,5", "x;y"}));
  // A semicolon inside a cell of a comma file is text.
  EXPECT_EQ(read("a,b\nx;y,2\n").records[1], (Record{"x;y", "2"}));
}

TEST(CsvReader, AcceptsMarkCrlfBlankLinesAndAMissingLastLineEnd) {
  const Read got = read("\xEF\xBB\xBF\r\na,b\r\n\r\n  \r\n1,2\r\n\n3,");
  EXPECT_TRUE(got.complaints.empty()) << got.complaints.report();
  EXPECT_EQ(got.records, (std::vector<Record>{{"a", "b"}, {"1", "2"}, {"3", ""}}));
  EXPECT_EQ(got.lines, (std::vector<std::size_t>{2, 5, 7}));
  EXPECT_EQ(read("\xEF\xBB\xBF"
                 "a,b\n")
                .places[0][0],
            (std::pair<std::uint32_t, std::uint32_t>{1, 1}));
}

TEST(CsvReader, NothingGivesNothing) {
  EXPECT_TRUE(read("").records.empty());
  EXPECT_TRUE(read("\n\r\n \n").records.empty());
  EXPECT_TRUE(read("").complaints.empty());
}

TEST(CsvReader, RefusesABareQuoteAtItsPlace) {
  const Read got = read("a,b\n1,2\nx,12\" rim\n3,4\n");  // the quote is the 5th character of line 3
  expect_one(got, 3, 5, "a quote inside a cell");
  EXPECT_EQ(got.complaints.shown()[0].text, "12\" rim?3,4?");
  EXPECT_EQ(got.records, (std::vector<Record>{{"a", "b"}, {"1", "2"}, {"3", "4"}}));
}

TEST(CsvReader, RefusesTextAfterAClosingQuote) {
  const Read got = read("a,b\n\"1\"x,2\n3,4\n");
  expect_one(got, 2, 4, "text after a closing quote");
  EXPECT_EQ(got.records, (std::vector<Record>{{"a", "b"}, {"3", "4"}}));
}

// The quote of line 2 is forgotten; line 3's first quote seems to close it. Lines 3 and 4 are good
// alone.
TEST(CsvReader, AForgottenQuoteCostsOnlyItsOwnLine) {
  const Read got = read("a,b\n1,\"2\n3,\"4\"\n5,6\n");
  expect_one(got, 3, 4, "text after a closing quote");
  EXPECT_EQ(got.records, (std::vector<Record>{{"a", "b"}, {"3", "4"}, {"5", "6"}}));
  EXPECT_EQ(got.lines, (std::vector<std::size_t>{1, 3, 4}));
}

TEST(CsvReader, AQuoteOpenAtTheEndIsNamedWhereItOpens) {
  const Read got = read("a,b\n1,\"2\n3,4\n");
  expect_one(got, 2, 3, "not closed");
  EXPECT_EQ(got.records, (std::vector<Record>{{"a", "b"}, {"3", "4"}}));
}

TEST(CsvReader, RefusesLoneCarriageReturnsAndControlCharacters) {
  expect_one(read("a,b\n1,2\r3,4\n5,6\n"), 2, 4, "carriage return");
  expect_one(read("a,b\n1,2\x07\n5,6\n"), 2, 4, "control character");
  expect_one(read("a,b\n1,\"2\x1b\"\n5,6\n"), 2, 5, "control character");
}

TEST(CsvReader, WhatIsNoTextIsOneComplaint) {
  std::string binary =
      "\x7f"
      "ELF";
  for (int i = 0; i < 100'000; ++i) binary += static_cast<char>(i * 7919 >> 3);
  const Read got = read(binary);
  ASSERT_EQ(got.complaints.count(), 1U);
  EXPECT_NE(got.complaints.shown()[0].what.find("not a text file"), std::string::npos);
  EXPECT_TRUE(got.records.empty());
  using namespace std::string_view_literals;
  expect_one(read("a,b\n1,2\n3,\0004\n"sv), 3, 3, "NUL");
}

TEST(CsvReader, NamesUtf16ByItsMark) {
  using namespace std::string_view_literals;
  expect_one(read("\xFF\xFE"
                  "a\0,\0b\0"sv),
             1, 1, "UTF-16");
  expect_one(read("\xFE\xFF\0a\0,\0b"sv), 1, 1, "UTF-16");
}

// 0xFC is 'ü' in Latin-1 and never stands in UTF-8; line 3, after `k`.
TEST(CsvReader, RefusesARowThatIsNotUtf8AtItsPlace) {
  const Read got = read("a,b\nä,1\né,k\xFChl\nc,2\n");
  expect_one(got, 3, 4, "not UTF-8");
  EXPECT_EQ(got.records, (std::vector<Record>{{"a", "b"}, {"ä", "1"}, {"c", "2"}}));
  // In the second line of a quoted cell.
  expect_one(read("a,b\n1,\"x\ny\xFFz\"\n"), 3, 2, "not UTF-8");
}

TEST(CsvReader, CellsEndAt64KiB) {
  const std::string most(max_cell_bytes, 'x');
  const Read good = read("a,b\n" + most + ",\"" + most + "\"\n");
  ASSERT_EQ(good.records.size(), 2U) << good.complaints.report();
  EXPECT_EQ(good.records[1][0].size(), max_cell_bytes);
  EXPECT_EQ(good.records[1][1].size(), max_cell_bytes);
  const Read plain = read("a,b\n1," + most + "x\n3,4\n");
  expect_one(plain, 2, 3, "longer than 64 KiB");
  EXPECT_EQ(plain.records.back(), (Record{"3", "4"}));
  const Read quoted = read("a,b\n1,\"" + most + "x\"\n3,4\n");
  expect_one(quoted, 2, 3, "longer than 64 KiB");
  EXPECT_EQ(quoted.records.back(), (Record{"3", "4"}));
}

TEST(CsvReader, RowsEndAt1MiB) {
  std::string row;  // 1 MiB exactly, in cells of 1 KiB with their separator
  for (int i = 0; i < 1024; ++i) row += std::string(1023, 'x') + ',';
  ASSERT_EQ(row.size(), max_line_bytes);
  const Read good = read("a,b\n" + row + "\n3,4\n");
  ASSERT_EQ(good.records.size(), 3U) << good.complaints.report();
  EXPECT_EQ(good.records[1].size(), 1025U);
  const Read bad = read("a,b\n" + row + "x\n3,4\n");
  expect_one(bad, 2, 1, "longer than 1 MiB");
  EXPECT_EQ(bad.records, (std::vector<Record>{{"a", "b"}, {"3", "4"}}));
  // Nothing but separators, and nothing but quotes: which limit is met first depends on their
  // number.
  expect_one(read("a,b\n" + std::string(3 * max_line_bytes, ',') + "\n"), 2, 1,
             "longer than 1 MiB");
  expect_one(read("a,b\n" + std::string(3 * max_line_bytes + 1, '"') + "\n"), 2, 1, "");
}

// The worst for a reader that goes back after an open quote: each line opens one that nothing
// closes soon.
TEST(CsvReader, ManyOpenQuotesStayLinear) {
  std::string text = "a,b\n";
  for (int i = 0; i < 200'000; ++i) text += i % 2 == 0 ? "\"x\n" : "\"\",\"\"\n";
  const auto begun = std::chrono::steady_clock::now();
  const Read got = read(text);
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(10));
  EXPECT_GT(got.complaints.count(), 0U);
}

// Writing and reading are inverse, for every text a cell may hold.
TEST(CsvCell, ReadsBack) {
  for (const char* text : {"plain", "with, comma", "with; semicolon", "\"quoted\"", "two\nlines",
                           "cr\r\nlf", "\"", "\"\"", ",", "é, ü"}) {
    const Read got = read("a,b\n" + csv_cell(text) + ",2\n");
    ASSERT_EQ(got.records.size(), 2U) << text << got.complaints.report();
    EXPECT_EQ(got.records[1], (Record{text, "2"}));
  }
  EXPECT_EQ(csv_cell("plain words"), "plain words");
  EXPECT_EQ(csv_cell("say \"no\""), "\"say \"\"no\"\"\"");
}

TEST(Complaints, SayPlaceExpectationAndText) {
  EXPECT_EQ(to_string({"f.csv", 3, 7, "it is wrong", "right", "x"}),
            "f.csv:3:7: it is wrong; expected right; got \"x\"");
  EXPECT_EQ(to_string({"f.csv", 3, 0, "it is wrong", "", ""}), "f.csv:3: it is wrong");
  EXPECT_EQ(to_string({"f.csv", 0, 0, "it is wrong", "", ""}), "f.csv: it is wrong");
}

TEST(Complaints, CountAllAndShowAHundred) {
  Complaints complaints;
  for (std::size_t i = 1; i <= 250; ++i) complaints.add({"f", i, 0, "w", "", ""});
  EXPECT_EQ(complaints.count(), 250U);
  ASSERT_EQ(complaints.shown().size(), 100U);
  EXPECT_EQ(complaints.shown().back().line, 100U);
  EXPECT_NE(complaints.report().find("250 complaints in all, the first 100 shown"),
            std::string::npos);
}

}  // namespace
}  // namespace rigproof
