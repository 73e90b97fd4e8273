// How loud a build is: A-weighted levels of sources that have nothing to do with one another.
//
// Equations (A60) to (A65) of README. Levels are dB(A); pressure levels belong to a distance, power
// levels (LWA) to the source alone. Fans are incoherent: two equal ones add 3 dB, not 6. What is
// left out: the sound of parts together in one case, tones, the room's echo. A source of unknown
// level is never silence: the sum is then "at least", and says who is missing.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string_view>

#include "analysis/air/fixed_list.hpp"
#include "base/result.hpp"

namespace rigproof::air {

inline constexpr std::size_t most_sources = 48;
/// The level of nothing: a fan that stands still.
inline constexpr double silent_dba = -std::numeric_limits<double>::infinity();

struct NoiseSource {
  std::string_view name;            ///< must outlive the sum
  std::optional<double> level_dba;  ///< at the listener; none: unknown; silent_dba: off
  int count = 1;                    ///< of this kind, >= 0
};

struct NoiseSum {
  double level_dba = silent_dba;                      ///< of all known ones
  FixedList<std::string_view, most_sources> unknown;  ///< in the order given
  [[nodiscard]] bool at_least() const { return unknown.size() > 0; }
};

/// (A60): 10 lg sum 10^(L / 10). A source counted 0 times is not missed when unknown.
/// Errors: out_of_range: more than most_sources, a count < 0, a level that is NaN or above 200.
/// Source: [iso-3744]; incoherent sources (check values D2, looked up in a second source).
[[nodiscard]] Result<NoiseSum> noise_sum(std::span<const NoiseSource> sources);

/// (A61): two levels; for a room's own added to a build's. Either may be silent.
[[nodiscard]] double together_dba(double level_dba, double other_dba);

/// (A62): pressure level at another distance, L - 20 lg(to / from): a point source in the open or
/// over a reflecting floor. In a room it falls less; beyond about 2 m do not use it indoors (common
/// practice, no source).
/// Errors: out_of_range: a distance that is not in (0, 100].
/// Source: text books (from memory).
[[nodiscard]] Result<double> level_at_distance_dba(double level_dba, double from_m, double to_m);

/// (A63): pressure level at a distance from a power level, L_WA - 10 lg(2 pi r^2): half a sphere
/// over a hard floor or table; at 1 m 7.98 dB less. A level declared in bels is ten times that.
/// Errors: out_of_range: a distance that is not in (0, 100].
/// Source: [iso-3744] (computed from the area).
[[nodiscard]] Result<double> pressure_level_dba(double power_level_dba, double distance_m);

/// k of (A64). ASHRAE Applications, sound chapter, and fan makers: from memory. 50 to 60 is seen of
/// fans alone (common practice, no source); on a grille or fin stack less certain still.
inline constexpr double fan_speed_exponent_db = 50.0;

/// (A64): L + k lg(to / from), for the same fan against the same resistances.
/// In:     from_rpm > 0; to_rpm >= 0 (0: silent_dba); k in [0, 100].
/// Errors: out_of_range, naming the field.
[[nodiscard]] Result<double> level_at_speed_dba(double level_dba, double from_rpm, double to_rpm,
                                                double k_db = fan_speed_exponent_db);

/// (A65): the inverse of (A64): the speed at which a fan has a level.
[[nodiscard]] Result<double> speed_at_level_rpm(double level_dba, double from_rpm, double to_dba,
                                                double k_db = fan_speed_exponent_db);

}  // namespace rigproof::air
