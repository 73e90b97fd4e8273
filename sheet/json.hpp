// JSON that others rely on: docs/schema/plan.schema.json and docs/schema/claims.schema.json.
//
// Money is {"currency", "minor"}; a quantity is {"value", "low", "high", "unit"}, without low and
// high when it is certain; a value that is a word is {"text"}. What does not exist (the value of an
// unknown claim, the odds of a build that was not drawn) has no key. Bytes of names are kept as
// they are, escaped; a program that shows them must make them safe for its own screen.
#pragma once

#include <string>
#include <vector>

#include "sheet/model.hpp"

namespace rigproof::sheet {

inline constexpr const char* plan_schema = "rigproof.plan/1";
inline constexpr const char* claims_schema = "rigproof.claims/1";

[[nodiscard]] std::string plan_json(const Plan& plan);

/// In: `build` names the build file or the build, for the reader.
[[nodiscard]] std::string claims_json(const std::string& build, const std::vector<Claim>& claims);

}  // namespace rigproof::sheet
