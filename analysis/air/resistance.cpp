#include "analysis/air/resistance.hpp"

#include <cmath>

#include "base/contract.hpp"

namespace rigproof::air {
namespace {

using Failed = tl::unexpected<std::string>;

// Phrased so that NaN fails. The lower ends keep 1 / area^2 and the like finite.
bool area_ok(double area_m2) { return area_m2 >= 1e-9 && area_m2 <= 100.0; }
bool density_ok(double density_kg_m3) { return density_kg_m3 >= 1e-3 && density_kg_m3 <= 10.0; }

Failed bad_area() { return Failed("area_m2: must be between 1e-9 and 100"); }
Failed bad_density() { return Failed("density_kg_m3: must be between 0.001 and 10"); }

}  // namespace

double drop_pa(const Resistance& resistance, double flow_m3_s) {
  return flow_m3_s * (resistance.linear_pa_s_m3 + resistance.square_pa_s2_m6 * std::abs(flow_m3_s));
}

double flow_m3_s(const Resistance& resistance, double drop_pa) {
  const double a = resistance.linear_pa_s_m3;
  const double b = resistance.square_pa_s2_m6;
  RP_EXPECT(a >= 0.0 && b >= 0.0 && a + b > 0.0);
  if (drop_pa == 0.0) return 0.0;
  // The root's other form: no difference of near numbers.
  return 2.0 * drop_pa / (a + std::sqrt(a * a + 4.0 * b * std::abs(drop_pa)));
}

tl::expected<Resistance, std::string> orifice(const SharpOrifice& in) {
  if (!area_ok(in.area_m2)) return bad_area();
  if (!density_ok(in.density_kg_m3)) return bad_density();
  if (!(in.discharge_frac >= 0.01 && in.discharge_frac <= 1.0))
    return Failed("discharge_frac: must be between 0.01 and 1");
  const double jet_m2 = in.discharge_frac * in.area_m2;
  return Resistance{.square_pa_s2_m6 = in.density_kg_m3 / (2.0 * jet_m2 * jet_m2)};
}

tl::expected<Resistance, std::string> perforated_plate(const PerforatedPlate& in) {
  if (!area_ok(in.area_m2)) return bad_area();
  if (!density_ok(in.density_kg_m3)) return bad_density();
  const double f = in.open_frac;
  if (!(f >= 0.01 && f <= 0.99)) return Failed("open_frac: must be between 0.01 and 0.99");
  const double root = (0.707 * std::sqrt(1.0 - f) + 1.0 - f) / f;
  return Resistance{.square_pa_s2_m6 =
                        root * root * in.density_kg_m3 / (2.0 * in.area_m2 * in.area_m2)};
}

double hole_reynolds(const HoleFlow& in) {
  RP_EXPECT(in.area_m2 > 0.0 && in.open_frac > 0.0 && in.hole_m > 0.0);
  RP_EXPECT(in.density_kg_m3 > 0.0 && in.viscosity_pa_s > 0.0);
  const double speed_m_s = std::abs(in.flow_m3_s) / (in.area_m2 * in.open_frac);
  return in.density_kg_m3 * speed_m_s * in.hole_m / in.viscosity_pa_s;
}

tl::expected<Resistance, std::string> measured(const MeasuredDrop& in) {
  if (!(in.flow_m3_s >= 1e-9 && in.flow_m3_s <= 100.0))
    return Failed("flow_m3_s: must be between 1e-9 and 100");
  if (!(in.drop_pa >= 1e-9 && in.drop_pa <= 1e6))
    return Failed("drop_pa: must be between 1e-9 and 1e6");
  if (!(in.exponent >= 1.0 && in.exponent <= 2.0))
    return Failed("exponent: must be between 1 and 2");
  return Resistance{
      .linear_pa_s_m3 = (2.0 - in.exponent) * in.drop_pa / in.flow_m3_s,
      .square_pa_s2_m6 = (in.exponent - 1.0) * in.drop_pa / (in.flow_m3_s * in.flow_m3_s)};
}

Resistance in_series(const Resistance& one, const Resistance& other) {
  return {.linear_pa_s_m3 = one.linear_pa_s_m3 + other.linear_pa_s_m3,
          .square_pa_s2_m6 = one.square_pa_s2_m6 + other.square_pa_s2_m6};
}

tl::expected<Resistance, std::string> in_parallel(const Resistance& one, int count) {
  if (count < 1 || count > 10000) return Failed("count: must be between 1 and 10000");
  const double n = count;
  return Resistance{.linear_pa_s_m3 = one.linear_pa_s_m3 / n,
                    .square_pa_s2_m6 = one.square_pa_s2_m6 / (n * n)};
}

}  // namespace rigproof::air
