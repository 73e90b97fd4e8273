// Offers, budgets, ages: exact to the cent, in every market.
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

const Rule& rule(std::string_view id) { return rule_of(market_rules(), id); }

TestTables shop() {
  return TestTables()
      .row("cpu", {{"id", "cpu-a"}, {"name", "Orrin 6"}})
      .row("fan", {{"id", "fan-a"}, {"name", "Calm 12"}})
      .row("psu", {{"id", "psu-a"}, {"name", "Brook 650"}})
      .offer("cpu-a", "IE", "EUR", "200.10", "2026-09-20")
      .offer("cpu-a", "JP", "JPY", "31000", "2026-09-29")
      .offer("fan-a", "IE", "EUR", "9.99", "2026-09-28", "2")
      .offer("fan-a", "IE", "EUR", "10.01", "2026-09-25", "3")
      .offer("fan-a", "JP", "JPY", "1500", "2026-10-01")
      .offer("psu-a", "IE", "EUR", "80.00");
}

struct Shop : Scene {
  Shop() : Scene(shop()) { brief.as_of = *parse_date("2026-10-01"); }
};

// 200.10 + 2 x 9.99 = 220.08.
TEST(Budget, IsMetToTheCent) {
  Shop scene;
  scene.take("cpu-a").take("fan-a", 2).market("IE", "EUR", "220.08");
  const Claim even = scene.claim(rule("market.budget"));
  EXPECT_EQ(even.verdict, Verdict::holds);
  EXPECT_EQ(even.where, "IE");
  EXPECT_EQ(even.value->value, 220.08);
  EXPECT_EQ(even.value->unit, "EUR");
  EXPECT_EQ(even.margin->value, 0.0);
  EXPECT_THAT(even.subjects, ElementsAre("cpu-a", "fan-a"));

  scene.brief.markets[0].budget.minor = 22007;
  const Claim over = scene.claim(rule("market.budget"));
  EXPECT_EQ(over.verdict, Verdict::fails);
  EXPECT_EQ(over.margin->value, -0.01);
  EXPECT_EQ(over.remedy, "spend 0.01 EUR less");
}

// Three fans: the cheap offer has two in stock, so each costs 10.01: 200.10 + 30.03 = 230.13.
TEST(Budget, TakesAnOfferWithStockForAllPieces) {
  Shop scene;
  scene.take("cpu-a").take("fan-a", 3).market("IE", "EUR", "230.13");
  EXPECT_EQ(scene.claim(rule("market.budget")).margin->value, 0.0);
}

// Yen have no minor unit: 31000 + 1500 = 32500.
TEST(Budget, EachMarketInItsOwnCurrency) {
  Shop scene;
  scene.take("cpu-a").take("fan-a").market("IE", "EUR", "250").market("JP", "JPY", "32499");
  ASSERT_EQ(scene.places(rule("market.budget")), 2);
  EXPECT_EQ(scene.claim(rule("market.budget"), 0).verdict, Verdict::holds);
  const Claim yen = scene.claim(rule("market.budget"), 1);
  EXPECT_EQ(yen.verdict, Verdict::fails);
  EXPECT_EQ(yen.value->value, 32500.0);
  EXPECT_EQ(yen.value->unit, "JPY");
  EXPECT_EQ(yen.remedy, "spend 1 JPY less");
}

TEST(Budget, UnpricedPartMakesItUnknownAndIsNamed) {
  Shop scene;
  scene.take("cpu-a").take("psu-a").market("JP", "JPY", "1000000");
  const Claim claim = scene.claim(rule("market.budget"));
  EXPECT_EQ(claim.verdict, Verdict::unknown);
  EXPECT_FALSE(claim.value);
  EXPECT_EQ(claim.limit->value, 1000000.0);
  EXPECT_THAT(missing_cells(claim), ElementsAre("offers.psu-a.*"));
  EXPECT_EQ(claim.remedy, "find an offer in JP for: Brook 650");
}

TEST(Budget, KeptPartsCostNothing) {
  Shop scene;
  scene.brief.keep = {{.kind = Kind::psu, .id = "psu-a", .why = {}}};
  scene.take("cpu-a").take("psu-a").market("JP", "JPY", "31000");
  EXPECT_EQ(scene.claim(rule("market.budget")).margin->value, 0.0);
}

