// Dry air at a temperature and an altitude: what a resistance and a fan see of the weather.
//
// Ideal gas and the standard atmosphere, equation (A6) of README-flow.md; viscosity (A7).
// Humid air is lighter by less than 1 % at 25 degC and 60 % humidity; that is left out.
#pragma once

#include <string>
#include <tl/expected.hpp>

namespace rigproof::air {

struct Site {
  double temp_c;            ///< -40 to 120
  double altitude_m = 0.0;  ///< above the sea, -500 to 9000
};

/// Pressure of the standard atmosphere, Pa, p = 101325 (1 - 2.25577e-5 h)^5.25588.
/// Errors: an altitude outside -500 to 9000 m or NaN.
/// Source: [iso-2533], from memory.
[[nodiscard]] tl::expected<double, std::string> air_pressure_pa(double altitude_m);

/// Density, kg/m3, p / (287.05 T). Errors: a field of `Site` outside its range or NaN.
[[nodiscard]] tl::expected<double, std::string> air_density_kg_m3(const Site& site);

/// Dynamic viscosity, Pa s, by Sutherland's law; it does not depend on pressure here.
/// 0.7 % below the table of [cengel-a15] at 20 degC, 0.1 % from that of [incropera-a4] at 300 K.
/// Errors: a temperature outside -40 to 120 degC or NaN.
/// Source: [ussa-1976] (constants 1.458e-6 and 110.4 K), from memory.
[[nodiscard]] tl::expected<double, std::string> air_viscosity_pa_s(double temp_c);

}  // namespace rigproof::air
