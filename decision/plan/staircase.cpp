#include "decision/plan/staircase.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "decision/plan/compiler.hpp"

namespace rigproof::plan {

// Tables, checks and sums do not depend on the cap: the problem is made once.
Staircase staircase(const PlanInput& input, const PlanOptions& options, std::int64_t from,
                    std::int64_t to) {
  RP_EXPECT(0 <= from && from <= to);
  const Compiler compiler(input, options);
  Problem problem = compiler.problem();
  Staircase out;
  std::function<void(const Progress&)> progress;
  if (options.progress)
    progress = [&](Progress now) {
      now.nodes += out.nodes;
      now.stairs = static_cast<std::int64_t>(out.stairs.size());
      now.under_cap = problem.caps.front();
      options.progress(now);
    };
  for (std::int64_t cap = to; cap >= from;) {
    problem.caps.front() = cap;
    const bool stopped = options.stop && options.stop();  // a small search never asks
    const Outcome outcome =
        stopped ? Outcome{.status = Outcome::Status::not_proven}
                : search(problem, {.keep = 1, .stop = options.stop, .progress = progress});
    out.nodes += outcome.nodes;
    if (outcome.status == Outcome::Status::not_proven) {
      std::ranges::reverse(out.stairs);
      return out;
    }
    ++out.searches;
    if (outcome.best.empty()) break;
    out.stairs.push_back(compiler.translate(outcome.best.front()));
    cap = out.stairs.back().prices.front() - 1;
  }
  out.complete = true;
  std::ranges::reverse(out.stairs);
  return out;
}

}  // namespace rigproof::plan
