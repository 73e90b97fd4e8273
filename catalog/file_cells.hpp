// Where cells stand in a table's file: for messages about rows that were read without a complaint.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace rigproof {

struct FileCell {
  std::size_t row_line = 0;  ///< Catalog::line of the row
  std::string_view column;   ///< its name in the schema
  std::size_t line = 0;      ///< found: of the cell, from 1; 0: not found
  std::size_t at = 0;        ///< found: in characters, from 1
};

/// Fills `line` and `at`. `cells` in order of row_line; what is not there stays 0.
void find_in_file(std::string_view bytes, std::span<FileCell> cells);

}  // namespace rigproof
