// How a catalog comes to be: every file is read into its columns, then references are resolved.
// Private to catalog/; load.cpp drives it.
#pragma once

#include <string>
#include <vector>

#include "catalog/catalog.hpp"
#include "catalog/complaints.hpp"
#include "catalog/load.hpp"

namespace rigproof {

/// Finds a row with the same key columns. Keys are compared in the table's own columns, so nothing
/// is copied.
class RowSet {
 public:
  /// The row that was there before; no_row when `row` is new and now kept.
  template <class Same>
  Row insert(Row row, std::uint64_t hash, Same same);

 private:
  void grow();
  struct Slot {
    std::uint64_t hash = 0;
    Row row = no_row;
  };
  std::vector<Slot> slots_ = std::vector<Slot>(64);
  std::size_t used_ = 0;
};

/// Where an id was seen first, and what became of its row.
struct IdEntry {
  std::uint32_t line = 0;  ///< 0: never seen
  std::uint8_t table = 0;
  Row row = no_row;  ///< no_row: the row was bad
};

/// The place of a cell that is checked only when all tables are read.
struct CellPlace {
  std::uint32_t line = 0;
  std::uint32_t column = 0;
};

class CatalogBuilder {
 public:
  using TableData = Catalog::TableData;
  using ColumnData = Catalog::ColumnData;

  CatalogBuilder();
  /// Names files that are no table and tables given twice.
  void check_files(const std::vector<TableFile>& files);
  /// Reads one table's file. Call in schema order: an id's first place is the one that counts.
  void read(int table, const TableFile& file);
  /// After all files: references, provenance, one currency in a market. Rows that fail are taken
  /// out.
  void resolve(bool skip_bad);
  /// All complaints, in the order of the tables and their lines.
  [[nodiscard]] Complaints complaints() const;
  /// A fault that no skipping of rows can heal.
  [[nodiscard]] bool broken() const;
  /// The rows that are left, with their indexes. Ends the builder.
  [[nodiscard]] Catalog finish();

 private:
  friend class TableReader;
  friend class Resolver;
  struct TableState {
    std::string file;
    bool broken = false;    // no text, or a header with a fault
    bool unusable = false;  // rows without what they need: not worth judging further
    Complaints read;        // in line order
    Complaints resolved;    // likewise
    std::vector<std::vector<CellPlace>> places;  // per column that needs them
  };

  [[nodiscard]] Catalog::TableData& data(int table) {
    return catalog_.tables_[static_cast<std::size_t>(table)];
  }
  [[nodiscard]] TableState& state(int table) { return states_[static_cast<std::size_t>(table)]; }
  [[nodiscard]] const std::string& file_of(int table) { return state(table).file; }
  [[nodiscard]] std::vector<IdEntry>& ids_of(int table);
  [[nodiscard]] IdEntry id_entry(int table, std::uint32_t word);
  void index_ids();
  void index_children(int table);
  void index_provenance();

  Catalog catalog_;
  std::vector<TableState> states_;
  std::vector<std::vector<IdEntry>>
      ids_;           // [0]: all part tables; [table - kind_count + 1]: others, by word
  Complaints files_;  // about the folder as a whole
};

/// Does the cell's place have to be kept until everything is read?
[[nodiscard]] constexpr bool needs_place(int table, const ColumnSpec& column) {
  return column.type == Type::reference || column.type == Type::currency ||
         spec(table).name == "provenance" || spec(table).name == "case_clearances" ||
         spec(table).name == "case_fans" || spec(table).name == "fan_points";
}

template <class Same>
Row RowSet::insert(Row row, std::uint64_t hash, Same same) {
  const std::size_t mask = slots_.size() - 1;
  std::size_t at = static_cast<std::size_t>(hash) & mask;
  while (slots_[at].row != no_row) {
    if (slots_[at].hash == hash && same(slots_[at].row)) return slots_[at].row;
    at = (at + 1) & mask;
  }
  slots_[at] = {hash, row};
  if (2 * ++used_ > slots_.size()) grow();
  return no_row;
}

inline void RowSet::grow() {
  std::vector<Slot> old(2 * slots_.size());
  old.swap(slots_);
  const std::size_t mask = slots_.size() - 1;
  for (const Slot& slot : old) {
    if (slot.row == no_row) continue;
    std::size_t at = static_cast<std::size_t>(slot.hash) & mask;
    while (slots_[at].row != no_row) at = (at + 1) & mask;
    slots_[at] = slot;
  }
}

}  // namespace rigproof
