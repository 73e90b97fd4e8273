// CSV, RFC 4180, as spreadsheets of several countries write it. Knows nothing of the schema.
//
// Dialect, found from the header line: comma; or semicolon (when it has more of those), then a
// decimal comma is allowed in numbers. A UTF-8 byte order mark, CRLF and a missing last line end
// are accepted; blank lines are passed over. Control characters (but tab) are refused, as RFC 4180
// does. Limits: a cell 64 KiB, a record 1 MiB; longer ones are complaints, their rows are dropped,
// reading goes on. Linear in the size of the input, whatever it holds. Source: [rfc-4180] section 2
// (grammar), [rfc-3629] (UTF-8).
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/complaints.hpp"

namespace rigproof {

inline constexpr std::size_t max_cell_bytes = 64 * 1024;
inline constexpr std::size_t max_line_bytes = 1024 * 1024;

struct CsvCell {
  std::string_view
      text;  ///< unquoted, quotes undoubled; into the file's bytes or the reader's own buffer
  std::uint32_t line = 1;    ///< from 1, of the cell's first character (records may span lines)
  std::uint32_t column = 1;  ///< from 1, in characters, of the cell's first character in its line
};

/// Pull reader: one record at a time, no copy of cells without doubled quotes. The bytes must
/// outlive it.
class CsvReader {
 public:
  /// Bytes that are no text (a NUL, UTF-16 by its mark) are one complaint, and there are no
  /// records. A `separator` given is not looked for; with tabs a quote inside a cell that does not
  /// begin with one is an ordinary character, as spreadsheets and pages copy it.
  CsvReader(std::string_view bytes, std::string file, Complaints& complaints,
            std::optional<char> separator = {});
  /// False at the end. Records that break the grammar are complained of and passed over: reading
  /// goes on in the line after the fault, or after the line whose quote was left open. Cells hold
  /// until the next call.
  bool next(std::vector<CsvCell>& cells);
  [[nodiscard]] std::size_t line() const {
    return record_line_;
  }  ///< of the record's first character, from 1
  [[nodiscard]] bool decimal_comma() const { return separator_ == ';'; }  ///< semicolon dialect
  /// Bytes read so far, for progress and for reserving memory.
  [[nodiscard]] std::size_t offset() const { return at_; }

 private:
  /// A byte of the input, and the line it stands in.
  struct Place {
    std::size_t offset = 0;
    std::size_t line = 1;
    std::size_t line_start = 0;  // offset of the first byte of that line
  };
  enum class Step { next_cell, end_of_record, fault };

  void begin();
  void choose_dialect();
  bool skip_blank_line();
  bool record(std::vector<CsvCell>& cells);
  Step unquoted(Place& place, std::size_t limit, CsvCell& cell);
  Step quoted(Place& place, std::size_t limit, CsvCell& cell);
  Step end_cell(Place& place, const Place& start, std::size_t limit, bool after_quote);
  Step wrong_byte(const Place& place, const Place& start);
  Step fault(const Place& place, const Place& cell, const char* what, const char* expected);
  Step fault_in_long(const Place& place, const Place& report, const char* what,
                     const char* expected);
  bool finish_non_ascii(std::vector<CsvCell>& cells, std::size_t from, std::size_t end);
  [[nodiscard]] std::string_view undouble(std::string_view raw);
  void resume_after_line(const Place& place);
  [[nodiscard]] bool is_ascii(std::size_t from, std::size_t end) const;

  std::string_view bytes_;
  std::string file_;
  Complaints* complaints_;
  std::size_t at_ = 0;         // first byte of the next record
  std::size_t next_line_ = 1;  // its line
  std::size_t record_line_ = 1;
  char separator_ = ',';
  std::array<bool, 256> plain_{};   // bytes that just belong to an unquoted cell
  std::array<bool, 256> inside_{};  // bytes that just belong to a quoted one
  std::unique_ptr<char[]> buffer_;  // undoubled cells of one record; made when first needed
  std::size_t buffer_used_ = 0;
  std::vector<Place> places_;  // of the record's cells
  std::size_t spanning_ = 0;   // 1 + index of the record's first cell that spans lines; 0: none
};

/// A cell quoted where RFC 4180 asks for it.
[[nodiscard]] std::string csv_cell(std::string_view text);

}  // namespace rigproof
