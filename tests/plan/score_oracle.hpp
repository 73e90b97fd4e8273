// The score of a build by the oracle's own arithmetic: DESIGN section 6 written out once more with
// plain doubles. It shares no code with the planner or the forecast.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <tuple>

#include "base/draws.hpp"
#include "catalog/brief.hpp"
#include "catalog/build.hpp"

namespace rigproof::test_plan {

class Scorer {
 public:
  using UtilityDraws = std::array<double, draw_count>;

  Scorer(const Catalog& catalog, const Brief& brief) : catalog_(catalog), brief_(brief) {}
  /// Whole minor units, as a plan compares scores. In: a complete build and its first price.
  [[nodiscard]] std::int64_t score(const Build& build, std::int64_t price) const;
  /// In each of the draws, not rounded.
  [[nodiscard]] UtilityDraws score_draws(const Build& build, std::int64_t price) const;

 private:
  [[nodiscard]] double remembered(const Build& build, const TitleGoal& goal) const;
  [[nodiscard]] double mean_utility(const Build& build, const TitleGoal& goal) const;
  [[nodiscard]] UtilityDraws utility_draws(const Build& build, const TitleGoal& goal) const;

  const Catalog& catalog_;
  const Brief& brief_;
  mutable std::map<std::tuple<const TitleGoal*, Row, Row, Row, int, Row>, double> known_;
};

}  // namespace rigproof::test_plan
