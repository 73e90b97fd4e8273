#include "app/edit_table.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/overlay.hpp"
#include "base/text.hpp"
#include "catalog/csv.hpp"

namespace rigproof::app {
namespace {

// A record of the file with the bytes it takes; blank lines before it are nobody's.
struct Span {
  std::size_t line = 0;
  std::size_t begin = 0, end = 0;
  std::vector<std::string> cells;
};

struct Scanned {
  std::vector<Span> records;
  char separator = ',';
  std::string_view line_end = "\n";
};

// The first byte after the byte order mark and lines of nothing but blanks.
std::size_t after_blank_lines(std::string_view bytes, std::size_t at) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  if (at == 0 && bytes.starts_with(mark)) at = mark.size();
  while (true) {
    const std::size_t end = bytes.find_first_not_of(" \t\r", at);
    if (end == std::string_view::npos || bytes[end] != '\n') return at;
    at = end + 1;
  }
}

Scanned scan(std::string_view bytes, const std::string& file, Complaints& complaints) {
  Scanned out;
  CsvReader reader(bytes, file, complaints);
  std::vector<CsvCell> cells;
  std::size_t before = 0;
  while (reader.next(cells)) {
    Span span{.line = reader.line(),
              .begin = after_blank_lines(bytes, before),
              .end = reader.offset(),
              .cells = {}};
    for (const CsvCell& cell : cells) span.cells.emplace_back(cell.text);
    out.records.push_back(std::move(span));
    before = reader.offset();
  }
  out.separator = reader.decimal_comma() ? ';' : ',';
  const std::size_t first_end = bytes.find('\n');
  if (first_end != std::string_view::npos && first_end > 0 && bytes[first_end - 1] == '\r')
    out.line_end = "\r\n";
  return out;
}

// Quoted where the grammar asks for it, for either separator.
std::string written_cell(std::string_view text) {
  std::string out = csv_cell(text);
  if (text.find(';') != std::string_view::npos && !out.starts_with('"'))
    return fmt::format("\"{}\"", out);
  return out;
}

std::string written_row(const std::vector<std::string>& cells, const Scanned& file) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) out += file.separator;
    out += written_cell(cells[i]);
  }
  return out + std::string(file.line_end);
}

Result<void> check_columns(const RowEdit& edit, int table) {
  std::vector<std::string_view> known;
  for (const ColumnSpec& column : spec(table).columns) known.push_back(column.name);
  for (const auto& [column, text] : edit.cells) {
    if (std::ranges::find(known, column) == known.end()) {
      const auto near = nearest(column, known);
      return bad_input(fmt::format("{}: {} has no such column{}", excerpt(column), spec(table).name,
                                   near ? fmt::format("; did you mean {}?", *near) : ""));
    }
    if (text.size() > max_cell_bytes)
      return bad_input(fmt::format("{}: a cell holds at most {} bytes", column, max_cell_bytes));
    if (std::ranges::any_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x20; }))
      return bad_input(fmt::format("{}: a cell is one line without control characters", column));
  }
  return {};
}

}  // namespace

tl::expected<TableText, Complaints> read_table_text(std::string_view bytes,
                                                    const std::string& file) {
  Complaints complaints;
  Scanned scanned = scan(bytes, file, complaints);
  if (!complaints.empty()) return tl::unexpected(std::move(complaints));
  TableText out;
  if (scanned.records.empty()) return out;
  out.columns = std::move(scanned.records.front().cells);
  for (std::size_t i = 1; i < scanned.records.size(); ++i)
    out.rows.push_back({scanned.records[i].line, std::move(scanned.records[i].cells)});
  return out;
}

Result<std::string> edited_table(std::string_view bytes, int table,
                                 const std::vector<RowEdit>& edits) {
  Complaints complaints;
  Scanned file = scan(bytes, std::string(spec(table).name) + ".csv", complaints);
  if (!complaints.empty()) return bad_input(complaints.report());
  std::vector<std::string> header;
  if (file.records.empty())
    for (const ColumnSpec& column : spec(table).columns) header.emplace_back(column.name);
  else
    header = file.records.front().cells;
  const std::size_t columns_before = header.size();

  std::map<std::size_t, const RowEdit*> by_line;
  for (const RowEdit& edit : edits) {
    if (const auto known = check_columns(edit, table); !known) return tl::unexpected(known.error());
    for (const auto& [column, text] : edit.cells)
      if (std::ranges::find(header, column) == header.end()) header.push_back(column);
    if (edit.line == 0) continue;
    const auto at = std::ranges::lower_bound(file.records, edit.line, {}, &Span::line);
    if (at == file.records.end() || at == file.records.begin() || at->line != edit.line)
      return bad_input(fmt::format("line {}: no row begins there", edit.line));
    if (!by_line.emplace(edit.line, &edit).second)
      return bad_input(fmt::format("line {}: edited twice", edit.line));
  }
  const bool wider = header.size() > columns_before;

  const auto put = [&](std::vector<std::string> cells, const RowEdit& edit) {
    if (cells.size() < header.size()) cells.resize(header.size());
    for (const auto& [column, text] : edit.cells)
      cells[static_cast<std::size_t>(std::ranges::find(header, column) - header.begin())] = text;
    return written_row(cells, file);
  };
  std::string out;
  std::size_t taken = 0;  // bytes of the file that were dealt with
  for (std::size_t i = 0; i < file.records.size(); ++i) {
    const Span& row = file.records[i];
    const std::string_view as_it_is = bytes.substr(row.begin, row.end - row.begin);
    out += bytes.substr(taken, row.begin - taken);
    taken = row.end;
    const auto edit = i == 0 ? by_line.end() : by_line.find(row.line);
    if (edit == by_line.end() && !wider) {
      out += as_it_is;
    } else if (edit == by_line.end() || !edit->second->remove) {
      out += i == 0 ? written_row(header, file)
                    : put(row.cells, edit == by_line.end() ? RowEdit{} : *edit->second);
      if (!as_it_is.ends_with('\n')) out.resize(out.size() - file.line_end.size());
    }
  }
  out += bytes.substr(taken);
  if (file.records.empty()) out += written_row(header, file);
  for (const RowEdit& edit : edits) {
    if (edit.line != 0 || edit.remove) continue;
    if (!out.ends_with('\n')) out += file.line_end;
    out += put({}, edit);
  }
  return out;
}

std::filesystem::path file_of(const std::filesystem::path& folder, int table) {
  return folder / (std::string(spec(table).name) + ".csv");
}

Result<Complaints> complaints_with(const std::filesystem::path& folder, int table,
                                   std::string_view bytes) {
  auto loaded = load_with(folder, {{.path = file_of(folder, table), .bytes = std::string(bytes)}});
  if (!loaded) return tl::unexpected(loaded.error());
  return *loaded ? Complaints() : std::move(loaded->error());
}

}  // namespace rigproof::app
