// The answers to questions about a plan as JSON: docs/schema/frontier.schema.json and its
// neighbors insist and repair. Shapes of money, quantities and claims: json.hpp.
#pragma once

#include <string>

#include "sheet/answers.hpp"

namespace rigproof::sheet {

inline constexpr const char* frontier_schema = "rigproof.frontier/1";

[[nodiscard]] std::string frontier_json(const Frontier& frontier);

}  // namespace rigproof::sheet
