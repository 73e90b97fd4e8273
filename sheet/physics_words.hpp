// The pictures of air and power in words: sentences for who cannot see them and for the other forms
// of the sheet, and the tables that stand under them. Nothing here is escaped; foreign names are as
// they came.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sheet/physics.hpp"

namespace rigproof::sheet {

/// `84 °C`, `not known`; without a unit, the number alone.
[[nodiscard]] std::string number_words(const std::optional<double>& value, std::string_view unit);
/// `84 °C`; empty when it is not known.
[[nodiscard]] std::string degrees(const std::optional<double>& temp_c);
/// `4.2 min`, `35 s`, `1.5 h`.
[[nodiscard]] std::string duration_words(double seconds);
/// `a`, `b`... of the curves of a picture; past 26 `a2`...
[[nodiscard]] std::string letter_of(std::size_t index);

/// The value at x, on straight lines between points; nothing outside of them.
[[nodiscard]] std::optional<double> value_at(const std::vector<double>& xs,
                                             const std::vector<double>& ys, double x);

/// What a picture says, in one or two sentences; fit to be read aloud.
/// `fans at 62 %, the air around the case at 24 degC`.
[[nodiscard]] std::string conditions_words(const HeatPath& path);
[[nodiscard]] std::string heat_path_words(const HeatPath& path);
[[nodiscard]] std::string warming_words(const Warming& warming);
[[nodiscard]] std::string speed_words(const SpeedSweep& sweep);
[[nodiscard]] std::string windows_words(const SupplyWindows& supply);

/// `110 W left`, `12 W over`, `load not known`, `nothing allowed is stated`.
[[nodiscard]] std::string window_words(const SupplyWindow& window);

/// A table of texts: the first cell of a row names it.
struct PlotTable {
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
  bool words = false;  ///< cells are words; else numbers with their units
};
[[nodiscard]] PlotTable heat_path_table(const HeatPath& path);
[[nodiscard]] PlotTable warming_table(const Warming& warming);
[[nodiscard]] PlotTable speed_table(const SpeedSweep& sweep);
[[nodiscard]] PlotTable windows_table(const SupplyWindows& supply);

}  // namespace rigproof::sheet
