#include "base/units.hpp"

#include <array>
#include <utility>

namespace rigproof {

std::string_view unit_of(std::string_view name) {
  // Longest suffix first where one ends in another.
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 32> suffixes = {{
      {"_ms_per_mpix", "ms/Mpx"},
      {"_gb_per_mpix", "GB/Mpx"},
      {"_gib_per_mpix", "GiB/Mpx"},
      {"_flow_m3_h", "m3/h"},
      {"_m3_h", "m3/h"},
      {"_gb_s", "GB/s"},
      {"_mt_s", "MT/s"},
      {"_per_month", "/month"},
      {"_mm", "mm"},
      {"_gib", "GiB"},
      {"_gb", "GB"},
      {"_dba", "dB(A)"},
      {"_rpm", "rpm"},
      {"_mhz", "MHz"},
      {"_hz", "Hz"},
      {"_fps", "fps"},
      {"_days", "days"},
      {"_px", "px"},
      {"_pa", "Pa"},
      {"_ms", "ms"},
      {"_kwh", "kWh"},
      {"_cm2", "cm2"},
      {"_w", "W"},
      {"_v", "V"},
      {"_a", "A"},
      {"_c", "degC"},
      {"_l", "l"},
      {"_kg", "kg"},
      {"_g", "g"},
      {"_k", "K"},
      {"_awg", "AWG"},
      {"_m", "m"},
  }};
  for (const auto& [suffix, unit] : suffixes)
    if (name.ends_with(suffix)) return unit;
  return {};
}

namespace {

struct Known {
  std::string_view from, to;
  double scale;
  double offset = 0.0;
};
constexpr double inch_mm = 25.4;  // exact
constexpr double foot_m = 0.3048;
constexpr double cubic_foot_l = foot_m * foot_m * foot_m * 1000.0;
constexpr double water_pa_per_mm = 9.80665;  // conventional water, standard gravity: exact
constexpr double gib_gb = 1.073741824;       // 2^30 bytes

constexpr std::array known_conversions = {
    Known{"cm", "mm", 10.0},
    Known{"m", "mm", 1000.0},
    Known{"in", "mm", inch_mm},
    Known{"ft", "mm", foot_m * 1000.0},
    Known{"mm", "m", 0.001},
    Known{"cm", "m", 0.01},
    Known{"ft", "m", foot_m},
    Known{"kW", "W", 1000.0},
    Known{"mW", "W", 0.001},
    Known{"mA", "A", 0.001},
    Known{"mV", "V", 0.001},
    Known{"MB", "GB", 0.001},
    Known{"TB", "GB", 1000.0},
    Known{"MiB", "GB", gib_gb / 1024.0},
    Known{"GiB", "GB", gib_gb},
    Known{"TiB", "GB", gib_gb * 1024.0},
    Known{"MiB", "GiB", 1.0 / 1024.0},
    Known{"TiB", "GiB", 1024.0},
    Known{"MB", "GiB", 0.001 / gib_gb},
    Known{"GB", "GiB", 1.0 / gib_gb},
    Known{"MB/s", "GB/s", 0.001},
    Known{"TB/s", "GB/s", 1000.0},
    Known{"GiB/s", "GB/s", gib_gb},
    Known{"Gbit/s", "GB/s", 0.125},
    Known{"GT/s", "MT/s", 1000.0},
    Known{"s", "ms", 1000.0},
    Known{"us", "ms", 0.001},
    Known{"ns", "ms", 0.000001},
    Known{"kHz", "Hz", 1000.0},
    Known{"MHz", "Hz", 1e6},
    Known{"GHz", "MHz", 1000.0},
    Known{"m3/s", "m3/h", 3600.0},
    Known{"m3/min", "m3/h", 60.0},
    Known{"l/s", "m3/h", 3.6},
    Known{"l/min", "m3/h", 0.06},
    Known{"CFM", "m3/h", cubic_foot_l * 0.06},
    Known{"kPa", "Pa", 1000.0},
    Known{"hPa", "Pa", 100.0},
    Known{"mbar", "Pa", 100.0},
    Known{"mmH2O", "Pa", water_pa_per_mm},
    Known{"inH2O", "Pa", water_pa_per_mm* inch_mm},
    Known{"ml", "l", 0.001},
    Known{"cm3", "l", 0.001},
    Known{"dm3", "l", 1.0},
    Known{"m3", "l", 1000.0},
    Known{"in3", "l", 0.016387064},
    Known{"ft3", "l", cubic_foot_l},
    Known{"mg", "g", 0.001},
    Known{"kg", "g", 1000.0},
    Known{"oz", "g", 28.349523125},
    Known{"lb", "g", 453.59237},
    Known{"g", "kg", 0.001},
    Known{"oz", "kg", 0.028349523125},
    Known{"lb", "kg", 0.45359237},
    Known{"mm2", "cm2", 0.01},
    Known{"m2", "cm2", 10000.0},
    Known{"in2", "cm2", 6.4516},
    Known{"Wh", "kWh", 0.001},
    Known{"MWh", "kWh", 1000.0},
    Known{"K", "degC", 1.0, -273.15},
    Known{"degF", "degC", 1.0 / 1.8, -32.0 / 1.8},
    Known{"weeks", "days", 7.0},
};

}  // namespace

std::optional<UnitConversion> conversion(std::string_view from, std::string_view to) {
  if (from == to) return UnitConversion{};
  for (const Known& known : known_conversions)
    if (known.from == from && known.to == to)
      return UnitConversion{.scale = known.scale, .offset = known.offset};
  return {};
}

std::vector<std::string_view> units_like(std::string_view to) {
  std::vector<std::string_view> units = {to};
  for (const Known& known : known_conversions)
    if (known.to == to) units.push_back(known.from);
  return units;
}

}  // namespace rigproof
