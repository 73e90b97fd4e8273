// Cells of a catalog's table changed by hand: the file rewritten around them, the whole catalog
// checked as it would be, and written when asked.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "app/workshop.hpp"

namespace rigproof::app {

/// One row as it is in the file.
struct TableRow {
  std::size_t line = 0;  ///< of its first character, from 1
  std::vector<std::string> cells;
};

/// A table's file as text: what is edited is what stands there, not what was understood of it.
struct TableText {
  std::vector<std::string> columns;  ///< of the header, in the file's order
  std::vector<TableRow> rows;
};

/// Cells of one row. A row that is added (line 0) goes to the end; columns that the file does not
/// have are put at the end of the header.
struct RowEdit {
  std::size_t line = 0;
  std::map<std::string, std::string> cells;
  bool remove = false;
};

/// Errors: bad_input with what is no CSV.
[[nodiscard]] tl::expected<TableText, Complaints> read_table_text(std::string_view bytes,
                                                                  const std::string& file);

/// The file's bytes with the edits made. Rows that are not edited stay byte for byte, and so do a
/// byte order mark, blank lines and a last line without its end; edited rows are written anew in
/// the file's own order, separator and line ends. Linear in the file, but for a logarithm of its
/// rows for each edit. In: bytes that read_table_text takes; empty for a table that has no file
/// yet. Errors: bad_input, naming the line or column: no row begins there, a row edited twice, a
/// column the schema does not know, a cell that is too long, of several lines or with control
/// characters.
[[nodiscard]] Result<std::string> edited_table(std::string_view bytes, int table,
                                               const std::vector<RowEdit>& edits);

/// Whether the whole folder would load with these bytes as the file of this table: what is wrong
/// then, with the lines of the file as it would be. No bytes: without this table. Errors: io.
[[nodiscard]] Result<Complaints> complaints_with(const std::filesystem::path& folder, int table,
                                                 std::string_view bytes);

/// FOLDER/TABLE.csv.
[[nodiscard]] std::filesystem::path file_of(const std::filesystem::path& folder, int table);

}  // namespace rigproof::app
