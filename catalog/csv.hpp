// CSV, RFC 4180, as spreadsheets of several countries write it. Knows nothing of the schema.
//
// Dialect, found from the header line: comma; or semicolon, then a decimal comma is allowed in numbers.
// A UTF-8 byte order mark, CRLF and a missing last line end are accepted. Limits: a cell 64 KiB,
// a line 1 MiB; longer ones are complaints, their rows are dropped, reading goes on.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/complaints.hpp"

namespace rigproof {

inline constexpr std::size_t max_cell_bytes = 64 * 1024;
inline constexpr std::size_t max_line_bytes = 1024 * 1024;

struct CsvCell {
  std::string_view text;     ///< unquoted, quotes undoubled; into the file's bytes or the reader's own buffer
  std::uint32_t column = 1;  ///< from 1, in characters, of the cell's first character in its line
};

/// Pull reader: one record at a time, no copy of cells without doubled quotes.
class CsvReader {
 public:
  CsvReader(std::string_view bytes, std::string file, Complaints& complaints);
  /// False at the end. Records that break the grammar are complained of and passed over.
  bool next(std::vector<CsvCell>& cells);
  [[nodiscard]] std::size_t line() const;       ///< line of the record's first character, from 1
  [[nodiscard]] bool decimal_comma() const;     ///< semicolon dialect

 private:
  std::string_view bytes_;
  std::string file_;
  Complaints* complaints_;
  // the author of csv.cpp decides the rest
};

/// A cell quoted where RFC 4180 asks for it.
[[nodiscard]] std::string csv_cell(std::string_view text);

}  // namespace rigproof
