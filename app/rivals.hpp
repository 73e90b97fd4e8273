// Rivals by odds: builds that score less than the best one on the mean of the draws but are best in
// more than 5 % of them. The argument, numbered, is in decision/plan/README.md, section "Rivals".
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "app/planning.hpp"

namespace rigproof::app {

/// A build is a rival when it is best in more draws than this: 12 of 256 is the most that is not
/// over 5 %.
inline constexpr int rival_above_draws = 12;

using DrawScores = std::array<double, draw_count>;

/// (R1) The score of a build draw by draw; its mean is the score before rounding.
[[nodiscard]] DrawScores score_draws(const Planning& planning, const plan::PlannedChoice& choice);

struct Compared {
  /// Best first: the best build of each group (processor, chip) that was compared.
  std::vector<plan::PlannedChoice> choices;
  std::vector<double> odds_best;         ///< beside choices; the first of equals is best
  std::vector<double> odds_first_beats;  ///< beside choices: the first one's score is higher
  bool settled = false;  ///< no group that was not compared can be a rival; false: stopped, the
                         ///< catalog too large, or more groups or nodes would have to be looked at
};
inline constexpr int most_compared = 400;
/// The proof is what was asked for: its rivals get as many nodes of the search as it took, and
/// so many at least.
inline constexpr std::int64_t nodes_for_rivals = 500'000;

/// Compares the best builds of all groups that can be rivals of the first of `proven`, which are
/// the best of a proven plan, best first and `asked` of them if there are as many; in at most so
/// many nodes, which says the same on every machine.
[[nodiscard]] Compared compare_rivals(Planning& planning,
                                      const std::vector<plan::PlannedChoice>& proven, int asked,
                                      const LongJob& job,
                                      std::int64_t most_nodes = nodes_for_rivals);

/// The odds of these builds among themselves; never settled.
[[nodiscard]] Compared compare_listed(const Planning& planning,
                                      const std::vector<plan::PlannedChoice>& choices);

}  // namespace rigproof::app
