// Use case `frontier`: what more money buys, as the exact staircase of best scores over budgets.
#pragma once

#include "app/asks.hpp"
#include "app/planning.hpp"
#include "app/workshop.hpp"
#include "sheet/answers.hpp"

namespace rigproof::app {

struct FrontierRequest {
  std::int64_t from_minor = 0;  ///< 0 <= from <= to <= most_budget_minor, first market's currency
  std::int64_t to_minor = 0;
  LongJob job;
};

struct Frontier {
  sheet::Frontier view;
  bool stopped = false;
  Standing standing = Standing::nothing_fails;  ///< the worst of all steps
};

/// From money as typed. Errors: bad_input, naming the input: no money of the brief's first market,
/// beyond what a budget may be, from above to.
[[nodiscard]] Result<FrontierRequest> frontier_request(const FrontierAsk& ask, const Brief& brief);

/// Budgets of the other markets stay as the brief has them; what they stand in the way of is told.
[[nodiscard]] Frontier frontier_of(const Workshop& workshop, Planning& planning,
                                   const FrontierRequest& request);

}  // namespace rigproof::app
