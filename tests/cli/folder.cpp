#include "folder.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace rigproof::cli_test {
namespace fs = std::filesystem;

std::vector<std::string> Folder::names(std::string_view inside) const {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(path() / inside))
    names.push_back(entry.path().filename().string());
  std::ranges::sort(names);
  return names;
}

Table table_of(std::string_view csv) {
  Table table;
  Row row;
  std::string cell;
  bool quoted = false;
  for (std::size_t i = 0; i < csv.size(); ++i) {
    const char c = csv[i];
    if (quoted) {
      if (c != '"')
        cell += c;
      else if (i + 1 < csv.size() && csv[i + 1] == '"')
        cell += csv[++i];
      else
        quoted = false;
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',' || c == '\n') {
      row.push_back(cell);
      cell.clear();
      if (c == '\n') table.push_back(std::exchange(row, {}));
    } else if (c != '\r') {
      cell += c;
    }
  }
  return table;
}

std::string csv_of(const Table& table, char separator, std::string_view line_end) {
  std::string out;
  for (const Row& row : table) {
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (c > 0) out += separator;
      const std::string& cell = row[c];
      if (cell.find_first_of("\"\n,;") == std::string::npos) {
        out += cell;
        continue;
      }
      out += '"';
      for (const char letter : cell) out += letter == '"' ? "\"\"" : std::string(1, letter);
      out += '"';
    }
    out += line_end;
  }
  return out;
}

std::size_t column_of(const Table& table, std::string_view name) {
  const auto at = std::ranges::find(table.at(0), name);
  if (at == table[0].end()) throw std::runtime_error("no column " + std::string(name));
  return static_cast<std::size_t>(at - table[0].begin());
}

void copy_demo(const fs::path& to,
               const std::function<std::string(const std::string&, const std::string&)>& change) {
  fs::create_directories(to);
  for (const auto& entry : fs::directory_iterator(demo_catalog)) {
    std::string bytes = bytes_of(entry.path());
    if (change) bytes = change(entry.path().stem().string(), bytes);
    write_bytes(to / entry.path().filename(), bytes);
  }
}

std::string changed(std::string text, std::string_view old, std::string_view now) {
  const std::size_t at = text.find(old);
  EXPECT_NE(at, std::string::npos) << old;
  EXPECT_EQ(text.find(old, at + 1), std::string::npos) << old << " stands there twice";
  return at == std::string::npos ? text : text.replace(at, old.size(), now);
}

int line_of(std::string_view text, std::string_view start) {
  int line = 1;
  for (std::size_t at = 0; at < text.size(); ++line) {
    if (text.substr(at).starts_with(start)) return line;
    const std::size_t end = text.find('\n', at);
    if (end == std::string_view::npos) break;
    at = end + 1;
  }
  ADD_FAILURE() << "no line begins with " << start;
  return 0;
}

}  // namespace rigproof::cli_test
