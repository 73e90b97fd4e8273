#include "store/instant.hpp"

#include <fmt/format.h>

#include "base/date.hpp"

namespace rigproof::store {
namespace {

constexpr std::int64_t day_s = 86'400;
constexpr std::size_t date_letters = 10;  // YYYY-MM-DD

std::optional<int> two_digits(std::string_view text, int below) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  if (!digit(text[0]) || !digit(text[1])) return {};
  const int value = (text[0] - '0') * 10 + (text[1] - '0');
  if (value >= below) return {};
  return value;
}

std::int64_t day_of(Instant instant) {
  const std::int64_t day = instant.since_1970_s / day_s;
  return instant.since_1970_s % day_s < 0 ? day - 1 : day;  // floor
}

}  // namespace

std::optional<Instant> parse_instant(std::string_view text) {
  if (text.size() != date_letters + 10 || text[10] != 'T' || text[13] != ':' || text[16] != ':' ||
      text[19] != 'Z')
    return {};
  const auto date = parse_date(text.substr(0, date_letters));
  const auto hour = two_digits(text.substr(11, 2), 24);
  const auto minute = two_digits(text.substr(14, 2), 60);
  const auto second = two_digits(text.substr(17, 2), 60);
  if (!date || !hour || !minute || !second) return {};
  const int second_of_day = (*hour * 60 + *minute) * 60 + *second;
  return Instant{date->days * day_s + second_of_day};
}

std::string to_string(Instant instant) {
  const std::int64_t day = day_of(instant);
  const std::int64_t second = instant.since_1970_s - day * day_s;
  return fmt::format("{}T{:02}:{:02}:{:02}Z", to_string(Date{static_cast<std::int32_t>(day)}),
                     second / 3600, second / 60 % 60, second % 60);
}

bool in_range(Instant instant) {
  constexpr std::int64_t first_s = -2'208'988'800;  // 1900-01-01T00:00:00Z
  constexpr std::int64_t last_s = 7'258'118'399;    // 2199-12-31T23:59:59Z
  return instant.since_1970_s >= first_s && instant.since_1970_s <= last_s;
}

}  // namespace rigproof::store
