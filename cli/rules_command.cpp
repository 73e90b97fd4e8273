// rigproof rules
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/workshop.hpp"
#include "cli/commands.hpp"
#include "decision/plan/roles.hpp"

namespace rigproof::cli {
namespace {

std::string shape_name(Shape shape) {
  switch (shape) {
    case Shape::one:
      return "one";
    case Shape::two:
      return "two";
    case Shape::sum:
      return "sum";
    case Shape::wide:
      return "wide";
  }
  return {};
}

// Rules about prices are asked of the finished build; a plan keeps budgets and offers by itself.
std::string_view plan_role(const Rule& rule) {
  const auto asked = app::planning_rules();
  if (rule.grade == Grade::must && std::ranges::find(asked, &rule) == asked.end()) return "prices";
  return name_of(plan::role_of(rule));
}

std::string rules_json() {
  nlohmann::ordered_json out = {{"schema", "rigproof.rules/1"},
                                {"rules", nlohmann::ordered_json::array()}};
  for (const Rule* rule : app::rulebook()) {
    nlohmann::ordered_json reads = nlohmann::ordered_json::array();
    for (const ColumnId id : rule->reads)
      reads.push_back(fmt::format("{}.{}", spec(int{id.table}).name, spec(id).name));
    nlohmann::ordered_json kinds = nlohmann::ordered_json::array();
    for (const Kind kind : rule->kinds) kinds.push_back(name_of(kind));
    out["rules"].push_back({{"id", rule->id},
                            {"about", rule->about},
                            {"grade", name_of(rule->grade)},
                            {"shape", shape_name(rule->shape)},
                            {"in_a_plan", plan_role(*rule)},
                            {"kinds", kinds},
                            {"reads", reads},
                            {"basis", name_of(rule->basis)},
                            {"source", rule->source}});
  }
  return out.dump(2) + "\n";
}

std::string rules_text() {
  std::string out;
  for (const Rule* rule : app::rulebook())
    out += fmt::format("{:<26} {:<5} {:<14} {}\n", rule->id, name_of(rule->grade), plan_role(*rule),
                       rule->about);
  return out +
         "\nmust: excludes a build from a plan when it does not hold; tells: only shown.\n"
         "In a plan: filter (over one kind: options are left out before the search), bit table "
         "(over "
         "two),\ncheck + tables (over three), sum (terms against one capacity, a bound as well), "
         "check "
         "(over more,\nasked when the last kind is chosen), prices (kept by the planner itself, in "
         "exact money), only told.\n";
}

}  // namespace

Command rules_command() {
  return {.name = "rules",
          .about = "List the rules behind the claims: what each compares, reads and rests on.",
          .declare = [](CLI::App&, Common& common) -> Run {
            return [&common] {
              return printed(common.json ? rules_json() : rules_text(), Exit::done);
            };
          }};
}

}  // namespace rigproof::cli
