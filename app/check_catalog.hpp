// Use case `check`: what a catalog holds, what of it is unknown and what that costs in verdicts,
// what to look up first, where its cells come from, and which values are worth a second look.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app/look_up.hpp"
#include "app/workshop.hpp"

namespace rigproof::app {

/// How cells were found, by provenance.csv's `method`, in the schema's order; then cells whose row
/// there names none.
inline constexpr int method_count = 5;
[[nodiscard]] std::string_view name_of_method(int method);

struct TableState {
  std::string name;
  bool present = false;
  std::uint32_t rows = 0;
  std::uint64_t cells = 0;    ///< without key columns
  std::uint64_t unknown = 0;  ///< empty ones of these
  std::uint64_t sourced = 0;  ///< filled ones that a provenance row speaks of
  std::array<std::uint64_t, method_count> methods{};  ///< the sourced ones
  std::optional<Date> oldest;                         ///< of the rows that speak of them
};

/// A column with empty cells, and what they cost.
struct ColumnState {
  ColumnId column;
  std::uint64_t cells = 0;
  std::uint64_t unknown = 0;
  std::uint64_t alone = 0;  ///< verdicts its cells would settle, each alone
  double share = 0.0;       ///< the same with shares
  std::vector<std::string_view> rules;
};

/// A value outside what its column usually has.
struct Unusual {
  std::string file;
  std::size_t line = 0;
  std::size_t at = 0;
  ColumnId column;
  std::string row;
  double value = 0.0;
};

struct NotOffered {
  Kind kind = Kind::cpu;
  std::size_t parts = 0;         ///< without any row in offers.csv
  std::vector<std::string> ids;  ///< the first ten
};

struct CatalogState {
  std::string folder;
  std::string brief;  ///< file; empty: none
  std::size_t parts = 0;
  std::vector<TableState> tables;  ///< in schema order
  std::size_t skipped = 0;         ///< bad rows left out
  LookUp look_up;
  std::vector<ColumnState> columns;  ///< those with empty cells, most costly first
  std::vector<Unusual> unusual;      ///< table by table, line by line
  std::vector<NotOffered> not_offered;
};

struct CheckOptions {
  const Brief* brief = nullptr;
  LookUpJob job;
};

/// Errors: bad_input when the brief's offers cannot be priced.
[[nodiscard]] Result<CatalogState> check_catalog(const Workshop& workshop,
                                                 const CheckOptions& options = {});

struct CheckShown {
  const Catalog& catalog;
  std::size_t top = 10;  ///< cells to look up first
  int width = 100;
  bool color = false;
};
[[nodiscard]] std::string check_text(const CatalogState& state, const CheckShown& shown);
[[nodiscard]] std::string check_json(const CatalogState& state, const CheckShown& shown);

/// Where one usually finds such a cell: "on the maker's page under dimensions".
[[nodiscard]] std::string where_to_find(const CellWorth& cell);

}  // namespace rigproof::app
