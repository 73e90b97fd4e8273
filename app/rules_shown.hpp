// The rules behind the claims, as they are told: docs/schema/rules.schema.json.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "claims/rule.hpp"

namespace rigproof::app {

/// What becomes of it in a plan, in a word. Rules about prices are asked of the finished build; a
/// plan keeps budgets and offers by itself.
[[nodiscard]] std::string_view plan_role(const Rule& rule);

[[nodiscard]] std::string rules_json(std::span<const Rule* const> rules);

}  // namespace rigproof::app
