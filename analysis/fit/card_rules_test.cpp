// The card's plug and its bend (T7), and the rear slots a card covers (T8). Expectations by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/fit/fit_rules.hpp"
#include "tests/support/fit_box.hpp"

namespace rigproof {
namespace {

using fit_test::box_tables;
using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

const Rule& plug() { return rule_of(fit_rules(), "fit.plug-room"); }
const Rule& slots() { return rule_of(fit_rules(), "fit.card-slots"); }

// The box leaves a card 320 mm of length; here also 160 mm of height.
TestTables plug_tables() {
  TestTables tables = box_tables();
  tables.row("case_clearances",
             {{"case", "box"}, {"limits", "card-height"}, {"when", "always"}, {"by_mm", "160"}});
  tables.row("case", {{"id", "heightless"}});
  tables.row(
      "case_clearances",
      {{"case", "heightless"}, {"limits", "card-length"}, {"when", "always"}, {"by_mm", "320"}});
  const auto card = [&](const char* id, const char* side, const char* bend, const char* length,
                        const char* height, const char* inputs = "1") {
    tables.row("gpu", {{"id", id},
                       {"plug_side", side},
                       {"plug_bend_mm", bend},
                       {"length_mm", length},
                       {"height_mm", height}});
    if (*inputs != '\0')
      tables.row("gpu_inputs", {{"gpu", id}, {"connector", "12v-2x6"}, {"count", inputs}});
  };
  card("top-120", "top", "35", "400", "120");
  card("top-126", "top", "35", "200", "126");
  card("end-280", "end", "35", "280", "200");
  card("end-290", "end", "35", "290", "100");
  card("bend-unknown-119", "top", "", "200", "119");
  card("bend-unknown-between", "top", "", "200", "120.5");
  card("bend-unknown-136", "top", "", "200", "136");
  card("side-unknown", "", "35", "280", "120");
  card("side-unknown-high", "", "35", "280", "126");
  card("no-plug", "none", "", "280", "120", "");
  card("no-inputs", "top", "35", "280", "200", "0");
  card("inputs-unknown", "top", "35", "200", "120", "");
  return tables;
}

Claim judged(const TestTables& tables, const std::vector<std::string>& parts, const Rule& rule) {
  Scene scene(tables);
  for (const auto& part : parts) scene.take(part);
  return scene.claim(rule);
}

// 120 + 35 = 155 of 160 mm; 126 + 35 = 161.
TEST(PlugRoom, AboveTheCardAgainstTheSidePanel) {
  const Claim fits = judged(plug_tables(), {"box", "top-120"}, plug());
  EXPECT_EQ(fits.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(fits.margin->value, 5.0);
  EXPECT_EQ(fits.basis, Basis::common_practice);
  const Claim tight = judged(plug_tables(), {"box", "top-126"}, plug());
  EXPECT_EQ(tight.verdict, Verdict::fails);
  EXPECT_DOUBLE_EQ(tight.margin->value, -1.0);
  EXPECT_THAT(tight.remedy, HasSubstr("bent sharply can overheat"));
  EXPECT_THAT(tight.remedy, HasSubstr("1 mm more room"));
}

// What is known of one kind of plug is not said of a card that has none of it, or of which it is
// not known.
TEST(PlugRoom, WarnsOfWhatTheCardsOwnPlugCanDo) {
  TestTables tables = plug_tables();
  tables
      .row("gpu",
           {{"id", "older"}, {"plug_side", "top"}, {"plug_bend_mm", "35"}, {"height_mm", "126"}})
      .row("gpu_inputs", {{"gpu", "older"}, {"connector", "12v-2x6"}, {"count", "0"}})
      .row("gpu_inputs", {{"gpu", "older"}, {"connector", "pcie8"}, {"count", "2"}})
      .row("gpu",
           {{"id", "unsaid"}, {"plug_side", "top"}, {"plug_bend_mm", "35"}, {"height_mm", "126"}});
  for (const auto* const card : {"older", "unsaid"}) {
    const Claim claim = judged(tables, {"box", card}, plug());
    EXPECT_THAT(claim.remedy, HasSubstr("do not bend the cable sharply"));
    EXPECT_THAT(claim.remedy + claim.consequence,
                AllOf(Not(HasSubstr("12V-2x6")), Not(HasSubstr("overheat"))));
  }
}

// 280 + 35 = 315 of 320 mm; 290 + 35 = 325. Three fans on top cost nothing, a fourth goes to the
// front and takes 3 + 25 mm: 292 mm are left.
TEST(PlugRoom, BehindTheCard) {
  EXPECT_DOUBLE_EQ(judged(plug_tables(), {"box", "end-280"}, plug()).margin->value, 5.0);
  EXPECT_EQ(judged(plug_tables(), {"box", "end-290"}, plug()).verdict, Verdict::fails);
  Scene fans(plug_tables());
  fans.take("box").take("end-280").take("fan-120", 4);
  EXPECT_DOUBLE_EQ(fans.claim(plug()).margin->value, 292.0 - 315.0);
}

// Uniform bend 35 +- 4 on a 123 mm card: up to 37 mm fit, (37 - 31) / 8 = 3/4 of them.
TEST(PlugRoom, OddsAreTheShareOfTheIntervalThatFits) {
  TestTables tables = plug_tables();
  tables
      .row("gpu",
           {{"id", "near"}, {"plug_side", "top"}, {"plug_bend_mm", "35"}, {"height_mm", "123"}})
      .row("gpu_inputs", {{"gpu", "near"}, {"connector", "pcie8"}, {"count", "2"}})
      .plus_minus("gpu", "near", "plug_bend_mm", 4);
  const Claim claim = judged(tables, {"box", "near"}, plug());
  EXPECT_EQ(claim.odds, 0.75);
  EXPECT_EQ(claim.verdict, Verdict::thin);
}

// A bend that is not stated is 25 to 40 mm (the schema's class range): 119 + 40 fits 160, 136 + 25
// does not, 120.5 fits with 25 and not with 40.
TEST(PlugRoom, AClassRangeIsJudgedOverItsWholeWidth) {
  EXPECT_EQ(judged(plug_tables(), {"box", "bend-unknown-119"}, plug()).verdict, Verdict::holds);
  EXPECT_EQ(judged(plug_tables(), {"box", "bend-unknown-136"}, plug()).verdict, Verdict::fails);
  const Claim open = judged(plug_tables(), {"box", "bend-unknown-between"}, plug());
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open), ElementsAre("gpu.bend-unknown-between.plug_bend_mm"));
}

TEST(PlugRoom, ASideThatIsNotKnownMustFitOnBoth) {
  const Claim both = judged(plug_tables(), {"box", "side-unknown"}, plug());
  EXPECT_EQ(both.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(both.margin->value, 5.0);
  const Claim open = judged(plug_tables(), {"box", "side-unknown-high"}, plug());
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open), ElementsAre("gpu.side-unknown-high.plug_side"));
}

