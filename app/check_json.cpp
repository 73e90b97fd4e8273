// What `check --json` prints: docs/schema/check.schema.json.
#include <nlohmann/json.hpp>

#include "app/check_catalog.hpp"
#include "base/units.hpp"

namespace rigproof::app {
namespace {

using Json = nlohmann::ordered_json;

Json table_json(const TableState& table) {
  Json methods = Json::object();
  for (int m = 0; m < method_count; ++m)
    methods[std::string(name_of_method(m))] = table.methods[static_cast<std::size_t>(m)];
  Json out = {{"table", table.name},  {"present", table.present}, {"rows", table.rows},
              {"cells", table.cells}, {"unknown", table.unknown}, {"sourced", table.sourced},
              {"methods", methods}};
  if (table.oldest) out["oldest"] = to_string(*table.oldest);
  return out;
}

Json rules_json(const LookUp& look_up) {
  Json out = Json::array();
  for (const RuleCost& rule : look_up.rules)
    out.push_back({{"rule", rule.rule->id},
                   {"grade", name_of(rule.rule->grade)},
                   {"sampled", rule.sampled},
                   {"judgements", rule.judgements},
                   {"unknown", rule.unknown},
                   {"parts_set_aside", rule.parts_set_aside}});
  return out;
}

Json cells_json(const LookUp& look_up, const CheckShown& shown) {
  Json out = Json::array();
  for (std::size_t i = 0; i < look_up.cells.size() && i < shown.top; ++i) {
    const CellWorth& cell = look_up.cells[i];
    Json rules = Json::array();
    for (const CellWorth::ByRule& by : cell.rules)
      rules.push_back({{"rule", look_up.rules[by.rule].rule->id},
                       {"settles", by.alone},
                       {"settles_with_shares", by.share}});
    out.push_back({{"table", spec(int{cell.column.table}).name},
                   {"row", row_name(shown.catalog, cell)},
                   {"column", column_name(cell)},
                   {"settles", cell.alone},
                   {"settles_with_shares", cell.share},
                   {"rules", rules},
                   {"meaning", cell.row == no_row ? spec(int{cell.column.table}).meaning
                                                  : spec(cell.column).meaning},
                   {"where", where_to_find(cell)}});
  }
  return out;
}

Json columns_json(const CatalogState& state) {
  Json out = Json::array();
  for (const ColumnState& column : state.columns)
    out.push_back({{"table", spec(int{column.column.table}).name},
                   {"column", spec(column.column).name},
                   {"cells", column.cells},
                   {"unknown", column.unknown},
                   {"settles", column.alone},
                   {"settles_with_shares", column.share},
                   {"rules", column.rules}});
  return out;
}

Json unusual_json(const CatalogState& state) {
  Json out = Json::array();
  for (const Unusual& one : state.unusual) {
    const ColumnSpec& column = spec(one.column);
    Json entry = {{"file", one.file},
                  {"line", one.line},
                  {"table", spec(int{one.column.table}).name},
                  {"row", one.row},
                  {"column", column.name},
                  {"value", one.value},
                  {"usual", {column.usual_from(), column.usual_to()}},
                  {"unit", unit_of(column.name)}};
    if (one.at > 0) entry["at"] = one.at;
    out.push_back(std::move(entry));
  }
  return out;
}

}  // namespace

std::string check_json(const CatalogState& state, const CheckShown& shown) {
  Json out = {{"schema", "rigproof.check/1"},
              {"catalog", state.folder},
              {"parts", state.parts},
              {"skipped_rows", state.skipped}};
  if (!state.brief.empty()) out["brief"] = state.brief;
  out["tables"] = Json::array();
  for (const TableState& table : state.tables) out["tables"].push_back(table_json(table));
  out["stopped"] = state.look_up.stopped;
  out["rules"] = rules_json(state.look_up);
  out["look_up"] = cells_json(state.look_up, shown);
  out["cells_that_settle"] = state.look_up.cells.size();
  out["columns"] = columns_json(state);
  out["second_look"] = unusual_json(state);
  out["not_offered"] = Json::array();
  for (const NotOffered& kind : state.not_offered)
    out["not_offered"].push_back(
        {{"kind", name_of(kind.kind)}, {"parts", kind.parts}, {"first", kind.ids}});
  return out.dump(2) + "\n";
}

}  // namespace rigproof::app
