// The pieces of mps_model() that have a file of their own: checks as rows (M5) and the value of the
// head (M6, M7). For mps*.cpp alone.
#pragma once

#include <vector>

#include "decision/plan/mps.hpp"
#include "decision/plan/mps_pairs.hpp"

namespace rigproof::plan {

/// (M5). False, and nothing written, when the scope has more than `most_cases` combinations.
[[nodiscard]] bool add_check_rows(const Problem& problem, const Check& check,
                                  std::size_t most_cases, const std::string& name, MpsModel& model);

/// (M6) and (M7). Returns what all heads are worth together, the constant of the objective, and 0
/// when columns carry it.
[[nodiscard]] Result<double> add_head(const Problem& problem, const MpsOptions& options,
                                      const std::vector<ForbiddenPairs>& pairs, MpsModel& model);

}  // namespace rigproof::plan
