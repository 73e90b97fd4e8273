#include "catalog/key_page.hpp"

#include <fmt/format.h>

namespace rigproof {
namespace {

std::string_view words_for(KeyType type) {
  switch (type) {
    case KeyType::text:
      return "string, one line";
    case KeyType::choice:
      return "string";
    case KeyType::choices:
      return "list of strings";
    case KeyType::number:
      return "number";
    case KeyType::whole:
      return "whole number";
    case KeyType::flag:
      return "true or false";
    case KeyType::date:
      return "date, `2026-10-01`";
    case KeyType::money:
      return "string, exact amount";
    case KeyType::rate:
      return "string, exact fraction";
    case KeyType::market:
      return "string, two capital letters";
    case KeyType::currency:
      return "string, three capital letters";
    case KeyType::resolution:
      return "string, `\"3840x2160\"`";
    case KeyType::title:
      return "string, id of a title";
    case KeyType::part:
      return "string, id of a part";
    case KeyType::parts:
      return "id, or list of ids and of `{ id, count }`";
    case KeyType::mount:
      return "string, name of a place";
  }
  return {};
}

std::string bounds_cell(const KeySpec& spec) {
  if (!spec.choices.empty()) return choices_text(spec.choices);
  if (spec.type == KeyType::money) return spec.more_than_min ? "more than 0" : "at least 0";
  return bounds_text(spec);
}

std::string key_row(const KeySpec& spec) {
  const std::string absent = spec.required ? "must be there" : std::string(spec.if_absent);
  return fmt::format("| `{}` | {} | {} | {} | {} | {} |\n", spec.name, words_for(spec.type),
                     spec.unit, bounds_cell(spec), absent, spec.meaning);
}

}  // namespace

std::string key_tables(std::span<const SectionSpec> sections, std::span<const KeySpec> all) {
  std::string out;
  for (const SectionSpec& section : sections) {
    out += fmt::format("### `{}`\n\n{}\n\n", section.written, section.meaning);
    std::string rows;
    for (const KeySpec& spec : all)
      if (spec.section == section.name) rows += key_row(spec);
    if (!rows.empty())
      out +=
          "| key | type | unit | bounds | when absent | meaning |\n| --- | --- | --- | --- | --- | "
          "--- |\n" +
          rows + '\n';
  }
  return out;
}

}  // namespace rigproof
