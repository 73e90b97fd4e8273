// The suffixes of docs/decisions/0004-suffix-units.md, by hand; above all those that end in
// another.
#include "base/units.hpp"

#include <gtest/gtest.h>

#include <array>
#include <string_view>

namespace rigproof {
namespace {

struct Row {
  std::string_view name, unit;
};

TEST(Units, TheSuffixIsTheUnit) {
  constexpr std::array<Row, 24> rows{{
      {"length_mm", "mm"},
      {"distance_m", "m"},
      {"power_w", "W"},
      {"energy_kwh", "kWh"},
      {"voltage_v", "V"},
      {"current_a", "A"},
      {"noise_dba", "dB(A)"},
      {"cpu_c", "degC"},
      {"volume_l", "l"},
      {"mass_g", "g"},
      {"vent_cm2", "cm2"},
      {"pressure_pa", "Pa"},
      {"flow_m3_h", "m3/h"},
      {"speed_rpm", "rpm"},
      {"clock_mhz", "MHz"},
      {"refresh_hz", "Hz"},
      {"target_fps", "fps"},
      {"frame_time_ms", "ms"},
      {"storage_gb", "GB"},
      {"memory_gib", "GiB"},
      {"bandwidth_gb_s", "GB/s"},
      {"speed_mt_s", "MT/s"},
      {"offers_not_older_than_days", "days"},
      {"raster_ms_per_mpix", "ms/Mpx"},
  }};
  for (const auto& [name, unit] : rows) EXPECT_EQ(unit_of(name), unit) << name;
}

TEST(Units, NamesWithoutASuffixHaveNone) {
  for (const std::string_view name :
       {"", "id", "kind", "saved_frac", "modules", "mm", "w", "form_factor", "lengthmm"})
    EXPECT_EQ(unit_of(name), "") << name;
}

}  // namespace
}  // namespace rigproof
