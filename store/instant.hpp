// Moments, ISO 8601 in UTC to the second (YYYY-MM-DDThh:mm:ssZ). The store knows no clock: whoever
// calls says when it is.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace rigproof::store {

/// Seconds since 1970-01-01T00:00:00Z, without leap seconds; the range is years 1900 to 2199.
struct Instant {
  std::int64_t since_1970_s = 0;
  friend auto operator<=>(const Instant&, const Instant&) = default;
};

/// Exactly `YYYY-MM-DDThh:mm:ssZ`, a moment that exists; anything else is nullopt.
[[nodiscard]] std::optional<Instant> parse_instant(std::string_view text);
[[nodiscard]] std::string to_string(Instant instant);

/// Whether it lies in the years that can be written.
[[nodiscard]] bool in_range(Instant instant);

}  // namespace rigproof::store
