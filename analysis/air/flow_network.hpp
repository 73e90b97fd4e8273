// How much air goes which way: rooms, the paths between them, the fans in some of the paths.
//
// Equations (A13) to (A15) of README-flow.md. Room 0 is the outside at 0 Pa. In every other room
// as much air comes in as goes out; along every path the pressure difference equals resistance less
// fan. That is the smallest value of a convex function of the room pressures, which has one set of
// flows; damped Newton steps go down it. The answer is judged again by both laws, not by how the
// search went.
//
// Steady air of one density, no buoyancy, rooms without resistance of their own.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <tl/expected.hpp>

#include "analysis/air/fan_curve.hpp"
#include "analysis/air/resistance.hpp"
#include "analysis/air/rooms.hpp"

namespace rigproof::air {

inline constexpr std::size_t most_paths = 64;

struct FanOnPath {
  const FanCurve* curve;  ///< not owned; must outlive the call
  FanDrive drive;
  bool reversed = false;  ///< blows from `to` to `from`
};

struct FlowPath {
  std::size_t from;  ///< a room; flow counts from here
  std::size_t to;    ///< another room
  Resistance resistance;
  std::optional<FanOnPath> fan = std::nullopt;
};

enum class FanState : std::uint8_t {
  no_fan,
  works,
  stalled,           ///< in the stall range: less pressure is claimed than was measured
  beyond_free_flow,  ///< air is pushed through it; it brakes
  blown_backwards,
  stopped,  ///< does not turn; it brakes
};

struct FlowSolution {
  std::array<double, most_paths> flow_m3_s{};        ///< positive: `from` to `to`
  std::array<double, most_paths> fan_pressure_pa{};  ///< rise in the fans' direction
  std::array<FanState, most_paths> fan{};
  std::array<double, most_rooms> pressure_pa{};  ///< above the outside
  /// Not joined to the outside by any way. The first room of such a group stands at 0 Pa; air may
  /// still go round within it.
  std::array<bool, most_rooms> sealed{};
  double worst_balance_m3_s = 0.0;  ///< largest |in - out| of a room
  double worst_law_pa = 0.0;        ///< largest gap between a path's drop and its law
  int iterations = 0;
  /// Balance within 1e-9 m3/s (and 1e-9 of the largest flow), law within 1e-9 of the largest
  /// pressure. None of 200 000 random networks with squares up to 10^12 apart was false, 14 of
  /// 40 000 at 10^18.
  bool converged = false;
};

/// In:     rooms 1 to 12, room 0 the outside; at most 64 paths with a or b at least 1e-9, both at
/// most
///         1e18, and fans as `FanDrive` says. `start_pressure_pa`: the pressures of a solution of a
///         network nearly the same, one a room, or empty.
/// Errors: in words, naming the path: too many, rooms that are not there, a path from a room to
///         itself, a number outside its range or NaN, no resistance.
/// Cost:   no allocation unless it fails.
[[nodiscard]] tl::expected<FlowSolution, std::string> solve_flow(
    std::size_t rooms, std::span<const FlowPath> paths,
    std::span<const double> start_pressure_pa = {});

}  // namespace rigproof::air
