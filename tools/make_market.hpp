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

/// The same with `each` parts of each of the eight kinds that every plan chooses from: beyond 75,
/// processors are further listings of the same chips; below, the larger ones are not there. Few
/// fans and other parts. From fewest_of_each to 100,000.
inline constexpr int fewest_of_each = 20;
[[nodiscard]] Files make_market_of_each(int each);

}  // namespace rigproof::demo