// Large sums: 10^15 minor units is the most a price may be, and one more must still be seen.
TEST(Budget, ComparesExactlyUpToTheLargestMoney) {
  Scene scene(
      TestTables().row("cpu", {{"id", "dear"}}).offer("dear", "IE", "EUR", "9999999999999.99"));
  scene.brief.as_of = *parse_date("2026-10-01");
  scene.take("dear").market("IE", "EUR", "9999999999999.99");
  EXPECT_EQ(scene.claim(rule("market.budget")).verdict, Verdict::holds);
  scene.brief.markets[0].budget.minor -= 1;
  EXPECT_EQ(scene.claim(rule("market.budget")).verdict, Verdict::fails);
}

TEST(Offer, OneClaimAPartAndMarket) {
  Shop scene;
  scene.brief.keep = {{.kind = Kind::psu, .id = "psu-a", .why = {}}};
  scene.take("cpu-a")
      .take("psu-a")
      .take("fan-a", 4)
      .market("IE", "EUR", "500")
      .market("JP", "JPY", "90000");
  ASSERT_EQ(scene.places(rule("market.offer")), 6);
  struct Expected {
    const char* where;
    Verdict verdict;
    const char* value;
  };
  const Expected expected[] = {
      {"IE: cpu-a", Verdict::holds, "on offer"},
      {"IE: psu-a", Verdict::holds, "already there"},
      {"IE: fan-a", Verdict::fails, "no admissible offer"},  // stock 2 and 3, four asked
      {"JP: cpu-a", Verdict::holds, "on offer"},
      {"JP: psu-a", Verdict::holds, "already there"},
      {"JP: fan-a", Verdict::holds, "on offer"}};  // stock not stated
  for (int place = 0; place < 6; ++place) {
    const Claim claim = scene.claim(rule("market.offer"), place);
    EXPECT_EQ(claim.where, expected[place].where);
    EXPECT_EQ(claim.verdict, expected[place].verdict) << claim.where;
    EXPECT_EQ(claim.value->text, expected[place].value);
  }
  EXPECT_THAT(scene.claim(rule("market.offer"), 2).statement, HasSubstr("4 pieces of the Calm 12"));
}

TEST(Offer, HelperAgreesWithTheRule) {
  Shop scene;
  scene.take("fan-a", 4).market("IE", "EUR", "500");
  const PartRef fan = *scene.catalog.find_part("fan-a");
  EXPECT_TRUE(market_offer_known(*scene.prices, fan, 0, 3));
  EXPECT_FALSE(market_offer_known(*scene.prices, fan, 0, 4));
}

// Seen 2026-09-20 and 2026-09-28 (two fans), judged on 2026-10-01: 11 and 3 days.
TEST(Age, OfTheOldestPriceUsed) {
  Shop scene;
  scene.take("cpu-a").take("fan-a", 2).market("IE", "EUR", "500");
  EXPECT_EQ(scene.places(rule("market.age")), 0) << "no age was asked";
  scene.brief.offers_not_older_than_days = 14;
  const Claim claim = scene.price().claim(rule("market.age"));
  EXPECT_EQ(claim.verdict, Verdict::holds);
  EXPECT_EQ(claim.grade, Grade::tells);
  EXPECT_EQ(claim.value->value, 11.0);
  EXPECT_EQ(claim.margin->value, 3.0);
  EXPECT_EQ(claim.value->unit, "days");
  scene.brief.offers_not_older_than_days =
      10;  // the price book of 14 days is kept: the price has become stale
  EXPECT_EQ(scene.claim(rule("market.age")).verdict, Verdict::fails);
  EXPECT_EQ(scene.price().claim(rule("market.age")).verdict, Verdict::unknown)
      << "now there is no price at all";
}

TEST(Market, NothingIsClaimedWithoutPrices) {
  Shop scene;
  scene.take("cpu-a");
  for (const Rule* each : market_rules()) EXPECT_EQ(scene.places(*each), 0) << each->id;
}

// A kept supply that is in the build, and a forced case that is not.
TEST(NamedParts, AreInTheBuild) {
  TestTables tables;
  tables.row("psu", {{"id", "psu-a"}})
      .row("case", {{"id", "case-a"}})
      .row("case", {{"id", "case-b"}});
  Scene scene(tables);
  scene.take("psu-a").take("case-b");
  scene.brief.keep.push_back({Kind::psu, "psu-a", ""});
  scene.brief.because.push_back({Kind::chassis, "case-a", "matches the room"});
  ASSERT_EQ(scene.places(rule("match.named-parts")), 2);
  EXPECT_EQ(scene.claim(rule("match.named-parts"), 0).verdict, Verdict::holds);
  const Claim forced = scene.claim(rule("match.named-parts"), 1);
  EXPECT_EQ(forced.verdict, Verdict::fails);
  EXPECT_EQ(forced.where, "case-a");
  EXPECT_FALSE(forced.remedy.empty());
}

}  // namespace
}  // namespace rigproof
