// The best builds so far: at most `keep`, the best of each group, best first. Internal to the
// search.
#pragma once

#include <optional>
#include <vector>

#include "decision/plan/search.hpp"

namespace rigproof::plan::internal {

struct Kept {
  Solution solution;
  std::vector<int> ranks;    ///< in rank order
  std::optional<int> group;  ///< none: the build is a group of its own
};

/// The total order of builds: score, then cost 0, then ranks.
[[nodiscard]] bool stands_before(const Kept& a, const Kept& b);

class KeptBuilds {
 public:
  explicit KeptBuilds(int keep) : keep_(static_cast<std::size_t>(keep)) {}

  /// What a build of this group (none: not known, or of its own) must stand before to be kept;
  /// null when any build would be. Once kept builds only get better, so this only gets harder:
  /// a group that fell out comes back with a build that stands before the worst, or never.
  [[nodiscard]] const Kept* to_beat(std::optional<int> group) const;

  /// True when the build was taken in.
  bool offer(Kept build);

  [[nodiscard]] const std::vector<Kept>& builds() const { return builds_; }

 private:
  std::size_t keep_;
  std::vector<Kept> builds_;
};

}  // namespace rigproof::plan::internal
