#include "server/forms.hpp"

#include <cmath>
#include <nlohmann/json.hpp>
#include <span>

#include "base/units.hpp"
#include "catalog/brief_keys.hpp"
#include "catalog/mapping_keys.hpp"
#include "catalog/schema.hpp"
#include "catalog/split_bars.hpp"

namespace rigproof::server {
namespace {

using Json = nlohmann::ordered_json;

Json words_json(std::string_view bars) {
  Json out = Json::array();
  for (const std::string_view word : split_bars(bars)) out.push_back(word);
  return out;
}

Json column_json(const ColumnSpec& column) {
  Json out = {{"name", column.name},
              {"type", name_of(column.type)},
              {"required", column.required},
              {"meaning", column.meaning}};
  if (column.type == Type::number || column.type == Type::count) {
    out["unit"] = unit_of(column.name);
    out["min"] = column.min;
    out["max"] = column.max;
    if (column.tolerance > 0.0) out["tolerance"] = column.tolerance;
    if (column.tolerance_frac > 0.0) out["tolerance_frac"] = column.tolerance_frac;
    if (!std::isnan(column.class_low)) {
      out["class_low"] = column.class_low;
      out["class_high"] = column.class_high;
    }
  }
  if (!column.choices.empty()) out["choices"] = words_json(column.choices);
  if (!column.refers.empty()) out["refers"] = column.refers;
  return out;
}

Json tables_json() {
  Json out = Json::array();
  for (int t = 0; t < schema::table_count; ++t) {
    const TableSpec& table = spec(t);
    Json columns = Json::array();
    for (const ColumnSpec& column : table.columns) columns.push_back(column_json(column));
    out.push_back({{"name", table.name},
                   {"meaning", table.meaning},
                   {"kind", t < kind_count},
                   {"key_columns", table.key_columns},
                   {"columns", columns}});
  }
  return out;
}

Json keys_json(std::span<const SectionSpec> sections, std::span<const KeySpec> keys) {
  Json out = {{"sections", Json::array()}, {"keys", Json::array()}};
  for (const SectionSpec& section : sections)
    out["sections"].push_back(
        {{"name", section.name}, {"written", section.written}, {"meaning", section.meaning}});
  for (const KeySpec& key : keys) {
    Json json = {{"section", key.section},
                 {"name", key.name},
                 {"type", name_of(key.type)},
                 {"required", key.required},
                 {"meaning", key.meaning}};
    if (!key.unit.empty()) json["unit"] = key.unit;
    if (key.min != 0.0 || key.max != 0.0) {
      json["min"] = key.min;
      json["max"] = key.max;
      json["more_than_min"] = key.more_than_min;
    }
    if (!key.choices.empty()) json["choices"] = words_json(key.choices);
    if (!key.if_absent.empty()) json["if_absent"] = key.if_absent;
    out["keys"].push_back(std::move(json));
  }
  return out;
}

}  // namespace

std::string forms_json() {
  const Json out = {{"schema", "rigproof.forms/1"},
                    {"tables", tables_json()},
                    {"brief", keys_json(keys::brief_sections, keys::brief_keys)},
                    {"build", keys_json(keys::build_sections, keys::build_keys)},
                    {"mapping", keys_json(keys::mapping_sections, keys::mapping_keys)}};
  return out.dump();
}

}  // namespace rigproof::server
