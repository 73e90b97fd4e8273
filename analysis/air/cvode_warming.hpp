// For tests and benchmarks: a heat network in time, integrated by SUNDIALS CVODE.
//
// The heat into each node is summed link by link from the network itself, by the equations (A30),
// (A31), (A33) and (A50) of README, so neither our balance nor our elimination is used. Nodes
// without capacity are solved for at each call by SUNDIALS' own dense LU, from the heats at unit
// temperatures. CVODE: backward differences of up to fifth order, dense, derivatives by
// differences.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "analysis/air/heat_network.hpp"
#include "analysis/air/sundials_handles.hpp"

namespace rigproof::air::by_sundials {

/// W into each node of the network (rooms 1, 2, ... then bodies) at these temperatures.
void heat_into_w(const HeatNetwork& network, std::span<const double> temps_c,
                 std::span<double> out_w);

struct WarmingStart {
  HeatNetwork network;
  std::vector<double> capacity_j_k;  ///< one a node
  std::vector<double> start_c;       ///< of nodes without capacity not used
};

/// In each step CVODE keeps the root mean square of its estimated errors below one, each error
/// taken in units of relative_frac |T| + absolute_k.
struct Tolerance {
  double relative_frac;
  double absolute_k;
};

struct FreeCvode {
  void operator()(void* memory) const;
};

class WarmingByCvode {
 public:
  /// Contract: some node has a capacity; those without have a way to give off their heat.
  WarmingByCvode(WarmingStart start, const Tolerance& tolerance);
  WarmingByCvode(const WarmingByCvode&) = delete;  // CVODE points to it
  WarmingByCvode& operator=(const WarmingByCvode&) = delete;

  /// Every node at a time > 0, later than that of the call before. None: CVODE gave up.
  std::optional<std::vector<double>> temps_c(double t_s);
  /// Back to the start.
  void restart();
  [[nodiscard]] long steps() const;

 private:
  static int slope(double t_s, N_Vector temps, N_Vector out, void* self);
  void find_followers();
  void complete(std::span<const double> storing_c);

  WarmingStart start_;
  std::vector<std::size_t> storing_, following_;  // nodes with a capacity, and without
  std::vector<double> all_c_, heat_w_;            // of all nodes
  sundials::Context context_;
  Vector state_, follower_;
  std::optional<DenseLu> followers_;
  DenseLu lu_;
  std::unique_ptr<void, FreeCvode> cvode_;
};

}  // namespace rigproof::air::by_sundials