TEST(PlugRoom, NothingToPlugInIsNoClaim) {
  EXPECT_EQ(Scene(plug_tables()).take("box").take("no-plug").places(plug()), 0);
  EXPECT_EQ(Scene(plug_tables()).take("box").take("no-inputs").places(plug()), 0);
  EXPECT_EQ(Scene(plug_tables()).take("box").places(plug()), 0);
  EXPECT_EQ(Scene(plug_tables()).take("top-120").places(plug()), 0);
}

TEST(PlugRoom, AbsentCellsAreNamed) {
  EXPECT_THAT(missing_cells(judged(plug_tables(), {"box", "inputs-unknown"}, plug())),
              ElementsAre("gpu_inputs.inputs-unknown.*"));
  const Claim room = judged(plug_tables(), {"heightless", "top-120"}, plug());
  EXPECT_EQ(room.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(room), ElementsAre("case_clearances.heightless.*"));
}

TestTables slot_tables() {
  TestTables tables;
  const auto board = [&](const char* id, std::vector<std::array<const char*, 3>> all) {
    tables.row("board", {{"id", id}});
    for (const auto& [slot, position, length] : all)
      tables.row("board_slots",
                 {{"board", id}, {"slot", slot}, {"position", position}, {"length", length}});
  };
  board("first", {{"1", "1", "x16"}});
  // The rows are not in the slots' order; the first full-length slot is number 2, at position 2.
  board("second", {{"3", "5", "x16"}, {"1", "1", "x1"}, {"2", "2", "x16"}});
  board("unplaced", {{"1", "", "x16"}});
  board("short-only", {{"1", "1", "x4"}});
  board("board-bare", {});
  for (const auto& [id, slots_of_card] :
       {std::pair{"card-2", "2"}, {"card-3", "3"}, {"card-4", "4"}, {"card-bare", ""}})
    tables.row("gpu", {{"id", id}, {"slots", slots_of_card}});
  for (const auto& [id, slots_of_case] :
       {std::pair{"case-2", "2"}, {"case-4", "4"}, {"case-7", "7"}, {"case-bare", ""}})
    tables.row("case", {{"id", id}, {"card_slots", slots_of_case}});
  return tables;
}

