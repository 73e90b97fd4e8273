// How the fans of a build are set: which group follows which temperature, point by point, as it
// stands in the board's firmware. `[[fan_speeds]]` of a build file.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rigproof {

class KeyReader;
class Build;

/// The fans that are steered together: the case's with those that were added, and the cooler's.
enum class FanGroup : std::uint8_t { chassis, cooler };
inline constexpr std::array all_fan_groups = {FanGroup::chassis, FanGroup::cooler};

/// One group follows one temperature: straight lines between the points, level before the first and
/// after the last.
struct FanSetting {
  enum class Follows : std::uint8_t { cpu, gpu, coolant } follows = Follows::cpu;
  struct Point {
    double temp_c = 0.0;
    double speed_percent = 100.0;  ///< of full speed
    friend bool operator==(const Point&, const Point&) = default;
  };
  std::vector<Point> points;  ///< hotter, and no slower, from one to the next; never empty

  /// One speed whatever the temperature: a single point.
  [[nodiscard]] static FanSetting still(double speed_percent);
  [[nodiscard]] double speed_frac_at(double temp_c) const;
  friend bool operator==(const FanSetting&, const FanSetting&) = default;
};

/// By group; none: its speed is sought.
using FanSettings = std::array<std::optional<FanSetting>, all_fan_groups.size()>;

/// Complains of a group that follows two temperatures or one that the build does not have, of
/// points that do not grow hotter, and of speeds that fall while it grows hotter.
[[nodiscard]] FanSettings read_fan_settings(const KeyReader& root, const Build& build);
/// As `[[fan_speeds]]`, with a blank line before each; empty where none is set.
[[nodiscard]] std::string write_fan_settings(const FanSettings& settings);

}  // namespace rigproof
