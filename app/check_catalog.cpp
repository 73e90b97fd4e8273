#include "app/check_catalog.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

namespace rigproof::app {
namespace {

TableState state_of(const Catalog& catalog, int table) {
  const TableSpec& schema = spec(table);
  TableState state{.name = std::string(schema.name),
                   .present = catalog.present(table),
                   .rows = catalog.rows(table)};
  for (auto c = static_cast<std::size_t>(schema.key_columns); c < schema.columns.size(); ++c) {
    const ColumnId id{static_cast<std::uint8_t>(table), static_cast<std::uint8_t>(c)};
    for (Row row = 0; row < state.rows; ++row) {
      ++state.cells;
      if (catalog.absent(id, row))
        ++state.unknown;
      else if (catalog.provenance(id, row))
        ++state.sourced;
    }
  }
  return state;
}

std::string percent(std::uint64_t part, std::uint64_t whole) {
  return whole == 0 ? "-"
                    : fmt::format("{:.0f} %",
                                  100.0 * static_cast<double>(part) / static_cast<double>(whole));
}

}  // namespace

CatalogState check_catalog(const Workshop& workshop) {
  CatalogState state{.folder = workshop.folder,
                     .parts = workshop.catalog.part_count(),
                     .tables = {},
                     .skipped = workshop.skipped.count()};
  for (int table = 0; table < schema::table_count; ++table)
    state.tables.push_back(state_of(workshop.catalog, table));
  return state;
}

std::string check_text(const CatalogState& state) {
  std::string out = fmt::format("{}: {} parts, nothing wrong.\n\n", state.folder, state.parts);
  if (state.skipped > 0)
    out = fmt::format("{}: {} parts; {} bad row{} left out.\n\n", state.folder, state.parts,
                      state.skipped, state.skipped == 1 ? " was" : "s were");
  out += fmt::format("  {:<18}{:>8}{:>12}{:>12}\n", "table", "rows", "unknown", "sourced");
  for (const TableState& table : state.tables) {
    if (!table.present) {
      out +=
          fmt::format("  {:<18}{:>8}   not there: what rests on it is unknown\n", table.name, "-");
      continue;
    }
    out += fmt::format("  {:<18}{:>8}{:>12}{:>12}\n", table.name, table.rows,
                       percent(table.unknown, table.cells),
                       percent(table.sourced, table.cells - table.unknown));
  }
  out +=
      "\n  unknown: share of cells beside the key that are empty; sourced: share of the filled "
      "ones that provenance.csv speaks of\n";
  return out;
}

std::string check_json(const CatalogState& state) {
  nlohmann::ordered_json out = {{"schema", "rigproof.check/1"},
                                {"catalog", state.folder},
                                {"parts", state.parts},
                                {"skipped_rows", state.skipped}};
  out["tables"] = nlohmann::ordered_json::array();
  for (const TableState& table : state.tables)
    out["tables"].push_back({{"table", table.name},
                             {"present", table.present},
                             {"rows", table.rows},
                             {"cells", table.cells},
                             {"unknown", table.unknown},
                             {"sourced", table.sourced}});
  return out.dump(2) + "\n";
}

}  // namespace rigproof::app
