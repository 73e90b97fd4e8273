#include "catalog/schema_doc.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "base/units.hpp"
#include "catalog/parse_cell.hpp"
#include "catalog/schema.hpp"

namespace rigproof {
namespace {

using Json = nlohmann::ordered_json;

// As the page says it: what code calls a token is a word to a reader.
std::string_view type_name(Type type) {
  return type == Type::token ? "word" : type == Type::tokens ? "words" : name_of(type);
}

bool is_numeric(const ColumnSpec& column) {
  return column.type == Type::number || column.type == Type::count;
}

std::string joined_choices(const ColumnSpec& column) {
  std::string out;
  for (const std::string_view choice : split_bars(column.choices))
    out += fmt::format("{}`{}`", out.empty() ? "" : ", ", choice);
  return out;
}

std::string allowed(const ColumnSpec& column) {
  if (is_numeric(column))
    return fmt::format("{} to {}", shortest(column.min), shortest(column.max));
  if (column.type == Type::reference && column.refers == "part") return "id of any part";
  if (column.type == Type::reference) return fmt::format("id in `{}.csv`", column.refers);
  return joined_choices(column);
}

std::string tolerance(const ColumnSpec& column) {
  if (column.tolerance > 0.0) return "±" + shortest(column.tolerance);
  if (column.tolerance_frac > 0.0) return fmt::format("±{} of it", shortest(column.tolerance_frac));
  return {};
}

std::string class_range(const ColumnSpec& column) {
  if (std::isnan(column.class_low)) return {};
  return fmt::format("{} to {}", shortest(column.class_low), shortest(column.class_high));
}

std::string usual_range(const ColumnSpec& column) {
  if (!column.has_usual_range()) return {};
  return fmt::format("{} to {}", shortest(column.usual_from()), shortest(column.usual_to()));
}

void table_section(std::string& out, const TableSpec& table) {
  out += fmt::format("\n## `{}.csv`: {}\n\n", table.name, table.meaning);
  out += "A row is named by";
  for (int c = 0; c < table.key_columns; ++c)
    out +=
        fmt::format("{} `{}`", c == 0 ? "" : ",", table.columns[static_cast<std::size_t>(c)].name);
  out +=
      ".\n\n| column | type | unit | needed | allowed | tolerance | class range | usual range | "
      "meaning |\n";
  out += "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
  for (const ColumnSpec& column : table.columns)
    out += fmt::format("| `{}` | {} | {} | {} | {} | {} | {} | {} | {} |\n", column.name,
                       type_name(column.type), is_numeric(column) ? unit_of(column.name) : "",
                       column.required ? "yes" : "", allowed(column), tolerance(column),
                       class_range(column), usual_range(column), column.meaning);
}

Json string_of(const char* pattern) { return {{"type", "string"}, {"pattern", pattern}}; }

Json word_schema(const ColumnSpec& column) {
  Json word = {{"type", "string"}, {"minLength", 1}};
  if (!column.choices.empty()) word = {{"type", "string"}, {"enum", split_bars(column.choices)}};
  if (column.type == Type::token) return word;
  return {{"type", "array"}, {"items", word}, {"minItems", 1}, {"uniqueItems", true}};
}

// The shape of a value, without what the column says about it.
Json value_schema(const ColumnSpec& column) {
  switch (column.type) {
    case Type::number:
      return {{"type", "number"}, {"minimum", column.min}, {"maximum", column.max}};
    case Type::count:
      return {{"type", "integer"}, {"minimum", column.min}, {"maximum", column.max}};
    case Type::flag:
      return {{"type", "boolean"}};
    case Type::slug:
    case Type::reference: {
      Json slug = string_of("^[a-z0-9]+(-[a-z0-9]+)*$");
      slug["maxLength"] = 64;
      return slug;
    }
    case Type::money:
      return string_of("^[0-9]+([.][0-9]{1,4})?$");
    case Type::currency:
      return string_of("^[A-Z]{3}$");
    case Type::market:
      return string_of("^[A-Z]{2}$");
    case Type::date:
      return {{"type", "string"}, {"format", "date"}};
    case Type::token:
    case Type::tokens:
      return word_schema(column);
    case Type::text:
      break;
  }
  return {{"type", "string"}, {"minLength", 1}};
}

Json column_schema(const ColumnSpec& column) {
  Json out = value_schema(column);
  out["description"] = column.meaning;
  if (is_numeric(column) && !unit_of(column.name).empty()) out["x-unit"] = unit_of(column.name);
  if (!column.refers.empty()) out["x-refers"] = column.refers;
  if (column.tolerance > 0.0) out["x-tolerance"] = column.tolerance;
  if (column.tolerance_frac > 0.0) out["x-tolerance-frac"] = column.tolerance_frac;
  if (!std::isnan(column.class_low)) out["x-class-range"] = {column.class_low, column.class_high};
  if (column.has_usual_range()) out["x-usual-range"] = {column.usual_from(), column.usual_to()};
  return out;
}

Json row_schema(const TableSpec& table) {
  Json properties = Json::object();
  Json required = Json::array();
  Json key = Json::array();
  for (const ColumnSpec& column : table.columns) {
    properties[std::string(column.name)] = column_schema(column);
    if (column.required) required.push_back(column.name);
    if (key.size() < static_cast<std::size_t>(table.key_columns)) key.push_back(column.name);
  }
  return {{"type", "object"},     {"description", table.meaning},
          {"x-key", key},         {"properties", properties},
          {"required", required}, {"additionalProperties", false}};
}

}  // namespace

std::string catalog_page() {
  std::string out = R"(# The tables of a catalog

Made from the schema in the code by `rp_schema_doc docs`; do not edit by hand.

A catalog is a folder of CSV tables in UTF-8: commas, or semicolons with a decimal comma; a header row, columns
in any order, columns that are not required may be left out. An empty cell is *unknown*, never zero. Blanks around
a cell do not count, rows without any text are passed over.

No table must be there: a folder with one part table is a catalog, and a part with an id and a name is a part. What
rests on a table that is not there is unknown.

- **slug**: lower-case letters, digits and single hyphens, at most 64. Ids are unique over all part tables.
- **word**, **words**: one word of data, or several with `|` between them, each once.
- **number**, **count**: finite, in the unit of the column's name; a count is whole. One decimal sign in a file.
- **flag**: `yes` or `no`. **date**: `YYYY-MM-DD`. **market**: two capital letters of ISO 3166-1.
- **money**: exact, never negative, in the row's `currency` (ISO 4217), without grouping.
- *Tolerance* is the half-width of a cell about which `provenance.csv` says nothing more exact. *Class range* is what
  an absent cell may be (basis: common practice); without one an absent cell is just unknown.
- *Usual range* is what sold parts mostly have (common practice, no source); where none is declared the class range
  serves. A value outside it is allowed and never corrected: `rigproof check` asks for a second look, since a unit mixed
  up looks just so.
)";
  for (const TableSpec& table : schema::tables) table_section(out, table);
  return out;
}

std::string catalog_json_schema() {
  Json tables = Json::object();
  Json rows = Json::object();
  for (const TableSpec& table : schema::tables) {
    const std::string name(table.name);
    tables[name] = {{"type", "array"}, {"items", {{"$ref", "#/definitions/" + name}}}};
    rows[name] = row_schema(table);
  }
  const Json out = {{"$schema", "http://json-schema.org/draft-07/schema#"},
                    {"title", "A catalog of parts, offers and titles"},
                    {"type", "object"},
                    {"properties", tables},
                    {"additionalProperties", false},
                    {"definitions", rows}};
  return out.dump(1) + '\n';
}

}  // namespace rigproof
