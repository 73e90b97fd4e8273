#include "catalog/parse_cell.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/date.hpp"
#include "base/text.hpp"
#include "base/units.hpp"
#include "catalog/countries.hpp"

namespace rigproof {
namespace {

tl::unexpected<CellFault> wrong(std::string what, std::string expected) {
  return tl::unexpected<CellFault>(CellFault{std::move(what), std::move(expected)});
}

std::string with_hint(std::string expected, std::string_view word,
                      const std::vector<std::string_view>& candidates) {
  if (const auto near = nearest(word, candidates))
    expected += fmt::format(" (did you mean \"{}\"?)", *near);
  return expected;
}

bool is_choice(std::string_view choices, std::string_view word) {
  for (std::size_t at = 0; at <= choices.size();) {
    const std::size_t bar = std::min(choices.find('|', at), choices.size());
    if (choices.substr(at, bar - at) == word) return true;
    at = bar + 1;
  }
  return false;
}

tl::unexpected<CellFault> not_a_choice(const ColumnSpec& column, std::string_view word) {
  const auto choices = split_bars(column.choices);
  return wrong(fmt::format("{} has no such choice", column.name),
               with_hint(fmt::format("one of {}", fmt::join(choices, ", ")), word, choices));
}

Parsed<std::string_view> parse_token(const ColumnSpec& column, std::string_view text) {
  if (!column.choices.empty() && !is_choice(column.choices, text))
    return not_a_choice(column, text);
  if (text.find_first_of("|\n\r\t") != std::string_view::npos)
    return wrong(fmt::format("{} is not a single word", column.name),
                 "one word, without '|' or line ends");
  return text;
}

Parsed<std::string_view> parse_tokens(const ColumnSpec& column, std::string_view text,
                                      std::string& scratch) {
  scratch.clear();
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t bar = std::min(text.find('|', at), text.size());
    const std::string_view token = trim(text.substr(at, bar - at));
    at = bar + 1;
    if (token.empty())
      return wrong(fmt::format("{} has an empty word", column.name),
                   "words with one '|' between two");
    if (!column.choices.empty() && !is_choice(column.choices, token))
      return not_a_choice(column, token);
    if (token.find_first_of("\n\r\t") != std::string_view::npos)
      return wrong(fmt::format("{} has a word with a tab or line end", column.name),
                   "single words");
    if (is_choice(scratch, token) && !scratch.empty())
      return wrong(fmt::format("{} names \"{}\" twice", column.name, token), "each word once");
    if (!scratch.empty()) scratch += '|';
    scratch += token;
  }
  return std::string_view(scratch);
}

Parsed<std::string_view> parse_market(const ColumnSpec& column, std::string_view text) {
  if (is_country(text)) return text;
  std::string expected = "a country code of ISO 3166-1 alpha-2, such as IE";
  if (text == "UK") expected = "GB, the code of the United Kingdom";
  if (text == "EL") expected = "GR, the code of Greece";
  std::string upper(text);
  std::ranges::transform(upper, upper.begin(), [](char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c;
  });
  if (upper != text && is_country(upper)) expected = upper + ", in capital letters";
  return wrong(fmt::format("{} is not a known market", column.name), std::move(expected));
}

}  // namespace

std::string range_text(const ColumnSpec& column) {
  const std::string_view unit = unit_of(column.name);
  return fmt::format("{} to {}{}{}", shortest(column.min), shortest(column.max),
                     unit.empty() ? "" : " ", unit);
}

Parsed<std::string_view> DecimalSign::to_point(std::string_view text, std::size_t line) {
  const std::size_t comma = text.find(',');
  const bool point = text.find('.') != std::string_view::npos;
  if (comma == std::string_view::npos && !point) return text;
  if (comma != std::string_view::npos && point)
    return wrong("the number has both a comma and a point", "one decimal sign and no grouping");
  if (comma != std::string_view::npos && !comma_allowed_)
    return wrong("the number has a comma, and commas separate the cells of this file",
                 "a decimal point");
  const char sign = point ? '.' : ',';
  if (sign_ == '\0') {
    sign_ = sign;
    line_ = line;
  }
  if (sign != sign_)
    return wrong(
        fmt::format("the number has a decimal {}, but line {} of this file has a decimal {}",
                    point ? "point" : "comma", line_, point ? "comma" : "point"),
        "one decimal sign in a file");
  if (point || text.size() > buffer_.size())
    return text;  // too long for a number: refused as it is
  std::ranges::copy(text, buffer_.begin());
  buffer_[comma] = '.';
  return std::string_view(buffer_.data(), text.size());
}

Parsed<double> parse_number_cell(const ColumnSpec& column, std::string_view text, DecimalSign& sign,
                                 std::size_t line) {
  const auto plain = sign.to_point(text, line);
  if (!plain) return tl::unexpected(plain.error());
  const auto value = parse_number(*plain);
  if (!value) {
    const std::string_view unit = unit_of(column.name);
    return wrong(fmt::format("{} is not a finite number", column.name),
                 unit.empty() ? "digits with one decimal sign"
                              : fmt::format("a number of {}, written without its unit", unit));
  }
  if (!(*value >= column.min && *value <= column.max)) {
    const bool negative = *value < 0.0 && column.min >= 0.0;
    return wrong(fmt::format("{} {}", column.name,
                             negative              ? "is negative"
                             : *value < column.min ? "is too small"
                                                   : "is too large"),
                 range_text(column));
  }
  if (column.type == Type::count && *value != std::floor(*value))
    return wrong(fmt::format("{} is not whole", column.name),
                 "a whole number, " + range_text(column));
  return *value + 0.0;  // -0 becomes 0
}

Parsed<double> parse_flag_cell(std::string_view text) {
  if (text == "yes") return 1.0;
  if (text == "no") return 0.0;
  return wrong("not an answer", "yes or no");
}

Parsed<double> parse_date_cell(std::string_view text) {
  if (const auto date = parse_date(text)) return static_cast<double>(date->days);
  return wrong("not a date", "a day of the years 1900 to 2199, as YYYY-MM-DD");
}

Parsed<std::int64_t> parse_money_cell(std::string_view text, const Currency& currency,
                                      DecimalSign& sign, std::size_t line) {
  const auto plain = sign.to_point(text, line);
  if (!plain) return tl::unexpected(plain.error());
  const auto money = parse_money(*plain, currency);
  if (!money) {
    const std::string& message = money.error().message;
    const std::size_t colon = message.find(": ");  // "what: expected what was expected"
    std::string expected = colon == std::string::npos ? "" : message.substr(colon + 2);
    if (expected.starts_with("expected ")) expected.erase(0, 9);
    return wrong(message.substr(0, colon), std::move(expected));
  }
  if (money->minor < 0 || plain->starts_with('-'))
    return wrong("the amount is negative", fmt::format("0 {} or more", currency.view()));
  return money->minor;
}

Parsed<std::string_view> parse_word_cell(const ColumnSpec& column, std::string_view text,
                                         std::string& scratch) {
  switch (column.type) {
    case Type::slug:
      if (is_slug(text)) return text;
      return wrong(fmt::format("{} is not a slug", column.name),
                   "lower-case letters, digits and single hyphens between them, at most 64");
    case Type::token:
      return parse_token(column, text);
    case Type::tokens:
      return parse_tokens(column, text, scratch);
    case Type::currency:
      if (parse_currency(text)) return text;
      return wrong(fmt::format("{} is not a known currency", column.name),
                   "a code of ISO 4217, such as EUR");
    case Type::market:
      return parse_market(column, text);
    default:
      return text;
  }
}

}  // namespace rigproof
