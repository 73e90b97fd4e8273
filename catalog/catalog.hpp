// The catalog in memory: columns of numbers, words and money, as the schema declares them.
//
// Immutable once loaded (catalog/load.hpp); any number of threads may read it. A row is named by
// its place in the file's order; rows of skipped bad lines do not exist.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/date.hpp"
#include "base/draws.hpp"
#include "base/money.hpp"
#include "catalog/schema.hpp"
#include "catalog/words.hpp"

namespace rigproof {

using Row = std::uint32_t;
inline constexpr Row no_row = 0xFFFFFFFFU;

/// One part: its kind and its row in that kind's table.
struct PartRef {
  Kind kind = Kind::cpu;
  Row row = no_row;
  friend auto operator<=>(const PartRef&, const PartRef&) = default;
};

/// A cell, for messages and for draws.
struct CellRef {
  ColumnId column;
  Row row = no_row;
  friend bool operator==(const CellRef&, const CellRef&) = default;
};

class Catalog {
 public:
  [[nodiscard]] Row rows(int table) const { return data(table).rows; }
  /// The table's file was there (it may still have no rows).
  [[nodiscard]] bool present(int table) const { return data(table).present; }
  [[nodiscard]] bool absent(ColumnId column, Row row) const;

  // One reader per storage class; asking with the wrong one, or for a row that is not there, is a
  // bug (contract). Views stay valid as long as the catalog stays where it is.
  [[nodiscard]] double number(ColumnId column, Row row) const;  ///< number, count; NaN when absent
  [[nodiscard]] std::optional<bool> flag(ColumnId column, Row row) const;
  [[nodiscard]] std::optional<Date> date(ColumnId column, Row row) const;
  [[nodiscard]] std::string_view word(ColumnId column,
                                      Row row) const;  ///< text-like; "" when absent
  [[nodiscard]] bool has_token(ColumnId column, Row row,
                               std::string_view token) const;  ///< one of a `tokens` cell
  [[nodiscard]] std::optional<std::int64_t> minor(ColumnId column,
                                                  Row row) const;  ///< money, minor units
  [[nodiscard]] Row reference(ColumnId column,
                              Row row) const;  ///< row in the table referred to; no_row when absent
  [[nodiscard]] PartRef part(ColumnId column, Row row) const;  ///< reference to "part"

  /// Rows of a relation that belong to a part (by the relation's first column), in file order.
  /// Empty for a part of a kind the relation does not speak of. A table that does not begin with a
  /// reference: contract.
  [[nodiscard]] std::span<const Row> rows_of(int relation, PartRef part) const;

  [[nodiscard]] std::optional<PartRef> find_part(std::string_view id) const;
  [[nodiscard]] std::optional<Row> find_row(
      int table, std::string_view id) const;  ///< tables whose key is `id`
  [[nodiscard]] std::string_view id(PartRef part) const {
    return word({static_cast<std::uint8_t>(table_of(part.kind)), 0}, part.row);
  }
  [[nodiscard]] std::string_view name(PartRef part) const {
    return word({static_cast<std::uint8_t>(table_of(part.kind)), 1}, part.row);
  }
  /// Any cell as its table's text, unquoted: what a file would say; "" when absent.
  [[nodiscard]] std::string text(ColumnId column, Row row) const;
  /// The row's key columns joined by '/': `owned-psu`, or `board-a/2` in a relation.
  [[nodiscard]] std::string row_key(int table, Row row) const;
  /// Line of the row in its file, from 1.
  [[nodiscard]] std::size_t line(int table, Row row) const;

  /// Half-width of a present number or count (contract): the most particular provenance row with a
  /// plus_minus (row and column named, then row, then column, then neither; the load refuses two
  /// rows that name the same), else the column's tolerance (in its unit or as a share of the value,
  /// the larger), else 0.
  [[nodiscard]] double half_width(ColumnId column, Row row) const;
  /// The cell as draws: uniform over its half-width; a class range when absent and the column has
  /// one; otherwise absent. Stream: hash(seed, table, row key, column). Numbers and counts only
  /// (contract). Not cached; a certain or absent cell hashes nothing.
  [[nodiscard]] Draws cell(ColumnId column, Row row, std::uint64_t seed = 0) const;
  /// The provenance row that speaks of the cell (same precedence), if any.
  [[nodiscard]] std::optional<Row> provenance(ColumnId column, Row row) const;
  /// All parts over all kinds.
  [[nodiscard]] std::size_t part_count() const;

 private:
  friend class CatalogBuilder;  // builder.hpp, with its two helpers
  friend class TableReader;
  friend class Resolver;
  struct ColumnData {
    std::vector<double> numbers;  // number, count, flag (0/1), date (days); NaN: absent
    std::vector<std::uint32_t>
        words;  // text-like: index into words_ (0: absent); references: row, or packed part
    std::vector<std::int64_t> minors;  // money; no_minor: absent
  };
  struct TableData {
    bool present = false;
    Row rows = 0;
    std::vector<ColumnData> columns;
    std::vector<std::uint32_t> lines;
    std::vector<Row> child_rows;  // relations: rows grouped by parent
    std::vector<std::uint32_t>
        child_start[kind_count];   // per parent kind: rows + 1 offsets into child_rows
    std::vector<Row> row_of_word;  // tables keyed by `id`, not of parts: word -> row or no_row
  };
  static constexpr std::int64_t no_minor = std::numeric_limits<std::int64_t>::min();
  static constexpr unsigned kind_shift = 28;  // a packed part: kind above, row below
  static constexpr Row most_rows = (1U << kind_shift) - 1;
  static constexpr std::uint8_t any_column = 0xFF;

  [[nodiscard]] static std::uint32_t pack(PartRef part) {
    return (static_cast<std::uint32_t>(part.kind) << kind_shift) | part.row;
  }
  [[nodiscard]] static PartRef unpack(std::uint32_t packed) {
    return {static_cast<Kind>(packed >> kind_shift), packed & most_rows};
  }
  [[nodiscard]] static std::uint64_t provenance_key(int table, Row row, std::uint8_t column) {
    return (static_cast<std::uint64_t>(table) << 40U) |
           (static_cast<std::uint64_t>(column) << 32U) | row;
  }
  [[nodiscard]] const TableData& data(int table) const;
  [[nodiscard]] const ColumnData& data(ColumnId column, Row row) const;
  [[nodiscard]] std::string money_text(ColumnId column, Row row) const;
  template <class Wanted>
  [[nodiscard]] std::optional<Row> most_particular(ColumnId column, Row row, Wanted wanted) const;

  std::vector<TableData> tables_ = std::vector<TableData>(schema::tables.size());
  Words words_;
  std::vector<std::uint32_t> part_of_word_;  // word -> packed part, or no_row
  std::unordered_map<std::uint64_t, Row>
      provenance_;  // provenance_key (no_row, any_column: every one) -> row
};

}  // namespace rigproof
