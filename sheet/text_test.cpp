// Oracles: the wishes for the terminal (width, order, safety) and bars drawn by hand.
#include "sheet/text.hpp"

#include <gmock/gmock.h>

#include <sstream>

#include "sheet/hostile.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

using testing::HasSubstr;
using testing::Not;

Claim bare() {
  Claim claim;
  claim.id = "fit.x";
  claim.statement = "It fits.";
  claim.verdict = Verdict::holds;
  return claim;
}

Claim with_margin(double middle, double low, double high) {
  Claim claim = bare();
  claim.limit = Limit{.relation = Relation::at_most, .value = 100.0, .unit = "mm", .text = {}};
  claim.margin = Quantity{
      .value = 100.0 * middle, .low = 100.0 * low, .high = 100.0 * high, .unit = "mm", .text = {}};
  claim.margin_frac = middle;
  return claim;
}

// 31 columns from -20 % to +40 %: 2 % a column, the limit in column 10 (from 0).
TEST(MarginBarText, DrawnByHand) {
  EXPECT_EQ(margin_bar_text(with_margin(0.20, 0.16, 0.24), 31), "..........|=======//#//........");
  EXPECT_EQ(margin_bar_text(with_margin(-0.10, -0.14, -0.06), 31),
            "...//#//==|....................");
  EXPECT_EQ(margin_bar_text(with_margin(0.90, 0.90, 0.90), 31), "..........|===================>");
  EXPECT_EQ(margin_bar_text(with_margin(-0.90, -0.90, -0.90), 31),
            "<=========|....................");
  Claim unknown = bare();
  unknown.verdict = Verdict::unknown;
  EXPECT_EQ(margin_bar_text(unknown, 31), "- - - - - | - - - - ? - - - - -");
}

TEST(MarginBarText, TheRingIsWhatWasMeasured) {
  Claim claim = with_margin(0.20, 0.16, 0.24);  // at most 100; measured 90 leaves 10 %: column 15
  claim.measured = Measured{.value = 90.0, .log = {}, .date = {}, .settled = {}};
  EXPECT_EQ(margin_bar_text(claim, 31).at(15), 'o');
  claim.limit->relation = Relation::at_least;  // at least 100; measured 90 is 10 % short: column 5
  EXPECT_EQ(margin_bar_text(claim, 31).at(5), 'o');
}

TEST(Text, NoLineIsWiderThanAsked) {
  for (const int width : {80, 100}) {
    for (const std::string& text :
         {plan_text(sample_plan(), {.color = false, .width = width}),
          plan_text(sample_conflict(), {.color = false, .width = width}),
          claims_text("loft", sample_claims(), {.color = false, .width = width})}) {
      std::istringstream lines(text);
      std::string line;
      while (std::getline(lines, line)) EXPECT_LE(columns_of(line), width) << line;
    }
  }
}

TEST(Text, ColorAddsNothingButColor) {
  const std::string plain = plan_text(sample_plan(), {.color = false, .width = 90});
  std::string colored = plan_text(sample_plan(), {.color = true, .width = 90});
  EXPECT_NE(plain, colored);
  for (std::size_t at = colored.find('\x1b'); at != std::string::npos; at = colored.find('\x1b'))
    colored.erase(at, colored.find('m', at) - at + 1);
  EXPECT_EQ(plain, colored);
}

TEST(Text, HostileNamesCannotSteerTheTerminal) {
  Plan plan = sample_plan();
  plan.brief_name = hostile_text("brief");
  plan.builds = {hostile_sheet().build};
  plan.notes = {hostile_text("note")};
  const std::string text = plan_text(plan, {.color = false, .width = 100});
  for (const char c : text) EXPECT_TRUE(static_cast<unsigned char>(c) >= 0x20 || c == '\n');
  EXPECT_THAT(text, Not(HasSubstr("\xE2\x80\xAE")));
}

TEST(Text, ConflictsAreSentencesWithTheBriefsLines) {
  const std::string text = plan_text(sample_conflict(), {.color = false, .width = 100});
  EXPECT_THAT(text, HasSubstr("No build satisfies the brief."));
  EXPECT_THAT(text, HasSubstr("line 7    at most 600.00 EUR in IE (markets.IE.budget)"));
  EXPECT_THAT(text, HasSubstr("opens with 38.00 EUR more: 638.00 EUR\n"));
  EXPECT_THAT(text, HasSubstr("line 19   at most 24 dB(A)"));
}

TEST(Text, AnUnknownClaimNamesItsCell) {
  EXPECT_THAT(claims_text("loft", sample_claims(), {.color = false, .width = 100}),
              HasSubstr("absent: board_m2.csv, harrowgate-b7 socket 1, lanes; look it up"));
}

TEST(Text, BrokenWidthsAreBroughtIntoRange) {
  EXPECT_FALSE(plan_text(sample_plan(), {.color = false, .width = 0}).empty());
  EXPECT_FALSE(plan_text(Plan{}, {.color = false, .width = 100000}).empty());
}

}  // namespace
}  // namespace rigproof::sheet
