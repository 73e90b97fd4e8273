// Oracle: the rules of CommonMark for what begins a block, a span, a link or a cell.
#include "sheet/markdown.hpp"

#include <gmock/gmock.h>

#include <sstream>

#include "sheet/hostile.hpp"

namespace rigproof::sheet {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(MarkdownEscape, MarksAreShownAsTheyAre) {
  EXPECT_EQ(markdown_escape("a|b"), "a\\|b");
  EXPECT_EQ(markdown_escape("*x* [y](z) `c`"), "\\*x\\* \\[y\\](z) \\`c\\`");
  EXPECT_EQ(markdown_escape("<b>&amp;"), "&lt;b>&amp;amp;");
  EXPECT_EQ(markdown_escape("two\nlines"), "two lines");
  EXPECT_EQ(markdown_escape("# head"), "\\# head");
  EXPECT_EQ(markdown_escape("- item"), "\\- item");
  EXPECT_EQ(markdown_escape("> quote"), "\\> quote");
  EXPECT_EQ(markdown_escape("12. item"), "12\\. item");
  EXPECT_EQ(markdown_escape("12.5 mm"), "12.5 mm");
  EXPECT_EQ(markdown_escape("board_m2.csv"), "board_m2.csv");
  EXPECT_EQ(markdown_escape("_x_"), "\\_x\\_");
  EXPECT_EQ(markdown_escape("\\|"), "\\\\\\|");
}

// A bar counts unless a backslash stands before it that is not itself escaped.
int cells_of(const std::string& line) {
  int bars = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '\\')
      ++i;
    else if (line[i] == '|')
      ++bars;
  }
  return bars - 1;
}

TEST(Markdown, TablesKeepTheirColumnsWhateverTheyHold) {
  for (const Sheet& sheet : {sample_sheet(), hostile_sheet()}) {
    std::istringstream lines(sheet_markdown(sheet));
    std::string line;
    int columns = 0;
    int rows = 0;
    while (std::getline(lines, line)) {
      if (!line.starts_with('|')) {
        columns = 0;
        continue;
      }
      if (columns == 0) columns = cells_of(line);
      EXPECT_EQ(cells_of(line), columns) << line;
      ++rows;
    }
    EXPECT_GT(rows, 40);
  }
}

TEST(Markdown, HostileTextMakesNoMarkup) {
  const std::string text = sheet_markdown(hostile_sheet());
  EXPECT_THAT(text, Not(HasSubstr("<script")));
  EXPECT_THAT(text, Not(HasSubstr("\x1b")));
  std::istringstream lines(text);
  std::string line;
  while (std::getline(lines, line)) EXPECT_FALSE(line.starts_with("# x")) << line;
  std::size_t heads = 0;
  for (std::size_t at = text.find("\n# "); at != std::string::npos; at = text.find("\n# ", at + 1))
    ++heads;
  EXPECT_EQ(heads, 0U);  // the only first-level heading is the first line
  EXPECT_TRUE(text.starts_with("# "));
}

TEST(Markdown, EveryClaimIsThere) {
  const Sheet sheet = sample_sheet();
  const std::string text = sheet_markdown(sheet);
  for (const Claim& claim : sheet.build.claims)
    EXPECT_THAT(text, HasSubstr(markdown_escape(claim.statement)));
}

}  // namespace
}  // namespace rigproof::sheet
