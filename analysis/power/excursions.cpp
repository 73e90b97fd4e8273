#include "analysis/power/excursions.hpp"

#include <algorithm>

namespace rigproof::power {
namespace {

constexpr std::array<std::string_view, 2> editions_with_table = {"ATX-3.0", "ATX-3.1"};
constexpr double first_column_above_w = 450.0;
constexpr std::array duty_frac = {0.05, 0.08, 0.125, 0.25};
constexpr std::array first_column = {2.0, 1.8, 1.6, 1.2};
constexpr std::array second_column = {1.5, 1.45, 1.35, 1.1};

}  // namespace

std::optional<ExcursionTable> excursion_table(std::string_view edition, double rated_w,
                                              bool has_wide_plug) {
  if (std::ranges::find(editions_with_table, edition) == editions_with_table.end()) return {};
  const bool first = has_wide_plug && rated_w > first_column_above_w;
  return ExcursionTable{.at_most_frac = first ? first_column : second_column,
                        .duty_frac = duty_frac};
}

}  // namespace rigproof::power
