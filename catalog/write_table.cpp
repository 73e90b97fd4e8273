// One table as text. Cells are written so that they read back to the same values.
#include "catalog/csv.hpp"
#include "catalog/load.hpp"

namespace rigproof {

std::string write_table(const Catalog& catalog, int table) {
  std::string out;
  const auto columns = spec(table).columns;
  const char* between = "";
  for (const ColumnSpec& column : columns) {
    out += between;
    out += column.name;
    between = ",";
  }
  out += '\n';
  for (Row row = 0; row < catalog.rows(table); ++row) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      if (c > 0) out += ',';
      const ColumnId cell{static_cast<std::uint8_t>(table), static_cast<std::uint8_t>(c)};
      out += csv_cell(catalog.text(cell, row));
    }
    out += '\n';
  }
  return out;
}

}  // namespace rigproof
