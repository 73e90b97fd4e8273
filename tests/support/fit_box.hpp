// For tests only: one case of round numbers that the fit tests share.
#pragma once

#include "tests/support/scene.hpp"

namespace rigproof::fit_test {

using test_support::TestTables;

/// Case `box`: front (three places of 120 mm, one taken by its own fan; what sits there shortens
/// the card), top (three free places), rear (one place, taken). Every length is exact.
inline TestTables box_tables() {
  TestTables tables;
  tables.row("case", {{"id", "box"}, {"volume_l", "40"}, {"card_slots", "7"}});
  const auto mount = [&](const char* name, const char* face, const char* sizes, const char* places,
                         const char* radiators, const char* depth, const char* beyond = "") {
    tables.row("case_mounts", {{"case", "box"},
                               {"mount", name},
                               {"face", face},
                               {"fan_sizes_mm", sizes},
                               {"fan_places", places},
                               {"radiators_mm", radiators},
                               {"depth_mm", depth},
                               {"beyond_board_mm", beyond}});
  };
  mount("front", "front", "120|140", "3", "120|240|280|360", "60");
  mount("top", "top", "120", "3", "240|360", "55", "60");
  mount("rear", "rear", "120", "1", "none", "100");
  const auto clearance = [&](const char* limits, const char* when, const char* by) {
    tables.row("case_clearances",
               {{"case", "box"}, {"limits", limits}, {"when", when}, {"by_mm", by}});
  };
  clearance("card-length", "always", "320");
  clearance("card-length", "front", "3");
  clearance("cooler-height", "always", "165");
  clearance("supply-length", "always", "180");
  const auto own_fan = [&](const char* mount_name, const char* count) {
    tables.row("case_fans",
               {{"case", "box"}, {"mount", mount_name}, {"size_mm", "120"}, {"count", count}});
  };
  own_fan("front", "1");
  own_fan("top", "0");
  own_fan("rear", "1");
  for (const char* table : {"case_mounts", "case_clearances", "gpu", "cooler", "psu", "fan"})
    tables.plus_minus(table, "*", "*", 0);
  tables.row("gpu", {{"id", "card-300"}, {"length_mm", "300"}});
  tables.row("fan", {{"id", "fan-120"}, {"size_mm", "120"}, {"thickness_mm", "25"}});
  tables.row("fan", {{"id", "fan-140"}, {"size_mm", "140"}, {"thickness_mm", "25"}});
  tables.row("cooler", {{"id", "tower"}, {"type", "air"}, {"height_mm", "160"}, {"fans", "1"}});
  tables.row("cooler", {{"id", "loop-360"},
                        {"type", "liquid"},
                        {"height_mm", "55"},
                        {"radiator_mm", "360"},
                        {"radiator_thickness_mm", "27"},
                        {"fan_thickness_mm", "25"},
                        {"fans", "3"}});
  tables.row("cooler", {{"id", "loop-280"},
                        {"type", "liquid"},
                        {"height_mm", "55"},
                        {"radiator_mm", "280"},
                        {"radiator_thickness_mm", "27"},
                        {"fan_thickness_mm", "25"},
                        {"fans", "2"}});
  return tables;
}

}  // namespace rigproof::fit_test
