// How much pressure a fan gives at which flow, at full speed and the density it was measured at.
//
// Equations (A8) to (A12) of README-flow.md. The curve is made of pieces of at most second degree
// that join without a step and fall strictly over the whole line of flows, so a network of fans and
// resistances has one solution.
//
// Measured points are joined by straight lines. Where pressure rises with flow (the hump of a
// stalling fan) the curve stays at the lowest pressure met before: never more air than measured.
// The other choice, the highest pressure still to come, would claim air that a stalled fan has not
// got. Such stretches are marked, so that a result can say the fan works in its stall range.
#pragma once

#include <span>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace rigproof::air {

struct FanPoint {
  double flow_m3_s;    ///< 0 to 100
  double pressure_pa;  ///< 0 to 1e6
};

/// The two numbers of a data sheet. A fan with these ends alone is taken as a parabola.
struct FanEnds {
  double free_flow_m3_s;       ///< > 0: flow against no pressure
  double shutoff_pressure_pa;  ///< > 0: pressure at no flow
};

class FanCurve {
 public:
  /// From its first flow on: pressure + slope x + curvature x^2, x = flow - from_m3_s.
  struct Piece {
    double from_m3_s;  ///< of the first piece 0; the last one has no end
    double pressure_pa;
    double slope_pa_s_m3;       ///< <= 0
    double curvature_pa_s2_m6;  ///< <= 0; not both 0
    bool stall;                 ///< lies below the measured curve
  };

  /// (A9), points in any order. What follows the first point of no pressure is not used.
  /// Errors, in words: fewer than two points at different flows, more than 1000, a number outside
  /// its range or NaN, two pressures at one flow, no pressure at the lowest flow (which covers a
  /// curve of zeros).
  [[nodiscard]] static tl::expected<FanCurve, std::string> from_points(
      std::span<const FanPoint> points);
  /// (A8): dp = P0 (1 - (Q / Q0)^2). Errors, in words: an end outside its range or NaN.
  [[nodiscard]] static tl::expected<FanCurve, std::string> from_ends(const FanEnds& ends);

  /// Pressure rise, Pa, at any flow; negative beyond free flow, above shut-off at negative flow.
  [[nodiscard]] double pressure_pa(double flow_m3_s) const;
  /// Its derivative; at a corner that of the piece to the right.
  [[nodiscard]] double slope_pa_s_m3(double flow_m3_s) const;
  /// The curve lies below what was measured there.
  [[nodiscard]] bool in_stall_range(double flow_m3_s) const;

  [[nodiscard]] double shutoff_pressure_pa() const { return pieces_.front().pressure_pa; }
  [[nodiscard]] double free_flow_m3_s() const { return free_flow_m3_s_; }
  /// (A12): K, the square resistance of this fan when it stands still.
  [[nodiscard]] double stopped_pa_s2_m6() const { return stopped_pa_s2_m6_; }
  [[nodiscard]] std::span<const Piece> pieces() const { return pieces_; }

 private:
  FanCurve(std::vector<Piece> pieces, double stopped_pa_s2_m6);

  [[nodiscard]] const Piece& piece_at(double flow_m3_s) const;

  std::vector<Piece> pieces_;
  double stopped_pa_s2_m6_;
  double free_flow_m3_s_ = 0.0;
};

/// How equal fans of one kind run, side by side.
struct FanDrive {
  double speed_frac = 1.0;     ///< of full speed, 0 to 10; below `stopped_speed_frac` it stands
  int count = 1;               ///< 1 to 1000
  double density_ratio = 1.0;  ///< to the air the curve was measured in, 0.01 to 10
};
inline constexpr double stopped_speed_frac = 1e-6;

/// Pressure rise, Pa, of all of them at the flow of all of them. (A11), (A12)
[[nodiscard]] double fans_pressure_pa(const FanCurve& curve, const FanDrive& drive,
                                      double flow_m3_s);

}  // namespace rigproof::air
