#include "catalog/provenance_plan.hpp"

#include <array>
#include <utility>
#include <vector>

namespace rigproof {
namespace {

constexpr int provenance = table("provenance");
constexpr ColumnId place_table = column("provenance", "table");
constexpr ColumnId place_row = column("provenance", "row");
constexpr ColumnId place_column = column("provenance", "column");

std::string place(std::string_view table, std::string_view row, std::string_view column,
                  char between) {
  std::string out(table);
  out += between;
  out += row;
  out += between;
  return out += column;
}

constexpr char no_cell_sign = '\x1F';  // stands in no cell

}  // namespace

ProvenancePlan::ProvenancePlan(const Catalog& catalog) : catalog_(catalog) {
  plan_.table = provenance;
  for (Row row = 0; row < catalog.rows(provenance); ++row)
    rows_.emplace(place(catalog.word(place_table, row), catalog.word(place_row, row),
                        catalog.word(place_column, row), no_cell_sign),
                  row);
}

void ProvenancePlan::add(int table, const ProvenanceNote& note) {
  const std::string_view name = spec(table).name;
  RowChange change{.row = no_row, .key = place(name, note.row, note.column, '/'), .cells = {}};
  const auto known = rows_.find(place(name, note.row, note.column, no_cell_sign));
  if (known != rows_.end()) change.row = known->second;
  const std::array<std::pair<ColumnId, std::string>, 7> wanted = {
      {{place_table, std::string(name)},
       {place_row, note.row},
       {place_column, note.column},
       {column("provenance", "source"), note.source},
       {column("provenance", "seen"), note.seen},
       {column("provenance", "method"), note.method},
       {column("provenance", "plus_minus"), note.plus_minus}}};
  for (const auto& [cell, text] : wanted) {
    std::string old = change.row == no_row ? std::string() : catalog_.text(cell, change.row);
    if (old != text)
      change.cells.push_back({.column = cell.column, .old_text = std::move(old), .new_text = text});
  }
  if (change.cells.empty()) return;
  (change.row == no_row ? plan_.added : plan_.changed).push_back(std::move(change));
}

}  // namespace rigproof
