// Oracle: a reader of RFC 4180 written here, and the list of signs spreadsheets run as formulas.
#include "sheet/csv.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "base/text.hpp"
#include "sheet/hostile.hpp"

namespace rigproof::sheet {
namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows read_csv(const std::string& text) {
  Rows rows(1, {std::string{}});
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const char next = i + 1 < text.size() ? text[i + 1] : '\0';
    if (quoted && c == '"' && next == '"') {
      rows.back().back() += '"';
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && c == ',') {
      rows.back().emplace_back();
    } else if (!quoted && c == '\r' && next == '\n') {
      rows.push_back({std::string{}});
      ++i;
    } else {
      rows.back().back() += c;
    }
  }
  EXPECT_FALSE(quoted);
  EXPECT_EQ(rows.back(), std::vector<std::string>{""}) << "ends with a line end";
  rows.pop_back();
  return rows;
}

TEST(CsvCell, FormulasAreDisarmedAndNumbersAreNot) {
  EXPECT_EQ(csv_cell("=1+1"), "'=1+1");
  EXPECT_EQ(csv_cell("+cmd"), "'+cmd");
  EXPECT_EQ(csv_cell("-2+3"), "'-2+3");
  EXPECT_EQ(csv_cell("@SUM(A1)"), "'@SUM(A1)");
  EXPECT_EQ(csv_cell("\t=1"), "' =1");
  EXPECT_EQ(csv_cell("\r=1"), "' =1");
  EXPECT_EQ(csv_cell("  =1"), "'  =1");
  EXPECT_EQ(csv_cell("-"), "'-");
  EXPECT_EQ(csv_cell("\xEF\xBC\x9D"
                     "1"),
            "'\xEF\xBC\x9D"
            "1");  // full-width equals sign
  EXPECT_EQ(csv_cell("-4.25"), "-4.25");
  EXPECT_EQ(csv_cell("-1e-5"), "-1e-5");
  EXPECT_EQ(csv_cell("a=b"), "a=b");
}

TEST(CsvCell, QuotesWhereTheStandardAsksForIt) {
  EXPECT_EQ(csv_cell("a,b"), "\"a,b\"");
  EXPECT_EQ(csv_cell("a\"b"), "\"a\"\"b\"");
  EXPECT_EQ(csv_cell("=HYPERLINK(\"x\",\"y\")"), "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
  EXPECT_EQ(csv_cell("a\nb"), "a b");
}

TEST(Csv, TablesAreRectangularAndHoldEveryRow) {
  const Sheet sheet = sample_sheet();
  const Rows claims = read_csv(claims_csv(sheet));
  const Rows parts = read_csv(parts_csv(sheet));
  const Rows prices = read_csv(prices_csv(sheet));
  EXPECT_EQ(claims.size(), 1 + 40U);
  EXPECT_EQ(parts.size(), 1 + 10U);
  EXPECT_EQ(prices.size(), 1 + 2 * 10U);
  for (const Rows* rows : {&claims, &parts, &prices})
    for (const auto& row : *rows) EXPECT_EQ(row.size(), rows->front().size());
  EXPECT_EQ(parts[1][0], "board tray");
  EXPECT_EQ(prices[1], (std::vector<std::string>{"IE", "harrowgate-b7", "Harrowgate B7 small", "1",
                                                 "134.90", "134.90", "EUR", "Kiln Street Parts",
                                                 "2026-09-28", "3", "tax included", "yes"}));
}

TEST(Csv, NoHostileCellBeginsAFormula) {
  const Sheet sheet = hostile_sheet();
  for (const std::string& text : {claims_csv(sheet), parts_csv(sheet), prices_csv(sheet)})
    for (const auto& row : read_csv(text)) {
      EXPECT_EQ(row.size(), read_csv(text).front().size());
      for (const std::string& cell : row) {
        if (cell.empty() || parse_number(cell)) continue;
        EXPECT_EQ(std::string("=+-@\t\r").find(cell.front()), std::string::npos) << cell;
      }
    }
}

}  // namespace
}  // namespace rigproof::sheet
