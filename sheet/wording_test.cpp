// Oracles: sentences written by hand, and that no noise is told which the unit does not deserve.
#include "sheet/wording.hpp"

#include <gmock/gmock.h>

#include "sheet/html.hpp"
#include "sheet/markdown.hpp"
#include "sheet/order.hpp"
#include "sheet/sample.hpp"

// A test sets the members it needs.
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"

namespace rigproof::sheet {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

Claim claim_with_margin(double margin, const char* unit, Relation relation = Relation::at_most) {
  Claim out{.id = "fit.x", .statement = "It fits."};
  out.limit = Limit{.relation = relation, .value = 325, .unit = unit};
  out.margin = Quantity{.value = margin, .unit = unit};
  out.margin_frac = margin / 325.0;
  return out;
}

TEST(Wording, MarginsUnderWhatTheUnitDeservesAreNotSpeltOut) {
  EXPECT_EQ(room_words(claim_with_margin(-0.0039, "mm")), "less than 0.1 mm over");
  EXPECT_EQ(room_words(claim_with_margin(0.0039, "mm")), "less than 0.1 mm left");
  EXPECT_EQ(room_words(claim_with_margin(-0.04, "GB", Relation::at_least)), "less than 1 GB short");
  EXPECT_EQ(room_words(claim_with_margin(-0.06, "mm")), "0.1 mm over");
  EXPECT_EQ(room_words(claim_with_margin(4.04, "mm")), "4 mm left");
  EXPECT_EQ(room_words(claim_with_margin(0.0, "mm")), "exactly at the limit");
  // A unit that nothing is known of keeps its digits.
  EXPECT_EQ(room_words(claim_with_margin(0.0039, "parsecs")), "0.0039 parsecs left");
  EXPECT_EQ(share_words(claim_with_margin(-0.0039, "mm")), "under 0.1 % of the limit");
}

TEST(Wording, ValuesAreRoundedToTheStepOfTheirUnit) {
  EXPECT_EQ(words(Quantity{.value = 5.4321, .unit = "mm"}), "5.4 mm");
  EXPECT_EQ(words(Quantity{.value = 33.06, .low = -0.04, .high = 66.04, .unit = "dB(A)"}),
            "33.1 dB(A) (0 to 66)");
  EXPECT_EQ(words(Quantity{.value = 1999.6, .unit = "GB"}), "2000 GB");
  EXPECT_EQ(words(Quantity{.value = 12.345, .unit = "EUR"}), "12.35 EUR");
  EXPECT_EQ(words(Quantity{.value = 0.1234, .unit = ""}), "0.1234");
}

TEST(Wording, OutcomeIsTold) {
  Claim claim = claim_with_margin(4, "mm");
  claim.value = Quantity{.value = 321, .low = 316, .high = 326, .unit = "mm"};
  claim.margin->low = -1, claim.margin->high = 9;
  claim.odds = 0.86;
  claim.verdict = Verdict::thin;
  EXPECT_EQ(
      outcome_words(claim),
      "The value is 321 mm (316 to 326); the limit: at most 325 mm. That is: 4 mm left (-1 to "
      "9), 1.2 % of the limit. It holds in 0.86 of the draws: thin.");
  claim.verdict = Verdict::unknown;
  EXPECT_THAT(outcome_words(claim), HasSubstr("There is no verdict"));
}

TEST(Wording, DaysAndMoneyForAStranger) {
  EXPECT_EQ(long_date_words(parse_date("2026-10-01").value_or(Date{})), "1 October 2026");
  EXPECT_EQ(long_date_words(parse_date("1999-12-31").value_or(Date{})), "31 December 1999");
  EXPECT_EQ(long_date_words(Date{}), "");
  const Currency eur = parse_currency("EUR").value_or(Currency{});
  const Currency usd = parse_currency("USD").value_or(Currency{});
  const Currency sek = parse_currency("SEK").value_or(Currency{});
  EXPECT_EQ(plain_money_words({eur, 150000}), "1,500 euro");
  EXPECT_EQ(plain_money_words({usd, 150050}), "1,500.50 US dollars");
  EXPECT_EQ(plain_money_words({sek, 1200000}), "12,000 SEK");
}

TEST(Wording, OffersSayWhatIsNotStated) {
  PriceLine line{.seller = "Long Quay", .condition = "used"};
  EXPECT_EQ(offer_words(line), "used, stock not stated, warranty not stated");
  line.stock = 1, line.warranty_months = 0, line.alone = true;
  EXPECT_EQ(offer_words(line), "used, 1 in stock, sold without a warranty, the only seller");
  EXPECT_EQ(offer_words(PriceLine{}), "");
}

// Told by hand: two claims wait for lanes, one for length; a third was given over length's range.
TEST(LookUp, CellsThatMostHangOnComeFirst) {
  const Missing lanes{.table = "board_m2", .row = "b/1", .column = "lanes"};
  const Missing length{.table = "gpu", .row = "g", .column = "length_mm"};
  const Missing height{.table = "gpu", .row = "g", .column = "height_mm"};
  std::vector<Claim> claims(4);
  claims[0].missing = {length, height};
  claims[0].verdict = Verdict::holds;
  claims[1].missing = {length};
  claims[2].missing = {lanes};
  claims[3].missing = {lanes};
  const auto cells = cells_to_look_up(claims);
  ASSERT_EQ(cells.size(), 3U);
  EXPECT_EQ(cells[0].cell.column, "lanes");
  EXPECT_EQ(cells[0].claims, 2);
  EXPECT_THAT(cells[0].waiting, ElementsAre(&claims[2], &claims[3]));
  EXPECT_EQ(cells[1].cell.column, "length_mm");
  EXPECT_EQ(hanging_words(cells[1].claims, cells[1].ranges),
            "1 claim is unknown without it; 1 claim is given without it, over what is usual");
  EXPECT_EQ(cells[2].claims, 0);
}

Sheet failing_sheet() {
  Sheet sheet = small_sheet();
  Claim& claim = sheet.build.claims.front();
  claim.id = "fit.gpu-length";
  claim.verdict = Verdict::fails;
  claim.consequence = "The card would not go in.";
  claim.remedy = "take the short card";
  Claim told = claim;
  told.grade = Grade::tells;
  told.consequence = "Only told.";
  sheet.build.claims.push_back(told);
  return sheet;
}

TEST(Wrong, ComesBeforeTheClaimsAndHoldsMustsOnly) {
  const Sheet sheet = failing_sheet();
  ASSERT_EQ(what_goes_wrong(sheet.build.claims).size(), 1U);
  for (const std::string& page : {sheet_html(sheet), sheet_markdown(sheet)}) {
    const std::size_t wrong = page.find("What would go wrong");
    const std::size_t claims = page.find("Claims, nearest to failing first");
    ASSERT_NE(wrong, std::string::npos);
    ASSERT_LT(wrong, claims);
    const std::string top = page.substr(wrong, claims - wrong);
    EXPECT_THAT(top, HasSubstr("The card would not go in."));
    EXPECT_THAT(top, HasSubstr("take the short card"));
    EXPECT_THAT(top, Not(HasSubstr("Only told.")));
  }
}

TEST(Wrong, IsNotThereWhereNothingFails) {
  Sheet sheet = small_sheet();
  std::erase_if(sheet.build.claims, [](const Claim& c) { return c.verdict != Verdict::holds; });
  EXPECT_THAT(sheet_html(sheet), Not(HasSubstr("What would go wrong")));
  EXPECT_THAT(sheet_markdown(sheet), Not(HasSubstr("What would go wrong")));
}

TEST(Working, IsShownWholeOnThePageAndInMarkdown) {
  const Sheet sheet = sample_sheet();
  for (const std::string& page : {sheet_html(sheet), sheet_markdown(sheet)})
    for (const char* piece :
         {"room behind the bracket - fan depth (T4)", "321 mm (316 to 326), plus-minus 5.5 mm",
          "tarnholt-case-41/card-length", "not known; the usual range of its class", "1 more cell",
          "invented"})
      EXPECT_THAT(page, HasSubstr(piece));
}

TEST(Page, NothingMoves) {  // so that no reader has to ask for less motion
  const std::string html = sheet_html(sample_sheet());
  for (const char* word : {"transition", "animation", "scroll-behavior"})
    EXPECT_THAT(html, Not(HasSubstr(word)));
}

}  // namespace
}  // namespace rigproof::sheet
