// The short terminal form: price and parts first, then one line for each claim that does not hold.
#pragma once

#include <string>
#include <vector>

#include "sheet/model.hpp"
#include "sheet/text.hpp"

namespace rigproof::sheet {

/// Every build of the plan by its price, parts and claims that do not hold; or the conflicts.
/// What the long form says of frame times, runner-ups and the search is left out, and that is said.
[[nodiscard]] std::string plan_short_text(const Plan& plan, const TextStyle& style);

/// The claims of a given build that do not hold, one line each, nearest to failing first. In:
/// `build` names it; `parts` are its parts, in the order they are shown.
[[nodiscard]] std::string claims_short_text(const std::string& build,
                                            const std::vector<PartLine>& parts,
                                            const std::vector<Claim>& claims,
                                            const TextStyle& style);

}  // namespace rigproof::sheet
