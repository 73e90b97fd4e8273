// Parts that a rule cannot tell apart: they agree in every cell it reads.
//
// Unlike the planner's groups (decision/plan/verdicts.hpp), which answer whether a build is
// admitted, these answer only whether something is missing. That depends on values, half-widths and
// class ranges, never on the order of draws, so rows with equal uncertain cells stay together, and
// all absent cells of a column look alike.
#pragma once

#include <span>
#include <vector>

#include "claims/rule.hpp"

namespace rigproof::app {

struct LookAlikes {
  std::vector<Row> rows;  ///< in file order; the first one stands for all
  bool has_hole = false;  ///< one of the cells is absent, or a relation has no row
  [[nodiscard]] std::size_t size() const { return rows.size(); }
};

/// Groups with a hole first, then the larger ones, then by their first row.
[[nodiscard]] std::vector<LookAlikes> look_alikes(const Catalog& catalog, const Rule& rule,
                                                  Kind kind, std::span<const Row> parts);

/// Does a table that belongs to none of the rule's kinds (titles) have an absent cell it reads?
[[nodiscard]] bool hole_elsewhere(const Catalog& catalog, const Rule& rule);

/// Does the relation speak of parts of this kind?
[[nodiscard]] bool speaks_of(int relation, Kind kind);

}  // namespace rigproof::app
