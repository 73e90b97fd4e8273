// For tests and benchmarks: the air network as a system of equations, solved by SUNDIALS KINSOL.
//
// Unknown are all flows and all room pressures. One equation a path, its own law (A13), and one a
// room, its balance (A14): written out here from the equations of README and from the data that the
// network was made of, with nothing of our solver. Newton with a line search; KINSOL finds the
// derivatives by differences.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "analysis/air/sundials_handles.hpp"
#include "analysis/air/test_networks.hpp"

namespace rigproof::air::by_sundials {

struct PathByHand {
  std::size_t from, to;
  Resistance resistance;
  std::optional<FanDrive> drive;
  bool reversed;
  FanEnds ends;
  std::vector<FanPoint> points;  ///< none: a fan of two numbers

  [[nodiscard]] double fan_pa(double flow_m3_s) const;   ///< (A11), (A12), along the path
  [[nodiscard]] double drop_pa(double flow_m3_s) const;  ///< h of (A13)
};

std::vector<PathByHand> by_hand(const test_support::RandomNetwork& net);

/// Sizes that the unknowns have about: the strongest fans' pressure and flow, or 1 Pa and 0.01
/// m3/s.
struct Scale {
  double pressure_pa;
  double flow_m3_s;
};
Scale scale_of(const std::vector<PathByHand>& paths);

struct Flows {
  std::vector<double> flow_m3_s;    ///< one a path
  std::vector<double> pressure_pa;  ///< one a room
};

/// What is left of the equations, in pascals (all paths together) and m3/s (the worst room).
struct Gap {
  double laws_pa;
  double balance_m3_s;
};
Gap gap_of(const std::vector<PathByHand>& paths, const Flows& flows);

/// KINSOL has solved where no law is further from zero than this share of the pressure scale, and
/// no balance than that of the flow scale.
inline constexpr double function_tolerance = 1e-13;

struct FreeKinsol {
  void operator()(void* memory) const;
};

class FlowByKinsol {
 public:
  FlowByKinsol(std::size_t rooms, std::vector<PathByHand> paths);
  FlowByKinsol(const FlowByKinsol&) = delete;  // KINSOL points to it
  FlowByKinsol& operator=(const FlowByKinsol&) = delete;

  /// From the same flow in every path and no pressure anywhere. None: KINSOL gave up, or stood
  /// still before it had solved.
  std::optional<Flows> solve(double start_flow_m3_s);
  [[nodiscard]] const std::vector<PathByHand>& paths() const { return paths_; }
  [[nodiscard]] const Scale& scale() const { return scale_; }

 private:
  static int residual(N_Vector unknowns, N_Vector out, void* self);

  std::size_t rooms_;
  std::vector<PathByHand> paths_;
  Scale scale_;
  sundials::Context context_;
  Vector unknowns_, unknown_scale_, residual_scale_;
  DenseLu lu_;
  std::unique_ptr<void, FreeKinsol> kinsol_;
};

}  // namespace rigproof::air::by_sundials
