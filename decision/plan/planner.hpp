// The planner: the best builds under a brief, provably, or an irreducible set of requirements that
// stand against each other. Joins options, verdicts, frame model and the search core.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalog/brief.hpp"
#include "catalog/build.hpp"
#include "catalog/catalog.hpp"
#include "catalog/price_book.hpp"
#include "claims/rule.hpp"
#include "decision/plan/frame_model.hpp"
#include "decision/plan/search.hpp"
#include "decision/plan/verdicts.hpp"

namespace rigproof::plan {

struct PlannedChoice {
  Build build;
  std::int64_t score = 0;            ///< minor units of the first market's currency
  std::vector<std::int64_t> prices;  ///< per market
};

struct PlanOutcome {
  Outcome::Status status = Outcome::Status::impossible;
  std::vector<PlannedChoice> best;  ///< one per (cpu, chip), best first
  std::int64_t bound = 0;
  std::int64_t nodes = 0;
  std::int64_t leaves = 0;
  std::vector<Pruned> pruned;  ///< options left out before the search, then what the search cut
};

struct PlanOptions {
  int keep = 1;
  bool first_only = false;             ///< is there any build at all?
  std::vector<PartRef> without = {};   ///< do without these parts
  std::vector<PartRef> insisted = {};  ///< use these parts, and pay for them
  std::string_view without_rule =
      {};  ///< as if there were no rule of this id: what would it change?
  /// Also the parts that others outdo (P8): they change no plan, but a proof from outside should
  /// not have to believe that.
  bool with_outdone = false;
  std::function<bool()> stop = {};
  std::function<void(const Progress&)> progress = {};
  /// A rule over two kinds of more distinct cases is asked on the way: it changes the time, not the
  /// plan.
  std::size_t most_asked_beforehand = 400;
  /// The most the build may cost in the first market, in place of its budget: the score still
  /// counts in the budget of the brief.
  std::optional<std::int64_t> first_cap = {};
  /// Differ from this build by at most `most_swaps` parts (swaps() in options.hpp). What it has
  /// that cannot be bought any more, and is not kept, has to be swapped.
  const Build* stay_near = nullptr;
  int most_swaps = 0;
};

struct PlanInput {
  const Catalog& catalog;
  const Brief& brief;
  const PriceBook& prices;
  const FrameModel& frames;
  Verdicts& verdicts;  ///< holds the rules; keeps what it learned between plans
};

/// Score (P1): money_weight = saved_frac, budget = the first market's; the head is
/// (cpu, gpu, memory, board) with the frame term. Throws ContractViolation only on a bug.
[[nodiscard]] PlanOutcome plan(const PlanInput& input, const PlanOptions& options = {});

}  // namespace rigproof::plan
