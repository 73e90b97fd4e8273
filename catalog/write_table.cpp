// One table as text. Cells are written so that they read back to the same values.
#include <cmath>

#include "base/text.hpp"
#include "catalog/csv.hpp"
#include "catalog/load.hpp"

namespace rigproof {
namespace {

std::string money_text(const Catalog& catalog, int table, Row row, std::int64_t minor) {
  for (std::uint8_t c = 0; c < spec(table).columns.size(); ++c) {
    const ColumnId id{static_cast<std::uint8_t>(table), c};
    if (spec(id).type != Type::currency) continue;
    if (const auto currency = parse_currency(catalog.word(id, row)))
      return to_plain({*currency, minor});
  }
  return {};  // not reached: an amount without a currency does not load
}

std::string cell_text(const Catalog& catalog, ColumnId id, Row row) {
  if (catalog.absent(id, row)) return {};
  switch (spec(id).type) {
    case Type::number:
    case Type::count:
      return shortest(catalog.number(id, row));
    case Type::flag:
      return *catalog.flag(id, row) ? "yes" : "no";
    case Type::date:
      return to_string(*catalog.date(id, row));
    case Type::money:
      return money_text(catalog, id.table, row, *catalog.minor(id, row));
    case Type::reference:
      if (spec(id).refers == "part") return std::string(catalog.id(catalog.part(id, row)));
      return std::string(catalog.word({static_cast<std::uint8_t>(*find_table(spec(id).refers)), 0},
                                      catalog.reference(id, row)));
    default:
      return csv_cell(catalog.word(id, row));
  }
}

}  // namespace

std::string write_table(const Catalog& catalog, int table) {
  std::string out;
  const auto columns = spec(table).columns;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    if (c > 0) out += ',';
    out += columns[c].name;
  }
  out += '\n';
  for (Row row = 0; row < catalog.rows(table); ++row) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      if (c > 0) out += ',';
      out +=
          cell_text(catalog, {static_cast<std::uint8_t>(table), static_cast<std::uint8_t>(c)}, row);
    }
    out += '\n';
  }
  return out;
}

}  // namespace rigproof
