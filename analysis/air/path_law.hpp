// The flow through one path at a pressure difference: a resistance, with fans that blow along it.
//
// Equation (A13) of README-flow.md. The drop h(Q) = a Q + b Q|Q| - fan(Q) rises strictly and is of
// second degree piece by piece, so the flow is found in closed form: the piece by its ends, then a
// root without cancellation. For the solver; `flow_network.hpp` checks what comes in.
#pragma once

#include "analysis/air/fan_curve.hpp"
#include "analysis/air/resistance.hpp"

namespace rigproof::air {

/// A point of h, and how h goes on from there.
struct PathPoint {
  double flow_m3_s;
  double slope_pa_s_m3;       ///< h' >= 0
  double curvature_pa_s2_m6;  ///< |h''| / 2
};

/// Views a curve and must not outlive it.
class PathLaw {
 public:
  PathLaw() = default;
  explicit PathLaw(const Resistance& resistance);
  /// `reversed`: the fans blow against the direction in which flow counts as positive.
  PathLaw(const Resistance& resistance, const FanCurve& curve, const FanDrive& drive,
          bool reversed);

  /// h: pressure at the start less pressure at the end of the path, Pa.
  [[nodiscard]] double drop_pa(double flow_m3_s) const;
  /// The point at which h equals this difference.
  [[nodiscard]] PathPoint at(double difference_pa) const;

 private:
  [[nodiscard]] FanCurve::Piece scaled(const FanCurve::Piece& piece) const;
  [[nodiscard]] double drop_at(const FanCurve::Piece& scaled_piece) const;
  [[nodiscard]] PathPoint along(double difference_pa) const;

  // All along the fans' direction.
  double linear_ = 0.0;
  double square_ = 0.0;
  double backward_square_ = 0.0;  // K of the fans, against the flow when blown backwards
  double flow_scale_ = 1.0;       // count x speed
  double pressure_scale_ = 0.0;   // density ratio x speed^2; 0: no fan that turns
  double sign_ = 1.0;
  std::span<const FanCurve::Piece> pieces_;
};

}  // namespace rigproof::air
