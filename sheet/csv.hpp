// The sheet's tables as CSV: RFC 4180 (comma, CRLF, quotes doubled), UTF-8, one header line, units
// in the column names, empty cells for what does not exist.
//
// Safe from formula injection: a cell that starts with = + - @ tab or CR is prefixed with ' unless
// the whole cell is a plain number, because spreadsheets run such cells as formulas. A program that
// reads the files back takes one leading ' off a text cell that continues with one of these.
// Source: [owasp-csv-injection].
#pragma once

#include <string>
#include <string_view>

#include "sheet/model.hpp"

namespace rigproof::sheet {

/// Nearest to failing first; numbers are the shortest that read back the same.
[[nodiscard]] std::string claims_csv(const Sheet& sheet);
/// In order of place, with the runner-up of each.
[[nodiscard]] std::string parts_csv(const Sheet& sheet);
/// One row a market and part; money in major units beside its currency.
[[nodiscard]] std::string prices_csv(const Sheet& sheet);

/// One cell, made safe as above and quoted where RFC 4180 asks for it.
[[nodiscard]] std::string csv_cell(std::string_view text);

}  // namespace rigproof::sheet
