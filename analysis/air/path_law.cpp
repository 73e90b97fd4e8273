#include "analysis/air/path_law.hpp"

#include <algorithm>
#include <cmath>

namespace rigproof::air {
namespace {

// x >= 0 with slope x + curvature x^2 = rise; all three >= 0. No difference of near numbers.
double root(double slope, double curvature, double rise) {
  if (!(rise > 0.0)) return 0.0;
  return 2.0 * rise / (slope + std::sqrt(slope * slope + 4.0 * curvature * rise));
}

}  // namespace

PathLaw::PathLaw(const Resistance& resistance)
    : linear_(resistance.linear_pa_s_m3), square_(resistance.square_pa_s2_m6) {}

PathLaw::PathLaw(const Resistance& resistance, const FanCurve& curve, const FanDrive& drive,
                 bool reversed)
    : PathLaw(resistance) {
  const double n = drive.count;
  sign_ = reversed ? -1.0 : 1.0;
  const double stopped = drive.density_ratio * curve.stopped_pa_s2_m6() / (n * n);
  if (drive.speed_frac < stopped_speed_frac) {
    square_ += stopped;  // (A12)
    return;
  }
  flow_scale_ = n * drive.speed_frac;
  pressure_scale_ = drive.density_ratio * drive.speed_frac * drive.speed_frac;
  backward_square_ = stopped;
  pieces_ = curve.pieces();
}

// (A11)
FanCurve::Piece PathLaw::scaled(const FanCurve::Piece& piece) const {
  FanCurve::Piece out = piece;
  out.from_m3_s *= flow_scale_;
  out.pressure_pa *= pressure_scale_;
  out.slope_pa_s_m3 *= pressure_scale_ / flow_scale_;
  out.curvature_pa_s2_m6 *= pressure_scale_ / (flow_scale_ * flow_scale_);
  return out;
}

double PathLaw::drop_at(const FanCurve::Piece& scaled_piece) const {
  const double q = scaled_piece.from_m3_s;
  return q * (linear_ + square_ * q) - scaled_piece.pressure_pa;
}

double PathLaw::drop_pa(double flow_m3_s) const {
  const double q = sign_ * flow_m3_s;
  double drop = q * (linear_ + square_ * std::abs(q));
  if (!pieces_.empty()) {
    auto at = std::ranges::upper_bound(pieces_, q / flow_scale_, {}, &FanCurve::Piece::from_m3_s);
    if (at != pieces_.begin()) --at;
    const FanCurve::Piece piece = scaled(*at);
    const double x = q - piece.from_m3_s;
    const double curvature = q < 0.0 ? backward_square_ : piece.curvature_pa_s2_m6;
    drop -= piece.pressure_pa + x * (piece.slope_pa_s_m3 + curvature * x);
  }
  return sign_ * drop;
}

PathPoint PathLaw::at(double difference_pa) const {
  PathPoint out = along(sign_ * difference_pa);
  out.flow_m3_s *= sign_;
  return out;
}

PathPoint PathLaw::along(double difference_pa) const {
  if (pieces_.empty()) {
    const double x = root(linear_, square_, std::abs(difference_pa));
    return {std::copysign(x, difference_pa), linear_ + 2.0 * square_ * x, square_};
  }
  // The last piece that begins at no more than this difference.
  const auto after = std::ranges::partition_point(
      pieces_, [&](const auto& piece) { return drop_at(scaled(piece)) <= difference_pa; });
  const FanCurve::Piece piece = scaled(after == pieces_.begin() ? pieces_.front() : *(after - 1));
  const double q = piece.from_m3_s;
  const double slope = linear_ + 2.0 * square_ * q - piece.slope_pa_s_m3;
  const double rise = difference_pa - drop_at(piece);
  if (after == pieces_.begin()) {  // blown backwards
    const double curvature = square_ + backward_square_;
    const double x = root(slope, curvature, -rise);
    return {-x, slope + 2.0 * curvature * x, curvature};
  }
  const double curvature = square_ - piece.curvature_pa_s2_m6;
  const double x = root(slope, curvature, rise);
  return {q + x, slope + 2.0 * curvature * x, curvature};
}

}  // namespace rigproof::air
