// The published forms of a small invented sheet, byte for byte, so that a change of a form is seen
// and meant. Remade with: build/<preset>/bin/sheet_sample sheet/golden small
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "sheet/csv.hpp"
#include "sheet/html.hpp"
#include "sheet/markdown.hpp"
#include "sheet/sample.hpp"

namespace rigproof::sheet {
namespace {

std::string golden(const std::string& name) {
  std::ifstream in("sheet/golden/" + name, std::ios::binary);
  EXPECT_TRUE(in) << name;
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

TEST(Golden, SmallSheet) {
  const Sheet sheet = small_sheet();
  const std::string html = sheet_html(sheet);
  EXPECT_EQ(html.substr(html.find("<body>")), golden("body.html"));
  EXPECT_EQ(sheet_markdown(sheet), golden("sheet.md"));
  EXPECT_EQ(claims_csv(sheet), golden("claims.csv"));
  EXPECT_EQ(parts_csv(sheet), golden("parts.csv"));
  EXPECT_EQ(prices_csv(sheet), golden("prices.csv"));
}

TEST(Golden, TheSameSheetGivesTheSameBytes) {
  EXPECT_EQ(sheet_html(sample_sheet()), sheet_html(sample_sheet()));
}

}  // namespace
}  // namespace rigproof::sheet
