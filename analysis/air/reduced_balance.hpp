// A heat balance in time with the nodes that store nothing eliminated.
//
// Equations (A50) and (A51) of README: C dT/dt = b - A T; nodes with C = 0 follow the others at
// once. They are eliminated one by one without subtraction (as in balance_lu.hpp), which leaves
// dx/dt = M x + v for those that store heat, M with off-diagonals >= 0 and row sums <= 0.
#pragma once

#include <array>
#include <cstddef>
#include <span>

#include "analysis/air/heat_network.hpp"

namespace rigproof::air {

using NodeValues = std::array<double, most_unknowns>;

class ReducedBalance {
 public:
  ReducedBalance() = default;
  /// Errors: out_of_range or bad_input: sizes that differ from the balance's, a capacity that is
  ///         negative or not finite, a balance with a wrong sign, a node without capacity or
  ///         exchange.
  [[nodiscard]] static Result<ReducedBalance> of(const HeatBalance& balance,
                                                 std::span<const double> capacity_j_k);

  [[nodiscard]] std::size_t nodes() const { return rows_.order(); }
  /// Nodes that store heat, in their order.
  [[nodiscard]] std::span<const std::size_t> storing() const {
    return std::span(storing_).first(storing_count_);
  }
  /// M, 1/s: one row a storing node.
  [[nodiscard]] const Matrix& rates() const { return rates_; }
  /// Row sums of -M, 1/s, >= 0.
  [[nodiscard]] std::span<const double> losses() const {
    return std::span(losses_).first(storing_count_);
  }
  /// v, K/s.
  [[nodiscard]] std::span<const double> gains() const {
    return std::span(gains_).first(storing_count_);
  }
  /// Every node's value from those of the storing ones. `with_source`: of temperatures; without: of
  /// differences and of slopes.
  [[nodiscard]] NodeValues complete(std::span<const double> storing_values, bool with_source) const;

 private:
  void eliminate(std::size_t node);
  [[nodiscard]] double exchange_w_k(std::size_t node) const;
  void find_rates(std::span<const double> capacity_j_k);

  Matrix rows_;            // what a node takes from others that are not yet eliminated, >= 0
  NodeValues rest_w_k_{};  // and from the outside
  NodeValues source_w_{};
  NodeValues diagonal_w_k_{};  // of eliminated nodes
  std::array<std::size_t, most_unknowns> storing_{};
  std::array<std::size_t, most_unknowns> eliminated_{};  // in this order
  std::size_t storing_count_ = 0;
  std::size_t eliminated_count_ = 0;
  Matrix rates_;
  NodeValues losses_{};
  NodeValues gains_{};
};

}  // namespace rigproof::air
