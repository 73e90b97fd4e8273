// One pasted cell: from what another table wrote to what the catalog would write.
#pragma once

#include <string>
#include <string_view>

#include "catalog/mapping.hpp"
#include "catalog/parse_cell.hpp"

namespace rigproof {

/// The number with a point and without grouping: `1.234,5` -> `1234.5` under decimal comma and
/// point between thousands. Groups have three digits, the first one to three; anything else is a
/// fault, never a guess.
[[nodiscard]] Parsed<std::string> plain_number(std::string_view text, char decimal, char thousands);

/// Day of a date in the given order ("ymd", "dmy", "mdy"), as YYYY-MM-DD.
[[nodiscard]] Parsed<std::string> plain_date(std::string_view text, std::string_view order);

/// Small ASCII letters and digits, a hyphen for every run of anything else, at most 64.
[[nodiscard]] std::string made_slug(std::string_view text);

/// The cell as the catalog's own text of its column; "" when it says nothing. `currency`: of the
/// row, for amounts. References are words here; whether they lead somewhere the caller checks.
[[nodiscard]] Parsed<std::string> catalog_text(const Mapping& mapping, const ColumnMapping& column,
                                               std::string_view pasted,
                                               const std::optional<Currency>& currency);

}  // namespace rigproof
