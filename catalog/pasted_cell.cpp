#include "catalog/pasted_cell.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/text.hpp"

namespace rigproof {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

tl::unexpected<CellFault> wrong(std::string what, std::string expected) {
  return tl::unexpected<CellFault>(CellFault{std::move(what), std::move(expected)});
}

void replace_all(std::string& text, std::string_view old, std::string_view now) {
  if (old.empty()) return;
  for (std::size_t at = text.find(old); at != std::string::npos;
       at = text.find(old, at + now.size()))
    text.replace(at, old.size(), now);
}

std::string number_rule(char decimal, char thousands) {
  std::string out = decimal == ',' ? "digits with a decimal comma" : "digits with a decimal point";
  if (thousands == '\0') return out + " and no grouping (mapping.decimal, mapping.thousands)";
  return out + fmt::format(" and '{}' between groups of three", thousands);
}

// What pages write for a blank or an apostrophe between thousands.
std::string with_plain_signs(std::string_view text, char thousands) {
  std::string out(text);
  if (thousands == ' ')
    for (const char* blank : {"\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89"})
      replace_all(out, blank, " ");
  if (thousands == '\'') replace_all(out, "\xE2\x80\x99", "'");
  replace_all(out, "\xE2\x88\x92", "-");
  return out;
}

// Takes the unit off the end of "35.6 cm"; a number alone stays as it is.
std::string_view without_unit(std::string_view text, std::string_view unit) {
  if (unit.empty() || !text.ends_with(unit) || text.size() == unit.size()) return text;
  return trim(text.substr(0, text.size() - unit.size()));
}

Parsed<std::string> number_text(const Mapping& mapping, const ColumnMapping& how,
                                const ColumnSpec& column, std::string_view text) {
  const std::string_view unit = how.unit.empty() ? unit_of(column.name) : how.unit;
  const auto plain = plain_number(without_unit(text, unit), mapping.decimal, mapping.thousands);
  if (!plain) return tl::unexpected(plain.error());
  const auto value = parse_number(*plain);
  if (!value)
    return wrong(fmt::format("{} is not a finite number", column.name),
                 number_rule(mapping.decimal, mapping.thousands));
  // Twelve digits: what a factor adds in the last places of a double is not the source's.
  const std::string ours =
      shortest(how.unit.empty()
                   ? *value
                   : parse_number(fmt::format("{:.12g}", how.convert(*value))).value_or(*value));
  DecimalSign point(false);
  const auto checked = parse_number_cell(column, ours, point, 0);
  if (!checked) {
    CellFault fault = checked.error();
    if (!how.unit.empty())
      fault.what += fmt::format(" (read as {} {})", ours, unit_of(column.name));
    return tl::unexpected(std::move(fault));
  }
  return shortest(*checked);
}

Parsed<std::string> money_text(const Mapping& mapping, std::string_view text,
                               const std::optional<Currency>& currency) {
  if (!currency) return wrong("the amount has no currency", "a code of ISO 4217 in its column");
  const auto plain = plain_number(text, mapping.decimal, mapping.thousands);
  if (!plain) return tl::unexpected(plain.error());
  DecimalSign point(false);
  const auto minor = parse_money_cell(*plain, *currency, point, 0);
  if (!minor) return tl::unexpected(minor.error());
  return to_plain({*currency, *minor});
}

std::string_view word_for(const ColumnMapping& how, std::string_view text) {
  const auto word = how.words.find(text);
  return word == how.words.end() ? text : std::string_view(word->second);
}

// Each word by itself, as the catalog separates them.
std::string words_text(const ColumnMapping& how, std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(how.between), text.size());
    const std::string_view word = word_for(how, trim(text.substr(0, end)));
    text.remove_prefix(std::min(end + how.between.size(), text.size()));
    if (!word.empty()) out += fmt::format("{}{}", out.empty() ? "" : "|", word);
  }
  return out;
}

Parsed<std::string> text_of_type(const Mapping& mapping, const ColumnMapping& how,
                                 const ColumnSpec& column, std::string_view text,
                                 const std::optional<Currency>& currency) {
  switch (column.type) {
    case Type::number:
    case Type::count:
      return number_text(mapping, how, column, text);
    case Type::money:
      return money_text(mapping, text, currency);
    case Type::date:
      return plain_date(text, mapping.dates);
    case Type::flag: {
      const auto flag = parse_flag_cell(text);
      if (!flag) return tl::unexpected(flag.error());
      return std::string(text);
    }
    default:
      break;
  }
  std::string scratch;
  const auto word = parse_word_cell(column, text, scratch);
  if (!word) return tl::unexpected(word.error());
  return std::string(*word);
}

}  // namespace

