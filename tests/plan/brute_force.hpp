// The oracle of whole plans: every build there is, priced and scored by its own arithmetic and
// judged whole. It shares no code with the planner: not its options, tables, groups, bounds or
// frame model. It asks the rules themselves (which have oracles of their own) about complete builds
// only.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/draws.hpp"
#include "catalog/build.hpp"
#include "tests/plan/random_workshop.hpp"

namespace rigproof::test_plan {

struct Found {
  Build build;
  std::int64_t score = 0;
  std::vector<std::int64_t> prices;   ///< per market
  std::vector<std::string> tie;       ///< ids by kind
  std::pair<Row, std::string> rival;  ///< processor and chip: best K are the best of each
};

/// The best build per (processor, chip), best first, at most `keep`. Empty: nothing satisfies the
/// brief.
/// `banned`: a part that may not be used.
[[nodiscard]] std::vector<Found> every_build(const RandomWorkshop& workshop, const Brief& brief,
                                             std::size_t keep,
                                             const std::optional<PartRef>& banned = {});

/// The score of a build in each of the draws, by the oracle's own arithmetic, not rounded.
[[nodiscard]] std::array<double, draw_count> score_draws_of(const RandomWorkshop& workshop,
                                                            const Brief& brief, const Found& found);

}  // namespace rigproof::test_plan
