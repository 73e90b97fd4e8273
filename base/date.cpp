#include "base/date.hpp"

#include <fmt/format.h>

#include <chrono>

namespace rigproof {

std::optional<Date> make_date(int year, int month, int day) {
  using namespace std::chrono;
  if (year < 1900 || year > 2199 || month < 1 || month > 12 || day < 1 || day > 31) return {};
  const year_month_day ymd{std::chrono::year{year},
                           std::chrono::month{static_cast<unsigned>(month)},
                           std::chrono::day{static_cast<unsigned>(day)}};
  if (!ymd.ok()) return {};
  return Date{static_cast<std::int32_t>(sys_days{ymd}.time_since_epoch().count())};
}

std::optional<Date> parse_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return {};
  const auto number = [&](std::size_t from, std::size_t count) {
    int value = 0;
    for (std::size_t i = from; i < from + count; ++i) {
      if (text[i] < '0' || text[i] > '9') return -1;
      value = value * 10 + (text[i] - '0');
    }
    return value;
  };
  return make_date(number(0, 4), number(5, 2), number(8, 2));
}

std::string to_string(Date date) {
  using namespace std::chrono;
  const year_month_day ymd{sys_days{days{date.days}}};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(ymd.year()),
                     static_cast<unsigned>(ymd.month()), static_cast<unsigned>(ymd.day()));
}

}  // namespace rigproof
