// For tests only: the names of the demo's briefs.
#pragma once

#include <array>

namespace rigproof::test_plan {

inline constexpr std::array demo_briefs = {"second-life",       "quiet-living-room",
                                           "careless-bargains", "competition-high-refresh",
                                           "boat-locker",       "cannot-be-satisfied"};

}  // namespace rigproof::test_plan
