// Counting of briefs that share a tree of choices: whole where it is small, else by probes.
// Internal to the outlook.
#pragma once

#include <vector>

#include "decision/plan/outlook.hpp"
#include "decision/plan/outlook_judge.hpp"

namespace rigproof::plan::internal {

struct FamilyWork {
  int exact_nodes = 0;
  int probes = 0;
  int costly_leaves = 0;
  std::uint64_t seed = 0;
  const std::function<bool()>& stop;
};

/// One count for each brief. The first is the one that asks most; see Judge, also for `before`.
[[nodiscard]] std::vector<BuildCount> count_family(Stock& stock, Verdicts& verdicts,
                                                   const std::vector<const Brief*>& briefs,
                                                   const Favors& favors, const FamilyWork& work,
                                                   const Judge* before = nullptr);

}  // namespace rigproof::plan::internal
