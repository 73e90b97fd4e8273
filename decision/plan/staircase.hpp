// The best score for every cap on the price: a staircase, exact, climbed downwards.
#pragma once

#include <cstdint>
#include <vector>

#include "decision/plan/planner.hpp"

namespace rigproof::plan {

/// f(c) is the best score of any build of at most c in the first market, all else as the brief has
/// it. It never falls as c grows, and rises only at prices of builds: at each stair's own price.
struct Staircase {
  struct Stair {
    PlannedChoice choice;
    std::int64_t covers_to = 0;  ///< the best build of every cap from its price to this
  };
  /// Dearest last: price and score both rise strictly from one to the next.
  std::vector<Stair> stairs;
  /// False: stopped. Every stair stands with proof; of these caps, both ends with them, nothing is
  /// known.
  struct Caps {
    std::int64_t from = 0, to = 0;
  };
  bool complete = false;
  std::vector<Caps> unsettled;  ///< smallest first; none when complete
  std::int64_t searches = 0;
  std::int64_t nodes = 0;
};

/// Which caps are asked about, in minor units, 0 <= from <= to.
struct AskedCaps {
  std::int64_t from = 0, to = 0;
  /// Ends of ranges that are settled one after the other, the lowest first, each downwards; rising.
  /// Those outside do not count; none: all caps are one range.
  std::vector<std::int64_t> ends = {};
};

/// In: of the options, `keep` and `first_cap` are not used.
/// Out: every stair whose price is in [from, to], and the one below `from` if there is one and it
/// covers it. None below the first although its price is over `from`: no build costs less, so that
/// its price is the least of any. No stair at all: no build costs `to` or less.
///
/// Downward: a plan at cap c gives the best score, of builds that tie the cheapest, at price p. Any
/// build below p scores less, or the plan would have taken it; so f is constant on [p, c], and the
/// next cap is p - 1.                                                                       (P9)
[[nodiscard]] Staircase staircase(const PlanInput& input, const PlanOptions& options,
                                  const AskedCaps& asked);

}  // namespace rigproof::plan
