// Where radiators and fans of a scene stand, worked out by hand; every length of the tables is
// exact. Gaps are checked against their claims in each scene.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/drawn_tower.hpp"

namespace rigproof {
namespace {

using fit::Axis;
using fit::Box;
using fit_test::add_parts;
using fit_test::all_tables;
using fit_test::along;
using fit_test::Drawn;
using fit_test::drawn;
using fit_test::expect_at;
using fit_test::expect_gap;
using fit_test::in_tower;
using test_support::TestTables;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

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

TEST(Layout, ASlimTopRadiatorEndsAboveTheBoard) {
  const Drawn d = in_tower({"atx", "low", "slim-240"});
  expect_at(d.box("radiator 240"), Axis::z, 415, 450);
  expect_gap(d.gap("fit.over-board"), Axis::z, 410, 415);
}

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

TEST(Layout, TheHighestTopIsTheCases) {
  TestTables tables;
  tables.row("case", {{"id", "steps"}, {"height_mm", "450"}});
  for (const auto& [name, beyond] : {std::pair{"lower", "25"}, std::pair{"upper", "40"}})
    tables.row("case_mounts",
               {{"case", "steps"}, {"mount", name}, {"face", "top"}, {"beyond_board_mm", beyond}});
  add_parts(tables);
  expect_at(drawn(tables, {"steps", "atx"}).box("board"), Axis::z, 105.2, 410);
}

TEST(Layout, OwnFansOnTopAreNotMeasured) {
  TestTables tables = all_tables();
  tables.row("case_fans",
             {{"case", "tower"}, {"mount", "top"}, {"size_mm", "120"}, {"count", "1"}});
  const Drawn d = drawn(tables, {"tower", "atx", "low", "slim-120"});
  expect_gap(d.gap("fit.over-board"), Axis::z, 410, 435);
}

TEST(Layout, OwnFansBeforeAnUnstatedRoomAreDashed) {
  TestTables tables;
  tables.row("case", {{"id", "plain"}, {"depth_mm", "420"}})
      .row("case_mounts", {{"case", "plain"}, {"mount", "front"}, {"face", "front"}})
      .row("case_fans",
           {{"case", "plain"}, {"mount", "front"}, {"size_mm", "120"}, {"count", "1"}});
  add_parts(tables);
  EXPECT_FALSE(along(drawn(tables, {"plain", "atx"}).box("fan 120"), Axis::x).placed);
}

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

TEST(Layout, OwnFansStandInFrontOfTheStatedRoom) {
  const Drawn d = in_tower({"atx", "card"});
  expect_at(d.box("fan 120"), Axis::x, 330, 355, true, false);
  expect_at(d.box("fan 120"), Axis::z, 15, 135, false);
  EXPECT_EQ(d.box("fan 120").part_id, "tower");
  EXPECT_THAT(d.scene.notes, Contains(HasSubstr("own fans")));
}

TEST(Layout, AnAddedFrontFanStandsInTheCardsRoom) {
  const Drawn d = in_tower({"atx", "card", "slim-120"}, {{"fan", "front"}});
  const auto slim = std::ranges::find(d.scene.boxes, "slim-120", &Box::part_id);
  ASSERT_NE(slim, d.scene.boxes.end());
  expect_at(*slim, Axis::x, 312, 327);
  expect_at(*slim, Axis::z, 135, 255, false);
  expect_gap(d.gap("fit.card-length"), Axis::x, 260, 312);
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
