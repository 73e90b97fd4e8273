// For tests and benchmarks only: an outside solver and the checks that its program leaves out, in
// turns: what its solution breaks is cut off and it is solved again, until a solution satisfies
// all.
#pragma once

#include <vector>

#include "decision/plan/mps.hpp"
#include "tests/support/outside_solver.hpp"

namespace rigproof::plan {

/// Option of each slot in a solution; -1 where none was chosen.
[[nodiscard]] std::vector<int> choice_of(const Problem& problem, const MpsModel& model,
                                         const test_support::OutsideAnswer& answer);

/// Adds a row (M5) that forbids `choice`: all that its narrowest broken check refuses of the
/// check's last slot, beside others equal to the chosen ones. False when no check is broken.
[[nodiscard]] bool cut_off(const Problem& problem, const std::vector<int>& choice, MpsModel& model);

struct Rounds {
  test_support::OutsideAnswer answer = {};  ///< of the last round
  std::vector<int> choice = {};             ///< of an optimal answer: satisfies every check
  bool settled = false;  ///< the answer is optimal and satisfies every check, or there is none
  int runs = 0;
  double cpu_seconds = 0.0;  ///< of the solver in all rounds
};

/// `limits.seconds` is for each run and, roughly, for all of them.
[[nodiscard]] Rounds solve_asking(test_support::Solver solver, const Problem& problem,
                                  MpsModel& model, const test_support::SolverLimits& limits);

}  // namespace rigproof::plan
