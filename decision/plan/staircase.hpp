// The best score for every cap on the price: a staircase, exact, from the most money down.
#pragma once

#include <cstdint>
#include <vector>

#include "decision/plan/planner.hpp"

namespace rigproof::plan {

/// f(c) is the best score of any build of at most c in the first market, all else as the brief has
/// it. It never falls as c grows, and rises only at prices of builds: at each stair's own price.
struct Staircase {
  /// Dearest last: price and score both rise strictly from one to the next. A stair is the best
  /// build of every cap from its price to just under that of the next, the last one up to `to`.
  std::vector<PlannedChoice> stairs;
  /// False: stopped. The stairs are then the upper ones, each with proof, and below the first of
  /// them nothing is known.
  bool complete = false;
  std::int64_t searches = 0;
  std::int64_t nodes = 0;
};

/// In: caps in minor units, 0 <= from <= to; of the options, `keep` and `first_cap` are not used.
/// Out: every stair whose price is in [from, to], and the one below `from` if there is one and it
/// covers it. None below the first although its price is over `from`: no build costs less, so that
/// its price is the least of any. No stair at all: no build costs `to` or less.
///
/// Downward: a plan at cap c gives the best score, of builds that tie the cheapest, at price p. Any
/// build below p scores less, or the plan would have taken it; so f is constant on [p, c], and the
/// next cap is p - 1.                                                                       (P9)
[[nodiscard]] Staircase staircase(const PlanInput& input, const PlanOptions& options,
                                  std::int64_t from, std::int64_t to);

}  // namespace rigproof::plan
