// Through which opening each litre of air in a room came in: which filter it has passed.
//
// Equation (A16) of README-flow.md: air mixes wholly in every room, so a room's air is the mean of
// what flows in, weighed by flow. Linear in the shares, solved without subtraction.
#pragma once

#include "analysis/air/flow_network.hpp"

namespace rigproof::air {

/// Shares are 0 to 1 and stand at the index of a path. Only paths through which air comes in from
/// the outside have any.
struct FlowShares {
  /// Of the air in a room, which is that of the air entering it and of the air leaving it. They
  /// sum to 1, or to 0 where no air from the outside comes.
  std::array<std::array<double, most_paths>, most_rooms> of_room{};
  /// Of all the air that leaves to the outside.
  std::array<double, most_paths> leaving{};
  std::array<double, most_rooms> entering_m3_s{};  ///< into each room; [0]: out of all of them
};

/// In: the rooms and paths that `solution` was found for; else a bug. Flows below 1e-9 of the
/// largest count as none. Cost: no allocation.
[[nodiscard]] FlowShares flow_shares(std::size_t rooms, std::span<const FlowPath> paths,
                                     const FlowSolution& solution);

}  // namespace rigproof::air
