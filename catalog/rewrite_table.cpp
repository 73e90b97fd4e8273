#include "catalog/rewrite_table.hpp"

#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "catalog/csv.hpp"

namespace rigproof {
namespace {

constexpr std::size_t not_of_the_table = ~std::size_t{0};

bool is_decimal(Type type) { return type == Type::number || type == Type::money; }

class Rewriter {
 public:
  Rewriter(const Catalog& catalog, const ImportPlan& plan, std::string_view bytes)
      : plan_(plan), table_(spec(plan.table)), bytes_(bytes) {
    for (const RowChange& change : plan.changed)
      by_line_.emplace(catalog.line(plan.table, change.row), &change);
  }

  Rewritten run() {
    if (trim(bytes_).empty()) {
      for (std::size_t c = 0; c < table_.columns.size(); ++c) columns_.push_back(c);
      separator_ = ',';
      out_.bytes = header(0) + line_end_;
    } else {
      copy_rows();
    }
    for (const RowChange& change : plan_.added) out_.bytes += written({}, change) + line_end_;
    return std::move(out_);
  }

 private:
  void copy_rows();
  void read_header(const std::vector<CsvCell>& record);
  void find_decimal_sign();
  [[nodiscard]] std::string header(std::size_t from) const;
  [[nodiscard]] std::string written(const std::vector<CsvCell>& old, const RowChange& change) const;
  [[nodiscard]] std::string cell_text(std::size_t column, std::string text) const;

  const ImportPlan& plan_;
  const TableSpec& table_;
  std::string_view bytes_;
  std::multimap<std::size_t, const RowChange*> by_line_;
  std::vector<std::size_t> columns_;  // of the file, in its order, then the new ones
  std::size_t old_columns_ = 0;
  char separator_ = ',';
  bool decimal_comma_ = false;
  std::string line_end_ = "\n";
  Rewritten out_;
};

std::string Rewriter::header(std::size_t from) const {
  std::string out;
  for (std::size_t i = from; i < columns_.size(); ++i) {
    if (i > 0) out += separator_;
    out += table_.columns[columns_[i]].name;
  }
  return out;
}

std::string Rewriter::cell_text(std::size_t column, std::string text) const {
  if (decimal_comma_ && is_decimal(table_.columns[column].type))
    std::ranges::replace(text, '.', ',');
  if (separator_ == ';' && text.find_first_of(";\"\r\n") == std::string::npos)
    return text;  // a comma needs no quotes here
  return csv_cell(text);
}

// One record: what changed, else what stood there.
std::string Rewriter::written(const std::vector<CsvCell>& old, const RowChange& change) const {
  std::string out;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    if (i > 0) out += separator_;
    const std::size_t column = columns_[i];
    const auto cell = std::ranges::find(change.cells, column, &CellChange::column);
    if (column != not_of_the_table && cell != change.cells.end())
      out += cell_text(column, cell->new_text);
    else if (i < old.size())
      out += separator_ == ';' && old[i].text.find_first_of(";\"\r\n") == std::string_view::npos
                 ? std::string(old[i].text)
                 : csv_cell(old[i].text);
  }
  return out;
}

void Rewriter::read_header(const std::vector<CsvCell>& record) {
  for (const CsvCell& cell : record) {
    const auto at = std::ranges::find(table_.columns, trim(cell.text), &ColumnSpec::name);
    columns_.push_back(at == table_.columns.end()
                           ? not_of_the_table
                           : static_cast<std::size_t>(at - table_.columns.begin()));
  }
  old_columns_ = columns_.size();
  for (const auto* list : {&plan_.added, &plan_.changed})
    for (const RowChange& change : *list)
      for (const CellChange& cell : change.cells)
        if (!cell.new_text.empty() && std::ranges::find(columns_, cell.column) == columns_.end())
          columns_.push_back(cell.column);
  for (std::size_t i = old_columns_; i < columns_.size(); ++i)
    out_.new_columns.push_back(table_.columns[columns_[i]].name);
}

// In the semicolon dialect numbers have either sign; the file's own goes on.
void Rewriter::find_decimal_sign() {
  Complaints ignored;
  CsvReader reader(bytes_, {}, ignored);
  std::vector<CsvCell> record;
  bool first = true;
  while (reader.decimal_comma() && !decimal_comma_ && reader.next(record)) {
    for (std::size_t i = 0; !first && i < record.size() && i < columns_.size(); ++i)
      if (columns_[i] != not_of_the_table && is_decimal(table_.columns[columns_[i]].type) &&
          record[i].text.find(',') != std::string_view::npos)
        decimal_comma_ = true;
    first = false;
  }
}

void Rewriter::copy_rows() {
  Complaints ignored;  // the file was loaded: there is nothing to complain of
  CsvReader reader(bytes_, {}, ignored);
  separator_ = reader.decimal_comma() ? ';' : ',';
  std::vector<CsvCell> record;
  std::size_t from = 0;
  bool is_header = true;
  while (reader.next(record)) {
    std::string_view raw = bytes_.substr(from, reader.offset() - from);
    from = reader.offset();
    const std::string_view end = raw.ends_with("\r\n") ? "\r\n" : raw.ends_with('\n') ? "\n" : "";
    if (is_header) {
      if (!end.empty()) line_end_ = end;
      read_header(record);
      find_decimal_sign();
    }
    raw.remove_suffix(end.size());
    const auto change = is_header ? by_line_.end() : by_line_.find(reader.line());
    if (change != by_line_.end()) {
      // Blank lines before the record belong to nobody and stay.
      std::size_t start = 0;
      for (std::size_t line = raw.find('\n'); line != std::string_view::npos;
           line = raw.find('\n', start)) {
        if (!trim(raw.substr(start, line - start)).empty()) break;
        start = line + 1;
      }
      out_.bytes += raw.substr(0, start);
      out_.bytes += written(record, *change->second);
    } else {
      out_.bytes += raw;
      if (is_header)
        out_.bytes += header(old_columns_);
      else if (columns_.size() > record.size())
        out_.bytes.append(columns_.size() - record.size(), separator_);
    }
    out_.bytes += end.empty() ? line_end_ : end;
    is_header = false;
  }
  out_.bytes += bytes_.substr(from);
}

}  // namespace

Rewritten rewrite_table(const Catalog& catalog, const ImportPlan& plan, std::string_view bytes) {
  return Rewriter(catalog, plan, bytes).run();
}

}  // namespace rigproof
