// Prices: what counts, what it costs with tax, and which offer wins.
//
// Oracle for tax: check values, section G ("Energy and money"): gross = net (1 + r), rounded half
// up to the minor unit per line. The rows used here are "computed: Python decimal"; that United
// States prices exclude sales tax is "common practice, no source".
#include "catalog/price_book.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "catalog/small_catalog.hpp"

namespace rigproof {
namespace {

using testing::AllOf;
using testing::HasSubstr;

constexpr PartRef eight{Kind::cpu, 0};
constexpr PartRef six{Kind::cpu, 1};

/// One offer for quick-eight unless said otherwise.
struct Offer {
  const char* part = "quick-eight";
  const char* seller = "shop-a";
  const char* market = "IE";
  const char* seen = "2026-10-01";
  const char* condition = "new";
  const char* price = "100.00";
  const char* currency = "EUR";
  const char* tax_included = "yes";
  const char* stock = "";
};

Catalog with(const std::vector<Offer>& offers) {
  std::string rows;
  for (const Offer& o : offers)
    rows += fmt::format("{},{},{},{},{},{},{},{},{}\n", o.part, o.seller, o.market, o.seen,
                        o.condition, o.price, o.currency, o.tax_included, o.stock);
  return small_catalog(rows);
}

Brief brief_of(const Catalog& catalog, std::string_view more = {}, std::string_view in_brief = {}) {
  const auto brief = read_brief(
      fmt::format("[brief]\nname = \"a\"\nas_of = 2026-10-01\n{}\n[[markets]]\nmarket = \"IE\"\n"
                  "currency = \"EUR\"\nbudget = \"1000.00\"\n{}",
                  in_brief, more),
      "my.toml", catalog);
  if (!brief) throw std::runtime_error(brief.error().report());
  return *brief;
}

/// Price in the first market; -1 when it cannot be bought.
std::int64_t minor(const Catalog& catalog, const Brief& brief, PartRef part = eight,
                   int count = 1) {
  const auto book = PriceBook::make(catalog, brief);
  if (!book) throw std::runtime_error(book.error().message);
  const auto price = book->price(part, 0, count);
  return price ? price->minor : -1;
}

TEST(PriceBook, TaxIsAddedExactlyPerLine) {
  // net, rate, gross. First the rows "half up / half even" of section G as products: 0.10 x 1.25 =
  // 0.125
  // -> 0.13; 0.12 x 1.125 = 0.135 -> 0.14; 2.14 x 1.25 = 2.675 -> 2.68; 0.67 x 1.5 = 1.005 -> 1.01
  // (the last two are what binary floating point gets wrong, same table). Then its net amounts of
  // 999.00 and 1350.00 gross, the tax added back by hand: 832.50 x 1.2 = 999.00; 825.62 x 1.21 =
  // 999.0002; 812.20 x 1.23 = 999.006; 1097.56 x 1.23 = 1349.9988; 839.50 x 1.19 = 999.005 ->
  // 999.01, a cent more, since the net amount was rounded already. 999.99 x 1.08875 = 1088.7391125.
  struct Row {
    const char* net;
    const char* rate;
    std::int64_t gross;
  };
  for (const Row& row :
       {Row{"0.10", "0.25", 13}, Row{"0.12", "0.125", 14}, Row{"2.14", "0.25", 268},
        Row{"0.67", "0.5", 101}, Row{"832.50", "0.20", 99900}, Row{"825.62", "0.21", 99900},
        Row{"812.20", "0.23", 99901}, Row{"1097.56", "0.23", 135000}, Row{"839.50", "0.19", 99901},
        Row{"999.99", "0.08875", 108874}, Row{"0.00", "0.08875", 0}}) {
    const Catalog catalog = with({{.price = row.net, .tax_included = "no"}});
    EXPECT_EQ(minor(catalog, brief_of(catalog, fmt::format("sales_tax = \"{}\"\n", row.rate))),
              row.gross)
        << row.net << " at " << row.rate;
  }
}

// Section G, "line against total", says that the three ways differ and asks to say which is used:
// by the line, half up. By hand: 8.33 at 20 % is 9.996 -> 10.00, three of them 30.00, where the tax
// on the total of 24.99 would make 29.988 -> 29.99.
TEST(PriceBook, RoundsByTheLineAndNotOnTheTotal) {
  const Catalog catalog = with({{.price = "8.33", .tax_included = "no"}});
  EXPECT_EQ(3 * minor(catalog, brief_of(catalog, "sales_tax = \"0.20\"\n"), eight, 3), 3000);
}

// What one seller alone asks must be fresher, where the brief says so; a second seller vouches for
// it.
TEST(PriceBook, ALoneOfferMustBeAsFreshAsTheBriefAsks) {
  const auto price = [](const std::vector<Offer>& offers, std::string_view asked) {
    const Catalog catalog = with(offers);
    return minor(catalog, brief_of(catalog, {}, asked));
  };
  const std::string week = "lone_offers_not_older_than_days = 7";
  const Offer bargain{.seller = "shop-a", .seen = "2026-09-20", .price = "80.00"};
  const Offer elsewhere{.seller = "shop-b", .seen = "2026-09-28", .price = "100.00"};
  EXPECT_EQ(price({bargain}, ""), 8000);
  EXPECT_EQ(price({bargain}, week), -1) << "eleven days old, one seller";
  EXPECT_EQ(price({bargain}, "lone_offers_not_older_than_days = 11"), 8000);
  EXPECT_EQ(price({bargain}, "lone_offers_not_older_than_days = 10"), -1);
  EXPECT_EQ(price({bargain, elsewhere}, week), 8000) << "not alone";
  Offer again = bargain;
  again.seen = "2026-09-27";
  again.price = "90.00";
  EXPECT_EQ(price({bargain, again}, week), 9000) << "the same seller twice is still one seller";
  Offer sold_out = elsewhere;
  sold_out.stock = "0";
  EXPECT_EQ(price({bargain, sold_out}, week), -1)
      << "an offer that does not count vouches for none";
}

TEST(PriceBook, AnOfferExactlyAsOldAsAllowedCounts) {
  const auto seen = [](const char* day, std::string_view days) {
    const Catalog catalog = with({{.seen = day}});
    return minor(catalog, brief_of(catalog, {}, days)) == 10000;
  };
  const std::string fortnight = "offers_not_older_than_days = 14";
  EXPECT_TRUE(seen("2026-10-01", fortnight));
  EXPECT_TRUE(seen("2026-09-17", fortnight));  // 30 - 17 + 1 = 14 days before 1 October
  EXPECT_FALSE(seen("2026-09-16", fortnight));
  EXPECT_FALSE(seen("2026-10-02", fortnight));  // not seen yet
  EXPECT_TRUE(seen("2026-10-01", "offers_not_older_than_days = 0"));
  EXPECT_FALSE(seen("2026-09-30", "offers_not_older_than_days = 0"));
  EXPECT_TRUE(seen("1999-01-01", ""));  // no limit stated
  EXPECT_FALSE(seen("2026-10-02", ""));
}

TEST(PriceBook, OnlyAcceptedConditionsCount) {
  const Catalog catalog = with({{.condition = "used", .price = "50.00"},
                                {.condition = "refurbished", .price = "70.00"},
                                {.price = "90.00"}});
  EXPECT_EQ(minor(catalog, brief_of(catalog)), 9000);
  EXPECT_EQ(minor(catalog, brief_of(catalog, {}, "conditions = [\"new\", \"refurbished\"]")), 7000);
  EXPECT_EQ(minor(catalog, brief_of(catalog, {}, "conditions = [\"used\"]")), 5000);
}

TEST(PriceBook, OneOfferMustHaveStockForAll) {
  const Catalog catalog = with({{.price = "80.00", .stock = "0"},
                                {.seen = "2026-09-30", .price = "90.00", .stock = "2"},
                                {.seen = "2026-09-29", .price = "95.00", .stock = "3"},
                                {.seen = "2026-09-28", .price = "99.00"}});
  const Brief brief = brief_of(catalog);
  EXPECT_EQ(minor(catalog, brief, eight, 1), 9000);
  EXPECT_EQ(minor(catalog, brief, eight, 2), 9000);
  EXPECT_EQ(minor(catalog, brief, eight, 3), 9500);
  EXPECT_EQ(minor(catalog, brief, eight, 4), 9900);  // stock unknown
  EXPECT_EQ(minor(catalog, brief, six), -1);
}

TEST(PriceBook, TheCheapestWinsThenTheLaterThenTheEarlierRow) {
  const Catalog catalog = with({{.seen = "2026-09-28", .price = "90.00"},
                                {.seller = "shop-a", .seen = "2026-09-29", .price = "90.00"},
                                {.seller = "shop-b", .seen = "2026-09-29", .price = "90.00"},
                                {.seen = "2026-09-30", .price = "90.01"}});
  const auto book = PriceBook::make(catalog, brief_of(catalog));
  ASSERT_TRUE(book);
  EXPECT_EQ(book->price(eight, 0)->minor, 9000);
  EXPECT_EQ(book->price(eight, 0)->offer, 1U);
}

// Tax decides who is cheapest: 100.00 with tax against 85.00 without, at 20 % 102.00.
TEST(PriceBook, OffersWithAndWithoutTaxAreComparedByWhatIsPaid) {
  const Catalog catalog =
      with({{.price = "85.00", .tax_included = "no"}, {.seen = "2026-09-30", .price = "100.00"}});
  const auto book = PriceBook::make(catalog, brief_of(catalog, "sales_tax = \"0.20\"\n"));
  ASSERT_TRUE(book);
  EXPECT_EQ(book->price(eight, 0)->minor, 10000);
  EXPECT_EQ(book->price(eight, 0)->offer, 1U);
}

TEST(PriceBook, ExcludedTaxWithoutARateIsAnErrorAtTheMarketsLine) {
  const Catalog catalog = with({{}, {.seen = "2026-09-30", .tax_included = "no"}});
  const auto book = PriceBook::make(catalog, brief_of(catalog));
  ASSERT_FALSE(book);
  EXPECT_EQ(book.error().code, ErrorCode::bad_input);
  // [[markets]] is line 5 of brief_of(); the offer is the second row, line 3 of its file.
  EXPECT_THAT(book.error().message, AllOf(HasSubstr("my.toml:5: market IE"), HasSubstr("sales_tax"),
                                          HasSubstr("offers.csv:3")));
}

TEST(PriceBook, AnotherCurrencyIsAnErrorThatNamesBothLines) {
  const Catalog catalog = with({{.seen = "2020-01-01", .currency = "GBP"}, {.currency = "GBP"}});
  const auto book =
      PriceBook::make(catalog, brief_of(catalog, {}, "offers_not_older_than_days = 14"));
  ASSERT_FALSE(book);
  EXPECT_EQ(book.error().code, ErrorCode::bad_input);
  // The first row is stale, so line 3 is the first that counts.
  EXPECT_THAT(book.error().message, AllOf(HasSubstr("offers.csv:3"), HasSubstr("GBP"),
                                          HasSubstr("my.toml:5"), HasSubstr("EUR")));
}

// A stale price from before a country changed its currency is history, not an error; so is one
// without tax.
TEST(PriceBook, OffersThatDoNotCountAreNotComplainedOf) {
  const Catalog catalog =
      with({{.seen = "2020-01-01", .currency = "GBP", .tax_included = "no"},
            {.seen = "2026-09-30", .condition = "used", .currency = "GBP", .tax_included = "no"},
            {.market = "FR", .currency = "GBP", .tax_included = "no"}});
  EXPECT_EQ(minor(catalog, brief_of(catalog, {}, "offers_not_older_than_days = 14")), -1);
}

TEST(PriceBook, EachMarketHasItsOwnPrices) {
  const Catalog catalog = with({{.price = "100.00"},
                                {.seller = "shop-b",
                                 .market = "US",
                                 .price = "90.00",
                                 .currency = "USD",
                                 .tax_included = "no"}});
  const auto book =
      PriceBook::make(catalog, brief_of(catalog,
                                        "[[markets]]\nmarket = \"US\"\ncurrency = \"USD\"\nbudget "
                                        "= \"900\"\nsales_tax = \"0.10\"\n"));
  ASSERT_TRUE(book) << book.error().message;
  ASSERT_EQ(book->markets(), 2);
  EXPECT_EQ(book->price(eight, 0)->minor, 10000);
  EXPECT_EQ(book->price(eight, 1)->minor, 9900);
  EXPECT_THROW((void)book->price(eight, 2), ContractViolation);
}

TEST(PriceBook, KeptPartsCostNothingAndNeedNoOffer) {
  const Catalog catalog = with({{.part = "owned-psu", .price = "60.00"}});
  const PartRef owned{Kind::psu, 0};
  const PartRef spare{Kind::psu, 1};
  const auto book = PriceBook::make(catalog, brief_of(catalog, "[keep]\npsu = \"spare-psu\"\n"));
  ASSERT_TRUE(book);
  EXPECT_TRUE(book->kept(spare));
  EXPECT_FALSE(book->kept(owned));
  EXPECT_EQ(book->price(spare, 0)->minor, 0);
  EXPECT_EQ(book->price(spare, 0)->offer, no_row);
  EXPECT_EQ(book->price(owned, 0)->minor, 6000);
}

TEST(PriceBook, KnowsWhatOneSellerAloneOffers) {
  const auto alone = [](const std::vector<Offer>& offers) {
    const Catalog catalog = with(offers);
    const Brief brief = brief_of(catalog);
    return PriceBook::make(catalog, brief)->of_one_seller(eight, 0);
  };
  EXPECT_FALSE(alone({})) << "nobody";
  EXPECT_TRUE(alone({{}}));
  EXPECT_TRUE(alone({{}, {.seen = "2026-09-30"}})) << "the same seller twice";
  EXPECT_FALSE(alone({{}, {.seller = "shop-b"}}));
  EXPECT_TRUE(alone({{}, {.seller = "shop-b", .stock = "0"}})) << "sold out elsewhere";
}

}  // namespace
}  // namespace rigproof
