// The working of a claim: what is compared, and every cell that went in, as it was read.
#pragma once

#include "claims/rule.hpp"

namespace rigproof {

/// In: a measure that was not `deciding`, of this rule and these facts. Allocates.
[[nodiscard]] Working working_of(const Rule& rule, const Facts& facts, const Measure& m);

/// One cell as it is read now.
[[nodiscard]] WorkingCell working_cell(const Facts& facts, const SeenCell& cell);

}  // namespace rigproof
