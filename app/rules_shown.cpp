#include "app/rules_shown.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/workshop.hpp"
#include "decision/plan/roles.hpp"

namespace rigproof::app {

std::string_view plan_role(const Rule& rule) {
  const auto asked = planning_rules();
  if (rule.grade == Grade::must && std::ranges::find(asked, &rule) == asked.end()) return "prices";
  return name_of(plan::role_of(rule));
}

std::string rules_json(std::span<const Rule* const> rules) {
  nlohmann::ordered_json out = {{"schema", "rigproof.rules/1"},
                                {"rules", nlohmann::ordered_json::array()}};
  for (const Rule* rule : rules) {
    nlohmann::ordered_json reads = nlohmann::ordered_json::array();
    for (const ColumnId id : rule->reads)
      reads.push_back(fmt::format("{}.{}", spec(int{id.table}).name, spec(id).name));
    nlohmann::ordered_json kinds = nlohmann::ordered_json::array();
    for (const Kind kind : rule->kinds) kinds.push_back(name_of(kind));
    out["rules"].push_back({{"id", rule->id},
                            {"about", rule->about},
                            {"grade", name_of(rule->grade)},
                            {"in_a_plan", plan_role(*rule)},
                            {"kinds", kinds},
                            {"reads", reads},
                            {"basis", name_of(rule->basis)},
                            {"source", rule->source}});
  }
  return out.dump(2) + "\n";
}

}  // namespace rigproof::app
