// Elimination of heat balances without a single subtraction.
//
// A balance has off-diagonal terms <= 0 and rows that sum to what the node exchanges with the
// outside, >= 0. Kept as off-diagonals and row sums, it can be eliminated by sums, products and
// quotients of non-negative numbers only, so that every temperature is right to nearly all digits
// even where a node hangs on the outside by a thread ([gth-1985], for M-matrices [alfa-2002]).
// Ordinary elimination would lose the thread in the rounding of the diagonal.
#pragma once

#include <array>
#include <span>

#include "analysis/air/dense.hpp"

namespace rigproof::air {

class BalanceLu {
 public:
  BalanceLu() = default;
  /// In:     a with off-diagonals <= 0 (its diagonal is not read); row sums >= 0, one a row.
  BalanceLu(const Matrix& a, std::span<const double> row_sums);

  /// A row had nothing left to hold on to, or a number left the range of doubles.
  [[nodiscard]] bool singular() const { return singular_; }
  /// In place: A x = x as given. Contract: not singular.
  void solve(std::span<double> x) const;

 private:
  Matrix weights_;  // below: multipliers; above: what the row takes from later
                    // ones, >= 0
  std::array<double, Matrix::most> diagonal_{};
  bool singular_ = false;
};

}  // namespace rigproof::air
