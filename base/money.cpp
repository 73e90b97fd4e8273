#include "base/money.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/contract.hpp"

namespace rigproof {
namespace {

// Active codes whose minor unit is not two digits. Source: [iso-4217] (see docs/sources.bib:
// edition looked up is old; UGX, CLF, UYW from memory).
constexpr std::array<std::string_view, 17> no_minor = {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY",
                                                       "KMF", "KRW", "PYG", "RWF", "UGX", "UYI",
                                                       "VND", "VUV", "XAF", "XOF", "XPF"};
constexpr std::array<std::string_view, 7> three_digits = {"BHD", "IQD", "JOD", "KWD",
                                                          "LYD", "OMR", "TND"};
constexpr std::array<std::string_view, 2> four_digits = {"CLF", "UYW"};
// Circulating currencies with two digits, sorted.
constexpr std::string_view two_digits =
    "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BRL BSD BTN BWP BYN BZD "
    "CAD "
    "CDF CHF CNY COP CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ "
    "GYD "
    "HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA "
    "MKD "
    "MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR "
    "RON "
    "RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD "
    "TWD "
    "TZS UAH USD UYU UZS VED VES WST XCD YER ZAR ZMW ZWL";

template <std::size_t N>
bool among(const std::array<std::string_view, N>& codes, std::string_view code) {
  return std::ranges::find(codes, code) != codes.end();
}

std::int64_t power_of_ten(int exponent) {
  std::int64_t value = 1;
  for (int i = 0; i < exponent; ++i) value *= 10;
  return value;
}

// Digits with one optional point, as value x 10^decimals. nullopt when malformed or too long.
struct Scaled {
  std::int64_t value;
  int decimals;
};
std::optional<Scaled> parse_scaled(std::string_view text) {
  Scaled out{0, 0};
  bool point = false;
  int digits = 0;
  for (const char c : text) {
    if (c == '.' && !point && digits > 0) {
      point = true;
    } else if (c >= '0' && c <= '9') {
      if (++digits > 17) return {};
      out.value = out.value * 10 + (c - '0');
      if (point) ++out.decimals;
    } else {
      return {};
    }
  }
  if (digits == 0 || text.back() == '.') return {};
  return out;
}

// A proper amount that no number here holds.
bool is_amount(std::string_view text, int most_decimals) {
  const std::size_t point = std::min(text.find('.'), text.size());
  const auto all_digits = [](std::string_view part) {
    return !part.empty() && std::ranges::all_of(part, [](char c) { return c >= '0' && c <= '9'; });
  };
  if (!all_digits(text.substr(0, point))) return false;
  return point == text.size() ||
         (all_digits(text.substr(point + 1)) &&
          text.size() - point - 1 <= static_cast<std::size_t>(most_decimals));
}

}  // namespace

std::optional<Currency> parse_currency(std::string_view code) {
  if (code.size() != 3 || !std::ranges::all_of(code, [](char c) { return c >= 'A' && c <= 'Z'; }))
    return {};
  const std::size_t at = two_digits.find(code);
  const bool known = (at != std::string_view::npos && at % 4 == 0) || among(no_minor, code) ||
                     among(three_digits, code) || among(four_digits, code);
  if (!known) return {};
  Currency currency;
  std::ranges::copy(code, currency.code);
  return currency;
}

int minor_digits(const Currency& currency) {
  const std::string_view code = currency.view();
  if (among(no_minor, code)) return 0;
  if (among(three_digits, code)) return 3;
  if (among(four_digits, code)) return 4;
  return 2;
}

Result<Money> parse_money(std::string_view text, const Currency& currency) {
  const int digits = minor_digits(currency);
  const bool negative = text.starts_with('-');
  const std::string_view size = negative ? text.substr(1) : text;
  const auto scaled = parse_scaled(size);
  if (!scaled && is_amount(size, digits))
    return bad_input(fmt::format("amount is too large: at most {} minor units", max_minor));
  if (!scaled || scaled->decimals > digits) {
    return bad_input(fmt::format(
        "not an amount of {}: expected digits and at most {} decimals after a point, without "
        "grouping or sign of currency",
        currency.view(), digits));
  }
  const std::int64_t factor = power_of_ten(digits - scaled->decimals);
  if (scaled->value > max_minor / factor)
    return bad_input(fmt::format("amount is too large: at most {} minor units", max_minor));
  const std::int64_t minor = scaled->value * factor;
  return Money{currency, negative ? -minor : minor};
}

std::string to_plain(const Money& money) {
  const int digits = minor_digits(money.currency);
  const std::int64_t unit = power_of_ten(digits);
  const std::int64_t size = money.minor < 0 ? -money.minor : money.minor;
  const char* sign = money.minor < 0 ? "-" : "";
  if (digits == 0) return fmt::format("{}{}", sign, size);
  return fmt::format("{}{}.{:0{}}", sign, size / unit, size % unit, digits);
}

std::string to_string(const Money& money) {
  std::string text = to_plain(money);
  const std::size_t first = text.starts_with('-') ? 1 : 0;
  std::size_t end = std::min(text.find('.'), text.size());
  while (end > first + 3) {
    end -= 3;
    text.insert(end, ",");
  }
  text += ' ';
  text += money.currency.view();
  return text;
}

Result<DecimalRate> parse_rate(std::string_view text) {
  const auto scaled = parse_scaled(text);
  if (!scaled || scaled->decimals > 9 || scaled->value > power_of_ten(scaled->decimals))
    return bad_input("not a rate: expected a decimal fraction from 0 to 1, at most nine decimals");
  return DecimalRate{scaled->value, scaled->decimals};
}

std::int64_t with_tax(std::int64_t minor, const DecimalRate& rate) {
  RP_EXPECT(minor >= 0 && minor <= max_minor && rate.decimals >= 0 && rate.decimals <= 9);
  RP_EXPECT(rate.numerator >= 0 && rate.numerator <= power_of_ten(rate.decimals));
  __extension__ using Wide = __int128;  // 1e15 x 1e9 needs 80 bits
  const Wide scale = power_of_ten(rate.decimals);
  const Wide exact = static_cast<Wide>(minor) * (scale + rate.numerator);
  return static_cast<std::int64_t>((2 * exact + scale) / (2 * scale));
}

}  // namespace rigproof
