#include "app/conflicting.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "app/relaxations.hpp"

namespace rigproof::app {
namespace {

// No easing of the brief helps: a market or a kind has nothing to buy, or the parts fit nothing
// else.
void say_what_the_catalog_lacks(const Planning& planning, std::vector<std::string>& notes) {
  const Catalog& catalog = planning.catalog();
  const auto on_offer = [&](Kind kind, int market) {
    int count = 0;
    for (Row row = 0; row < catalog.rows(table_of(kind)); ++row)
      count += planning.prices().price({kind, row}, market) ? 1 : 0;
    return count;
  };
  std::string absent;
  for (const Kind kind : needed_kinds)
    if (catalog.rows(table_of(kind)) == 0)
      absent += fmt::format("{}{}.csv", absent.empty() ? "" : ", ", name_of(kind));
  bool said = !absent.empty();
  if (said)
    notes.push_back(fmt::format(
        "The catalog has no row at all in {}. A complete machine needs a part of each of these "
        "kinds: add a row with an id and a name, or keep the part (see [keep]) if you own it.",
        absent));
  for (int m = 0; m < planning.prices().markets(); ++m) {
    std::string kinds;
    for (const Kind kind : needed_kinds)
      if (catalog.rows(table_of(kind)) > 0 && on_offer(kind, m) == 0)
        kinds += fmt::format("{}{}", kinds.empty() ? "" : ", ", name_of(kind));
    if (kinds.empty()) continue;
    const std::string& market = planning.brief().markets[static_cast<std::size_t>(m)].market;
    const auto line = planning.brief().lines.find("markets." + market);
    notes.push_back(fmt::format(
        "Market {}{}: no admissible offer at all for {}. Add offers, or leave the market out.",
        market, line == planning.brief().lines.end() ? "" : fmt::format(" (line {})", line->second),
        kinds));
    said = true;
  }
  if (!said)
    notes.emplace_back(
        "No easing of these wishes opens a build: among the offers of this day and condition, the "
        "parts do not make a complete machine together.");
}

}  // namespace

Conflicting conflicting(Planning& planning, const LongJob& job, const Wish& wish) {
  Conflicting out;
  const std::vector<plan::ConflictSet> sets = planning.conflicts(job, wish);
  int not_settled = 0;
  for (const plan::ConflictSet& set : sets) {
    if (!set.known)
      out.notes.emplace_back(
          "Stopped before the conflict was irreducible: fewer requirements may suffice.");
    if (set.requirements.empty()) {
      say_what_the_catalog_lacks(planning, out.notes);
      continue;
    }
    sheet::Conflict conflict;
    for (const plan::Requirement& requirement : set.requirements)
      conflict.requirements.push_back({requirement.path, requirement.line, requirement.says});
    if (set.known) {
      Planning::MetIn met = planning.met_in(set, job, wish);
      conflict.through = std::move(met.rules);
      not_settled = std::max(not_settled, met.not_settled);
    }
    out.conflicts.push_back(std::move(conflict));
  }
  if (not_settled > 0)
    out.notes.push_back(fmt::format(
        "The demands may meet in more rules than are named: {} {} not followed to the end.",
        not_settled, not_settled == 1 ? "was" : "were"));
  add_relaxations(planning, sets, job, out.conflicts, wish);
  return out;
}

}  // namespace rigproof::app
