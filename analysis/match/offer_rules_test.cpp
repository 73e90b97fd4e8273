// What offers say: one seller alone, stock, condition, tax, warranty; and why there is none.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/match/match_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using testing::UnorderedElementsAre;

const Rule& rule(std::string_view id) { return rule_of(market_rules(), id); }

struct Offer {
  std::string part;
  std::string seller = "shop-a";
  std::string seen = "2026-09-30";
  std::string condition = "new";
  std::string tax_included = "yes";
  std::string stock = "";
  std::string warranty_months = "";
  std::string market = "IE";
};

// Prices fall with every offer, so that the last one is the cheapest.
TestTables shop(const std::vector<Offer>& offers) {
  TestTables tables;
  tables.row("cpu", {{"id", "cpu-a"}, {"name", "Orrin 6"}})
      .row("fan", {{"id", "fan-a"}, {"name", "Calm 12"}})
      .row("psu", {{"id", "psu-a"}, {"name", "Brook 650"}});
  for (const char* seller : {"shop-a", "shop-b"})
    tables.row("sellers", {{"id", seller}, {"market", "IE"}});
  int price = 100;
  for (const Offer& offer : offers)
    tables.row("offers", {{"part", offer.part},
                          {"seller", offer.seller},
                          {"market", offer.market},
                          {"seen", offer.seen},
                          {"condition", offer.condition},
                          {"price", std::to_string(price--) + ".00"},
                          {"currency", "EUR"},
                          {"tax_included", offer.tax_included},
                          {"stock", offer.stock},
                          {"warranty_months", offer.warranty_months}});
  return tables;
}

struct Shop : Scene {
  explicit Shop(const std::vector<Offer>& offers) : Scene(shop(offers)) {
    brief.as_of = *parse_date("2026-10-01");
    brief.conditions = {"new", "used"};
  }
};

// The cpu is sold by two, the fan by one who was seen nine days ago, the supply by one a day ago.
TEST(LoneOffer, NamesPartsThatOneSellerAloneHas) {
  Shop scene({{.part = "cpu-a", .seen = "2026-09-01"},
              {.part = "cpu-a", .seller = "shop-b", .seen = "2026-09-01"},
              {.part = "fan-a", .seen = "2026-09-22"},
              {.part = "psu-a"}});
  scene.take("cpu-a").take("fan-a").take("psu-a").market("IE", "EUR", "1000");
  const Claim claim = scene.claim(rule("market.lone-offer"));
  EXPECT_EQ(claim.verdict, Verdict::fails) << "nine days, seven are usual";
  EXPECT_EQ(claim.grade, Grade::tells);
  EXPECT_EQ(claim.value->value, 9.0);
  EXPECT_EQ(claim.limit->value, 7.0);
  EXPECT_THAT(claim.subjects, UnorderedElementsAre("fan-a", "psu-a"));
  EXPECT_THAT(claim.statement, HasSubstr("Brook 650 (1 day) and Calm 12 (9 days)"));
  scene.brief.lone_offers_not_older_than_days = 9;
  EXPECT_EQ(scene.price().claim(rule("market.lone-offer")).verdict, Verdict::holds);
  const Claim none = scene.drop(Kind::fan).drop(Kind::psu).claim(rule("market.lone-offer"));
  EXPECT_EQ(none.verdict, Verdict::holds);
  EXPECT_THAT(none.subjects, ElementsAre());
}

TEST(Stock, UnknownNamesTheOffer) {
  Shop scene({{.part = "cpu-a", .stock = "3"}, {.part = "fan-a", .stock = "2"}, {.part = "psu-a"}});
  scene.take("cpu-a").take("fan-a", 2).market("IE", "EUR", "1000");
  const Claim stated = scene.claim(rule("market.stock"));
  EXPECT_EQ(stated.verdict, Verdict::holds);
  EXPECT_EQ(stated.value->value, 0.0);
  const Claim unknown = scene.take("psu-a").claim(rule("market.stock"));
  EXPECT_EQ(unknown.verdict, Verdict::unknown);
  ASSERT_EQ(unknown.missing.size(), 1U);
  EXPECT_EQ(unknown.missing[0].table, "offers");
  EXPECT_EQ(unknown.missing[0].column, "stock");
  EXPECT_THAT(unknown.missing[0].row, HasSubstr("psu-a"));
  EXPECT_THAT(unknown.statement, HasSubstr("1 of 3"));
}

TEST(Condition, CountsWhatIsNotNew) {
  Shop scene({{.part = "cpu-a", .condition = "used"}, {.part = "fan-a"}});
  scene.take("cpu-a").take("fan-a").market("IE", "EUR", "1000");
  const Claim claim = scene.claim(rule("market.condition"));
  EXPECT_EQ(claim.verdict, Verdict::holds) << "the brief allows it";
  EXPECT_EQ(claim.value->value, 1.0);
  EXPECT_THAT(claim.statement, HasSubstr("Orrin 6 (used)"));
  scene.brief.conditions = {"new"};  // the prices were made before
  EXPECT_EQ(scene.claim(rule("market.condition")).verdict, Verdict::fails);
  scene.drop(Kind::cpu);
  EXPECT_EQ(scene.claim(rule("market.condition")).value->value, 0.0);
}

