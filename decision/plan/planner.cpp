#include "decision/plan/planner.hpp"

#include "decision/plan/compiler.hpp"

namespace rigproof::plan {

PlanOutcome plan(const PlanInput& input, const PlanOptions& options) {
  const Compiler compiler(input, options);
  const Outcome outcome = search(compiler.problem(), {.keep = options.keep,
                                                      .first_only = options.first_only,
                                                      .stop = options.stop,
                                                      .progress = options.progress});
  PlanOutcome out{.status = outcome.status,
                  .best = {},
                  .bound = outcome.bound,
                  .nodes = outcome.nodes,
                  .leaves = outcome.leaves,
                  .pruned = compiler.left_out()};
  for (const Solution& solution : outcome.best) out.best.push_back(compiler.translate(solution));
  out.pruned.insert(out.pruned.end(), outcome.pruned.begin(), outcome.pruned.end());
  return out;
}

}  // namespace rigproof::plan
