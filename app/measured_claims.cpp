#include "app/measured_claims.hpp"

#include <algorithm>
#include <optional>
#include <string_view>

#include "app/workshop.hpp"
#include "claims/rule.hpp"

namespace rigproof::app {
namespace {

const WorkingCell* claimed_cell(const Claim& claim) {
  const auto found = std::ranges::find_if(claim.working.cells, &WorkingCell::claimed);
  return found == claim.working.cells.end() ? nullptr : &*found;
}

bool is_same(const WorkingCell& cell, const MeasuredCell& measured) {
  return cell.column == spec(measured.cell.column).name &&
         cell.table == spec(int{measured.cell.column.table}).name && cell.row == measured.row_key;
}

std::optional<Claim> same_claim(const Facts& facts, const Claim& claim) {
  const auto rules = rulebook();
  const auto rule = std::ranges::find(rules, std::string_view(claim.id), &Rule::id);
  if (rule == rules.end()) return {};
  for (int place = 0; place < (*rule)->places(facts); ++place) {
    Claim found = explain(**rule, facts, place);
    if (found.where == claim.where && found.load == claim.load && found.subjects == claim.subjects)
      return found;
  }
  return {};
}

double room(const Limit& limit, double value) {
  return limit.relation == Relation::at_least ? value - limit.value : limit.value - value;
}

bool has_sides(const Limit& limit) {
  return limit.text.empty() &&
         (limit.relation == Relation::at_most || limit.relation == Relation::at_least);
}

// In: `before` claims the number of one cell; so does `now`, in which it was measured.
std::string_view settled(const Claim& before, const Quantity& now) {
  const WorkingCell* const cell = claimed_cell(before);
  if (cell == nullptr || !before.value) return "";
  const auto stands_in = [&](const Missing& missing) {
    return missing.table == cell->table && missing.row == cell->row &&
           missing.column == cell->column;
  };
  if (std::ranges::any_of(before.missing, stands_in)) return "";
  const Quantity& claimed = *before.value;
  if (const auto& limit = before.limit;
      limit && has_sides(*limit) &&
      (room(*limit, claimed.value) < 0.0) != (room(*limit, now.value) < 0.0))
    return "refuted";
  const bool apart = now.low.value_or(now.value) > claimed.high.value_or(claimed.value) ||
                     now.high.value_or(now.value) < claimed.low.value_or(claimed.value);
  return apart ? "off" : "confirmed";
}

}  // namespace

void settle_measured(std::vector<Claim>& claims, const Catalog& before, const Brief* brief,
                     const BuildFile& build, const std::vector<MeasuredCell>& cells) {
  const Brief alone;
  CellDraws draws(before);
  const Facts facts{.catalog = before,
                    .brief = brief != nullptr ? *brief : alone,
                    .prices = nullptr,
                    .build = build.build,
                    .draws = draws,
                    .setup = &build.setup};
  for (Claim& claim : claims) {
    const WorkingCell* const cell = claimed_cell(claim);
    if (cell == nullptr || !claim.value) continue;
    const auto found = std::ranges::find_if(
        cells, [&](const MeasuredCell& measured) { return is_same(*cell, measured); });
    if (found == cells.end()) continue;
    const auto was = same_claim(facts, claim);
    claim.measured =
        Measured{.value = claim.value->value,
                 .log = {},
                 .date = parse_date(found->seen),
                 .settled = was ? std::string(settled(*was, *claim.value)) : std::string()};
  }
}

}  // namespace rigproof::app
