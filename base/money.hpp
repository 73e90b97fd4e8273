// Exact money: integer minor units of one ISO 4217 currency. No floating point touches a price.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace rigproof {

/// Three letters of ISO 4217. Two currencies are equal when their codes are.
struct Currency {
  char code[4] = {};
  [[nodiscard]] std::string_view view() const { return {code, code[0] == '\0' ? 0U : 3U}; }
  friend bool operator==(const Currency& a, const Currency& b) { return a.view() == b.view(); }
};

/// Known circulating currencies only; nullopt otherwise. Source: [iso-4217], minor units 0, 2, 3
/// or 4.
[[nodiscard]] std::optional<Currency> parse_currency(std::string_view code);
[[nodiscard]] int minor_digits(const Currency& currency);

struct Money {
  Currency currency;
  std::int64_t minor = 0;  ///< cents for EUR; |minor| <= max_minor
  friend bool operator==(const Money&, const Money&) = default;
};

/// Large enough for any workshop, small enough that a thousand of them add without overflow.
inline constexpr std::int64_t max_minor = 1'000'000'000'000'000;  // 1e15

/// `1350.00`, `1350`, `1350.5`; digits and one decimal point, an optional leading minus.
/// No more decimals than the currency has. In: text. Errors: bad_input that says what was expected.
[[nodiscard]] Result<Money> parse_money(std::string_view text, const Currency& currency);

/// `1,350.00 EUR`: grouped for people.
[[nodiscard]] std::string to_string(const Money& money);
/// `1350.00`: for files; reads back through parse_money.
[[nodiscard]] std::string to_plain(const Money& money);

/// A rate such as a sales tax, exact: numerator over ten to the `decimals`. 0.08875 is {8875, 5}.
struct DecimalRate {
  std::int64_t numerator = 0;
  int decimals = 0;  ///< 0 to 9
};
/// `0.08875`; in [0, 1]; at most nine decimals.
[[nodiscard]] Result<DecimalRate> parse_rate(std::string_view text);

/// minor x (1 + rate), rounded half away from zero to whole minor units ("half up" for prices).
/// In: minor in [0, max_minor]. Source: [iso-80000-1] Annex B names the rounding.
[[nodiscard]] std::int64_t with_tax(std::int64_t minor, const DecimalRate& rate);

}  // namespace rigproof