TEST(Tax, SaysWhereItWasAdded) {
  Shop scene({{.part = "cpu-a", .tax_included = "no"}, {.part = "fan-a"}});
  scene.brief.markets.push_back({.market = "IE",
                                 .budget = {*parse_currency("EUR"), 100'000},
                                 .sales_tax = DecimalRate{725, 4}});
  scene.take("cpu-a").price();
  const Claim all = scene.claim(rule("market.tax"));
  EXPECT_EQ(all.verdict, Verdict::holds);
  EXPECT_EQ(all.value->text, "added");
  EXPECT_THAT(all.limit->text, HasSubstr("7.25 %"));
  const Claim some = scene.take("fan-a").claim(rule("market.tax"));
  EXPECT_EQ(some.value->text, "included or added");
  EXPECT_THAT(some.statement, HasSubstr("7.25 % to 1 of 2 prices"));
  EXPECT_EQ(scene.drop(Kind::cpu).claim(rule("market.tax")).value->text, "included");
}

TEST(Warranty, TheShortestCounts) {
  Shop scene({{.part = "cpu-a", .warranty_months = "36"},
              {.part = "fan-a", .warranty_months = "24"},
              {.part = "psu-a"}});
  scene.take("cpu-a").take("fan-a").market("IE", "EUR", "1000");
  const Claim claim = scene.claim(rule("market.warranty"));
  EXPECT_EQ(claim.verdict, Verdict::holds);
  EXPECT_EQ(claim.value->value, 24.0);
  EXPECT_EQ(claim.value->unit, "months");
  EXPECT_THAT(claim.subjects, ElementsAre("fan-a"));
  const Claim unknown = scene.take("psu-a").claim(rule("market.warranty"));
  EXPECT_EQ(unknown.verdict, Verdict::unknown);
  ASSERT_EQ(unknown.missing.size(), 1U);
  EXPECT_EQ(unknown.missing[0].column, "warranty_months");
  Shop none(std::vector<Offer>{{.part = "cpu-a", .warranty_months = "0"}});
  none.take("cpu-a").market("IE", "EUR", "1000");
  EXPECT_EQ(none.claim(rule("market.warranty")).verdict, Verdict::fails) << "stated: none";
}

TEST(Offers, NothingIsSaidOfKeptParts) {
  Shop scene(std::vector<Offer>{});
  scene.take("psu-a");
  scene.brief.keep.push_back({Kind::psu, "psu-a", ""});
  scene.market("IE", "EUR", "10");
  for (const char* id :
       {"market.lone-offer", "market.stock", "market.condition", "market.tax", "market.warranty"})
    EXPECT_EQ(scene.places(rule(id)), 0) << id;
}

TEST(Offers, APartWithoutOneIsNamed) {
  Shop scene(std::vector<Offer>{{.part = "cpu-a"}});
  scene.take("cpu-a").take("fan-a").market("IE", "EUR", "1000");
  for (const char* id : {"market.lone-offer", "market.condition", "market.tax"})
    EXPECT_THAT(missing_cells(scene.claim(rule(id))), ElementsAre("offers.fan-a.*")) << id;
}

// Why nothing can be had is said in the claim itself.
std::string why(const std::vector<Offer>& offers, int count = 1) {
  Shop scene(offers);
  scene.brief.conditions = {"new"};
  scene.brief.offers_not_older_than_days = 14;
  scene.brief.lone_offers_not_older_than_days = 7;
  scene.take("fan-a", count).market("IE", "EUR", "1000");
  const Claim claim = scene.claim(rule("market.offer"));
  EXPECT_EQ(claim.verdict, Verdict::fails);
  EXPECT_THAT(claim.statement, HasSubstr("can be had in IE"));
  return claim.remedy;
}

TEST(Offer, SaysWhyNothingIsAdmissible) {
  EXPECT_THAT(why({}), HasSubstr("no offer"));
  EXPECT_THAT(why({{.part = "fan-a", .condition = "used"}}), HasSubstr("condition"));
  EXPECT_THAT(why({{.part = "fan-a", .seen = "2026-08-22"}}), HasSubstr("40 days"));
  EXPECT_THAT(why({{.part = "fan-a", .seen = "2026-08-22"}}), HasSubstr("14"));
  const std::string lone = why({{.part = "fan-a", .seen = "2026-09-20"}});
  EXPECT_THAT(lone, HasSubstr("one seller alone"));
  EXPECT_THAT(lone, HasSubstr("11 days"));
  EXPECT_THAT(lone, HasSubstr("more than the 7"));
  EXPECT_THAT(why({{.part = "fan-a", .stock = "0"}}), HasSubstr("stock"));
  EXPECT_THAT(why({{.part = "fan-a", .stock = "2"}}, 3), HasSubstr("2"));
  EXPECT_THAT(why({{.part = "fan-a", .seen = "2026-10-02"}}), HasSubstr("after"));
}

}  // namespace
}  // namespace rigproof
