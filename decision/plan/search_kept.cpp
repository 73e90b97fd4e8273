#include "decision/plan/search_kept.hpp"

#include <algorithm>
#include <utility>

namespace rigproof::plan::internal {

bool stands_before(const Kept& a, const Kept& b) {
  if (a.solution.score != b.solution.score) return a.solution.score > b.solution.score;
  if (a.solution.costs[0] != b.solution.costs[0]) return a.solution.costs[0] < b.solution.costs[0];
  return a.ranks < b.ranks;
}

const Kept* KeptBuilds::to_beat(std::optional<int> group) const {
  if (group)
    for (const Kept& kept : builds_)
      if (kept.group == group) return &kept;
  return builds_.size() == keep_ ? &builds_.back() : nullptr;
}

bool KeptBuilds::offer(Kept build) {
  const Kept* rival = to_beat(build.group);
  if (rival != nullptr && !stands_before(build, *rival)) return false;
  // A head that was put back shows its first build twice.
  for (const Kept& kept : builds_)
    if (kept.ranks == build.ranks) return false;
  if (rival != nullptr) builds_.erase(builds_.begin() + (rival - builds_.data()));
  builds_.insert(std::ranges::upper_bound(builds_, build, stands_before), std::move(build));
  return true;
}

}  // namespace rigproof::plan::internal
