// The integer program of a brief: catalog, brief and rules compiled as for a plan, then written for
// solvers from outside (mps.hpp).
#pragma once

#include "decision/plan/mps.hpp"
#include "decision/plan/planner.hpp"

namespace rigproof::plan {

/// One build that satisfies the brief for every solution, with its score. `options.stop` is heard;
/// `values` is told how many head values of how many are known. Parts that others outdo are in it
/// if the options say so. Errors: those of mps_model().
[[nodiscard]] Result<MpsModel> integer_program(
    const PlanInput& input, const PlanOptions& options,
    const std::function<void(std::size_t done, std::size_t all)>& values = {});

}  // namespace rigproof::plan
