// Temperatures over time after a step: heat, flows and surroundings change once, then stay.
//
// Equations (A50) to (A55) of README. The balance is linear, so its solution is exact at any time:
// the difference from the steady state decays by a matrix exponential, dx(t) = e^(M t) dx(0). No
// time step, no stiffness. A balance without a steady state (a node from which no heat can leave)
// is carried with its constant source instead, and warms for ever. No allocation.
#pragma once

#include <optional>
#include <span>

#include "analysis/air/reduced_balance.hpp"

namespace rigproof::air {

class Transient {
 public:
  /// In:     capacity_j_k >= 0 and start_c, one a node of the balance; the start of a node without
  ///         capacity is not used, it follows the others at once.
  /// Errors: as ReducedBalance::of; out_of_range for a start that is not finite.
  [[nodiscard]] static Result<Transient> of(const HeatBalance& balance,
                                            std::span<const double> capacity_j_k,
                                            std::span<const double> start_c);

  /// (A52): every node at one time, degC.
  /// Errors: out_of_range: t_s negative, or beyond 1e12 of the fastest time constants.
  [[nodiscard]] Result<NodeValues> temps_c(double t_s) const;

  /// (A52) at times that do not fall; equal steps cost one exponential together.
  /// Out:    out_c[k nodes + i], node i at times_s[k]. Contract: of that size.
  /// Errors: out_of_range: a time that falls, or as temps_c.
  [[nodiscard]] Result<void> sample(std::span<const double> times_s, std::span<double> out_c) const;

  /// Where it ends; none if some node has no way out for its heat.
  [[nodiscard]] const std::optional<NodeValues>& steady_c() const { return steady_c_; }

  /// (A53): the first time a node has a temperature, from either side; none if it has not within
  /// the horizon. Also where the node only rises to it for a while. To 1e-10 of the time.
  /// Errors: out_of_range: node, temp_c, or horizon_s as t_s above.
  [[nodiscard]] Result<std::optional<double>> time_to_reach_s(std::size_t node, double temp_c,
                                                              double horizon_s) const;

  /// (A54): from when on a node stays within so many kelvin of its steady state. None without
  /// steady state.
  /// Errors: out_of_range: node; within_k below 1e-6.
  [[nodiscard]] Result<std::optional<double>> time_to_settle_s(std::size_t node,
                                                               double within_k) const;

  /// (A55): the slowest time constant, after which the last difference falls by e. None without
  /// steady state; 0 if nothing stores heat.
  [[nodiscard]] std::optional<double> slowest_time_constant_s() const;

 private:
  using State = std::array<double, Matrix::most>;
  class Walk;
  struct Probe;

  [[nodiscard]] std::span<const double> used(const State& state) const {
    return std::span(state).first(generator_.order());
  }
  [[nodiscard]] State moved(const State& from, double by_s) const;
  [[nodiscard]] NodeValues temps_of(const State& state) const;
  [[nodiscard]] double value(const State& state, const Probe& probe) const;
  [[nodiscard]] double zero_s(const State& from, double within_s, const Probe& probe) const;
  [[nodiscard]] double largest_difference_k(const State& state) const;
  [[nodiscard]] bool is_time(double t_s) const;

  ReducedBalance reduced_;
  std::optional<NodeValues> steady_c_;
  Matrix generator_;  // M, or with a last column for the constant source
  State start_{};     // differences from the steady state; else temperatures and a constant
};

}  // namespace rigproof::air
