// The schema: every table and column there is, and how code names a column.
//
//   constexpr ColumnId length = column("gpu", "length_mm");   // a misspelling does not compile
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "catalog/schema/market.hpp"
#include "catalog/schema/parts.hpp"
#include "catalog/schema/relations.hpp"
#include "catalog/schema/spec.hpp"

namespace rigproof {

/// The kinds of part, in the order of their tables in `schema::tables`. The PC case is `chassis` in
/// identifiers and `case` in files.
enum class Kind : std::uint8_t {
  cpu,
  board,
  memory,
  gpu,
  storage,
  cooler,
  chassis,
  psu,
  fan,
  display,
  other
};
inline constexpr int kind_count = 11;
/// What a machine cannot run without (common practice, no source); a card where the processor has
/// no graphics is another question.
inline constexpr std::array needed_kinds = {
    Kind::cpu, Kind::board, Kind::memory, Kind::storage, Kind::cooler, Kind::chassis, Kind::psu};

namespace schema {

inline constexpr std::array tables = {
    TableSpec{"cpu", "processors", cpu_columns, 1},
    TableSpec{"board", "mainboards", board_columns, 1},
    TableSpec{"memory", "memory kits as sold", memory_columns, 1},
    TableSpec{"gpu", "graphics cards", gpu_columns, 1},
    TableSpec{"storage", "drives", storage_columns, 1},
    TableSpec{"cooler", "processor coolers", cooler_columns, 1},
    TableSpec{"case", "cases", case_columns, 1},
    TableSpec{"psu", "supplies", psu_columns, 1},
    TableSpec{"fan", "case fans", fan_columns, 1},
    TableSpec{"display", "displays", display_columns, 1},
    TableSpec{"other", "brackets, hubs, adapters, paste, licences", other_columns, 1},
    TableSpec{"board_m2", "drive sockets of a board, one by one", board_m2_columns, 2},
    TableSpec{"board_slots", "card slots of a board, one by one", board_slots_columns, 2},
    TableSpec{"board_headers", "fan, light and USB headers of a board", board_headers_columns, 2},
    TableSpec{"board_firmware", "firmware of a board, in the order it came out",
              board_firmware_columns, 2},
    TableSpec{"cpu_support", "processors on a board's list and the firmware each needs",
              cpu_support_columns, 2},
    TableSpec{"cooler_sockets", "processor sockets a cooler fits with what is in its box",
              cooler_sockets_columns, 2},
    TableSpec{"gpu_inputs", "auxiliary power inputs of a card", gpu_inputs_columns, 2},
    TableSpec{"gpu_peaks", "how high a card's power goes for how short a time", gpu_peaks_columns,
              2},
    TableSpec{"fan_points", "flow and pressure of a fan as measured, from one point to the next",
              fan_points_columns, 2},
    TableSpec{"noise_points", "level of a part as measured, with its distance and its load",
              noise_points_columns, 2},
    TableSpec{"gpu_outputs", "display outputs of a card", gpu_outputs_columns, 2},
    TableSpec{"display_inputs", "display links a display takes", display_inputs_columns, 2},
    TableSpec{"psu_cables", "plugs a supply offers", psu_cables_columns, 2},
    TableSpec{"case_mounts", "places for fans and radiators in a case", case_mounts_columns, 2},
    TableSpec{"case_clearances", "room in a case, and what takes from it", case_clearances_columns,
              3},
    TableSpec{"case_fans", "fans a case comes with", case_fans_columns, 2},
    TableSpec{"case_ways", "how far the cables of a supply have to go in a case", case_ways_columns,
              2},
    TableSpec{"part_headers", "what a part plugs into beside its main place", part_headers_columns,
              2},
    TableSpec{"other_mounts", "mounting sets that are bought apart", other_mounts_columns, 3},
    TableSpec{"other_adapters", "adapters: plugs they use up and plugs they give",
              other_adapters_columns, 2},
    TableSpec{"other_cables", "plugs a cable set adds", other_cables_columns, 2},
    TableSpec{"other_hubs", "what a hub feeds", other_hubs_columns, 2},
    TableSpec{"titles", "games and programs with one preset of settings", titles_columns, 1},
    TableSpec{"sellers", "who sells", sellers_columns, 1},
    TableSpec{"offers", "prices seen", offers_columns, 5},
    TableSpec{"provenance", "where cells come from and how sure they are", provenance_columns, 3},
};
inline constexpr int table_count = static_cast<int>(tables.size());

}  // namespace schema

/// The place of a column; an unknown name does not compile.
consteval ColumnId column(std::string_view table, std::string_view name) {
  for (std::size_t t = 0; t < schema::tables.size(); ++t) {
    if (schema::tables[t].name != table) continue;
    for (std::size_t c = 0; c < schema::tables[t].columns.size(); ++c)
      if (schema::tables[t].columns[c].name == name)
        return {static_cast<std::uint8_t>(t), static_cast<std::uint8_t>(c)};
  }
  throw "no such column";  // reached only at compile time
}

/// The index of a table; an unknown name does not compile.
consteval int table(std::string_view name) {
  for (int t = 0; t < schema::table_count; ++t)
    if (schema::tables[static_cast<std::size_t>(t)].name == name) return t;
  throw "no such table";
}

[[nodiscard]] constexpr const TableSpec& spec(int table_index) {
  return schema::tables[static_cast<std::size_t>(table_index)];
}
[[nodiscard]] constexpr const ColumnSpec& spec(ColumnId id) {
  return schema::tables[id.table].columns[id.column];
}
[[nodiscard]] constexpr int table_of(Kind kind) { return static_cast<int>(kind); }
[[nodiscard]] constexpr std::string_view name_of(Kind kind) { return spec(table_of(kind)).name; }

[[nodiscard]] constexpr std::optional<int> find_table(std::string_view name) {
  for (int t = 0; t < schema::table_count; ++t)
    if (spec(t).name == name) return t;
  return {};
}
/// The table a reference column refers to; the first part table for "part". Contract: it is a
/// reference.
[[nodiscard]] constexpr int target_of(const ColumnSpec& column) {
  int t = 0;
  if (column.refers != "part")
    while (spec(t).name != column.refers) ++t;
  return t;
}
[[nodiscard]] constexpr std::optional<Kind> find_kind(std::string_view name) {
  const auto t = find_table(name);
  if (!t || *t >= kind_count) return {};
  return static_cast<Kind>(*t);
}

}  // namespace rigproof
