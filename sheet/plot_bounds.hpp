// What numbers a picture takes: beyond these bounds nothing of a desktop PC lies, and arithmetic on
// pixels would lose its digits.
#pragma once

#include <cmath>
#include <optional>

namespace rigproof::sheet {

inline constexpr double most_temp_c = 10'000.0;
inline constexpr double most_noise_dba = 1'000.0;
inline constexpr double most_time_s = 1e9;
inline constexpr double most_power_w = 1e6;
inline constexpr double most_speed_percent = 10'000.0;

/// The value when it is a number within the bound, either way; else nothing.
[[nodiscard]] inline std::optional<double> within(const std::optional<double>& value,
                                                  double bound) {
  if (value && std::abs(*value) <= bound) return value;
  return {};
}

}  // namespace rigproof::sheet
