// Oracles: the worked amounts of the check values (computed: Python decimal), hand calculation, the
// definition of rounding as an inequality in whole numbers, and minor units from [iso-4217].
#include "base/money.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <random>
#include <string>
#include <string_view>

#include "base/contract.hpp"

namespace rigproof {
namespace {

Currency currency(std::string_view code) { return parse_currency(code).value(); }

std::int64_t taxed(std::int64_t minor, std::string_view rate) {
  return with_tax(minor, parse_rate(rate).value());
}

TEST(Currency, MinorUnitsFollowTheStandard) {
  // Looked up: a public code table (an old edition) for all but UGX, CLF and UYW, which are from
  // memory.
  for (const char* code : {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF",
                           "UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF"})
    EXPECT_EQ(minor_digits(currency(code)), 0) << code;
  for (const char* code : {"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"})
    EXPECT_EQ(minor_digits(currency(code)), 3) << code;
  for (const char* code : {"CLF", "UYW"}) EXPECT_EQ(minor_digits(currency(code)), 4) << code;
  // MGA and MRU have fifths in the street and two digits in the standard.
  for (const char* code : {"EUR", "USD", "GBP", "SEK", "CHF", "MGA", "MRU", "AED", "ZMW"})
    EXPECT_EQ(minor_digits(currency(code)), 2) << code;
}

TEST(Currency, OnlyCodesThatCirculate) {
  // XAU to XXX are no money to pay with; the others are replaced (from memory) or malformed.
  for (const char* code : {"XAU", "XAG", "XDR", "XTS", "XXX", "HRK", "LVL", "BYR", "VEF", "ZMK",
                           "ABC", "eur", "EU", "EURO", "", " EU", "R U", "ED ", "\xC3\x89\x55"})
    EXPECT_FALSE(parse_currency(code)) << code;
  EXPECT_EQ(currency("EUR").view(), "EUR");
  EXPECT_EQ(currency("EUR"), currency("EUR"));
  EXPECT_FALSE(currency("EUR") == currency("USD"));
}

TEST(Money, ReadsAmounts) {
  const Currency eur = currency("EUR");
  EXPECT_EQ(parse_money("1350.00", eur)->minor, 135'000);
  EXPECT_EQ(parse_money("1350", eur)->minor, 135'000);
  EXPECT_EQ(parse_money("1350.5", eur)->minor, 135'050);
  EXPECT_EQ(parse_money("-0.01", eur)->minor, -1);
  EXPECT_EQ(parse_money("0", eur)->minor, 0);
  EXPECT_EQ(parse_money("-0", eur)->minor, 0);
  EXPECT_EQ(parse_money("0007.10", eur)->minor, 710);
  EXPECT_EQ(parse_money("1350", currency("JPY"))->minor, 1350);
  EXPECT_EQ(parse_money("1.5", currency("KWD"))->minor, 1500);
  EXPECT_EQ(parse_money("1.0001", currency("CLF"))->minor, 10'001);
  // Binary floating point would give 267 and 100 here (check values, section G): 2.675 and 1.005.
  EXPECT_EQ(parse_money("2.675", currency("KWD"))->minor, 2675);
  EXPECT_EQ(parse_money("1.005", currency("KWD"))->minor, 1005);
}

TEST(Money, AmountsBeyondAllNumbersAreTooLargeNotMalformed) {
  const auto eur = currency("EUR");
  const auto message = [&](const char* text) { return parse_money(text, eur).error().message; };
  for (const char* text :
       {"99999999999999999999999", "-99999999999999999999999", "92233720368547758.07"})
    EXPECT_NE(message(text).find("too large"), std::string::npos) << text;
  for (const char* text :
       {"99999999999999999999999.", "9999999999999999999999.123", "99,999,999,999,999,999,999"})
    EXPECT_NE(message(text).find("not an amount"), std::string::npos) << text;
}

TEST(Money, RefusesWhatIsNoAmount) {
  for (const char* text : {"",
                           "-",
                           "+1",
                           "--1",
                           "1,350.00",
                           "1 350",
                           "1.",
                           ".5",
                           "1.234",
                           "1..2",
                           "1.2.3",
                           "1e3",
                           " 1",
                           "1 ",
                           "0x10",
                           "nan",
                           "inf",
                           "1350.00 EUR",
                           "\xE2\x82\xAC\x31",
                           "\xEF\xBC\x91",
                           "1\n",
                           "999999999999999999"})
    EXPECT_FALSE(parse_money(text, currency("EUR"))) << text;
  EXPECT_FALSE(parse_money("1.5", currency("JPY")));
  EXPECT_FALSE(parse_money("1.0001", currency("KWD")));
  const auto wrong = parse_money("1,350.00", currency("EUR"));
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().code, ErrorCode::bad_input);
  EXPECT_NE(wrong.error().message.find("EUR"), std::string::npos);
}

TEST(Money, StopsAtItsLargestAmount) {
  const Currency eur = currency("EUR");
  EXPECT_EQ(parse_money("10000000000000.00", eur)->minor, max_minor);
  EXPECT_EQ(parse_money("-10000000000000.00", eur)->minor, -max_minor);
  EXPECT_FALSE(parse_money("10000000000000.01", eur));
  EXPECT_FALSE(parse_money("99999999999999999", eur));  // seventeen digits, the most that are read
  EXPECT_EQ(parse_money("100000000000", currency("CLF"))->minor, max_minor);
  EXPECT_FALSE(parse_money("100000000000.0001", currency("CLF")));
  EXPECT_FALSE(parse_money("1000000000000000", eur));  // 1e15 of the unit, not of its hundredths
  EXPECT_FALSE(parse_money(std::string(400, '9'), eur));
  EXPECT_FALSE(
      parse_money("18446744073709551617", currency("JPY")));  // 2^64 + 1 must not wrap to 1
  // A thousand of the largest still add: 1e18 < 2^63 - 1.
  EXPECT_LT(max_minor, INT64_MAX / 1000);
}

TEST(Money, WritesWhatItReads) {
  std::mt19937_64 random(7);
  for (const char* code : {"JPY", "EUR", "KWD", "CLF"}) {
    std::uniform_int_distribution<std::int64_t> any(-max_minor, max_minor);
    for (int i = 0; i < 2000; ++i) {
      // Small amounts too: their leading zeros are where a writer goes wrong.
      const std::int64_t minor = i < 1000 ? i - 500 : any(random);
      const Money money{currency(code), minor};
      const auto back = parse_money(to_plain(money), money.currency);
      ASSERT_TRUE(back) << to_plain(money);
      ASSERT_EQ(*back, money) << to_plain(money);
    }
  }
}

TEST(Money, IsWrittenForPeople) {
  const auto text = [](std::int64_t minor, const char* code) {
    return to_string(Money{currency(code), minor});
  };
  EXPECT_EQ(text(135'000, "EUR"), "1,350.00 EUR");
  EXPECT_EQ(text(99'900, "EUR"), "999.00 EUR");
  EXPECT_EQ(text(-123'456'789, "EUR"), "-1,234,567.89 EUR");
  EXPECT_EQ(text(-5, "EUR"), "-0.05 EUR");
  EXPECT_EQ(text(0, "EUR"), "0.00 EUR");
  EXPECT_EQ(text(1000, "JPY"), "1,000 JPY");
  EXPECT_EQ(text(999, "JPY"), "999 JPY");
  EXPECT_EQ(text(1'234'567, "KWD"), "1,234.567 KWD");
  EXPECT_EQ(to_plain({currency("EUR"), 135'000}), "1350.00");
}

TEST(Tax, RoundsHalfUpInExactNumbers) {
  // The ties of the check values (computed: Python decimal): 0.125 -> 0.13, 0.135 -> 0.14,
  // 2.675 -> 2.68, 1.005 -> 1.01, each reached as minor x (1 + rate).
  EXPECT_EQ(taxed(10, "0.25"), 13);
  EXPECT_EQ(taxed(10, "0.35"), 14);
  EXPECT_EQ(taxed(250, "0.07"), 268);
  EXPECT_EQ(taxed(100, "0.005"), 101);
  EXPECT_EQ(taxed(10'000, "0.00495"), 10'050);  // 10049.5
  // Just beside the tie at 100.5: 100.499 and 100.501.
  EXPECT_EQ(taxed(100, "0.00499"), 100);
  EXPECT_EQ(taxed(100, "0.00501"), 101);
}

TEST(Tax, NetToGross) {
  // Check values, section G, backwards (net = 999.00 / (1 + r) there): 832.50 x 1.20 = 999.0000,
  // 825.62 x 1.21 = 999.0002, 1097.56 x 1.23 = 1349.9988.
  EXPECT_EQ(taxed(83'250, "0.20"), 99'900);
  EXPECT_EQ(taxed(82'562, "0.21"), 99'900);
  EXPECT_EQ(taxed(109'756, "0.23"), 135'000);
  // Where rounding the net lost a part of a cent the gross does not come back: 839.50 x 1.19 =
  // 999.0050, a tie; 812.20 x 1.23 = 999.0060.
  EXPECT_EQ(taxed(83'950, "0.19"), 99'901);
  EXPECT_EQ(taxed(81'220, "0.23"), 99'901);
  EXPECT_EQ(taxed(99'900, "0"), 99'900);
  EXPECT_EQ(taxed(99'900, "1"), 199'800);
  EXPECT_EQ(taxed(0, "0.08875"), 0);
}

TEST(Tax, IsTheNearestWholeNumberAndTiesGoUp) {
  __extension__ using Wide = __int128;
  std::mt19937_64 random(11);
  for (int i = 0; i < 20'000; ++i) {
    const int decimals = static_cast<int>(random() % 10);
    std::int64_t scale = 1;
    for (int k = 0; k < decimals; ++k) scale *= 10;
    const DecimalRate rate{
        static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(scale + 1)), decimals};
    const auto minor = static_cast<std::int64_t>(random() % (max_minor + 1));
    const Wide exact = static_cast<Wide>(minor) * (scale + rate.numerator);  // in units of 1/scale
    const Wide got = static_cast<Wide>(with_tax(minor, rate)) * scale;
    ASSERT_LE(2 * (exact - got), scale - 1)
        << minor << " at " << rate.numerator << "e-" << decimals;
    ASSERT_LE(2 * (got - exact), scale) << minor << " at " << rate.numerator << "e-" << decimals;
  }
}

TEST(Tax, ReadsRatesExactly) {
  EXPECT_EQ(parse_rate("0.08875")->numerator, 8875);
  EXPECT_EQ(parse_rate("0.08875")->decimals, 5);
  EXPECT_TRUE(parse_rate("0.123456789"));
  for (const char* text :
       {"", "1.1", "-0.1", "19", "19%", "0,19", ".19", "0.1234567891", "1e-2", "nan"})
    EXPECT_FALSE(parse_rate(text)) << text;
}

TEST(Tax, ContractsHold) {
  EXPECT_THROW((void)with_tax(-1, {19, 2}), ContractViolation);
  EXPECT_THROW((void)with_tax(max_minor + 1, {19, 2}), ContractViolation);
  EXPECT_THROW((void)with_tax(1, {119, 2}), ContractViolation);
  EXPECT_THROW((void)with_tax(1, {1, 10}), ContractViolation);
}

}  // namespace
}  // namespace rigproof
