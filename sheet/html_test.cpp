// Oracles: a strict reader written for the tests (html_check.hpp), and rules of HTML and of DESIGN
// section 9 that hold for any sheet.
#include "sheet/html.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include "base/contract.hpp"
#include "sheet/assets.hpp"
#include "sheet/hostile.hpp"
#include "sheet/html_check.hpp"
#include "sheet/html_writer.hpp"

namespace rigproof::sheet {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

TEST(HtmlReader, SeesWhatABrowserWouldForgive) {
  EXPECT_THAT(HtmlReader("<p><b>x</p></b>").read().faults, Not(IsEmpty()));
  EXPECT_THAT(HtmlReader("<p class=x>y</p>").read().faults, Not(IsEmpty()));
  EXPECT_THAT(HtmlReader("<p>a & b</p>").read().faults, Not(IsEmpty()));
  EXPECT_THAT(HtmlReader("<p>1 < 2</p>").read().faults, Not(IsEmpty()));
  EXPECT_THAT(HtmlReader("<p>x").read().faults, Not(IsEmpty()));
  EXPECT_THAT(HtmlReader("<p title=\"a\">x<br>&amp;</p>").read().faults, IsEmpty());
}

TEST(HtmlEscape, TheFiveSigns) {
  EXPECT_EQ(html_escape("<a href=\"x\">'&"), "&lt;a href=&quot;x&quot;&gt;&#39;&amp;");
  EXPECT_EQ(html_escape("&amp;"), "&amp;amp;");
}

TEST(Html, IsWellFormed) {
  for (const Sheet& sheet : {sample_sheet(), small_sheet(), Sheet{}, hostile_sheet()})
    EXPECT_THAT(HtmlReader(sheet_html(sheet)).read().faults, IsEmpty());
}

TEST(Html, HostileTextStaysText) {
  const std::string html = sheet_html(hostile_sheet());
  const HtmlCheck page = HtmlReader(html).read();
  for (const char* tag : {"script", "img", "iframe", "object", "link", "base", "form", "a1"})
    EXPECT_FALSE(page.tags.contains(tag)) << tag;
  for (const auto& [name, value] : page.attributes) {
    EXPECT_FALSE(name.starts_with("on")) << name;
    if (name == "href" || name == "src") {
      EXPECT_TRUE(value.starts_with('#')) << value;
    }
  }
  EXPECT_THAT(page.text, Not(HasSubstr("\xE2\x80\xAE")));  // no reordering of the line
  EXPECT_THAT(page.text, Not(HasSubstr("\xEF\xBF\xBE")));
  for (const char* tag :
       {"title",     "lead",       "stem",    "drawn",  "catalog",  "market",    "place",
        "name",      "maker",      "code",    "why",    "other",    "gain",      "loss",
        "game",      "resolution", "whynot",  "claim",  "where",    "load",      "statement",
        "source",    "remedy",     "subject", "limit",  "table",    "row",       "column",
        "how",       "log",        "settled", "note",   "linename", "seller",    "tax",
        "caution",   "csource",    "snote",   "pnote",  "pruned",   "job",       "consequence",
        "equation",  "wpart",      "meaning", "wtable", "wrow",     "wcolumn",   "wsource",
        "certainty", "wtext",      "wunit",   "out",    "in",       "condition", "dsubject",
        "disclosed", "hload",      "wload",   "sload",  "supply",   "hplace",    "warmed",
        "wnote",     "swept",      "swnote",  "window"})
    EXPECT_NE(page.text.find("]]&gt;--&gt;" + std::string(tag)), std::string::npos)
        << tag;  // each is shown, escaped
}

TEST(Html, AsksNobodyForAnything) {
  const std::string html = sheet_html(sample_sheet());
  for (const char* word : {"http://", "https://", "@import", "<script", "url(//"})
    EXPECT_THAT(html, Not(HasSubstr(word)));
  EXPECT_THAT(html, HasSubstr("default-src 'none'"));
}

// Both darks are one palette; and the paper that was chosen counts on the screen alone.
TEST(Html, IsShownOnThePaperThatWasChosen) {
  const std::string html = sheet_html(sample_sheet());
  const auto rule = [&](const std::string& begins) {
    const std::size_t at = html.find(begins);
    EXPECT_NE(at, std::string::npos) << begins;
    const std::size_t from = html.find("--paper", at);
    return html.substr(from, html.find('}', from) - from);
  };
  EXPECT_EQ(rule("@media screen{:root[data-paper=dark]{color-scheme:dark;"),
            rule("@media screen and (prefers-color-scheme:dark){:root:not([data-paper=light]){"));
  const std::string dark = on_paper(html, "dark");
  EXPECT_TRUE(dark.starts_with("<!DOCTYPE html>\n<html lang=\"en\" data-paper=\"dark\">"));
  EXPECT_THAT(html, Not(HasSubstr("<html lang=\"en\" data-paper")));
  EXPECT_THROW((void)on_paper(html, "\"><script>"), ContractViolation);
}

TEST(Html, HeadingsDescendOneStepAtATime) {
  const HtmlCheck page = HtmlReader(sheet_html(sample_sheet())).read();
  EXPECT_EQ(std::ranges::count(page.headings, "h1"), 1);
  ASSERT_FALSE(page.headings.empty());
  EXPECT_EQ(page.headings.front(), "h1");
  for (std::size_t i = 1; i < page.headings.size(); ++i)
    EXPECT_LE(page.headings[i][1] - page.headings[i - 1][1], 1) << i;
}

TEST(Html, IdsAreUniqueAndEveryReferenceHasOne) {
  const HtmlCheck page = HtmlReader(sheet_html(sample_sheet())).read();
  std::set<std::string> ids;
  const auto [first, last] = page.attributes.equal_range("id");
  for (auto it = first; it != last; ++it) EXPECT_TRUE(ids.insert(it->second).second) << it->second;
  const auto [a, b] = page.attributes.equal_range("href");
  EXPECT_NE(a, b);
  for (auto it = a; it != b; ++it) EXPECT_TRUE(ids.contains(it->second.substr(1))) << it->second;
  const auto [c, d] = page.attributes.equal_range("aria-labelledby");
  for (auto it = c; it != d; ++it)
    EXPECT_TRUE(ids.contains(it->second.substr(0, it->second.find(' ')))) << it->second;
}

TEST(Html, EveryClaimOpensToItsWorking) {
  const Sheet sheet = sample_sheet();
  const std::string html = sheet_html(sheet);
  std::size_t count = 0;
  for (std::size_t at = html.find("class=\"working\""); at != std::string::npos;
       at = html.find("class=\"working\"", at + 1))
    ++count;
  EXPECT_EQ(count, sheet.build.claims.size());
}

TEST(Html, AnUnknownClaimNamesItsCellInTheBarAndInTheWorking) {
  Sheet sheet;
  Claim claim{.id = "match.x",
              .where = {},
              .subjects = {},
              .load = {},
              .statement = "It is so.",
              .value = {},
              .limit = {},
              .margin = {},
              .margin_frac = {},
              .odds = {},
              .source = {},
              .remedy = {},
              .missing = {{"board_m2.csv", "b7 socket 1", "lanes", "read the manual"}},
              .measured = {}};
  sheet.build.claims = {claim};
  const std::string html = sheet_html(sheet);
  EXPECT_THAT(
      html, HasSubstr("<desc id=\"d2\">Unknown. Absent: board_m2.csv, b7 socket 1, lanes.</desc>"));
  EXPECT_THAT(html, HasSubstr("absent: <bdi>board_m2.csv, b7 socket 1, lanes</bdi>"));
  EXPECT_THAT(html, HasSubstr("read the manual"));
  EXPECT_THAT(html, HasSubstr(">?</text>"));
}

TEST(Html, ABarBeyondTheScaleShowsItsNumber) {
  Sheet sheet;
  Claim claim{.id = "fit.x",
              .where = {},
              .subjects = {},
              .load = {},
              .statement = "It fits.",
              .value = {},
              .limit = {},
              .margin = {},
              .margin_frac = {},
              .odds = {},
              .source = {},
              .remedy = {},
              .missing = {},
              .measured = {}};
  claim.verdict = Verdict::fails;
  claim.margin = Quantity{.value = -73.0, .low = {}, .high = {}, .unit = "mm", .text = {}};
  claim.margin_frac = -0.73;  // the scale ends at -20 %
  sheet.build.claims = {claim};
  EXPECT_THAT(sheet_html(sheet), HasSubstr(">-73 %</text>"));
  sheet.build.claims[0].margin_frac = -0.15;
  EXPECT_THAT(sheet_html(sheet), Not(HasSubstr(">-15 %</text>")));
}

TEST(Html, EveryPictureOfAirAndPowerStandsInTwoFormsWithItsNumbers) {
  const std::string html = sheet_html(sample_sheet());
  for (const char* name : {"heat-path", "warming", "speed", "windows"})
    for (const char* form : {"wide", "slim"})
      EXPECT_THAT(html,
                  HasSubstr(fmt::format("aria-labelledby=\"{0}-{1}-t {0}-{1}-d\"", name, form)));
  for (const char* cell : {"<bdi>power supply (48 \u00B0C)</bdi>", "<bdi>17\u00A0K\u00A0left</bdi>",
                           "<bdi>1150\u00A0to\u00A01310\u00A0W</bdi>", "<bdi>34</bdi>"})
    EXPECT_THAT(html, HasSubstr(cell));
  EXPECT_THAT(html, Not(HasSubstr("No picture:")));
}

TEST(Html, APictureThatCannotBeDrawnIsASentence) {
  Sheet sheet = sample_sheet();
  sheet.physics->warming->time_s = {0.0};
  sheet.physics->heat_path->flows[0].watts = -1.0;
  sheet.physics->speed_sweep->speed_percent.clear();
  sheet.physics->supply_windows->windows.clear();
  const std::string html = sheet_html(sheet);
  EXPECT_THAT(HtmlReader(html).read().faults, IsEmpty());
  std::size_t count = 0;
  for (std::size_t at = html.find("No picture: "); at != std::string::npos;
       at = html.find("No picture: ", at + 1))
    ++count;
  EXPECT_EQ(count, 4U);
  sheet.physics = Physics{};
  EXPECT_THAT(sheet_html(sheet), Not(HasSubstr("Air and power")));
}

TEST(Html, NoPriceIsRepeatedAmongTheParts) {  // prices stand apart from the build
  const std::string html = sheet_html(sample_sheet());
  const std::size_t prices = html.find("id=\"prices\"");
  ASSERT_NE(prices, std::string::npos);
  EXPECT_EQ(html.substr(0, prices).find("569.00 EUR"), std::string::npos);
  EXPECT_NE(html.find("569.00 EUR", prices), std::string::npos);
}

TEST(Html, AJudgedBuildClaimsNoBound) {
  Sheet sheet = sample_sheet();
  EXPECT_THAT(sheet_html(sheet), HasSubstr("No build scores above"));
  sheet.proof.status = "not planned";
  EXPECT_THAT(sheet_html(sheet), Not(HasSubstr("No build scores above")));
}

// RFC 4648 section 10, from memory.
TEST(Base64, PublishedVectors) {
  const auto of = [](std::string_view text) {
    return base64(std::span(reinterpret_cast<const unsigned char*>(text.data()), text.size()));
  };
  EXPECT_EQ(of(""), "");
  EXPECT_EQ(of("f"), "Zg==");
  EXPECT_EQ(of("fo"), "Zm8=");
  EXPECT_EQ(of("foo"), "Zm9v");
  EXPECT_EQ(of("foob"), "Zm9vYg==");
  EXPECT_EQ(of("foobar"), "Zm9vYmFy");
}

TEST(Assets, AreTheFilesThemselves) {
  for (const auto font : {regular_font_asset(), strong_font_asset()})
    EXPECT_EQ(std::string(font.begin(), font.begin() + 4), "wOF2");  // the signature of WOFF 2
}

}  // namespace
}  // namespace rigproof::sheet
