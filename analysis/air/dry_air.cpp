#include "analysis/air/dry_air.hpp"

#include <cmath>

namespace rigproof::air {
namespace {

constexpr double zero_c_k = 273.15;
constexpr double gas_constant_j_kg_k = 287.05;

// Phrased so that NaN fails.
bool temp_in_range(double temp_c) { return temp_c >= -40.0 && temp_c <= 120.0; }

tl::unexpected<std::string> bad_temp() {
  return tl::unexpected<std::string>("temp_c: must be between -40 and 120");
}

}  // namespace

tl::expected<double, std::string> air_pressure_pa(double altitude_m) {
  if (!(altitude_m >= -500.0 && altitude_m <= 9000.0))
    return tl::unexpected<std::string>("altitude_m: must be between -500 and 9000");
  return 101325.0 * std::pow(1.0 - 2.25577e-5 * altitude_m, 5.25588);
}

tl::expected<double, std::string> air_density_kg_m3(const Site& site) {
  if (!temp_in_range(site.temp_c)) return bad_temp();
  const auto pressure_pa = air_pressure_pa(site.altitude_m);
  if (!pressure_pa) return tl::unexpected<std::string>(pressure_pa.error());
  return *pressure_pa / (gas_constant_j_kg_k * (site.temp_c + zero_c_k));
}

tl::expected<double, std::string> air_viscosity_pa_s(double temp_c) {
  if (!temp_in_range(temp_c)) return bad_temp();
  const double temp_k = temp_c + zero_c_k;
  return 1.458e-6 * temp_k * std::sqrt(temp_k) / (temp_k + 110.4);
}

}  // namespace rigproof::air
