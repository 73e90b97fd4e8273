// What the rules share whose verdict depends on where radiator and fans sit.
//
// Where these sit is chosen with card, memory, board, drives and cooler in view (mounting.hpp), so
// each such rule depends on all of them. A part more can only leave fewer ways to seat the rest:
// the planner may ask each rule early (Rule::burdens), because a build in which no way is admitted
// without a part has none with it.
#pragma once

#include <algorithm>
#include <array>
#include <vector>

#include "analysis/fit/room.hpp"
#include "claims/rule.hpp"

namespace rigproof::fit {

/// Rule::family of those that decide where things sit.
inline constexpr std::string_view seat_family = "where radiator and fans sit";
inline constexpr std::array seat_kinds = {Kind::board,  Kind::memory,  Kind::gpu, Kind::storage,
                                          Kind::cooler, Kind::chassis, Kind::fan};
/// Moving air and the supply's room hang on the seats too, but settle the choice only among ways
/// that all these admit, in this order: more fans are better for air, not worse, and each supply
/// would be a case of its own for every rule.
inline constexpr std::array supply_seat_kinds = {Kind::board,   Kind::memory, Kind::gpu,
                                                 Kind::storage, Kind::cooler, Kind::chassis,
                                                 Kind::psu,     Kind::fan};

/// Those of seat_family, in the rulebook's order; of these a part more never admits more.
[[nodiscard]] const std::vector<const Rule*>& seat_rules();

/// The kinds but the firm ones, in the order in which a planner does well to add them.
template <Kind... firm>
inline constexpr auto burdens_beside = [] {
  constexpr std::array order = {Kind::fan,   Kind::cooler, Kind::memory,
                                Kind::board, Kind::gpu,    Kind::storage};
  constexpr auto is_firm = [](Kind kind) { return ((kind == firm) || ...); };
  std::array<Kind, order.size() - static_cast<std::size_t>(std::ranges::count_if(order, is_firm))>
      out{};
  std::ranges::copy_if(order, out.begin(), [&](Kind kind) { return !is_firm(kind); });
  return out;
}();

/// Every cell that any of them reads.
inline constexpr auto seat_cells = [] {
  constexpr std::array own = {column("gpu", "length_mm"),
                              column("gpu", "height_mm"),
                              column("gpu", "thickness_mm"),
                              column("gpu", "plug_side"),
                              column("gpu", "plug_bend_mm"),
                              column("gpu_inputs", "connector"),
                              column("gpu_inputs", "count"),
                              column("cooler", "height_mm"),
                              column("cooler", "fan_mm"),
                              column("cooler", "above_socket_mm"),
                              column("cooler", "tube_mm"),
                              column("cooler", "fans"),
                              column("memory", "height_mm"),
                              column("board", "upper_edge_mm"),
                              column("board", "socket_from_edge_mm"),
                              column("case_mounts", "face"),
                              column("case_mounts", "beyond_board_mm"),
                              column("case_mounts", "middle_from_board_mm"),
                              column("case_mounts", "tube_way_mm"),
                              column("case_mounts", "end_above_socket_mm")};
  std::array<ColumnId, room_cells.size() + own.size()> all{};
  std::ranges::copy(room_cells, std::ranges::copy(own, all.begin()).out);
  return all;
}();

inline constexpr auto supply_seat_cells = [] {
  std::array<ColumnId, seat_cells.size() + 2> all{column("psu", "length_mm"),
                                                  column("psu", "cable_bend_mm")};
  std::ranges::copy(seat_cells, all.begin() + 2);
  return all;
}();

/// They are chosen by what the brief admits.
inline constexpr std::array<std::string_view, 1> seat_brief_keys = {"accept"};

}  // namespace rigproof::fit
