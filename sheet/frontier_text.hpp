// The staircase of budgets for people.
#pragma once

#include <string>

#include "sheet/answers.hpp"
#include "sheet/text.hpp"

namespace rigproof::sheet {

/// The cheapest build whole, then each step by what changes against the one below. In short form a
/// line a step.
[[nodiscard]] std::string frontier_text(const Frontier& frontier, bool short_form,
                                        const TextStyle& style);

}  // namespace rigproof::sheet
