#include "analysis/air/fan_curve.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace rigproof::air {
namespace {

using Failed = tl::unexpected<std::string>;
using Points = std::vector<FanPoint>;
using Pieces = std::vector<FanCurve::Piece>;

constexpr double most_flow_m3_s = 100.0;
constexpr double most_pressure_pa = 1e6;
constexpr double least_end = 1e-9;  // keeps P0 / Q0^2 finite
// Of (A9): the least fall, as a share of the mean fall. Ours: far below what anyone measures.
constexpr double tilt_frac = 1e-6;

// Sorted by flow, equal points once. Empty text: all well.
std::string put_in_order(Points& points) {
  for (const FanPoint& point : points) {
    if (!(point.flow_m3_s >= 0.0 && point.flow_m3_s <= most_flow_m3_s))
      return "flow_m3_s: must be between 0 and 100";
    if (!(point.pressure_pa >= 0.0 && point.pressure_pa <= most_pressure_pa))
      return "pressure_pa: must be between 0 and 1e6";
  }
  std::ranges::sort(points, {}, &FanPoint::flow_m3_s);
  for (std::size_t i = 1; i < points.size(); ++i)
    if (points[i].flow_m3_s == points[i - 1].flow_m3_s &&
        points[i].pressure_pa != points[i - 1].pressure_pa)
      return "two pressures at one flow";
  const auto rest = std::ranges::unique(points, {}, &FanPoint::flow_m3_s);
  points.erase(rest.begin(), rest.end());
  return points.size() < 2 ? "fewer than two points at different flows" : "";
}

// From no flow on, and up to the first point of no pressure. Below the lowest flow measured the
// pressure is held, a choice of ours: a fan's curve is not known to rise there.
void trim(Points& points) {
  if (points.front().flow_m3_s > 0.0)
    points.insert(points.begin(), {0.0, points.front().pressure_pa});
  const auto end = std::ranges::find(points, 0.0, &FanPoint::pressure_pa);
  if (end != points.end()) points.erase(end + 1, points.end());
}

// (A9). With g(q) = p(q) + t q the envelope is the least g met so far, less t q.
class Envelope {
 public:
  Envelope(const Points& points, double tilt_pa_s_m3)
      : tilt_pa_s_m3_(tilt_pa_s_m3),
        least_pa_(points.front().pressure_pa),
        least_measured_pa_(points.front().pressure_pa) {
    for (std::size_t i = 1; i < points.size(); ++i) enter(points[i - 1], points[i]);
  }

  [[nodiscard]] Pieces take() && { return std::move(pieces_); }

 private:
  [[nodiscard]] double lifted_pa(const FanPoint& p) const {
    return p.pressure_pa + tilt_pa_s_m3_ * p.flow_m3_s;
  }

  // A level stretch is held as well, but is no stall: nothing measured rises there.
  void hold(double from_m3_s, bool stall) {
    const bool same = holding_ && pieces_.back().stall == stall;
    holding_ = true;
    if (same) return;
    pieces_.push_back(
        {from_m3_s, least_pa_ - tilt_pa_s_m3_ * from_m3_s, -tilt_pa_s_m3_, 0.0, stall});
  }

  void enter(const FanPoint& left, const FanPoint& right) {
    const double left_pa = lifted_pa(left);
    const double right_pa = lifted_pa(right);
    least_measured_pa_ = std::min(least_measured_pa_, left.pressure_pa);
    if (right_pa >= least_pa_)
      return hold(left.flow_m3_s,
                  std::max(left.pressure_pa, right.pressure_pa) > least_measured_pa_);
    holding_ = false;
    const double width_m3_s = right.flow_m3_s - left.flow_m3_s;
    double from_m3_s = left.flow_m3_s;
    if (left_pa > least_pa_)  // back down from a hump: the crossing
      from_m3_s += width_m3_s * (left_pa - least_pa_) / (left_pa - right_pa);
    const double slope = (right.pressure_pa - left.pressure_pa) / width_m3_s;
    pieces_.push_back({from_m3_s, least_pa_ - tilt_pa_s_m3_ * from_m3_s, slope, 0.0, false});
    least_pa_ = right_pa;
  }

  double tilt_pa_s_m3_;
  double least_pa_;  // of g
  double least_measured_pa_;
  bool holding_ = false;
  Pieces pieces_;
};

// (A10): beyond the last point at least as steep as the parabola of K there.
void add_tail(Pieces& pieces, double last_m3_s, double stopped_pa_s2_m6) {
  const FanCurve::Piece& last = pieces.back();
  const double pressure_pa = last.pressure_pa + last.slope_pa_s_m3 * (last_m3_s - last.from_m3_s);
  const double slope = std::min(last.slope_pa_s_m3, -2.0 * stopped_pa_s2_m6 * last_m3_s);
  pieces.push_back({last_m3_s, pressure_pa, slope, -stopped_pa_s2_m6, false});
}

}  // namespace

