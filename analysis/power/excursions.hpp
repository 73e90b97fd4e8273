// How far, for how long, a supply may be drawn past its rating by the edition of its design guide:
// equation (P10) of README.md.
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace rigproof::power {

/// Windows of the guide's table, shortest first.
inline constexpr std::array<int, 4> excursion_windows_us = {100, 1'000, 10'000, 100'000};

/// Share of the rating allowed in each window.
struct ExcursionTable {
  std::array<double, 4> at_most_frac{};
  std::array<double, 4> duty_frac{};
};

/// The edition's table; nothing for an edition that has none or is not known here. A supply rated
/// above 450 W that has a 12V-2x6 plug falls under the first column, others under the second.
/// Source: [atx12vo-2-01] Table 3-3, which the ATX 3 guide repeats; looked up.
[[nodiscard]] std::optional<ExcursionTable> excursion_table(std::string_view edition,
                                                            double rated_w, bool has_wide_plug);

}  // namespace rigproof::power
