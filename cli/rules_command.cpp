// rigproof rules
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/workshop.hpp"
#include "cli/commands.hpp"

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
    out += fmt::format("{:<26} {:<5} {:<5} {}\n", rule->id, name_of(rule->grade),
                       shape_name(rule->shape), rule->about);
  return out +
         "\nmust: excludes a build from a plan when it does not hold; tells: only shown.\n"
         "one, two: over so many kinds of part; sum: terms against one capacity; wide: over more "
         "kinds.\n";
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