FanCurve::FanCurve(std::vector<Piece> pieces, double stopped_pa_s2_m6)
    : pieces_(std::move(pieces)), stopped_pa_s2_m6_(stopped_pa_s2_m6) {
  const auto after =
      std::ranges::find_if(pieces_, [](const Piece& p) { return p.pressure_pa < 0; });
  const Piece& piece = *(after - 1);  // the first piece starts at a pressure above zero
  const double b = -piece.slope_pa_s_m3;
  const double a = -piece.curvature_pa_s2_m6;
  free_flow_m3_s_ = piece.from_m3_s;
  if (piece.pressure_pa > 0.0)
    free_flow_m3_s_ +=
        2.0 * piece.pressure_pa / (b + std::sqrt(b * b + 4.0 * a * piece.pressure_pa));
}

tl::expected<FanCurve, std::string> FanCurve::from_points(std::span<const FanPoint> points) {
  if (points.size() < 2) return Failed("fewer than two points at different flows");
  if (points.size() > 1000) return Failed("more than 1000 points");
  Points sorted(points.begin(), points.end());
  if (std::string fault = put_in_order(sorted); !fault.empty()) return Failed(std::move(fault));
  if (sorted.front().pressure_pa < least_end) return Failed("no pressure at the lowest flow");
  trim(sorted);
  const double shutoff_pa = sorted.front().pressure_pa;
  const double last_m3_s = sorted.back().flow_m3_s;
  if (last_m3_s < least_end) return Failed("flow_m3_s: the last point must be at 1e-9 or more");
  Pieces pieces = Envelope(sorted, tilt_frac * shutoff_pa / last_m3_s).take();
  const double stopped = shutoff_pa / (last_m3_s * last_m3_s);
  add_tail(pieces, last_m3_s, stopped);
  return FanCurve(std::move(pieces), stopped);
}

tl::expected<FanCurve, std::string> FanCurve::from_ends(const FanEnds& ends) {
  if (!(ends.free_flow_m3_s >= least_end && ends.free_flow_m3_s <= most_flow_m3_s))
    return Failed("free_flow_m3_s: must be between 1e-9 and 100");
  if (!(ends.shutoff_pressure_pa >= least_end && ends.shutoff_pressure_pa <= most_pressure_pa))
    return Failed("shutoff_pressure_pa: must be between 1e-9 and 1e6");
  const double stopped = ends.shutoff_pressure_pa / (ends.free_flow_m3_s * ends.free_flow_m3_s);
  return FanCurve({{0.0, ends.shutoff_pressure_pa, 0.0, -stopped, false}}, stopped);
}

const FanCurve::Piece& FanCurve::piece_at(double flow_m3_s) const {
  const auto after = std::ranges::upper_bound(pieces_, flow_m3_s, {}, &Piece::from_m3_s);
  return after == pieces_.begin() ? pieces_.front() : *(after - 1);
}

double FanCurve::pressure_pa(double flow_m3_s) const {
  const Piece& piece = piece_at(flow_m3_s);
  const double x = flow_m3_s - piece.from_m3_s;
  const double curvature = flow_m3_s < 0.0 ? stopped_pa_s2_m6_ : piece.curvature_pa_s2_m6;
  return piece.pressure_pa + x * (piece.slope_pa_s_m3 + curvature * x);
}

double FanCurve::slope_pa_s_m3(double flow_m3_s) const {
  const Piece& piece = piece_at(flow_m3_s);
  const double curvature = flow_m3_s < 0.0 ? stopped_pa_s2_m6_ : piece.curvature_pa_s2_m6;
  return piece.slope_pa_s_m3 + 2.0 * curvature * (flow_m3_s - piece.from_m3_s);
}

bool FanCurve::in_stall_range(double flow_m3_s) const {
  return flow_m3_s >= 0.0 && piece_at(flow_m3_s).stall;
}

double fans_pressure_pa(const FanCurve& curve, const FanDrive& drive, double flow_m3_s) {
  const double each_m3_s = flow_m3_s / drive.count;
  const double s = drive.speed_frac;
  if (s < stopped_speed_frac)
    return -drive.density_ratio * curve.stopped_pa_s2_m6() * each_m3_s * std::abs(each_m3_s);
  return drive.density_ratio * s * s * curve.pressure_pa(each_m3_s / s);
}

}  // namespace rigproof::air
