// For tests and benchmarks: what SUNDIALS hands out, given back by itself.
//
// A general library for nonlinear and differential equations (Debian libsundials-dev 6.4). Its
// calls answer with numbers; a number that says "bad input" or "no memory" is a fault of the test
// itself and ends it.
#pragma once

#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <cstddef>
#include <memory>
#include <span>
#include <stdexcept>
#include <string>
#include <sundials/sundials_context.hpp>
#include <type_traits>

namespace rigproof::air::by_sundials {

/// Errors: throws with the name of the call where `status` is negative.
inline void must(int status, const char* call) {
  if (status < 0) throw std::runtime_error(std::string(call) + ": " + std::to_string(status));
}

template <class T>
T* must(T* made, const char* call) {
  if (made == nullptr) throw std::runtime_error(std::string(call) + ": nothing");
  return made;
}

struct Free {
  void operator()(N_Vector vector) const { N_VDestroy(vector); }
  void operator()(SUNMatrix matrix) const { SUNMatDestroy(matrix); }
  void operator()(SUNLinearSolver solver) const { SUNLinSolFree(solver); }
};
using Vector = std::unique_ptr<std::remove_pointer_t<N_Vector>, Free>;
using DenseMatrix = std::unique_ptr<std::remove_pointer_t<SUNMatrix>, Free>;
using DenseSolver = std::unique_ptr<std::remove_pointer_t<SUNLinearSolver>, Free>;

/// All zero.
inline Vector zeros(std::size_t size, const sundials::Context& context) {
  Vector out(must(N_VNew_Serial(static_cast<sunindextype>(size), context), "N_VNew_Serial"));
  N_VConst(0.0, out.get());
  return out;
}

inline std::span<double> values(N_Vector vector) {
  return {N_VGetArrayPointer(vector), static_cast<std::size_t>(N_VGetLength(vector))};
}

/// LU with pivots; the matrix is its workspace.
struct DenseLu {
  DenseMatrix matrix;
  DenseSolver solver;

  DenseLu(std::size_t size, const Vector& like, const sundials::Context& context)
      : matrix(must(SUNDenseMatrix(static_cast<sunindextype>(size), static_cast<sunindextype>(size),
                                   context),
                    "SUNDenseMatrix")),
        solver(must(SUNLinSol_Dense(like.get(), matrix.get(), context), "SUNLinSol_Dense")) {}
};

}  // namespace rigproof::air::by_sundials
