#include "catalog/measured.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "base/text.hpp"
#include "base/units.hpp"
#include "catalog/csv.hpp"
#include "catalog/parse_cell.hpp"
#include "catalog/provenance_plan.hpp"

namespace rigproof {
namespace {

enum Field { at_table, at_row, at_column, at_measured, at_plus_minus, at_seen, at_source, fields };
constexpr std::array<std::string_view, fields> field_names = {
    "table", "row", "column", "measured", "plus_minus", "seen", "source"};
constexpr std::array<std::string_view, 3> passed_over = {"part", "meaning", "now"};

bool is_numeric(const ColumnSpec& column) {
  return column.type == Type::number || column.type == Type::count;
}

// What names a row, refers to one or is money is not measured on a part.
bool can_be_measured(int table, std::size_t at) {
  const ColumnSpec& column = spec(table).columns[at];
  if (at < static_cast<std::size_t>(spec(table).key_columns)) return false;
  return is_numeric(column) || column.type == Type::flag || column.type == Type::token ||
         column.type == Type::tokens;
}

// The nearest word, or what else was expected.
std::string perhaps(std::string_view word, std::span<const std::string_view> candidates,
                    std::string otherwise) {
  const auto near = nearest(word, candidates);
  return near ? fmt::format("\"{}\" perhaps", *near) : std::move(otherwise);
}

class MeasuredReader {
 public:
  MeasuredReader(const Catalog& catalog, const TableFile& file, Complaints& complaints)
      : catalog_(catalog),
        file_(file),
        complaints_(complaints),
        reader_(file.bytes, file.name, complaints),
        sign_(reader_.decimal_comma()) {
    at_.fill(none);
  }

  std::vector<MeasuredCell> run() {
    if (!reader_.next(record_)) {
      if (complaints_.empty())
        complain(1, 0, {"there is nothing in the file", "a line of headers"}, "");
      return {};
    }
    sign_ = DecimalSign(reader_.decimal_comma());
    if (!read_header()) return {};
    while (reader_.next(record_)) read_line();
    return std::move(cells_);
  }

 private:
  static constexpr std::size_t none = ~std::size_t{0};

  bool complain(std::size_t line, std::size_t column, const CellFault& fault,
                std::string_view text) {
    complaints_.add({.file = file_.name,
                     .line = line,
                     .column = column,
                     .what = fault.what,
                     .expected = fault.expected,
                     .text = excerpt(trim(text))});
    return false;
  }
  bool complain(Field field, const CellFault& fault) {
    const CsvCell& cell = record_[at_[field]];
    return complain(cell.line, cell.column, fault, cell.text);
  }
  [[nodiscard]] std::string_view text(Field field) const {
    return at_[field] == none ? std::string_view{} : trim(record_[at_[field]].text);
  }

  bool read_header() {
    bool good = true;
    width_ = record_.size();
    for (std::size_t c = 0; c < width_; ++c) {
      const std::string_view name = trim(record_[c].text);
      const auto known = std::ranges::find(field_names, name);
      if (known != field_names.end()) {
        std::size_t& at = at_[static_cast<std::size_t>(known - field_names.begin())];
        if (at != none)
          good = complain(record_[c].line, record_[c].column, {"the column is there twice", "once"},
                          name);
        at = c;
      } else if (std::ranges::find(passed_over, name) == passed_over.end()) {
        good = complain(
            record_[c].line, record_[c].column,
            {"there is no such column",
             perhaps(name, field_names, fmt::format("some of {}", fmt::join(field_names, ", ")))},
            name);
      }
    }
    for (const Field field : {at_table, at_row, at_column, at_measured})
      if (at_[field] == none)
        good = complain(1, 0,
                        {fmt::format("the column {} is missing", field_names[field]),
                         fmt::format("{}", fmt::join(field_names, ","))},
                        "");
    return good;
  }

  void read_line() {
    if (record_.size() != width_) {
      complain(reader_.line(), 0,
               {fmt::format("the line has {} cells", record_.size()),
                fmt::format("{}, as the line of headers has", width_)},
               record_[0].text);
      return;
    }
    if (text(at_measured).empty()) return;
    MeasuredCell out;
    if (!find_place(out) || !read_value(out) || !read_rest(out)) return;
    const ColumnId column = out.cell.column;
    if (!seen_.insert(std::tuple(column.table, column.column, out.cell.row)).second) {
      complain(at_row, {"this cell was measured in a line before", "each cell once"});
      return;
    }
    cells_.push_back(std::move(out));
  }

  bool find_place(MeasuredCell& out) {
    const auto found = find_table(text(at_table));
    if (!found) {
      std::array<std::string_view, schema::tables.size()> names;
      std::ranges::transform(schema::tables, names.begin(), &TableSpec::name);
      return complain(at_table,
                      {"there is no such table",
                       perhaps(text(at_table), names, "a table of the catalog (docs/catalog.md)")});
    }
    const int table = *found;
    const auto& columns = spec(table).columns;
    const auto at = std::ranges::find(columns, text(at_column), &ColumnSpec::name);
    if (at == columns.end()) {
      std::vector<std::string_view> names(columns.size());
      std::ranges::transform(columns, names.begin(), &ColumnSpec::name);
      return complain(
          at_column, {fmt::format("{} has no such column", spec(table).name),
                      perhaps(text(at_column), names, "a column of that table (docs/catalog.md)")});
    }
    const auto place = static_cast<std::size_t>(at - columns.begin());
    if (!can_be_measured(table, place))
      return complain(at_column, {"this column is not measured on a part",
                                  "a number, a word or yes and no that is no key"});
    const Rows& rows = rows_of(table);
    const auto row = rows.find(text(at_row));
    if (row == rows.end()) {
      std::vector<std::string_view> keys;
      keys.reserve(rows.size());
      for (const auto& [key, unused] : rows) keys.push_back(key);
      return complain(at_row, {fmt::format("{}.csv has no such row", spec(table).name),
                               perhaps(text(at_row), keys, "one of its row keys")});
    }
    out.cell = {{static_cast<std::uint8_t>(table), static_cast<std::uint8_t>(place)}, row->second};
    out.row_key = row->first;
    return true;
  }

