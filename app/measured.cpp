#include "app/measured.hpp"

#include <algorithm>

#include "app/files.hpp"
#include "app/overlay.hpp"
#include "base/text.hpp"

namespace rigproof::app {
namespace {

// TABLE,ROW,COLUMN,VALUE as a file of one line; without a half-width its cell is empty.
std::string as_file(const std::string& line, char separator) {
  std::string header = "table,row,column,measured,plus_minus\n";
  std::ranges::replace(header, ',', separator);
  std::string out = header + line;
  if (std::ranges::count(line, separator) < 4) out += separator;
  return out + "\n";
}

// The value of such a line; empty when there are too few cells or too many.
std::string value_of(std::string_view line, char separator) {
  for (int cell = 0; cell < 3; ++cell) {
    const std::size_t end = line.find(separator);
    if (end == std::string_view::npos) return {};
    line.remove_prefix(end + 1);
  }
  if (std::ranges::count(line, separator) > 1) return {};
  return std::string(trim(line.substr(0, line.find(separator))));
}

}  // namespace

Result<MeasuredWorkshop> with_measured(const Workshop& workshop, const MeasuredInput& input) {
  if (!workshop.skipped.empty())
    return bad_input(
        "measured values are put into the catalog's tables, which have bad rows; mend these first "
        "(without --skip-bad they are errors)");
  MeasuredWorkshop out;
  Complaints complaints;
  const auto read = [&](const std::string& name, const std::string& bytes, bool typed) {
    Complaints own;
    auto cells = read_measured(
        workshop.catalog, {.name = typed ? std::string("typed in") : name, .bytes = bytes}, own);
    for (MeasuredCell& cell : cells) {
      const auto same = [&](const MeasuredCell& other) { return other.cell == cell.cell; };
      if (std::ranges::any_of(out.cells, same))
        own.add({.file = name,
                 .what = "this cell was measured before",
                 .expected = "each cell once",
                 .text = cell.row_key});
      else
        out.cells.push_back(std::move(cell));
    }
    for (Complaint complaint : own.shown()) {
      complaint.file = name;
      if (typed) complaint.line = complaint.column = 0;  // there is only one
      complaints.add(std::move(complaint));
    }
    complaints.count_unshown(own.count() - own.shown().size());
  };
  if (!input.file.empty()) {
    const auto bytes = read_input(input.file);
    if (!bytes) return tl::unexpected(bytes.error());
    read(input.file == "-" ? "standard input" : input.file, *bytes, false);
  }
  for (const std::string& line : input.lines) {
    const char separator = line.find(';') == std::string::npos ? ',' : ';';
    if (value_of(line, separator).empty())
      complaints.add({.file = "measured",
                      .what = "this is no measured cell",
                      .expected = "TABLE,ROW,COLUMN,VALUE or TABLE,ROW,COLUMN,VALUE,HALF-WIDTH",
                      .text = excerpt(line)});
    else
      read("measured " + line, as_file(line, separator), true);
  }
  if (!complaints.empty()) return bad_input(complaints.report());
  auto now = overlay(workshop, plans_of(workshop.catalog, out.cells));
  if (!now) return tl::unexpected(now.error());
  out.workshop.folder = workshop.folder;
  out.workshop.catalog = std::move(now->catalog);
  return out;
}

}  // namespace rigproof::app
