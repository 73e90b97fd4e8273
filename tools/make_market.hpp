// Whole markets for benchmarks, written by code: as many parts as asked for, three offers each,
// every relation filled. All of it is invented; nothing is measured.
#pragma once

#include "tools/make_demo.hpp"

namespace rigproof::demo {

inline constexpr int fewest_market_parts = 1000;
inline constexpr int most_market_parts = 1'000'000;

/// `catalog/*.csv` and `briefs/market.toml` of a market of `parts` parts, from fewest_market_parts
/// to most_market_parts. There are 75 processors and 75 graphics chips whatever the size; what
/// grows is how many boards, cards, kits and so on are made for them. Same bytes everywhere.
[[nodiscard]] Files make_market(int parts);

}  // namespace rigproof::demo
