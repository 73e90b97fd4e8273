// e^(A t) of a small dense matrix.
//
// Equation (A52) of README: scaling and squaring around the diagonal Pade approximant of degree 13
// ([higham-2005]; to double precision where the row-sum norm of the scaled matrix is at most 5.37).
// No allocation.
#pragma once

#include "analysis/air/dense.hpp"

namespace rigproof::air {

/// In:     a finite, t finite; contract: norm(a) |t| <= 1e15.
/// Out:    e^(a t). Relative error about 1e-15 norm(a) |t| for matrices of heat balances, t >= 0.
[[nodiscard]] Matrix matrix_exponential(const Matrix& a, double t);

}  // namespace rigproof::air
