// Bytes that are no brief, or barely one: syntax, encodings, limits. Places are counted by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalog/brief.hpp"
#include "catalog/brief_texts.hpp"

namespace rigproof {
namespace {

using namespace brief_texts;
using testing::HasSubstr;

TEST(BriefBytes, AnEmptyFileLacksItsHeadAndMarkets) {
  const auto all = complaints_of("");
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(to_string(all[0]),
            "my.toml: there is no [brief]; expected a table [brief] with name and as_of");
  EXPECT_EQ(to_string(all[1]), "my.toml: there is no market; expected at least one [[markets]]");
}

TEST(BriefBytes, ASyntaxErrorIsOneComplaintAtItsPlace) {
  EXPECT_THAT(only_complaint("[brief]\nname = \"a\"\nas_of 2026-10-01\n"),
              HasSubstr("my.toml:3:7: not TOML"));
  EXPECT_THAT(only_complaint("[brief]\nname = \"a\"\nname = \"b\"\n"), HasSubstr("my.toml:3:"));
}

TEST(BriefBytes, NotUtf8IsSaidWithTheByte) {
  EXPECT_EQ(only_complaint("[brief]\nname = \"\xC3\xA9 caf\xE9\"\n"),
            "my.toml:2:14: not UTF-8; expected the file saved as UTF-8; got \"byte 0xE9\"");
}

// 10 + 13 + 20 characters stand before the x; bytes would be two more.
TEST(BriefBytes, ColumnsCountCharacters) {
  EXPECT_THAT(only_complaint(
                  "brief = { name = \"\xC3\xA9\xC3\xA9\", as_of = 2026-10-01, x = 1 }\n" + market),
              HasSubstr("my.toml:1:44: unknown key"));
}

TEST(BriefBytes, ABomAndCrLfAreFine) {
  std::string text = smallest;
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2)
    text.replace(at, 1, "\r\n");
  EXPECT_TRUE(read("\xEF\xBB\xBF" + text)) << only_complaint("\xEF\xBB\xBF" + text);
}

TEST(BriefBytes, NestingNumbersAndSizeAreBounded) {
  EXPECT_THAT(only_complaint("x = " + std::string(100'000, '[')), HasSubstr("my.toml:1:"));
  std::string dotted = "a";
  for (int i = 0; i < 50'000; ++i) dotted += ".a";
  EXPECT_THAT(only_complaint(dotted + " = 1\n"),
              HasSubstr("my.toml:1:32: a dotted key is too long"));
  EXPECT_THAT(only_complaint('[' + dotted + "]\n"), HasSubstr("a dotted key is too long"));
  EXPECT_THAT(only_complaint(smallest + "x = 99999999999999999999\n"), HasSubstr("my.toml:8:"));
  EXPECT_THAT(only_complaint(std::string(300 * 1024, '\n')), HasSubstr("expected at most 262144"));
  EXPECT_EQ(complaints_of(std::string("[brief]\0", 8)).size(), 1U);
}

// TOML 1.0: bare keys and values are ASCII; strings (also after a line-ending backslash, which
// swallows the white space up to the next other character) and comments may hold anything.
TEST(BriefBytes, CharactersBeyondAsciiStandInStringsAndComments) {
  EXPECT_THAT(only_complaint("[brief]\nname = caf\xC3\xA9\n"), HasSubstr("my.toml:2:"));
  EXPECT_THAT(only_complaint("\xC2\xA7 = 1\n"), HasSubstr("my.toml:1:1: not TOML"));
  const auto brief = read(
      "# \xC2\xA7\n[brief]\nname = \"\"\"a \\\n  \xC2\xA7 \xE2\x82\xAC\"\"\" # \xC2\xA0\nas_of = "
      "2026-10-01\n" +
      market);
  ASSERT_TRUE(brief) << brief.error().report();
  EXPECT_EQ(brief->name, "a \xC2\xA7 \xE2\x82\xAC");
}

// Points inside strings and comments are no dotted keys, also after awkward endings of strings.
TEST(BriefBytes, ProseMayHavePoints) {
  const std::string points(60, '.');
  EXPECT_THAT(
      complaints_of(smallest + "# " + points + "\n[because.case]\nid = \"white-case\"\nwhy = '" +
                    points + "' # it's " + points + "\n"),
      testing::IsEmpty());
  EXPECT_THAT(only_complaint("x = \"\"\"a\"\"\"\"\"\ny = \"" + points + "\\\"" + points + "\"\n" +
                             "[brief]\nname=\"a\"\nas_of=2026-10-01\n" + market),
              HasSubstr("2 complaints"));  // x and y are unknown, nothing else
}

TEST(BriefBytes, ControlCharactersStayOutOfTexts) {
  EXPECT_EQ(complaints_of("[brief]\nname = \"a\\u001B[31m\"\nas_of = 2026-10-01\n" + market).size(),
            1U);
  EXPECT_EQ(complaints_of("[brief]\nname = \"  \"\nas_of = 2026-10-01\n" + market).size(), 1U);
}

}  // namespace
}  // namespace rigproof
