// For tests and benchmarks only: general solvers from outside (CBC, GLPK), run as programs on an
// MPS file. They share nothing with the search.
#pragma once

#include <array>
#include <map>
#include <string>

namespace rigproof::test_support {

enum class Solver { cbc, glpk };
inline constexpr std::array both_solvers = {Solver::cbc, Solver::glpk};

[[nodiscard]] const char* name_of(Solver solver);
[[nodiscard]] bool installed(Solver solver);

struct SolverLimits {
  int seconds = 120;
  int threads = 1;  ///< CBC only
  /// Only solutions below this objective are looked for; CBC only. "Infeasible" then means: none.
  double cutoff = 1e300;
};

struct OutsideAnswer {
  enum class Status { optimal, infeasible, stopped, failed } status = Status::failed;
  double objective = 0.0;  ///< of the solution; optimal, or stopped with one
  bool has_solution = false;
  std::map<std::string, double> values = {};  ///< by column; columns at 0 may be absent
  std::string log = {};                       ///< what the solver printed
  double seconds = 0.0;                       ///< wall clock, with starting it and reading the file
  double cpu_seconds = 0.0;                   ///< the same in processor time of all its threads
};

[[nodiscard]] OutsideAnswer solve(Solver solver, const std::string& mps,
                                  const SolverLimits& limits = {});

}  // namespace rigproof::test_support
