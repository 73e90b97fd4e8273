// What auxiliary power inputs are rated for, and what they draw when the supply sags.
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace rigproof::power {

/// The most a card may draw through its x16 slot: 75 W (12 V x 5.5 A and 3.3 V x 3 A, capped).
/// Source: [pcie-cem-5].
inline constexpr double slot_limit_w = 75.0;

/// Sustained rating of a card's auxiliary input. Source: [pcie-cem-5].
struct CardInput {
  std::string_view connector;
  double rated_w;
};
inline constexpr std::array card_inputs = {CardInput{"pcie6", 75.0}, CardInput{"pcie8", 150.0},
                                           CardInput{"12v-2x6", 600.0}};

[[nodiscard]] constexpr std::optional<double> rated_w(std::string_view connector) {
  for (const CardInput& input : card_inputs)
    if (input.connector == connector) return input.rated_w;
  return {};
}

/// The 12 V rail at its lowest: 12 V less 5 %. Source: [atx12v-2], section 3.2.1, Table 2.
inline constexpr double lowest_12v = 11.40;

/// An 8-pin processor input, four 12 V circuits of at least 7 A. Common practice, no source (28 to
/// 36 A are in use; the lowest is taken). The 4-pin input has half the circuits.
inline constexpr double eps8_a = 28.0;
inline constexpr double eps4_a = 14.0;

/// What fans are fed with. Common practice, no source.
inline constexpr double fan_rail_v = 12.0;

/// (P4) A converter holds power, not current: the current is highest where the rail is lowest.
[[nodiscard]] constexpr double worst_current_per_w() { return 1.0 / lowest_12v; }

}  // namespace rigproof::power
