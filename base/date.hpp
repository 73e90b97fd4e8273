// Calendar dates, ISO 8601 (YYYY-MM-DD), Gregorian, no time of day, no zone.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace rigproof {

/// Days since 1970-01-01; the range is years 1900 to 2199.
struct Date {
  std::int32_t days = 0;
  friend auto operator<=>(const Date&, const Date&) = default;
};

/// Exactly `YYYY-MM-DD`, a day that exists; anything else is nullopt.
[[nodiscard]] std::optional<Date> parse_date(std::string_view text);
[[nodiscard]] std::optional<Date> make_date(int year, int month, int day);
[[nodiscard]] std::string to_string(Date date);

/// later - earlier, in days.
[[nodiscard]] constexpr int days_between(Date earlier, Date later) {
  return later.days - earlier.days;
}

}  // namespace rigproof
