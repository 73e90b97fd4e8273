// Heat from one stream to another, by effectiveness and number of transfer units.
//
// Equations (A20) to (A27) of README. Each stream has a capacity rate C = rho cp Q, W/K. With N =
// UA / C_min and the ratio c = C_min / C_max the arrangement alone fixes the effectiveness eps, and
// q = eps C_min (hot inlet - cold inlet). A body of one temperature is a stream without end: c = 0.
// Properties are constant along the exchanger, its walls lose nothing. Pure value functions, no
// allocation.
#pragma once

#include <limits>

#include "base/result.hpp"

namespace rigproof::air {

/// How the two streams pass one another. "Mixed" is a stream whose temperature is the same across
/// its section at each place along it; air between fins stays unmixed.
enum class Arrangement {
  counter,
  parallel,
  cross_unmixed,    ///< cross flow, neither mixed
  cross_max_mixed,  ///< cross flow, the stream of larger capacity rate is mixed
  cross_min_mixed,  ///< cross flow, the stream of smaller capacity rate is mixed
};

/// Above this cross_unmixed answers as at this value; it then lies below the truth by less than
/// 0.022, which is 1 - eps at ratio 1.
inline constexpr double most_series_ntu = 700.0;

/// (A21) to (A24): the share of what could pass at most that does pass.
/// In:     ntu >= 0, finite; capacity_ratio_frac in [0, 1].
/// Out:    in [0, 1].
/// Errors: out_of_range, naming the field.
/// Source: [kays-london]; cross_unmixed by its exact series, not the usual approximation, which is
///         off by up to 1.1 points (check values, C4).
[[nodiscard]] Result<double> effectiveness(Arrangement arrangement, double ntu,
                                           double capacity_ratio_frac);

/// The inverse of `effectiveness`, to 1e-12 of ntu where the curve is not flat.
/// Errors: out_of_range also where no ntu up to most_series_ntu reaches that effectiveness.
[[nodiscard]] Result<double> ntu_of(Arrangement arrangement, double effectiveness_frac,
                                    double capacity_ratio_frac);

/// Air as a carrier of heat. Defaults: 25 degC at sea level, check values C1 (Cengel Table A-15,
/// looked up in a transcription).
struct AirHeat {
  double density_kg_m3 = 1.184;
  double specific_heat_j_kg_k = 1007.0;

  /// (A20): capacity rate of a flow.
  [[nodiscard]] double capacity_w_k(double flow_m3_s) const {
    return density_kg_m3 * specific_heat_j_kg_k * flow_m3_s;
  }
};

/// A conductance stated at one flow, and how it follows the flow.
struct AirSide {
  double reference_ua_w_k;     ///< > 0, air side alone
  double reference_flow_m3_s;  ///< > 0
  /// m in [0, 1]: 0 in long laminar channels, 0.5 in short ones, 0.8 where turbulent. 0.4 to 0.8 is
  /// usual for fin stacks and radiators: common practice, no source.
  double exponent;
  /// Constant, in series all along the exchanger: liquid side, tube wall. One that lies before it
  /// in one place (a spreader) is a body of its own. Infinity: none.
  double series_w_k = std::numeric_limits<double>::infinity();
};

/// (A25): UA at a flow, 1 / (1 / (UA_ref (Q / Q_ref)^m) + 1 / series).
/// In:     flow_m3_s >= 0.
/// Out:    W/K; 0 at no flow unless m = 0.
/// Errors: out_of_range, naming the field.
[[nodiscard]] Result<double> ua_at_w_k(const AirSide& side, double flow_m3_s);

/// (A26): UA of a fin stack for which (base - air inlet) / heat was stated at one flow: UA = -C
/// ln(1 - 1 / (R C)).
/// Errors: out_of_range, and where R C <= 1: the air would leave hotter than the base.
[[nodiscard]] Result<double> ua_of_resistance_w_k(double resistance_k_w, double air_w_k);

struct Exchange {
  Arrangement arrangement;
  double ua_w_k;   ///< >= 0
  double air_w_k;  ///< capacity rate of the air, >= 0
  /// Of the other stream, >= 0; infinity: a body of one temperature.
  double other_w_k = std::numeric_limits<double>::infinity();
};

/// (A20): heat per kelvin between the two inlets, eps C_min. 0 when either stream stands still.
/// Divided by air_w_k it is the `effectiveness` that a Stream of heat_network.hpp wants.
[[nodiscard]] Result<double> inlet_conductance_w_k(const Exchange& exchange);

/// (A27): a source on a plate in a loop with one exchanger; from source to air inlet, 1 / (1 /
/// plate + 1 / inlet - 1 / liquid): the plate meets the liquid that left the exchanger.
/// In:     all > 0; inlet_w_k <= liquid_w_k; plate_w_k is heat per (source - liquid arriving).
/// Errors: out_of_range, naming the field.
[[nodiscard]] Result<double> loop_conductance_w_k(double plate_w_k, double inlet_w_k,
                                                  double liquid_w_k);

}  // namespace rigproof::air
