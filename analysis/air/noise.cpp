#include "analysis/air/noise.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rigproof::air {
namespace {

constexpr double loudest_dba = 200.0;
constexpr double furthest_m = 100.0;

// silent_dba is one; NaN is none.
bool is_level(double level_dba) { return level_dba <= loudest_dba; }
bool is_distance(double value_m) { return value_m > 0.0 && value_m <= furthest_m; }
bool is_exponent(double k_db) { return k_db >= 0.0 && k_db <= 100.0; }
bool is_speed(double rpm) { return rpm >= 0.0 && std::isfinite(rpm); }

}  // namespace

// Against the loudest, so that no power over- or underflows.
Result<NoiseSum> noise_sum(std::span<const NoiseSource> sources) {
  if (sources.size() > most_sources)
    return out_of_range("noise sources", static_cast<double>(sources.size()));
  NoiseSum out;
  double loudest = silent_dba;
  for (const NoiseSource& source : sources) {
    if (source.count < 0) return out_of_range("count", source.count);
    if (source.count == 0) continue;
    if (!source.level_dba) {
      out.unknown.add(source.name);
      continue;
    }
    if (!is_level(*source.level_dba)) return out_of_range("level_dba", *source.level_dba);
    loudest = std::max(loudest, *source.level_dba);
  }
  if (loudest == silent_dba) return out;
  double sum = 0.0;
  for (const NoiseSource& source : sources)
    if (source.level_dba) sum += source.count * std::pow(10.0, 0.1 * (*source.level_dba - loudest));
  out.level_dba = loudest + 10.0 * std::log10(sum);
  return out;
}

double together_dba(double level_dba, double other_dba) {
  const auto [quiet, loud] = std::minmax({level_dba, other_dba});
  if (loud == silent_dba) return silent_dba;
  return loud + 10.0 * std::log10(1.0 + std::pow(10.0, 0.1 * (quiet - loud)));
}

Result<double> level_at_distance_dba(double level_dba, double from_m, double to_m) {
  if (!is_level(level_dba)) return out_of_range("level_dba", level_dba);
  if (!is_distance(from_m)) return out_of_range("from_m", from_m);
  if (!is_distance(to_m)) return out_of_range("to_m", to_m);
  return level_dba - 20.0 * std::log10(to_m / from_m);
}

Result<double> pressure_level_dba(double power_level_dba, double distance_m) {
  if (!is_level(power_level_dba)) return out_of_range("power_level_dba", power_level_dba);
  if (!is_distance(distance_m)) return out_of_range("distance_m", distance_m);
  return power_level_dba - 10.0 * std::log10(2.0 * std::numbers::pi * distance_m * distance_m);
}

Result<double> level_at_speed_dba(double level_dba, double from_rpm, double to_rpm, double k_db) {
  if (!is_level(level_dba)) return out_of_range("level_dba", level_dba);
  if (!(is_speed(from_rpm) && from_rpm > 0.0)) return out_of_range("from_rpm", from_rpm);
  if (!is_speed(to_rpm)) return out_of_range("to_rpm", to_rpm);
  if (!is_exponent(k_db)) return out_of_range("k_db", k_db);
  if (to_rpm == 0.0) return silent_dba;
  return level_dba + k_db * std::log10(to_rpm / from_rpm);
}

Result<double> speed_at_level_rpm(double level_dba, double from_rpm, double to_dba, double k_db) {
  if (!(is_level(level_dba) && std::isfinite(level_dba)))
    return out_of_range("level_dba", level_dba);
  if (!(is_speed(from_rpm) && from_rpm > 0.0)) return out_of_range("from_rpm", from_rpm);
  if (!is_level(to_dba)) return out_of_range("to_dba", to_dba);
  if (!(is_exponent(k_db) && k_db > 0.0)) return out_of_range("k_db", k_db);
  return from_rpm * std::pow(10.0, (to_dba - level_dba) / k_db);
}

}  // namespace rigproof::air
