// For tests only: one case of round numbers for scenes, its parts, and what must hold of each
// scene.
#pragma once

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/layout.hpp"
#include "tests/support/gap_checks.hpp"
#include "tests/support/scene.hpp"

namespace rigproof::fit_test {

using fit::Axis;
using fit::Box;
using fit::Extent;
using fit::Gap;
using test_support::TestTables;

// 450 high, 210 wide, 420 deep. Behind the bracket are 330 mm, above the board 165; what sits in
// front takes 3 mm beside its depth; the top hangs 40 mm above the board.
inline TestTables tower_tables() {
  TestTables tables;
  tables.row("case",
             {{"id", "tower"}, {"height_mm", "450"}, {"width_mm", "210"}, {"depth_mm", "420"}});
  const auto clearance = [&](const char* limits, const char* when, const char* by) {
    tables.row("case_clearances",
               {{"case", "tower"}, {"limits", limits}, {"when", when}, {"by_mm", by}});
  };
  clearance("card-length", "always", "330");
  clearance("card-length", "front", "3");
  clearance("card-height", "always", "170");
  clearance("card-thickness", "always", "60");
  clearance("cooler-height", "always", "165");
  clearance("supply-length", "always", "180");
  const auto mount = [&](const char* name, const char* face, const char* radiators,
                         const char* beyond, const char* middle) {
    tables.row("case_mounts", {{"case", "tower"},
                               {"mount", name},
                               {"face", face},
                               {"fan_sizes_mm", "120|140"},
                               {"fan_places", "3"},
                               {"radiators_mm", radiators},
                               {"depth_mm", "60"},
                               {"beyond_board_mm", beyond},
                               {"middle_from_board_mm", middle}});
  };
  mount("front", "front", "420", "", "");
  mount("top", "top", "240", "40", "100");
  tables.row("case_fans",
             {{"case", "tower"}, {"mount", "front"}, {"size_mm", "120"}, {"count", "1"}});
  return tables;
}

inline void add_parts(TestTables& tables) {
  tables.row("board", {{"id", "atx"}, {"form_factor", "ATX"}, {"upper_edge_mm", "30"}})
      .row("board", {{"id", "odd-board"}});
  tables.row("board_slots",
             {{"board", "atx"}, {"slot", "1"}, {"position", "1"}, {"length", "x16"}});
  const auto card = [&](const char* id, const char* length, const char* thickness, const char* side,
                        const char* bend) {
    tables.row("gpu", {{"id", id},
                       {"length_mm", length},
                       {"height_mm", "120"},
                       {"thickness_mm", thickness},
                       {"plug_side", side},
                       {"plug_bend_mm", bend}});
  };
  card("card", "260", "50", "none", "");
  card("long-card", "300", "50", "none", "");
  card("end-plug", "260", "50", "end", "35");
  card("top-plug", "260", "50", "top", "35");
  tables.row("gpu", {{"id", "blank-card"}, {"plug_side", "end"}});
  for (const char* plugged : {"end-plug", "top-plug"})
    tables.row("gpu_inputs", {{"gpu", plugged}, {"connector", "pcie8"}, {"count", "1"}});
  const auto loop = [&](const char* id, const char* size, const char* thickness, const char* fan,
                        const char* fan_thickness) {
    tables.row("cooler", {{"id", id},
                          {"type", "liquid"},
                          {"height_mm", "55"},
                          {"radiator_mm", size},
                          {"radiator_thickness_mm", thickness},
                          {"fan_mm", fan},
                          {"fan_thickness_mm", fan_thickness}});
  };
  loop("loop-420", "420", "27", "140", "25");  // 52 mm; the front alone takes it
  loop("loop-240", "240", "27", "120", "25");  // the top alone takes it
  loop("slim-240", "240", "20", "120", "15");  // 35 mm
  loop("blank-loop", "", "", "", "");
  loop("fanless-240", "240", "27", "", "25");  // its fans' size, and so its width, is not stated
  tables.row("cooler", {{"id", "air"}, {"type", "air"}, {"height_mm", "150"}, {"fan_mm", "120"}});
  tables.row("memory", {{"id", "low"}, {"modules", "2"}, {"height_mm", "32"}})
      .row("memory", {{"id", "middling"}, {"modules", "2"}, {"height_mm", "38"}});
  tables.row("fan", {{"id", "fan-120"}, {"size_mm", "120"}, {"thickness_mm", "25"}})
      .row("fan", {{"id", "slim-120"}, {"size_mm", "120"}, {"thickness_mm", "15"}})
      .row("fan", {{"id", "blank-fan"}, {"size_mm", "120"}});
  tables.row("psu", {{"id", "supply"}, {"form", "ATX"}, {"length_mm", "160"}});
  for (const char* table :
       {"case_mounts", "case_clearances", "board", "gpu", "cooler", "memory", "fan", "psu"})
    tables.plus_minus(table, "*", "*", 0);
}

struct Drawn {
  fit::Scene scene;
  std::vector<Claim> claims;

  [[nodiscard]] const Box& box(std::string_view name) const {
    for (const Box& box : scene.boxes)
      if (box.name == name) return box;
    throw std::out_of_range("no box " + std::string(name));
  }
  [[nodiscard]] const Gap& gap(std::string_view claim_id) const {
    for (const Gap& gap : scene.gaps)
      if (gap.claim_id == claim_id) return gap;
    throw std::out_of_range("no gap " + std::string(claim_id));
  }
};

// What holds of every scene is checked here.
inline Drawn drawn(const TestTables& tables, const std::vector<std::string>& parts,
                   const Mounts& mounts = {}) {
  test_support::Scene build(tables);
  for (const std::string& part : parts) build.take(part);
  build.setup.mounts = mounts;
  const Facts facts = build.facts();
  Drawn out{.scene = {}, .claims = all_claims(fit_rules(), facts)};
  out.scene = fit::scene_of(facts, out.claims, "test");
  fit_test::expect_true_gaps(out.scene, out.claims);
  fit_test::expect_real_numbers(out.scene);
  return out;
}
inline TestTables all_tables() {
  TestTables tables = tower_tables();
  add_parts(tables);
  return tables;
}
inline Drawn in_tower(std::vector<std::string> parts, const Mounts& mounts = {}) {
  parts.insert(parts.begin(), "tower");
  return drawn(all_tables(), parts, mounts);
}

inline const Extent& along(const Box& box, Axis axis) {
  return box.at[static_cast<std::size_t>(axis)];
}

inline void expect_at(const Box& box, Axis axis, double low_mm, double high_mm, bool placed = true,
                      bool sized = true) {
  const Extent& extent = along(box, axis);
  SCOPED_TRACE(box.name + " along axis " + std::to_string(static_cast<int>(axis)));
  EXPECT_NEAR(extent.low_mm, low_mm, 1e-9);
  EXPECT_NEAR(extent.high_mm, high_mm, 1e-9);
  EXPECT_EQ(extent.placed, placed);
  EXPECT_EQ(extent.sized, sized);
}
inline void expect_gap(const Gap& gap, Axis axis, double from_mm, double to_mm) {
  EXPECT_EQ(gap.axis, axis);
  EXPECT_NEAR(gap.from_mm, from_mm, 1e-9);
  EXPECT_NEAR(gap.to_mm, to_mm, 1e-9);
}

}  // namespace rigproof::fit_test
