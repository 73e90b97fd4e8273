// A build brought back under its brief, for people.
#pragma once

#include <string>

#include "sheet/answers.hpp"
#include "sheet/text.hpp"

namespace rigproof::sheet {

/// What is wrong now, the fewest swaps that mend it, and what one more would gain.
[[nodiscard]] std::string repair_text(const Repair& repair, const TextStyle& style);

}  // namespace rigproof::sheet