TEST(CardSlots, PositionAndThicknessAgainstTheRearSlots) {
  const auto verdict = [&](const std::vector<std::string>& parts) {
    return judged(slot_tables(), parts, slots()).verdict;
  };
  EXPECT_EQ(verdict({"first", "card-2", "case-2"}), Verdict::holds);   // 1 + 2 - 1 = 2
  EXPECT_EQ(verdict({"first", "card-3", "case-2"}), Verdict::fails);   // 3
  EXPECT_EQ(verdict({"second", "card-3", "case-4"}), Verdict::holds);  // 2 + 3 - 1 = 4
  EXPECT_EQ(verdict({"second", "card-4", "case-4"}), Verdict::fails);  // 5
  const Claim claim = judged(slot_tables(), {"second", "card-4", "case-4"}, slots());
  EXPECT_EQ(claim.value->value, 5.0);
  EXPECT_EQ(claim.remedy, "a card that fills 1 slot fewer, or a case with more rear slots");
}

// Two cards: the second sits in the next full-length slot, 5 + 3 - 1 = 7.
TEST(CardSlots, EachCardInItsOwnSlot) {
  Scene scene(slot_tables());
  scene.take("second").take("card-3", 2).take("case-7");
  ASSERT_EQ(scene.places(slots()), 2);
  EXPECT_EQ(scene.claim(slots(), 0).value->value, 4.0);
  EXPECT_EQ(scene.claim(slots(), 1).value->value, 7.0);
  EXPECT_EQ(scene.claim(slots(), 1).where, "card 2");
  EXPECT_EQ(scene.drop(Kind::chassis).take("case-4").claim(slots(), 1).verdict, Verdict::fails);
}

TEST(CardSlots, AbsentCellsAreNamedAndNothingIsSaidWithoutASlot) {
  const auto missing = [&](const std::vector<std::string>& parts) {
    return missing_cells(judged(slot_tables(), parts, slots()));
  };
  EXPECT_THAT(missing({"first", "card-bare", "case-bare"}),
              ElementsAre("case.case-bare.card_slots", "gpu.card-bare.slots"));
  EXPECT_THAT(missing({"unplaced", "card-2", "case-2"}),
              ElementsAre("board_slots.unplaced/1.position"));
  EXPECT_THAT(missing({"board-bare", "card-2", "case-2"}), ElementsAre("board_slots.board-bare.*"));
  EXPECT_EQ(Scene(slot_tables()).take("short-only").take("card-2").take("case-2").places(slots()),
            0)
      << "match.card-slot says that";
  EXPECT_EQ(Scene(slot_tables()).take("first").take("case-2").places(slots()), 0);
}

// 1.5 kg: [pcie-cem-5], from memory.
TEST(CardMass, AgainstWhatABracketMayCarry) {
  TestTables tables;
  tables.row("gpu", {{"id", "light"}, {"mass_kg", "1.4"}})
      .row("gpu", {{"id", "heavy"}, {"mass_kg", "2.1"}})
      .row("gpu", {{"id", "unstated"}})
      .plus_minus("gpu", "*", "mass_kg", 0);
  const Rule& mass = rule_of(fit_rules(), "fit.card-mass");
  EXPECT_EQ(judged(tables, {"light"}, mass).verdict, Verdict::holds);
  const Claim heavy = judged(tables, {"heavy"}, mass);
  EXPECT_EQ(heavy.verdict, Verdict::fails);
  EXPECT_EQ(heavy.grade, Grade::tells);
  EXPECT_NEAR(heavy.margin->value, -0.6, 1e-12);
  EXPECT_THAT(heavy.remedy, HasSubstr("a support under its far end"));
  EXPECT_EQ(Scene(tables).take("unstated").places(mass), 0);
  EXPECT_EQ(Scene(tables).take("light").take("heavy").claim(mass, 1).where, "heavy");
}

}  // namespace
}  // namespace rigproof
