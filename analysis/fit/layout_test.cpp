// Where the boxes of a scene stand, worked out by hand; every length of the tables is exact unless
// a test says so. Gaps are checked against their claims in each scene.
#include "analysis/fit/layout.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "analysis/fit/fit_rules.hpp"
#include "tests/support/gap_checks.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using fit::Axis;
using fit::Box;
using fit::Extent;
using fit::Gap;
using test_support::TestTables;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

// 450 high, 210 wide, 420 deep. Behind the bracket are 330 mm, above the board 165; what sits in
// front takes 3 mm beside its depth; the top hangs 40 mm above the board.
TestTables tower_tables() {
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

void add_parts(TestTables& tables) {
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
Drawn drawn(const TestTables& tables, const std::vector<std::string>& parts,
            const Mounts& mounts = {}) {
  test_support::Scene build(tables);
  for (const std::string& part : parts) build.take(part);
  build.mounts = mounts;
  const Facts facts = build.facts();
  Drawn out{.scene = {}, .claims = all_claims(fit_rules(), facts)};
  out.scene = fit::scene_of(facts, out.claims, "test");
  fit_test::expect_true_gaps(out.scene, out.claims);
  fit_test::expect_real_numbers(out.scene);
  return out;
}
TestTables all_tables() {
  TestTables tables = tower_tables();
  add_parts(tables);
  return tables;
}
Drawn in_tower(std::vector<std::string> parts, const Mounts& mounts = {}) {
  parts.insert(parts.begin(), "tower");
  return drawn(all_tables(), parts, mounts);
}

const Extent& along(const Box& box, Axis axis) { return box.at[static_cast<std::size_t>(axis)]; }

void expect_at(const Box& box, Axis axis, double low_mm, double high_mm, bool placed = true,
               bool sized = true) {
  const Extent& extent = along(box, axis);
  SCOPED_TRACE(box.name + " along axis " + std::to_string(static_cast<int>(axis)));
  EXPECT_NEAR(extent.low_mm, low_mm, 1e-9);
  EXPECT_NEAR(extent.high_mm, high_mm, 1e-9);
  EXPECT_EQ(extent.placed, placed);
  EXPECT_EQ(extent.sized, sized);
}
void expect_gap(const Gap& gap, Axis axis, double from_mm, double to_mm) {
  EXPECT_EQ(gap.axis, axis);
  EXPECT_NEAR(gap.from_mm, from_mm, 1e-9);
  EXPECT_NEAR(gap.to_mm, to_mm, 1e-9);
}

// The outline ends at the panel, 165 mm above the board, and is 210 wide: it begins 45 behind it.
TEST(Layout, CaseAndBoardStandByTheStatedRoom) {
  const Drawn d = in_tower({"atx"});
  EXPECT_EQ(d.scene.title, "test");
  expect_at(d.box("case"), Axis::x, 0, 420);
  expect_at(d.box("case"), Axis::y, -45, 165);
  expect_at(d.box("case"), Axis::z, 0, 450);
  // ATX: 304.8 x 243.84. The upper edge is 450 - 40 = 410 high, the lower one 105.2. Everything on
  // a board is counted from its face, y = 0: its 1.5748 mm (0.062 in) lie behind.
  expect_at(d.box("board"), Axis::x, 0, 243.84);
  expect_at(d.box("board"), Axis::y, -1.5748, 0);
  expect_at(d.box("board"), Axis::z, 105.2, 410);
}

// Slot 1 of ATX lies 163.83 - (47.29 - 45.72) = 162.26 below the edge: 410 - 162.26 = 247.74.
TEST(Layout, ACardStandsBehindItsBracketInTheFirstSlot) {
  const Drawn d = in_tower({"atx", "card"});
  expect_at(d.box("card"), Axis::x, 0, 260);
  expect_at(d.box("card"), Axis::y, 0, 120);
  expect_at(d.box("card"), Axis::z, 197.74, 247.74);
  expect_gap(d.gap("fit.card-length"), Axis::x, 260, 330);
  expect_gap(d.gap("fit.card-height"), Axis::y, 120, 170);
  // 60 mm beside a card of 50: counted from its upper side, 247.74 - 60 to 247.74 - 50.
  expect_gap(d.gap("fit.card-thickness"), Axis::z, 187.74, 197.74);
  EXPECT_THAT(d.scene.notes, Contains(HasSubstr("1.6 mm")));
}

// A slot of 20.32 mm each: the second full-length slot of this board is not looked at, the first is
// the third: 247.74 - 2 x 20.32 = 207.1.
TEST(Layout, ACardGoesIntoTheFirstFullLengthSlot) {
  TestTables tables = all_tables();
  tables.row("board", {{"id", "late"}, {"form_factor", "ATX"}})
      .row("board_slots", {{"board", "late"}, {"slot", "1"}, {"position", "1"}, {"length", "x1"}})
      .row("board_slots", {{"board", "late"}, {"slot", "2"}, {"position", "3"}, {"length", "x16"}})
      .row("board_slots", {{"board", "late"}, {"slot", "3"}, {"position", "5"}, {"length", "x16"}});
  expect_at(drawn(tables, {"tower", "late", "card"}).box("card"), Axis::z, 157.1, 207.1);
}

// The seventh slot: 247.74 - 6 x 20.32 = 125.82. A card of 130 mm would end below the bottom.
TEST(Layout, ACardThatWouldStickOutBelowIsDashed) {
  TestTables tables = all_tables();
  tables.row("board", {{"id", "last"}, {"form_factor", "ATX"}})
      .row("board_slots", {{"board", "last"}, {"slot", "1"}, {"position", "7"}, {"length", "x16"}})
      .row("gpu", {{"id", "thick"},
                   {"length_mm", "260"},
                   {"height_mm", "120"},
                   {"thickness_mm", "130"},
                   {"plug_side", "end"}});
  const Drawn d = drawn(tables, {"tower", "last", "thick"});
  expect_at(d.box("card"), Axis::z, 0, 130, false);
  EXPECT_FALSE(along(d.box("plug and bend"), Axis::z).placed);
  EXPECT_THAT(d.scene.notes, Contains(HasSubstr("The card may stand elsewhere")));
  EXPECT_THAT(d.scene.notes, Not(Contains(HasSubstr("1.6 mm"))));
}

TEST(Layout, ABoardUnderATopThatStatesNothingIsDashed) {
  TestTables tables;
  tables.row("case",
             {{"id", "plain"}, {"height_mm", "450"}, {"width_mm", "210"}, {"depth_mm", "420"}});
  add_parts(tables);
  const Drawn d = drawn(tables, {"plain", "atx", "card"});
  EXPECT_FALSE(along(d.box("board"), Axis::z).placed);
  EXPECT_TRUE(along(d.box("board"), Axis::z).sized);
  EXPECT_FALSE(along(d.box("card"), Axis::z).placed);
  EXPECT_FALSE(along(d.box("case"), Axis::y).placed);
  EXPECT_THAT(d.scene.notes, Contains(HasSubstr("below the top is not stated")));
  EXPECT_THAT(d.scene.notes, Contains(HasSubstr("side panel stands from the board")));
  EXPECT_TRUE(d.scene.gaps.empty());
}

// 330 - 3 - 52: the radiator begins at 275 and ends at 327. A card of 260 leaves the claim's 15 mm;
// one of 300 reaches 25 into it. Lengthwise 420 about the middle of 450: 15 to 435; 140 wide about
// the middle of 165.
TEST(Layout, AFrontRadiatorLeavesTheClaimsMargin) {
  const Drawn d = in_tower({"atx", "card", "loop-420"});
  const Box& radiator = d.box("radiator 420");
  expect_at(radiator, Axis::x, 275, 327);
  expect_at(radiator, Axis::y, 12.5, 152.5, false);
  expect_at(radiator, Axis::z, 15, 435, false);
  EXPECT_EQ(radiator.part_id, "loop-420");
  expect_gap(d.gap("fit.card-length"), Axis::x, 260, 275);
  EXPECT_EQ(d.gap("fit.card-length").margin_mm, 15);
  // The radiator takes the place of the case's own fan.
  EXPECT_THROW((void)d.box("fan 120"), std::out_of_range);

  const Drawn tight = in_tower({"atx", "long-card", "loop-420"});
  expect_gap(tight.gap("fit.card-length"), Axis::x, 300, 275);
  EXPECT_EQ(tight.gap("fit.card-length").verdict, Verdict::fails);
  EXPECT_EQ(tight.scene.gaps.front().claim_id, "fit.card-length");
}

// A front that has no row of its own takes nothing from the card (T4): it is not drawn in its room.
TEST(Layout, AFrontThatTakesNoRoomIsNotDrawnInIt) {
  TestTables tables;
  tables.row("case", {{"id", "deep"}, {"depth_mm", "500"}})
      .row("case_clearances",
           {{"case", "deep"}, {"limits", "card-length"}, {"when", "always"}, {"by_mm", "330"}})
      .row("case_mounts", {{"case", "deep"},
                           {"mount", "front"},
                           {"face", "front"},
                           {"fan_sizes_mm", "140"},
                           {"fan_places", "3"},
                           {"radiators_mm", "420"},
                           {"depth_mm", "60"}});
  add_parts(tables);
  const Drawn d = drawn(tables, {"deep", "atx", "long-card", "loop-420"});
  expect_gap(d.gap("fit.card-length"), Axis::x, 300, 330);
  expect_at(d.box("radiator 420"), Axis::x, 330, 382, false);
}

// 52 mm down from 450; 120 wide about 100 from the board. Lengthwise the row of 3 x 120 = 360 about
// the middle of 420: it begins at 30.
TEST(Layout, ATopRadiatorHangsAtItsStatedMiddle) {
  const Drawn d = in_tower({"atx", "low", "loop-240"});
  const Box& radiator = d.box("radiator 240");
  expect_at(radiator, Axis::x, 30, 270, false);
  expect_at(radiator, Axis::y, 40, 160);
  expect_at(radiator, Axis::z, 398, 450);
  // It passes beside 32 mm of memory at 40.
  expect_gap(d.gap("fit.over-board"), Axis::y, 32, 40);
  expect_at(d.box("memory"), Axis::y, 0, 32);
}

// 35 mm end 5 above the board's edge at 410.
TEST(Layout, ASlimTopRadiatorEndsAboveTheBoard) {
  const Drawn d = in_tower({"atx", "low", "slim-240"});
  expect_at(d.box("radiator 240"), Axis::z, 415, 450);
  expect_gap(d.gap("fit.over-board"), Axis::z, 410, 415);
}

// Without a stated middle it is drawn about the middle of the room, 82.5, and is not placed there.
TEST(Layout, ATopRadiatorWithoutAMiddleIsDashedAcross) {
  TestTables tables;
  tables.row("case", {{"id", "plain"}, {"height_mm", "450"}})
      .row("case_clearances",
           {{"case", "plain"}, {"limits", "cooler-height"}, {"when", "always"}, {"by_mm", "165"}})
      .row("case_mounts", {{"case", "plain"},
                           {"mount", "top"},
                           {"face", "top"},
                           {"radiators_mm", "240"},
                           {"depth_mm", "60"}});
  add_parts(tables);
  expect_at(drawn(tables, {"plain", "atx", "loop-240"}).box("radiator 240"), Axis::y, 22.5, 142.5,
            false);
}

// Fans of 25 mm reach 5 mm below a board's edge that is 20 under the top; they pass beside memory
// higher than they are thick: 38 of 100 - 60.
TEST(Layout, ThinFansBesideHigherMemoryHaveTheirGap) {
  TestTables tables;
  tables.row("case", {{"id", "low-top"}, {"height_mm", "450"}})
      .row("case_mounts", {{"case", "low-top"},
                           {"mount", "top"},
                           {"face", "top"},
                           {"fan_sizes_mm", "120"},
                           {"fan_places", "3"},
                           {"radiators_mm", "none"},
                           {"depth_mm", "60"},
                           {"beyond_board_mm", "20"},
                           {"middle_from_board_mm", "100"}});
  add_parts(tables);
  const Drawn d = drawn(tables, {"low-top", "atx", "middling", "fan-120"});
  expect_at(d.box("board"), Axis::z, 125.2, 430);
  expect_at(d.box("fan 120"), Axis::z, 425, 450);
  expect_gap(d.gap("fit.over-board"), Axis::y, 38, 40);
}

// Two tops, 40 and 25 mm above one board: what hangs from the second ends 25 - 35 = -10 above it.
TEST(Layout, EachTopMountHangsAtItsOwnHeightAboveTheBoard) {
  TestTables tables = all_tables();
  tables.row("case_mounts", {{"case", "tower"},
                             {"mount", "top-rear"},
                             {"face", "top"},
                             {"radiators_mm", "240"},
                             {"depth_mm", "60"},
                             {"beyond_board_mm", "25"}});
  const Drawn d = drawn(tables, {"tower", "atx", "slim-240"}, {{"cooler", "top-rear"}});
  expect_at(d.box("board"), Axis::z, 105.2, 410);
  expect_at(d.box("radiator 240"), Axis::z, 400, 435);
}

// The top takes nothing from the card and comes first: two of one model from 30 on, one of the next
// beside them.
TEST(Layout, AddedFansStandBesideEachOther) {
  TestTables tables = all_tables();
  test_support::Scene build(tables);
  build.take("tower").take("atx").take("fan-120", 2).take("slim-120");
  const Facts facts = build.facts();
  Drawn d{.scene = {}, .claims = all_claims(fit_rules(), facts)};
  d.scene = fit::scene_of(facts, d.claims, "fans");
  fit_test::expect_true_gaps(d.scene, d.claims);
  const Box& pair = d.box("2 fans 120");
  expect_at(pair, Axis::x, 30, 270, false);
  expect_at(pair, Axis::y, 40, 160);
  expect_at(pair, Axis::z, 425, 450);
  const auto slim = std::ranges::find(d.scene.boxes, "slim-120", &Box::part_id);
  ASSERT_NE(slim, d.scene.boxes.end());
  expect_at(*slim, Axis::x, 270, 390, false);
  expect_at(*slim, Axis::z, 435, 450);
  // Over the board the deepest counts: 25 of 40 mm.
  expect_gap(d.gap("fit.over-board"), Axis::z, 410, 425);
}

// The stated room is that of the case as sold: its own fan stands before it, 330 to 355 with the
// usual 25 mm, from the end of the row of 420 on.
TEST(Layout, OwnFansStandInFrontOfTheStatedRoom) {
  const Drawn d = in_tower({"atx", "card"});
  expect_at(d.box("fan 120"), Axis::x, 330, 355, true, false);
  expect_at(d.box("fan 120"), Axis::z, 15, 135, false);
  EXPECT_EQ(d.box("fan 120").part_id, "tower");
  EXPECT_THAT(d.scene.notes, Contains(HasSubstr("own fans")));
}

// An added fan of 25 mm there takes 3 + 25 of the room: 302 to 327, beside the own one along z.
TEST(Layout, AnAddedFrontFanStandsInTheCardsRoom) {
  const Drawn d = in_tower({"atx", "card", "slim-120"}, {{"fan", "front"}});
  const auto slim = std::ranges::find(d.scene.boxes, "slim-120", &Box::part_id);
  ASSERT_NE(slim, d.scene.boxes.end());
  expect_at(*slim, Axis::x, 312, 327);
  expect_at(*slim, Axis::z, 135, 255, false);
  expect_gap(d.gap("fit.card-length"), Axis::x, 260, 312);
}

TEST(Layout, PlugAndBendAtTheEndOrOnTop) {
  const Drawn end = in_tower({"atx", "end-plug"});
  expect_at(end.box("plug and bend"), Axis::x, 260, 295);
  expect_at(end.box("plug and bend"), Axis::z, 197.74, 247.74);
  expect_gap(end.gap("fit.plug-room"), Axis::x, 295, 330);
  const Drawn top = in_tower({"atx", "top-plug"});
  expect_at(top.box("plug and bend"), Axis::y, 120, 155);
  expect_gap(top.gap("fit.plug-room"), Axis::y, 155, 170);
  EXPECT_THROW((void)in_tower({"atx", "card"}).box("plug and bend"), std::out_of_range);
}

// A tower cooler of 150 in 165 mm; a supply of 160 in 180; where they stand is not stated.
TEST(Layout, CoolerAndSupplyShowTheirGaps) {
  const Drawn d = in_tower({"atx", "air", "supply"});
  expect_at(d.box("cooler"), Axis::y, 0, 150);
  EXPECT_FALSE(along(d.box("cooler"), Axis::x).placed || along(d.box("cooler"), Axis::z).placed);
  expect_gap(d.gap("fit.cooler-height"), Axis::y, 150, 165);
  expect_at(d.box("supply"), Axis::x, 0, 160, false);
  expect_at(d.box("supply"), Axis::z, 0, 86, false);
  expect_gap(d.gap("fit.supply-length"), Axis::x, 160, 180);
  // 15 of 165 are 9 %, 20 of 180 are 11 %.
  EXPECT_EQ(d.scene.gaps.front().claim_id, "fit.cooler-height");
}

TEST(Layout, ACaseWithoutSizesIsNotToScale) {
  TestTables tables;
  tables.row("case", {{"id", "blank"}});
  add_parts(tables);
  const Drawn d = drawn(tables, {"blank", "atx", "card", "air", "supply", "low"});
  for (const Axis axis : {Axis::x, Axis::y, Axis::z}) {
    EXPECT_FALSE(along(d.box("case"), axis).sized);
    // What is drawn as the case still holds the board that is drawn in it.
    EXPECT_LE(along(d.box("case"), axis).low_mm, along(d.box("board"), axis).low_mm);
    EXPECT_GE(along(d.box("case"), axis).high_mm, along(d.box("board"), axis).high_mm);
  }
  EXPECT_FALSE(along(d.box("board"), Axis::z).placed);
  EXPECT_THAT(d.scene.notes, Contains(HasSubstr("not to scale")));
  EXPECT_TRUE(d.scene.gaps.empty());
  for (const fit::Dimension& dimension : d.scene.dimensions) EXPECT_NE(dimension.text, "case");
}

TEST(Layout, ACaseWithoutMountsBearsNothing) {
  TestTables tables;
  tables.row("case", {{"id", "plain"}, {"height_mm", "450"}});
  add_parts(tables);
  const Drawn d = drawn(tables, {"plain", "atx", "loop-240", "fan-120"});
  for (const Box& box : d.scene.boxes)
    EXPECT_TRUE(box.use != fit::Use::radiator && box.use != fit::Use::fan) << box.name;
  EXPECT_EQ(d.box("pump").part_id, "loop-240");
}

TEST(Layout, WithoutACaseThereIsNothing) {
  const Drawn d = drawn(all_tables(), {"atx", "card"});
  EXPECT_TRUE(d.scene.boxes.empty());
  EXPECT_TRUE(d.scene.gaps.empty());
  ASSERT_EQ(d.scene.notes.size(), 1U);
  EXPECT_THAT(d.scene.notes.front(), HasSubstr("no case"));
}

TEST(Layout, WithoutABoardTheCardsSlotIsNotKnown) {
  const Drawn d = in_tower({"card"});
  EXPECT_THROW((void)d.box("board"), std::out_of_range);
  expect_at(d.box("card"), Axis::x, 0, 260);
  EXPECT_FALSE(along(d.box("card"), Axis::z).placed);
  EXPECT_THAT(d.scene.notes, Contains(HasSubstr("slot is not known")));
}

TEST(Layout, WhatNoTableStatesIsMarked) {
  const Drawn d = in_tower({"odd-board", "blank-card", "blank-fan", "air"});
  for (const Axis axis : {Axis::x, Axis::z}) EXPECT_FALSE(along(d.box("board"), axis).sized);
  for (const Axis axis : {Axis::x, Axis::y, Axis::z})
    EXPECT_FALSE(along(d.box("card"), axis).sized);
  EXPECT_THAT(d.scene.notes, Contains(HasSubstr("no outline")));
  const auto fan = std::ranges::find(d.scene.boxes, "blank-fan", &Box::part_id);
  ASSERT_NE(fan, d.scene.boxes.end());
  EXPECT_FALSE(along(*fan, Axis::z).sized);
  // Where a card's end is not known, neither is where its plug begins.
  EXPECT_FALSE(along(d.box("plug and bend"), Axis::x).placed);
  EXPECT_FALSE(along(d.box("plug and bend"), Axis::x).sized);
}

// The author may hang a loop somewhere whose radiator states nothing.
TEST(Layout, ARadiatorWithoutSizesIsMarked) {
  const Drawn d = in_tower({"atx", "blank-loop"}, {{"cooler", "top"}});
  const auto radiator = std::ranges::find(d.scene.boxes, fit::Use::radiator, &Box::use);
  ASSERT_NE(radiator, d.scene.boxes.end());
  for (const Axis axis : {Axis::x, Axis::y, Axis::z}) EXPECT_FALSE(along(*radiator, axis).sized);
  EXPECT_THAT(radiator->name, Not(HasSubstr("nan")));
  const Drawn fanless = in_tower({"atx", "fanless-240"});
  EXPECT_FALSE(along(fanless.box("radiator 240"), Axis::y).sized);
  EXPECT_TRUE(along(fanless.box("radiator 240"), Axis::x).sized);
}

}  // namespace
}  // namespace rigproof
