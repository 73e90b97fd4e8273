#include "base/units.hpp"

#include <array>
#include <utility>

namespace rigproof {

std::string_view unit_of(std::string_view name) {
  // Longest suffix first where one ends in another.
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 29> suffixes = {{
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
      {"_g", "g"},
      {"_m", "m"},
  }};
  for (const auto& [suffix, unit] : suffixes)
    if (name.ends_with(suffix)) return unit;
  return {};
}

}  // namespace rigproof
