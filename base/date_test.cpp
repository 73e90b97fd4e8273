// Oracle: a walk through every day of 1900 to 2199 that knows only the lengths of the months and
// the Gregorian rule for leap years, and three published day counts.
#include "base/date.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <string_view>

namespace rigproof {
namespace {

bool is_leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

int month_length(int year, int month) {
  constexpr std::array<int, 12> length{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (month == 2 && is_leap(year)) return 29;
  return length[static_cast<std::size_t>(month - 1)];
}

TEST(Date, EveryDayOfThreeCenturiesFollowsTheOneBefore) {
  // -25567: the 2,208,988,800 s from 1900 to 1970 of the network time formats (from memory) over
  // 86,400.
  int expected = -25567;
  for (int year = 1900; year <= 2199; ++year) {
    for (int month = 1; month <= 12; ++month) {
      for (int day = 1; day <= month_length(year, month); ++day, ++expected) {
        const std::string text = fmt::format("{:04}-{:02}-{:02}", year, month, day);
        const auto date = parse_date(text);
        ASSERT_TRUE(date) << text;
        ASSERT_EQ(date->days, expected) << text;
        ASSERT_EQ(to_string(*date), text);
        ASSERT_EQ(make_date(year, month, day), date);
      }
      ASSERT_FALSE(make_date(year, month, month_length(year, month) + 1)) << year << '-' << month;
    }
  }
}

TEST(Date, KnownSpans) {
  const auto days = [](std::string_view from, std::string_view to) {
    return days_between(parse_date(from).value(), parse_date(to).value());
  };
  // Seconds since 1970 that are widely printed (from memory), over 86,400: 946,684,800 is the start
  // of 2000; 2^31 - 1 falls into 2038-01-19.
  EXPECT_EQ(days("1970-01-01", "2000-01-01"), 946'684'800 / 86'400);
  EXPECT_EQ(days("1970-01-01", "2038-01-19"), 2'147'483'647 / 86'400);
  EXPECT_EQ(days("2024-02-28", "2024-03-01"), 2);   // leap
  EXPECT_EQ(days("2026-02-28", "2026-03-01"), 1);   // not
  EXPECT_EQ(days("2000-02-28", "2000-03-01"), 2);   // by 400
  EXPECT_EQ(days("2100-02-28", "2100-03-01"), 1);   // by 100
  EXPECT_EQ(days("2026-09-17", "2026-10-01"), 14);  // 13 to the end of September, and 1
  EXPECT_EQ(days("2026-10-01", "2026-09-17"), -14);
  EXPECT_EQ(days("1950-06-15", "2150-06-15"), 73'049);  // 200 x 365 + 50 - the 2100 that is none
}

TEST(Date, OrderIsTheCalendars) {
  EXPECT_LT(parse_date("2025-12-31").value(), parse_date("2026-01-01").value());
  EXPECT_EQ(parse_date("2026-01-01").value(), parse_date("2026-01-01").value());
}

TEST(Date, RefusesWhatIsNoDay) {
  for (const std::string_view text :
       {"",           "2026",       "2026-2-03",   "2026-02-3",   "2026-02-30",
        "2023-02-29", "1900-02-29", "2100-02-29",  "2026-13-01",  "2026-00-10",
        "2026-01-00", "2026-01-32", "2026-04-31",  "2026/01/01",  "01-01-2026",
        "+026-01-01", "-026-01-01", "2026-01-01T", " 2026-01-01", "2026-01-01 ",
        "20260101",   "2026-W01-1", "1899-12-31",  "2200-01-01",  "2O26-01-01",
        "2026-0x-01"})
    EXPECT_FALSE(parse_date(text)) << text;
}

}  // namespace
}  // namespace rigproof
