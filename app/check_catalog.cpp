#include "app/check_catalog.hpp"

#include <algorithm>
#include <filesystem>
#include <map>

#include "app/files.hpp"
#include "base/units.hpp"
#include "catalog/file_cells.hpp"

namespace rigproof::app {
namespace {

constexpr ColumnId method_column = column("provenance", "method");
constexpr ColumnId seen_column = column("provenance", "seen");
constexpr std::size_t most_ids = 10;

ColumnId cell_of(int table, std::size_t column) {
  return {static_cast<std::uint8_t>(table), static_cast<std::uint8_t>(column)};
}

// The schema's words for methods, and last the name for none.
constexpr auto methods = [] {
  std::array<std::string_view, method_count> out;
  std::string_view rest = spec(method_column).choices;
  for (std::size_t i = 0; i + 1 < out.size(); ++i) {
    const std::size_t bar = rest.find('|');
    out[i] = rest.substr(0, bar);
    rest = bar == std::string_view::npos ? std::string_view() : rest.substr(bar + 1);
  }
  out.back() = "not said";
  return out;
}();
static_assert(!methods[method_count - 2].empty() &&
              spec(method_column).choices.ends_with(methods[method_count - 2]));

std::size_t method_of(const Catalog& catalog, Row provenance) {
  const auto at = std::ranges::find(methods, catalog.word(method_column, provenance));
  return std::min<std::size_t>(static_cast<std::size_t>(at - methods.begin()), method_count - 1);
}

TableState state_of(const Catalog& catalog, int table) {
  const TableSpec& schema = spec(table);
  TableState state{.name = std::string(schema.name),
                   .present = catalog.present(table),
                   .rows = catalog.rows(table),
                   .methods = {},
                   .oldest = {}};
  for (auto c = static_cast<std::size_t>(schema.key_columns); c < schema.columns.size(); ++c) {
    const ColumnId id = cell_of(table, c);
    for (Row row = 0; row < state.rows; ++row) {
      ++state.cells;
      if (catalog.absent(id, row)) {
        ++state.unknown;
        continue;
      }
      const auto source = catalog.provenance(id, row);
      if (!source) continue;
      ++state.sourced;
      ++state.methods[method_of(catalog, *source)];
      const auto seen = catalog.date(seen_column, *source);
      if (seen && (!state.oldest || *seen < *state.oldest)) state.oldest = seen;
    }
  }
  return state;
}

std::vector<ColumnState> columns_of(const Catalog& catalog, const LookUp& look_up) {
  std::map<std::pair<int, int>, ColumnState> found;
  for (int table = 0; table < schema::table_count; ++table) {
    const TableSpec& schema = spec(table);
    for (auto c = static_cast<std::size_t>(schema.key_columns); c < schema.columns.size(); ++c) {
      ColumnState state{.column = cell_of(table, c), .cells = catalog.rows(table), .rules = {}};
      for (Row row = 0; row < catalog.rows(table); ++row)
        if (catalog.absent(state.column, row)) ++state.unknown;
      if (state.unknown > 0) found.emplace(std::pair(table, static_cast<int>(c)), state);
    }
  }
  for (const CellWorth& cell : look_up.cells) {
    const auto at = found.find({cell.column.table, cell.column.column});
    if (cell.row == no_row || at == found.end()) continue;  // a relation without rows has no cells
    ColumnState& state = at->second;
    state.alone += cell.alone;
    state.share += cell.share;
    for (const CellWorth::ByRule& by : cell.rules) {
      const std::string_view id = look_up.rules[by.rule].rule->id;
      if (std::ranges::find(state.rules, id) == state.rules.end()) state.rules.push_back(id);
    }
  }
  std::vector<ColumnState> columns;
  columns.reserve(found.size());
  for (auto& [place, state] : found) columns.push_back(std::move(state));
  std::ranges::stable_sort(columns, [](const ColumnState& a, const ColumnState& b) {
    if (a.alone != b.alone) return a.alone > b.alone;
    return a.share != b.share ? a.share > b.share : a.unknown > b.unknown;
  });
  return columns;
}

std::vector<Unusual> unusual_of_table(const Catalog& catalog, int table) {
  std::vector<Unusual> found;
  for (std::size_t c = 0; c < spec(table).columns.size(); ++c) {
    const ColumnSpec& column = spec(table).columns[c];
    if (!column.has_usual_range()) continue;
    for (Row row = 0; row < catalog.rows(table); ++row) {
      const double value = catalog.number(cell_of(table, c), row);
      if (value < column.usual_from() || value > column.usual_to())  // an absent cell is NaN
        found.push_back({.file = {},
                         .line = catalog.line(table, row),
                         .column = cell_of(table, c),
                         .row = catalog.row_key(table, row),
                         .value = value});
    }
  }
  std::ranges::stable_sort(found, {}, &Unusual::line);
  return found;
}

// The catalog knows lines; the place in the line is looked for in the file again. A file that went
// away meanwhile leaves the line alone.
void find_places(std::vector<Unusual>& found, const std::filesystem::path& file) {
  const auto bytes = read_file(file);
  std::vector<FileCell> cells;
  cells.reserve(found.size());
  for (const Unusual& one : found)
    cells.push_back({.row_line = one.line, .column = spec(one.column).name});
  if (bytes) find_in_file(*bytes, cells);
  for (std::size_t i = 0; i < found.size(); ++i) {
    found[i].file = file.string();
    if (cells[i].line == 0) continue;
    found[i].line = cells[i].line;
    found[i].at = cells[i].at;
  }
  std::ranges::stable_sort(found, {}, [](const Unusual& u) { return std::pair(u.line, u.at); });
}

std::vector<Unusual> unusual_of(const Workshop& workshop) {
  std::vector<Unusual> all;
  for (int table = 0; table < schema::table_count; ++table) {
    auto found = unusual_of_table(workshop.catalog, table);
    if (found.empty()) continue;
    find_places(found,
                std::filesystem::path(workshop.folder) / (std::string(spec(table).name) + ".csv"));
    all.insert(all.end(), found.begin(), found.end());
  }
  return all;
}

std::vector<NotOffered> not_offered_of(const Catalog& catalog) {
  std::vector<NotOffered> all;
  for (int k = 0; k < kind_count; ++k) {
    NotOffered kind{.kind = static_cast<Kind>(k), .ids = {}};
    for (Row row = 0; row < catalog.rows(k); ++row) {
      if (!catalog.rows_of(table("offers"), {kind.kind, row}).empty()) continue;
      if (++kind.parts <= most_ids) kind.ids.emplace_back(catalog.id({kind.kind, row}));
    }
    if (kind.parts > 0) all.push_back(std::move(kind));
  }
  return all;
}

}  // namespace

std::string_view name_of_method(int method) { return methods[static_cast<std::size_t>(method)]; }

Result<CatalogState> check_catalog(const Workshop& workshop, const CheckOptions& options) {
  const Catalog& catalog = workshop.catalog;
  std::optional<PriceBook> prices;
  if (options.brief != nullptr) {
    auto made = PriceBook::make(catalog, *options.brief);
    if (!made) return tl::unexpected(made.error());
    prices = std::move(*made);
  }
  CatalogState state{.folder = workshop.folder,
                     .brief = options.brief != nullptr ? options.brief->file : std::string(),
                     .parts = catalog.part_count(),
                     .tables = {},
                     .skipped = workshop.skipped.count(),
                     .look_up = what_to_look_up({.catalog = catalog,
                                                 .rules = planning_rules(),
                                                 .brief = options.brief,
                                                 .prices = prices ? &*prices : nullptr},
                                                options.job),
                     .columns = {},
                     .unusual = unusual_of(workshop),
                     .not_offered = not_offered_of(catalog)};
  for (int table = 0; table < schema::table_count; ++table)
    state.tables.push_back(state_of(catalog, table));
  state.columns = columns_of(catalog, state.look_up);
  return state;
}

std::string where_to_find(const CellWorth& cell) {
  if (cell.row == no_row)
    return "no row at all in " + std::string(spec(int{cell.column.table}).name) +
           ".csv; in the maker's drawings or lists";
  struct Place {
    std::string_view unit, place;
  };
  // Where makers' pages usually say it (common practice, no source).
  static constexpr std::array places = {Place{"mm", "dimensions and clearance"},
                                        Place{"W", "power"},
                                        Place{"A", "electrical data"},
                                        Place{"MT/s", "memory"},
                                        Place{"GiB", "memory"},
                                        Place{"GB", "capacity"},
                                        Place{"m3/h", "fan data"},
                                        Place{"Pa", "fan data"},
                                        Place{"rpm", "fan data"},
                                        Place{"GB/s", "memory"},
                                        Place{"l", "dimensions"},
                                        Place{"Hz", "screen"}};
  const auto at = std::ranges::find(places, unit_of(spec(cell.column).name), &Place::unit);
  if (cell.column.table >= kind_count && cell.part.row == no_row)
    return "to be measured or estimated for the row";
  return at == places.end() ? "in the maker's specifications"
                            : "on the maker's page under " + std::string(at->place);
}

}  // namespace rigproof::app
