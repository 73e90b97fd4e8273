// For benchmarks only: a problem of the search made as small and as tight as we know how before an
// outside solver sees it. All of it keeps an optimum, given a score that some build reaches.
#pragma once

#include <functional>
#include <vector>

#include "decision/plan/mps.hpp"
#include "decision/plan/search.hpp"

namespace rigproof::plan {

/// A problem with fewer options; it and the original, which it looks at, belong together.
struct Smaller {
  Problem problem = {};
  HeadClasses classes = {};
  std::vector<std::vector<int>> kept = {};  ///< by slot: options of the original
};

/// Takes some options away: all but `kept`. Tables become bits, checks and head values ask the
/// original, which must outlive it.
[[nodiscard]] Smaller only(const Problem& original, const HeadClasses& classes,
                           std::vector<std::vector<int>> kept);

/// Without (a) options that some other slot has nothing for (arc consistency over the tables),
/// (b) options that another one of their slot outdoes in worth, costs, tables, and is equal to in
/// checks and head, (c) pairs of the first two slots whose bound (P2), also with a price on each
/// cap, is below `reached`, the score of a known build. Equal scores are kept.
[[nodiscard]] Smaller strengthened(const Problem& original, const HeadClasses& classes,
                                   double reached);

struct LeadingPair {
  int first = 0;
  int second = 0;
  double bound = 0.0;
};
/// The pairs of the first two slots that have any build, best bound first, until `visit` returns
/// false. The bound is worked out closely only of those whose turn comes.
void each_leading_pair(const Problem& problem,
                       const std::function<bool(const LeadingPair&)>& visit);

}  // namespace rigproof::plan
