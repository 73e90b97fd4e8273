#include "decision/plan/linear_model.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace rigproof::plan {
namespace {

constexpr std::string_view objective_name = "minus_score";  // no row of a problem is called so

void write_comment(std::string& out, std::string_view comment) {
  while (!comment.empty()) {
    const auto end = std::min(comment.find('\n'), comment.size());
    fmt::format_to(std::back_inserter(out), "* {}\n", comment.substr(0, end));
    comment.remove_prefix(std::min(end + 1, comment.size()));
  }
}

void write_rows(std::string& out, const LinearModel& model) {
  fmt::format_to(std::back_inserter(out), "ROWS\n N {}\n", objective_name);
  for (const LinearModel::Row& row : model.rows)
    fmt::format_to(std::back_inserter(out), " {} {}\n",
                   row.sense == LinearModel::Sense::equal ? 'E' : 'L', row.name);
}

void write_column(std::string& out, const LinearModel& model, const LinearModel::Column& column) {
  // A column without any entry would not be in the file at all: then its objective is, zero or not.
  if (column.objective != 0.0 || column.entries.empty())
    fmt::format_to(std::back_inserter(out), " {} {} {}\n", column.name, objective_name,
                   column.objective);
  for (const auto& [row, coefficient] : column.entries)
    fmt::format_to(std::back_inserter(out), " {} {} {}\n", column.name,
                   model.rows[static_cast<std::size_t>(row)].name, coefficient);
}

// Whole columns stand between two markers as well as under the bounds: some readers heed one only.
void write_columns(std::string& out, const LinearModel& model) {
  out += "COLUMNS\n";
  bool whole = false;
  for (const LinearModel::Column& column : model.columns) {
    const bool binary = column.kind == LinearModel::Kind::binary;
    if (binary != whole)
      out += binary ? " MARKER 'MARKER' 'INTORG'\n" : " MARKER 'MARKER' 'INTEND'\n";
    whole = binary;
    write_column(out, model, column);
  }
  if (whole) out += " MARKER 'MARKER' 'INTEND'\n";
}

void write_bounds(std::string& out, const LinearModel& model) {
  out += "BOUNDS\n";
  for (const LinearModel::Column& column : model.columns)
    if (column.kind == LinearModel::Kind::binary)
      fmt::format_to(std::back_inserter(out), " BV BND {}\n", column.name);
    else if (column.kind == LinearModel::Kind::one)
      fmt::format_to(std::back_inserter(out), " FX BND {} 1\n", column.name);
}

}  // namespace

int LinearModel::add_row(std::string_view wish, Sense sense, double limit) {
  rows.push_back({.name = row_names_.take(wish), .sense = sense, .limit = limit});
  return static_cast<int>(rows.size()) - 1;
}

int LinearModel::add_column(Column column) {
  column.name = column_names_.take(column.name);
  columns.push_back(std::move(column));
  return static_cast<int>(columns.size()) - 1;
}

void LinearModel::enter(int row, int column, double coefficient) {
  auto& entries_of = columns[static_cast<std::size_t>(column)].entries;
  if (!entries_of.empty() && entries_of.back().first == row)
    entries_of.back().second += coefficient;
  else
    entries_of.emplace_back(row, coefficient);
}

std::size_t LinearModel::entries() const {
  std::size_t sum = 0;
  for (const Column& column : columns) sum += column.entries.size();
  return sum;
}

std::string mps_text(const LinearModel& model, std::string_view comment) {
  std::string out;
  write_comment(out, comment);
  fmt::format_to(std::back_inserter(out), "NAME {} FREE\n", model.name);
  write_rows(out, model);
  write_columns(out, model);
  out += "RHS\n";
  for (const LinearModel::Row& row : model.rows)
    if (row.limit != 0.0)
      fmt::format_to(std::back_inserter(out), " RHS {} {}\n", row.name, row.limit);
  write_bounds(out, model);
  out += "ENDATA\n";
  return out;
}

std::string NameBook::take(std::string_view wish) {
  constexpr std::size_t longest = 200;  // one reader stops at 255; a number may stand behind
  std::string name(wish.substr(0, longest));
  for (char& c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       c == '_' || c == '-' || c == '+' || c == '.';
    if (!plain) c = '_';
  }
  if (name.empty()) name = "_";
  std::string unique = name;
  for (int again = 2; !taken_.insert(unique).second; ++again)
    unique = fmt::format("{}.{}", name, again);
  return unique;
}

}  // namespace rigproof::plan
