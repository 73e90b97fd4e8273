// rigproof rules [RULE]
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>

#include "app/rules_shown.hpp"
#include "app/workshop.hpp"
#include "base/text.hpp"
#include "cli/commands.hpp"
#include "sheet/text_layout.hpp"

namespace rigproof::cli {
namespace {

using Rules = std::vector<const Rule*>;
using app::plan_role;

std::string rules_text(const Rules& rules) {
  std::string out;
  for (const Rule* rule : rules)
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

// One rule at length: what it compares, which cells it reads, what it rests on.
std::string rule_text(const Rule& rule, int width) {
  constexpr int body_at = 10;
  sheet::TextPage page(false, width);
  page.heading(0, rule.id, "");
  page.labelled(0, "compares", body_at, rule.about);
  page.labelled(0, "grade", body_at,
                rule.grade == Grade::must ? "must: a build that breaks it stays out of a plan"
                                          : "tells: it is shown and leaves no build out of a plan");
  std::map<int, std::string> reads;
  for (const ColumnId id : rule.reads) {
    std::string& columns = reads[id.table];
    columns += fmt::format("{}{}", columns.empty() ? "" : ", ", spec(id).name);
  }
  for (const auto& [table, columns] : reads)
    page.labelled(0, table == reads.begin()->first ? "reads" : "", body_at,
                  fmt::format("{}.csv: {}", spec(table).name, columns));
  if (reads.empty()) page.labelled(0, "reads", body_at, "no cell of its own");
  if (!rule.family.empty())
    page.labelled(0, "hangs on", body_at,
                  fmt::format("{}, which is chosen with all of these in view", rule.family));
  // A source that begins with its basis says it already.
  page.labelled(0, "rests on", body_at,
                rule.source.starts_with(name_of(rule.basis))
                    ? std::string(rule.source)
                    : fmt::format("{}: {}", name_of(rule.basis), rule.source));
  return page.take();
}

Exit run(const std::string& asked, const Common& common) {
  const auto all = app::rulebook();
  if (asked.empty()) {
    const Rules rules(all.begin(), all.end());
    return printed(common.json ? app::rules_json(rules) : rules_text(rules), Exit::done);
  }
  const auto found = std::ranges::find(all, asked, &Rule::id);
  if (found != all.end())
    return printed(
        common.json ? app::rules_json({&*found, 1}) : rule_text(**found, common.terminal.width),
        Exit::done);
  std::vector<std::string_view> ids;
  for (const Rule* rule : all) ids.push_back(rule->id);
  const auto near = nearest(asked, ids);
  complain(fmt::format(
      "rigproof rules: {}: no rule has this id.{}", excerpt(asked),
      near ? fmt::format(" Did you mean {}?", *near) : " rigproof rules lists them all."));
  return Exit::bad_input;
}

}  // namespace

Command rules_command() {
  return {.name = "rules",
          .about = "List the rules behind the claims: what each compares, reads and rests on.",
          .examples = {{.arguments = "", .shows = "Every rule in one line."},
                       {.arguments = "fit.card-length",
                        .shows = "One rule at length: what it compares, which cells it reads and "
                                 "what it rests on."}},
          .declare = [](CLI::App& app, Common& common) -> Run {
            const auto asked = std::make_shared<std::string>();
            app.add_option("RULE", *asked, "Only this rule, at length, by its id");
            return [asked, &common] { return run(*asked, common); };
          }};
}

}  // namespace rigproof::cli
