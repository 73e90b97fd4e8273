// Where case, board, card, cooler and supply of a scene stand, worked out by hand; every length of
// the tables is exact. Gaps are checked against their claims in each scene.
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

TEST(Layout, ACardGoesIntoTheFirstFullLengthSlot) {
  TestTables tables = all_tables();
  tables.row("board", {{"id", "late"}, {"form_factor", "ATX"}})
      .row("board_slots", {{"board", "late"}, {"slot", "1"}, {"position", "1"}, {"length", "x1"}})
      .row("board_slots", {{"board", "late"}, {"slot", "2"}, {"position", "3"}, {"length", "x16"}})
      .row("board_slots", {{"board", "late"}, {"slot", "3"}, {"position", "5"}, {"length", "x16"}});
  expect_at(drawn(tables, {"tower", "late", "card"}).box("card"), Axis::z, 157.1, 207.1);
}

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
  const Drawn d = in_tower({"odd-board", "blank-card", "blank-fan", "air"}, {{"fan", "top"}});
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

}  // namespace
}  // namespace rigproof
