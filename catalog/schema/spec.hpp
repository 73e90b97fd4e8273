// The schema's own words: what a column and a table are. Import, messages, export, documents, JSON
// Schema and forms are all derived from these records; nothing about a column is said twice.
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <string_view>

namespace rigproof {

enum class Type : std::uint8_t {
  slug,       ///< the row's own id: lower-case letters, digits, hyphens
  text,       ///< free text, UTF-8
  token,      ///< one word of data (a socket, a connector); compared for equality only
  tokens,     ///< several tokens, separated by '|'
  number,     ///< finite decimal number in the unit of the column's suffix
  count,      ///< whole number >= 0
  flag,       ///< yes or no
  money,      ///< exact amount in the currency of the row's `currency` column
  currency,   ///< ISO 4217 code
  market,     ///< ISO 3166-1 alpha-2 code
  date,       ///< ISO 8601, YYYY-MM-DD
  reference,  ///< the id of a row of table `refers` ("part": of any part table)
};

/// The words of the enum, for programs.
[[nodiscard]] constexpr std::string_view name_of(Type type) {
  constexpr std::string_view names[] = {"slug",     "text",   "token", "tokens",
                                        "number",   "count",  "flag",  "money",
                                        "currency", "market", "date",  "reference"};
  return names[static_cast<std::size_t>(type)];
}

inline constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

struct ColumnSpec {
  std::string_view name;
  Type type;
  std::string_view meaning;
  bool required = false;
  double min = 0.0;              ///< numbers only; smallest sensible value
  double max = 1e9;              ///< numbers only; largest sensible value
  double tolerance = 0.0;        ///< half-width in the column's unit; a cell is uniform over it
  double tolerance_frac = 0.0;   ///< half-width as a share of the value
  double class_low = no_number;  ///< what an absent cell may be (basis: common practice)
  double class_high = no_number;
  double usual_low = no_number;   ///< what sold parts mostly have (common practice, no source): a
  double usual_high = no_number;  ///< value outside is worth a second look and is never corrected
  std::string_view choices = {};  ///< tokens: the only ones allowed, separated by '|'; empty: any
  std::string_view refers = {};   ///< references: the table referred to

  /// The usual range, or the class range where none is declared.
  [[nodiscard]] constexpr bool has_usual_range() const {
    return usual_low == usual_low || class_low == class_low;  // not NaN
  }
  [[nodiscard]] constexpr double usual_from() const {
    return usual_low == usual_low ? usual_low : class_low;
  }
  [[nodiscard]] constexpr double usual_to() const {
    return usual_high == usual_high ? usual_high : class_high;
  }
};

struct TableSpec {
  std::string_view name;  ///< file name without .csv
  std::string_view meaning;
  std::span<const ColumnSpec> columns;
  int key_columns = 1;  ///< the first columns that together name a row
};

/// A column by its place in the schema. Made only by column() (catalog/schema.hpp).
struct ColumnId {
  std::uint8_t table = 0;
  std::uint8_t column = 0;
  friend bool operator==(const ColumnId&, const ColumnId&) = default;
};

}  // namespace rigproof
