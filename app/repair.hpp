// Use case `repair`: the fewest swaps that bring a build back under its brief.
#pragma once

#include <optional>

#include "app/planning.hpp"
#include "app/workshop.hpp"
#include "sheet/answers.hpp"

namespace rigproof::app {

struct RepairRequest {
  const BuildFile& build;
  std::string file;               ///< of the build, for the reader
  std::optional<int> most_swaps;  ///< give up beyond; none: as many as it takes
  LongJob job;
};

struct Repaired {
  sheet::Repair view;
  std::optional<plan::PlannedChoice> choice;
  bool stopped = false;
  Standing standing = Standing::nothing_fails;  ///< of the repaired build
};

/// Swaps are parts changed (plan::swaps). Of all builds with the fewest the one of the best score.
/// Mounts that the file fixes are not kept: where a part sits is decided anew.
[[nodiscard]] Repaired repair(const Workshop& workshop, Planning& planning,
                              const RepairRequest& request);

}  // namespace rigproof::app
