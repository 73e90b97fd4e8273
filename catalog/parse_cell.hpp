// One cell: from its text to a value of its column's type, or what is wrong with it.
//
// Texts come trimmed and not empty (an empty cell is absent, which the caller handles). Private to
// catalog/.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "base/money.hpp"
#include "catalog/schema/spec.hpp"
#include "catalog/split_bars.hpp"

namespace rigproof {

struct CellFault {
  std::string what;
  std::string expected;
};

template <class T>
using Parsed = tl::expected<T, CellFault>;

/// The decimal sign of one file. In the comma dialect it is the point. In the semicolon dialect the
/// first number with a sign decides; a later one with the other sign is a fault that names the
/// first.
class DecimalSign {
 public:
  explicit DecimalSign(bool comma_allowed) : comma_allowed_(comma_allowed) {}
  /// The number with a point as its sign, in `text` itself or in a buffer that the next call
  /// overwrites.
  Parsed<std::string_view> to_point(std::string_view text, std::size_t line);

 private:
  bool comma_allowed_;
  char sign_ = '\0';  // not seen yet
  std::size_t line_ = 0;
  std::array<char, 64> buffer_{};
};

/// number, count: finite, in [min, max]; counts whole.
[[nodiscard]] Parsed<double> parse_number_cell(const ColumnSpec& column, std::string_view text,
                                               DecimalSign& sign, std::size_t line);
[[nodiscard]] Parsed<double> parse_flag_cell(std::string_view text);  ///< 1 or 0
[[nodiscard]] Parsed<double> parse_date_cell(std::string_view text);  ///< days since 1970-01-01
/// Minor units, not negative.
[[nodiscard]] Parsed<std::int64_t> parse_money_cell(std::string_view text, const Currency& currency,
                                                    DecimalSign& sign, std::size_t line);
/// slug, text, token, tokens, currency, market, reference: the word to keep, in `text` or in
/// `scratch`.
[[nodiscard]] Parsed<std::string_view> parse_word_cell(const ColumnSpec& column,
                                                       std::string_view text, std::string& scratch);

/// `50 to 500 mm`: what a number of the column may be.
[[nodiscard]] std::string range_text(const ColumnSpec& column);

}  // namespace rigproof
