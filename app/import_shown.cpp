// What `import` prints: for people, and docs/schema/import.schema.json.
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/import_table.hpp"
#include "base/units.hpp"
#include "sheet/text_layout.hpp"

namespace rigproof::app {
namespace {

using Json = nlohmann::ordered_json;
using sheet::Ink;
using sheet::TextPage;

constexpr std::size_t most_rows = 50;
constexpr std::size_t most_names = 10;

std::string shown_cell(const ColumnSpec& column, const std::string& text) {
  if (text.empty()) return "unknown";
  const bool number = column.type == Type::number || column.type == Type::count;
  const std::string_view unit = number ? unit_of(column.name) : "";
  return fmt::format("{}{}{}", text, unit.empty() ? "" : " ", unit);
}

std::string rows_word(std::size_t count) { return count == 1 ? "row" : "rows"; }

void add_rows(TextPage& page, const ImportPlan& plan, const std::vector<RowChange>& rows,
              std::string_view head) {
  if (rows.empty()) return;
  page.blank();
  page.line(0, fmt::format("{} ({})", head, rows.size()), Ink::strong);
  for (std::size_t i = 0; i < std::min(most_rows, rows.size()); ++i) {
    const RowChange& row = rows[i];
    page.line(2, fmt::format("{}  (line {})", row.key, row.line));
    for (const CellChange& cell : row.cells) {
      const ColumnSpec& column = spec(plan.table).columns[cell.column];
      if (row.row == no_row && static_cast<int>(cell.column) < spec(plan.table).key_columns)
        continue;  // the key says it
      page.labelled(6, column.name, 34,
                    row.row == no_row ? shown_cell(column, cell.new_text)
                                      : fmt::format("{} -> {}", shown_cell(column, cell.old_text),
                                                    shown_cell(column, cell.new_text)));
    }
  }
  if (rows.size() > most_rows)
    page.line(2, fmt::format("and {} more; --json lists all", rows.size() - most_rows));
}

void add_end(TextPage& page, const Imported& imported) {
  page.blank();
  if (imported.plan.empty()) {
    page.line(0, "Nothing to write: the catalog says all of this already.");
    return;
  }
  page.paragraph(0, fmt::format("{} {} with source \"{}\" of {}.",
                                imported.written ? "Written:"
                                                 : "Preview; nothing is "
                                                   "written without --write. "
                                                   "It would change",
                                fmt::join(imported.files, ", "), imported.mapping.source,
                                to_string(imported.mapping.seen)));
  if (!imported.new_columns.empty())
    page.paragraph(0, fmt::format("The file gets a column it did not have: {}; every other row an "
                                  "empty cell there.",
                                  fmt::join(imported.new_columns, ", ")));
}

Json row_json(const ImportPlan& plan, const RowChange& row) {
  Json cells = Json::array();
  for (const CellChange& cell : row.cells) {
    Json one = {{"column", spec(plan.table).columns[cell.column].name}};
    if (!cell.old_text.empty()) one["old"] = cell.old_text;
    if (!cell.new_text.empty()) one["new"] = cell.new_text;
    cells.push_back(std::move(one));
  }
  Json out = {{"row", row.key}};
  if (row.line > 0) out["line"] = row.line;
  out["cells"] = std::move(cells);
  return out;
}

Json rows_json(const ImportPlan& plan, const std::vector<RowChange>& rows) {
  Json out = Json::array();
  for (const RowChange& row : rows) out.push_back(row_json(plan, row));
  return out;
}

}  // namespace

std::string import_text(const Imported& imported, const Catalog& catalog, int width, bool color) {
  const ImportPlan& plan = imported.plan;
  TextPage page(color, width);
  page.paragraph(
      0, fmt::format("{} {} for {}.csv of {} ({} {} there): {} new, {} changed, {} unchanged{}{}.",
                     plan.rows, rows_word(plan.rows), spec(plan.table).name, imported.catalog,
                     catalog.rows(plan.table), rows_word(catalog.rows(plan.table)),
                     plan.added.size(), plan.changed.size(), plan.unchanged,
                     plan.left_out == 0 ? "" : fmt::format(", {} bad and left out", plan.left_out),
                     plan.unmatched.empty()
                         ? ""
                         : fmt::format(", {} of no part here", plan.unmatched.size())));
  add_rows(page, plan, plan.changed, imported.written ? "CHANGED" : "WOULD CHANGE");
  add_rows(page, plan, plan.added, "NEW");
  if (!plan.unmatched.empty()) {
    page.blank();
    page.line(0, fmt::format("OF NO PART IN THE CATALOG ({})", plan.unmatched.size()), Ink::strong);
    for (std::size_t i = 0; i < std::min(most_names, plan.unmatched.size()); ++i)
      page.line(2, plan.unmatched[i]);
    if (plan.unmatched.size() > most_names)
      page.line(2, fmt::format("and {} more", plan.unmatched.size() - most_names));
  }
  add_end(page, imported);
  return page.take();
}

std::string import_json(const Imported& imported) {
  const ImportPlan& plan = imported.plan;
  Json out = {{"schema", "rigproof.import/1"},       {"catalog", imported.catalog},
              {"table", spec(plan.table).name},      {"pasted", imported.options.pasted},
              {"mapping", imported.options.mapping}, {"rows", plan.rows},
              {"written", imported.written}};
  out["new"] = rows_json(plan, plan.added);
  out["changed"] = rows_json(plan, plan.changed);
  out["unchanged"] = plan.unchanged;
  out["left_out"] = plan.left_out;
  out["unmatched"] = plan.unmatched;
  out["new_columns"] = imported.new_columns;
  out["provenance"] = {{"source", imported.mapping.source},
                       {"seen", to_string(imported.mapping.seen)},
                       {"method", imported.mapping.method},
                       {"new", rows_json(imported.provenance, imported.provenance.added)},
                       {"changed", rows_json(imported.provenance, imported.provenance.changed)}};
  out["files"] = imported.files;
  return out.dump(2) + "\n";
}

}  // namespace rigproof::app
