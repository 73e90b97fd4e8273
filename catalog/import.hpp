// A pasted table held against the catalog: what would be new, what would change, what is the same.
// Values only; the files are written elsewhere (rewrite_table.hpp makes their bytes).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/load.hpp"
#include "catalog/mapping.hpp"

namespace rigproof {

struct CellChange {
  std::size_t column = 0;
  std::string old_text{};  ///< as the catalog has it; "" when it was unknown
  std::string new_text{};
};

struct RowChange {
  Row row = no_row;                 ///< in the catalog; no_row: a new one
  std::string key{};                ///< row key, as Catalog::row_key writes it
  std::size_t line = 0;             ///< in the pasted table; 0: not from there
  std::vector<CellChange> cells{};  ///< new rows: every cell that is known
};

struct ImportPlan {
  int table = 0;
  std::vector<RowChange> added{};
  std::vector<RowChange> changed{};
  std::size_t unchanged = 0;
  std::size_t rows = 0;                  ///< of the pasted table, blank ones not counted
  std::size_t left_out = 0;              ///< bad ones, each complained of
  std::vector<std::string> unmatched{};  ///< what rows that match no part had to say for it
  [[nodiscard]] bool empty() const { return added.empty() && changed.empty(); }
};

/// Reads the pasted table by the mapping. An empty cell says nothing: what the catalog knows stays.
/// Every bad cell is a complaint at its place in the pasted table; its row is left out of the plan,
/// and whether the rest is used is the caller's to say. Two rows that speak of one row of the
/// catalog: the second one is bad. No record at all, or a header that is not there: complaints.
[[nodiscard]] ImportPlan plan_import(const Catalog& catalog, const Mapping& mapping,
                                     const TableFile& pasted, Complaints& complaints);

/// The rows of provenance.csv that go with it: one for every new row, one for every changed cell;
/// those that speak of the same place already are changed. A half-width that stood there spoke of
/// the old value and goes.
[[nodiscard]] ImportPlan provenance_of(const Catalog& catalog, const Mapping& mapping,
                                       const ImportPlan& plan);

}  // namespace rigproof