Parsed<std::string> plain_number(std::string_view text, char decimal, char thousands) {
  const std::string signs = with_plain_signs(text, thousands);
  std::string out;
  std::size_t group = 0;  // digits since the last thousands sign
  bool grouped = false;
  bool after_decimal = false;
  const auto fault = [&] {
    return wrong("not a number as this table writes them", number_rule(decimal, thousands));
  };
  for (std::size_t i = 0; i < signs.size(); ++i) {
    const char c = signs[i];
    if (is_digit(c)) {
      out += c;
      ++group;
    } else if ((c == '-' || c == '+') && i == 0) {
      if (c == '-') out += c;
    } else if (c == decimal && !after_decimal && group > 0 && (!grouped || group == 3)) {
      out += '.';
      after_decimal = true;
    } else if (c == thousands && thousands != '\0' && !after_decimal && group > 0 &&
               (grouped ? group == 3 : group <= 3)) {
      grouped = true;
      group = 0;
    } else {
      return fault();
    }
  }
  const bool any_digit = std::ranges::any_of(out, is_digit);
  if (!any_digit || out.ends_with('.') || (grouped && !after_decimal && group != 3)) return fault();
  return out;
}

Parsed<std::string> plain_date(std::string_view text, std::string_view order) {
  std::array<int, 3> numbers{};
  std::array<std::size_t, 3> digits{};
  std::size_t at = 0;
  bool good = order.size() == 3;
  for (std::size_t n = 0; n < 3 && good; ++n) {
    const char* begin = text.data() + at;
    const auto [end, error] = std::from_chars(begin, text.data() + text.size(), numbers[n]);
    digits[n] = static_cast<std::size_t>(end - begin);
    good = error == std::errc{} && is_digit(*begin) && digits[n] <= 4;
    at += digits[n];
    if (!good || n == 2) break;
    good = at < text.size() && std::string_view("-./").find(text[at]) != std::string_view::npos;
    ++at;
  }
  if (good && at == text.size()) {
    std::array<int, 3> ymd{};
    bool long_year = true;
    for (std::size_t n = 0; n < 3; ++n) {
      ymd[std::string_view("ymd").find(order[n])] = numbers[n];
      if (order[n] == 'y') long_year = digits[n] == 4;
    }
    if (const auto date = make_date(ymd[0], ymd[1], ymd[2]); date && long_year)
      return to_string(*date);
  }
  return wrong("not a date as this table writes them",
               order == "ymd"   ? "year, month, day such as 2026-10-01 (mapping.dates)"
               : order == "dmy" ? "day, month, year such as 01.10.2026 (mapping.dates)"
                                : "month, day, year such as 10/01/2026 (mapping.dates)");
}

std::string made_slug(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const char low = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
    if ((low >= 'a' && low <= 'z') || is_digit(low))
      out += low;
    else if (!out.empty() && out.back() != '-')
      out += '-';
    if (out.size() == 64) break;
  }
  while (out.ends_with('-')) out.pop_back();
  return out;
}

Parsed<std::string> catalog_text(const Mapping& mapping, const ColumnMapping& how,
                                 std::string_view pasted, const std::optional<Currency>& currency) {
  const ColumnSpec& column = spec(mapping.table).columns[how.column];
  std::string text(trim(pasted));
  const auto word = how.words.find(text);
  if (word != how.words.end()) {  // the catalog's own words: nothing to convert
    if (word->second.empty()) return std::string();
    Mapping plain;
    plain.table = mapping.table;
    return text_of_type(plain, {.column = how.column}, column, word->second, currency);
  }
  if (text.empty() || std::ranges::find(mapping.unknown, text) != mapping.unknown.end())
    return std::string();
  replace_all(text, how.remove, "");
  text = std::string(trim(text));
  if (text.empty()) return text;
  if (how.make_slug) text = made_slug(text);
  if (column.type == Type::tokens) text = words_text(how, text);
  if (text.empty()) return text;
  return text_of_type(mapping, how, column, text, currency);
}

}  // namespace rigproof
