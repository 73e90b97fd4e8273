// The answers to questions about a plan as JSON: docs/schema/frontier.schema.json and its
// neighbors insist and repair. Shapes of money, quantities and claims: json.hpp.
#pragma once

#include <string>

#include "sheet/answers.hpp"

namespace rigproof::sheet {

inline constexpr const char* frontier_schema = "rigproof.frontier/1";
inline constexpr const char* insist_schema = "rigproof.insist/1";
inline constexpr const char* repair_schema = "rigproof.repair/1";

[[nodiscard]] std::string frontier_json(const Frontier& frontier);
[[nodiscard]] std::string insist_json(const Insist& insist);
[[nodiscard]] std::string repair_json(const Repair& repair);

class JsonWriter;
void write(JsonWriter& out, const ClaimChange& change);

}  // namespace rigproof::sheet
