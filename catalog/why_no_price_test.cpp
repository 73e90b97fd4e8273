// Why a part cannot be had: each demand in turn, and agreement with the price book.
#include "catalog/why_no_price.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <random>

#include "catalog/price_book.hpp"
#include "catalog/small_catalog.hpp"

namespace rigproof {
namespace {

using enum NoPrice::Why;

constexpr PartRef eight{Kind::cpu, 0};

struct Offer {
  const char* seller = "shop-a";
  const char* market = "IE";
  std::string seen = "2026-10-01";
  const char* condition = "new";
  const char* stock = "";
};

Catalog with(const std::vector<Offer>& offers) {
  std::string rows;
  for (const Offer& o : offers)
    rows += fmt::format("quick-eight,{},{},{},{},100.00,EUR,yes,{}\n", o.seller, o.market, o.seen,
                        o.condition, o.stock);
  return small_catalog(rows);
}

Brief brief_of() {
  Brief brief;
  brief.as_of = *parse_date("2026-10-01");
  brief.markets.push_back(
      {.market = "IE", .budget = {*parse_currency("EUR"), 100'000}, .sales_tax = {}});
  brief.offers_not_older_than_days = 30;
  brief.lone_offers_not_older_than_days = 7;
  return brief;
}

NoPrice why(const std::vector<Offer>& offers, int count = 1) {
  return why_no_price(with(offers), brief_of(), eight, 0, count);
}

TEST(WhyNoPrice, NamesTheFirstDemandThatNoOfferMeets) {
  EXPECT_EQ(why({}).why, no_offer);
  EXPECT_EQ(why({{.market = "US"}}).why, no_offer) << "in another market";
  EXPECT_EQ(why({{.condition = "used"}}).why, other_condition);
  EXPECT_EQ(why({{.seen = "2026-10-02"}}).why, not_yet_seen);
  const NoPrice old = why({{.seen = "2026-08-02"}, {.seller = "shop-b", .seen = "2026-08-22"}});
  EXPECT_EQ(old.why, too_old);
  EXPECT_EQ(old.offers, 2);
  EXPECT_EQ(old.youngest_days, 40) << "22 August to 1 October: 9 + 30 + 1 days";
  EXPECT_EQ(why({{.stock = "0"}}).why, out_of_stock);
  const NoPrice lone = why({{.seen = "2026-09-20"}});
  EXPECT_EQ(lone.why, lone_too_old);
  EXPECT_EQ(lone.youngest_days, 11);
  const NoPrice few = why({{.stock = "2"}, {.seller = "shop-b", .stock = "1"}}, 3);
  EXPECT_EQ(few.why, too_few);
  EXPECT_EQ(few.most_stock, 2.0);
}

TEST(WhyNoPrice, IsPricedOtherwise) {
  EXPECT_EQ(why({{}}).why, priced);
  EXPECT_EQ(why({{.seen = "2026-09-20"}, {.seller = "shop-b", .seen = "2026-09-10"}}).why, priced)
      << "two sellers vouch for each other";
  EXPECT_EQ(why({{.seen = "2026-09-24"}}).why, priced) << "alone, seven days";
  EXPECT_EQ(why({{.stock = "3"}}, 3).why, priced);
  EXPECT_EQ(why({{}}, 12).why, priced) << "stock not stated";
  Brief brief = brief_of();
  brief.keep.push_back({Kind::cpu, "quick-eight", ""});
  EXPECT_EQ(why_no_price(with({}), brief, eight, 0).why, priced);
}

TEST(WhyNoPrice, OffersFallOutOneDemandAfterTheOther) {
  EXPECT_EQ(why({{.condition = "used"}, {.seller = "shop-b", .seen = "2026-01-01"}}).why, too_old)
      << "the used one is not looked at any more";
  EXPECT_EQ(why({{.seen = "2026-09-20"}, {.seller = "shop-b", .stock = "0"}}).why, lone_too_old)
      << "who has none left vouches for nothing";
}

// The price book says whether, this says why not: they never disagree on whether.
TEST(WhyNoPrice, AgreesWithThePriceBook) {
  std::mt19937 generator(20261201);
  const auto up_to = [&](int most) {
    return static_cast<int>(generator() % static_cast<unsigned>(most + 1));
  };
  int with_price = 0;
  constexpr int rounds = 600;
  for (int round = 0; round < rounds; ++round) {
    std::vector<Offer> offers;
    for (const char* seller : {"shop-a", "shop-b"})
      if (up_to(3) > 0)
        offers.push_back(
            {.seller = seller,
             .market = up_to(5) > 0 ? "IE" : "US",
             .seen = to_string(Date{brief_of().as_of.days - up_to(35) + 1}),
             .condition = up_to(5) > 0 ? "new" : "used",
             .stock = std::array{"", "", "0", "1", "2"}[static_cast<std::size_t>(up_to(4))]});
    const Catalog catalog = with(offers);
    const Brief brief = brief_of();
    const auto book = PriceBook::make(catalog, brief);
    ASSERT_TRUE(book) << book.error().message;
    const int count = 1 + up_to(2);
    const bool has = book->price(eight, 0, count).has_value();
    ASSERT_EQ(why_no_price(catalog, brief, eight, 0, count).why == priced, has) << round;
    with_price += has ? 1 : 0;
  }
  EXPECT_GT(with_price, 100);
  EXPECT_LT(with_price, rounds - 100);
}

}  // namespace
}  // namespace rigproof