  bool read_value(MeasuredCell& out) {
    const ColumnSpec& column = spec(out.cell.column);
    const std::string_view value = text(at_measured);
    if (is_numeric(column)) {
      const auto number = parse_number_cell(column, value, sign_, reader_.line());
      if (!number) return complain(at_measured, number.error());
      out.text = shortest(*number);
    } else if (column.type == Type::flag) {
      const auto flag = parse_flag_cell(value);
      if (!flag) return complain(at_measured, flag.error());
      out.text = *flag != 0.0 ? "yes" : "no";
    } else {
      std::string scratch;
      const auto word = parse_word_cell(column, value, scratch);
      if (!word) return complain(at_measured, word.error());
      out.text = std::string(*word);
    }
    return true;
  }

  bool read_rest(MeasuredCell& out) {
    const ColumnSpec& column = spec(out.cell.column);
    const std::string_view half_width = text(at_plus_minus);
    if (!half_width.empty()) {
      if (!is_numeric(column))
        return complain(at_plus_minus, {"a word has no half-width", "an empty cell"});
      const auto number = parse_number_cell(spec(rigproof::column("provenance", "plus_minus")),
                                            half_width, sign_, reader_.line());
      if (!number) return complain(at_plus_minus, number.error());
      out.plus_minus = shortest(*number);
    } else if (column.type == Type::number && unit_of(column.name) == "mm") {
      out.plus_minus = shortest(read_to_mm);
    } else if (is_numeric(column)) {  // not what provenance.csv says of the value it replaces
      out.plus_minus =
          shortest(std::max(column.tolerance, column.tolerance_frac *
                                                  std::fabs(parse_number(out.text).value_or(0.0))));
    }
    if (!text(at_seen).empty()) {
      const auto date = parse_date_cell(text(at_seen));
      if (!date) return complain(at_seen, date.error());
      out.seen = std::string(text(at_seen));
    }
    out.source = text(at_source).empty() ? fmt::format("measured, {}", file_.name)
                                         : std::string(text(at_source));
    return true;
  }

  using Rows = std::map<std::string, Row, std::less<>>;
  const Rows& rows_of(int table) {
    const auto [at, fresh] = rows_.try_emplace(table);
    if (fresh)
      for (Row row = 0; row < catalog_.rows(table); ++row)
        at->second.emplace(catalog_.row_key(table, row), row);
    return at->second;
  }

  const Catalog& catalog_;
  const TableFile& file_;
  Complaints& complaints_;
  CsvReader reader_;
  DecimalSign sign_;
  std::vector<CsvCell> record_;
  std::size_t width_ = 0;
  std::array<std::size_t, fields> at_{};
  std::map<int, Rows> rows_;
  std::set<std::tuple<std::uint8_t, std::uint8_t, Row>> seen_;
  std::vector<MeasuredCell> cells_;
};

}  // namespace

std::vector<MeasuredCell> read_measured(const Catalog& catalog, const TableFile& file,
                                        Complaints& complaints) {
  return MeasuredReader(catalog, file, complaints).run();
}

bool is_filled_in(const TableFile& file) {
  Complaints complaints;
  CsvReader reader(file.bytes, file.name, complaints);
  std::vector<CsvCell> cells;
  if (!reader.next(cells)) return !file.bytes.empty();
  const auto at = std::ranges::find(cells, field_names[at_measured],
                                    [](const CsvCell& cell) { return trim(cell.text); });
  if (at == cells.end()) return true;
  const auto column = static_cast<std::size_t>(at - cells.begin());
  while (reader.next(cells))
    if (column >= cells.size() || !trim(cells[column].text).empty()) return true;
  return !complaints.empty();
}

std::vector<ImportPlan> plans_of(const Catalog& catalog, const std::vector<MeasuredCell>& cells) {
  std::map<int, std::map<Row, RowChange>> changes;
  ProvenancePlan provenance(catalog);
  for (const MeasuredCell& measured : cells) {
    const int table = measured.cell.column.table;
    provenance.add(table, {.row = measured.row_key,
                           .column = std::string(spec(measured.cell.column).name),
                           .source = measured.source,
                           .seen = measured.seen,
                           .method = "measured",
                           .plus_minus = measured.plus_minus});
    std::string old = catalog.text(measured.cell.column, measured.cell.row);
    if (old == measured.text) continue;
    RowChange& change = changes[table][measured.cell.row];
    change.row = measured.cell.row;
    change.key = measured.row_key;
    change.cells.push_back({.column = measured.cell.column.column,
                            .old_text = std::move(old),
                            .new_text = measured.text});
  }
  std::vector<ImportPlan> plans;
  for (auto& [table, rows] : changes) {
    ImportPlan plan;
    plan.table = table;
    for (auto& [row, change] : rows) plan.changed.push_back(std::move(change));
    plans.push_back(std::move(plan));
  }
  ImportPlan last = provenance.take();
  if (!last.empty()) plans.push_back(std::move(last));
  return plans;
}

}  // namespace rigproof
