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

/// What is asked besides the brief.
struct Asked {
  std::vector<PartRef> without = {};           ///< may not be used
  std::vector<PartRef> insisted = {};          ///< must be used
  std::optional<std::int64_t> first_cap = {};  ///< instead of the first market's budget, as a cap
  const Build* near = nullptr;                 ///< differs from this one...
  int most_swaps = 0;                          ///< ...by at most so many parts
  /// Another brief, whose fillings may stand too, and whose kept parts are there and cost nothing.
  const Brief* also_of = nullptr;
};

/// The best build per (processor, chip), best first, at most `keep`. Empty: nothing satisfies the
/// brief.
[[nodiscard]] std::vector<Found> every_build(const RandomWorkshop& workshop, const Brief& brief,
                                             std::size_t keep, const Asked& asked = {});

/// Every build that satisfies what is asked, best first.
[[nodiscard]] std::vector<Found> all_builds(const RandomWorkshop& workshop, const Brief& brief,
                                            const Asked& asked = {});

/// The score of a build in each of the draws, by the oracle's own arithmetic, not rounded.
[[nodiscard]] std::array<double, draw_count> score_draws_of(const RandomWorkshop& workshop,
                                                            const Brief& brief, const Found& found);

/// The parts of a build by kind, with counts: equal words, equal builds.
[[nodiscard]] std::string words(const Catalog& catalog, const Build& build);

}  // namespace rigproof::test_plan
