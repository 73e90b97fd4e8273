// For tests only: random cases and parts in which card, memory, supply, cooler and fans compete for
// the same mounts. Needs tests/support/scene.hpp.
#pragma once

#include <algorithm>
#include <array>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/scene.hpp"

namespace rigproof::fit_test {

class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  int between(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1));
  }

 private:
  std::mt19937 engine_;
};

/// One length more or less than the dice said: by name, such as "card length" or "m0 depth".
struct Nudge {
  std::string what;
  int by_mm = 0;
};

inline constexpr std::array crowded_limits = {"card-length", "card-height", "cooler-height",
                                              "supply-length", "supply-and-cables"};

/// Parts `box` (mounts m0, m1...), `card`, `kit`, `board`, `drive`, `supply`, `loop`, `tower`,
/// `fan`. The same dice give the same tables, but for the nudge. `lengths` gets the name of every
/// length.
inline test_support::TestTables crowded_tables(Dice& dice, int mounts, const Nudge& nudge = {},
                                               std::vector<std::string>* lengths = nullptr) {
  const auto mm = [&](const std::string& name, int low, int high, int step = 1) {
    if (lengths != nullptr) lengths->push_back(name);
    const int drawn = step * dice.between(low, high);
    return std::to_string(nudge.what == name ? std::max(0, drawn + nudge.by_mm) : drawn);
  };
  test_support::TestTables tables;
  tables.row("case", {{"id", "box"}});
  constexpr std::array room_mm = {320, 150, 165, 180, 220};
  for (std::size_t i = 0; i < crowded_limits.size(); ++i)
    tables.row("case_clearances",
               {{"case", "box"},
                {"limits", crowded_limits[i]},
                {"when", "always"},
                {"by_mm", mm(std::string("room ") + crowded_limits[i], room_mm[i], room_mm[i])}});
  tables.row("case_fans", {{"case", "box"}, {"mount", "m0"}, {"size_mm", "120"}, {"count", "1"}});
  for (int m = 0; m < mounts; ++m) {
    const std::string name = "m" + std::to_string(m);
    tables.row("case_mounts",
               {{"case", "box"},
                {"mount", name},
                {"face", dice.between(0, 1) == 0 ? "top" : "front"},
                {"fan_sizes_mm", "120"},
                {"fan_places", std::to_string(dice.between(1, 3))},
                {"radiators_mm", dice.between(0, 3) == 0 ? "none" : "240|360"},
                {"depth_mm", mm(name + " depth", 4, 7, 10)},
                {"beyond_board_mm", mm(name + " beyond", 2, 6, 10)},
                {"middle_from_board_mm", mm(name + " middle", 7, 11, 10)},
                {"tube_way_mm",
                 dice.between(0, 1) == 0 ? mm(name + " tube way", 30, 40, 10) : std::string()},
                {"end_above_socket_mm",
                 dice.between(0, 2) == 0 ? mm(name + " end above", 0, 2, 10) : std::string()}});
    for (const char* limit : crowded_limits)
      if (dice.between(0, 2) == 0)
        tables.row("case_clearances", {{"case", "box"},
                                       {"limits", limit},
                                       {"when", name},
                                       {"by_mm", mm(name + " takes " + limit, 0, 4)}});
  }
  for (const char* limit : {"card-length", "supply-length"})
    if (dice.between(0, 2) == 0)
      tables.row("case_clearances", {{"case", "box"},
                                     {"limits", limit},
                                     {"when", "bay-3.5"},
                                     {"by_mm", mm(std::string("cage takes ") + limit, 0, 30)}});
  tables.row("storage", {{"id", "drive"}, {"mounting", "bay-3.5"}});
  tables.row("gpu", {{"id", "card"},
                     {"length_mm", mm("card length", 250, 320)},
                     {"height_mm", mm("card height", 100, 150)},
                     {"plug_side", "none"}});
  tables.row("memory", {{"id", "kit"}, {"modules", "2"}, {"height_mm", mm("memory", 30, 60)}});
  tables.row("board", {{"id", "board"},
                       {"upper_edge_mm", mm("edge", 20, 50)},
                       {"socket_from_edge_mm", mm("socket edge", 60, 90)}});
  tables.row("psu", {{"id", "supply"},
                     {"length_mm", mm("supply", 130, 180)},
                     {"cable_bend_mm", mm("supply bend", 30, 50)}});
  tables.row("cooler", {{"id", "loop"},
                        {"type", "liquid"},
                        {"height_mm", mm("cooler", 50, 160)},
                        {"radiator_mm", "360"},
                        {"radiator_thickness_mm", mm("radiator", 27, 27)},
                        {"fan_thickness_mm", mm("its fans", 25, 25)},
                        {"fan_mm", "120"},
                        {"tube_mm", mm("tube", 320, 380)},
                        {"fans", dice.between(0, 3) == 0 ? "" : "3"}});
  tables.row("cooler", {{"id", "tower"},
                        {"type", "air"},
                        {"height_mm", "150"},
                        {"above_socket_mm", mm("tower above", 55, 75)},
                        {"fans", "1"}});
  tables.row("fan", {{"id", "fan"},
                     {"size_mm", "120"},
                     {"thickness_mm", dice.between(0, 3) == 0 ? "" : mm("added fan", 25, 25)}});
  for (const char* table :
       {"case_mounts", "case_clearances", "gpu", "cooler", "psu", "fan", "memory", "board"})
    if (dice.between(0, 1) == 0) tables.plus_minus(table, "*", "*", dice.between(0, 3));
  return tables;
}

}  // namespace rigproof::fit_test
