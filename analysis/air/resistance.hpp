// What an opening, a vent or a filter costs the air that passes it.
//
// Equation (A1) of README-flow.md: dp = a Q + b Q|Q|, positive with the flow, odd in it. The linear
// part is friction in narrow ways, the square part the loss of speed behind an edge.
#pragma once

#include <string>
#include <tl/expected.hpp>

namespace rigproof::air {

struct Resistance {
  double linear_pa_s_m3 = 0.0;   ///< a >= 0
  double square_pa_s2_m6 = 0.0;  ///< b >= 0; a and b are never both 0
};

/// Pressure drop, Pa, at a signed flow. (A1)
[[nodiscard]] double drop_pa(const Resistance& resistance, double flow_m3_s);
/// The signed flow, m3/s, that a signed drop drives. (A1), solved.
[[nodiscard]] double flow_m3_s(const Resistance& resistance, double drop_pa);

struct SharpOrifice {
  double area_m2;                ///< > 0, at most 100
  double density_kg_m3;          ///< > 0, at most 10
  double discharge_frac = 0.61;  ///< Cd in (0, 1]; sharp edge, large Re: [iso-5167], from memory
};
/// (A2): b = rho / (2 (Cd A)^2). Errors: a field outside its range or NaN, named.
[[nodiscard]] tl::expected<Resistance, std::string> orifice(const SharpOrifice& in);

struct PerforatedPlate {
  double area_m2;        ///< whole face, holes and bars, > 0, at most 100
  double open_frac;      ///< f in [0.01, 0.99]
  double density_kg_m3;  ///< > 0, at most 10
};
/// (A3): zeta = ((0.707 sqrt(1 - f) + 1 - f) / f)^2 on the approach velocity Q / A.
/// A thin sharp-edged plate at Re > 1e5 in the holes. Below that zeta differs, and the small holes
/// of a case lie below it: ask `hole_reynolds` and say so beside a result.
/// Errors: a field outside its range or NaN, named. Source: [idelchik-8-1].
[[nodiscard]] tl::expected<Resistance, std::string> perforated_plate(const PerforatedPlate& in);

struct HoleFlow {
  double flow_m3_s;
  double area_m2;         ///< whole face, > 0
  double open_frac;       ///< in (0, 1]
  double hole_m;          ///< diameter, > 0
  double density_kg_m3;   ///< > 0
  double viscosity_pa_s;  ///< > 0
};
/// Reynolds number in the holes of a plate, for the range of (A3). Broken ranges are a bug.
[[nodiscard]] double hole_reynolds(const HoleFlow& in);

struct MeasuredDrop {
  double flow_m3_s;       ///< > 0, at most 100
  double drop_pa;         ///< > 0, at most 1e6
  double exponent = 1.5;  ///< n in [1, 2] of dp ~ Q^n near that point; 1.5 is ours, the middle
};
/// (A4): a filter known by one point. Value and local exponent are met there: the square part
/// takes n - 1 of the drop, the linear part 2 - n. Errors: a field outside its range or NaN, named.
[[nodiscard]] tl::expected<Resistance, std::string> measured(const MeasuredDrop& in);

/// (A5): one behind the other, exact: a and b add.
[[nodiscard]] Resistance in_series(const Resistance& one, const Resistance& other);
/// (A5): `count` equal ways side by side, exact: a / n, b / n^2. Errors: count outside 1 to 10000.
[[nodiscard]] tl::expected<Resistance, std::string> in_parallel(const Resistance& one, int count);

}  // namespace rigproof::air
