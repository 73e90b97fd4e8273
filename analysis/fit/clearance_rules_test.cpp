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

const Rule& rule(std::string_view id) { return rule_of(fit_rules(), id); }

// A full-length card is 312.00 mm (12.283 in). Source: [pcie-cem-5], add-in card outline; looked
// up: a web table of card dimensions (weak page).
TEST(CardLength, FullLengthCardBesideBothLimits) {
  TestTables tables = box_tables();
  tables.row("gpu", {{"id", "full-length"}, {"length_mm", "312"}});
  tables.row("gpu", {{"id", "too-long"}, {"length_mm", "321"}});
  Scene fits(tables);
  const Claim holds =
      fits.take("box").take("full-length").take("tower").claim(rule("fit.card-length"));
  EXPECT_EQ(holds.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(holds.margin->value, 8.0);  // 320 - 312
  EXPECT_DOUBLE_EQ(*holds.margin_frac, 8.0 / 320.0);
  EXPECT_EQ(holds.remedy, "");

  Scene fails(tables);
  const Claim no = fails.take("box").take("too-long").take("tower").claim(rule("fit.card-length"));
  EXPECT_EQ(no.verdict, Verdict::fails);
  EXPECT_DOUBLE_EQ(no.margin->value, -1.0);
  EXPECT_EQ(no.remedy, "a card at most 320 mm long");
}

TEST(CardLength, OddsAreTheShareOfTheIntervalThatFits) {
  TestTables tables = box_tables();
  tables.row("gpu", {{"id", "near"}, {"length_mm", "319"}})
      .plus_minus("gpu", "near", "length_mm", 4);
  Scene scene(tables);
  const Claim claim = scene.take("box").take("near").claim(rule("fit.card-length"));
  // Uniform on 315...323 against 320: 5/8. The 256 draws are its quantiles, so 160 of them exactly.
  EXPECT_DOUBLE_EQ(*claim.odds, 160.0 / 256.0);
  EXPECT_EQ(claim.verdict, Verdict::thin);
}

// Without provenance the schema's tolerances hold: card +-2, clearance +-1. With 319 against 320
// the share is E[(1 + Y + 2) / 4] over Y uniform on -1...1, that is 3/4.
TEST(CardLength, TolerancesOfCardAndCaseMeet) {
  TestTables tables;
  tables.row("case", {{"id", "box"}}).row("gpu", {{"id", "card"}, {"length_mm", "319"}});
  tables.row("case_clearances",
             {{"case", "box"}, {"limits", "card-length"}, {"when", "always"}, {"by_mm", "320"}});
  Scene scene(tables);
  const Claim claim = scene.take("box").take("card").claim(rule("fit.card-length"));
  EXPECT_NEAR(*claim.odds, 0.75, 0.08);  // three standard errors of 256 draws
  EXPECT_EQ(claim.verdict, Verdict::thin);
}

TEST(CardLength, RadiatorOnTheFrontTakesFromIt) {
  Scene scene(box_tables());
  scene.take("box").take("card-300").take("loop-360");
  // The engine puts it on top, where it costs the card nothing.
  const Claim top = scene.claim(rule("fit.card-length"));
  EXPECT_EQ(top.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(top.limit->value, 320.0);
  EXPECT_NE(top.statement.find("with the radiator on top"), std::string::npos);
  // The author puts it on the front: 320 - (3 + 27 + 25) = 265 mm.
  scene.setup.mounts["cooler"] = "front";
  const Claim front = scene.claim(rule("fit.card-length"));
  EXPECT_EQ(front.verdict, Verdict::fails);
  EXPECT_DOUBLE_EQ(front.limit->value, 265.0);
  EXPECT_DOUBLE_EQ(front.margin->value, -35.0);
}

TEST(CardLength, AddedFansTakeFromItButTheCasesOwnDoNot) {
  Scene scene(box_tables());
  scene.take("box").take("card-300").take("fan-120", 3);
  EXPECT_DOUBLE_EQ(scene.claim(rule("fit.card-length")).limit->value, 320.0);  // three on top
  scene.build.clear(Kind::fan);
  scene.take("fan-120", 4);  // the fourth goes to the front: 320 - (3 + 25)
  EXPECT_DOUBLE_EQ(scene.claim(rule("fit.card-length")).limit->value, 292.0);
}

// Radiator 27...38 and fans 15...38 mm are class ranges: 42...76 mm together, so the room on the
// front is between 320 - 3 - 76 = 241 and 320 - 3 - 42 = 275 mm.
TEST(CardLength, ClassRangesAreJudgedOverTheirWholeWidth) {
  TestTables tables = box_tables();
  tables.row("cooler", {{"id", "loop"}, {"type", "liquid"}, {"radiator_mm", "360"}});
  for (const char* length : {"241", "242", "275", "276"})
    tables.row("gpu", {{"id", std::string("card-of-") + length}, {"length_mm", length}});
  const auto verdict_of_card = [&](const char* id) {
    Scene scene(tables);
    scene.setup.mounts["cooler"] = "front";
    return scene.take("box").take("loop").take(id).claim(rule("fit.card-length"));
  };
  EXPECT_EQ(verdict_of_card("card-of-241").verdict, Verdict::holds);
  const Claim within = verdict_of_card("card-of-242");
  EXPECT_EQ(within.verdict, Verdict::unknown);
  EXPECT_EQ(missing_cells(within), (std::vector<std::string>{"cooler.loop.radiator_thickness_mm",
                                                             "cooler.loop.fan_thickness_mm"}));
  EXPECT_FALSE(within.odds);
  EXPECT_EQ(verdict_of_card("card-of-275").verdict, Verdict::unknown);
  EXPECT_EQ(verdict_of_card("card-of-276").verdict, Verdict::fails);
}

TEST(CardLength, AbsentCellsAreNamed) {
  TestTables tables = box_tables();
  tables.row("gpu", {{"id", "unmeasured"}}).row("case", {{"id", "blank-case"}});
  Scene no_length(tables);
  const Claim card = no_length.take("box").take("unmeasured").claim(rule("fit.card-length"));
  EXPECT_EQ(card.verdict, Verdict::unknown);
  EXPECT_EQ(missing_cells(card), std::vector<std::string>{"gpu.unmeasured.length_mm"});
  Scene no_room(tables);
  const Claim room = no_room.take("blank-case").take("card-300").claim(rule("fit.card-length"));
  EXPECT_EQ(room.verdict, Verdict::unknown);
  EXPECT_EQ(missing_cells(room), std::vector<std::string>{"case_clearances.blank-case.*"});
}

TEST(CardLength, NeedsACardAndACase) {
  Scene scene(box_tables());
  EXPECT_EQ(scene.take("box").places(rule("fit.card-length")), 0);
  scene.drop(Kind::chassis).take("card-300");
  EXPECT_EQ(scene.places(rule("fit.card-length")), 0);
}

TEST(CardHeightAndThickness, AskedOnlyWhereTheCaseStatesThem) {
  TestTables tables = box_tables();
  tables.row("case", {{"id", "narrow"}});
  const auto room = [&](const char* limits, const char* by) {
    tables.row("case_clearances",
               {{"case", "narrow"}, {"limits", limits}, {"when", "always"}, {"by_mm", by}});
  };
  room("card-height", "150");
  room("card-thickness", "45");
  tables.row("gpu", {{"id", "low"}, {"height_mm", "150"}, {"thickness_mm", "45"}});
  tables.row("gpu", {{"id", "high"}, {"height_mm", "150.5"}, {"thickness_mm", "45.5"}});
  for (const char* id : {"fit.card-height", "fit.card-thickness"}) {
    Scene wide(tables);
    EXPECT_EQ(wide.take("box").take("low").places(rule(id)), 0) << id;
    Scene low(tables);
    const Claim fits = low.take("narrow").take("low").claim(rule(id));
    EXPECT_EQ(fits.verdict, Verdict::holds) << id;
    EXPECT_DOUBLE_EQ(fits.margin->value, 0.0) << id;  // the limit itself is allowed
    Scene high(tables);
    EXPECT_EQ(high.take("narrow").take("high").claim(rule(id)).verdict, Verdict::fails) << id;
  }
}

TEST(CoolerHeight, BothSidesAndAnAbsentCell) {
  TestTables tables = box_tables();
  tables.row("cooler", {{"id", "tall"}, {"type", "air"}, {"height_mm", "166"}});
  tables.row("cooler", {{"id", "unmeasured"}, {"type", "air"}});
  Scene scene(tables);
  scene.take("box").take("tower");
  EXPECT_DOUBLE_EQ(scene.claim(rule("fit.cooler-height")).margin->value, 5.0);  // 165 - 160
  scene.drop(Kind::cooler).take("tall");
  EXPECT_EQ(scene.claim(rule("fit.cooler-height")).verdict, Verdict::fails);
  scene.drop(Kind::cooler).take("unmeasured");
  EXPECT_EQ(missing_cells(scene.claim(rule("fit.cooler-height"))),
            std::vector<std::string>{"cooler.unmeasured.height_mm"});
  scene.drop(Kind::cooler);
  EXPECT_EQ(scene.places(rule("fit.cooler-height")), 0);
}

// A standard ATX body is 140 mm deep. Source: ATX12V design guide, outline; looked up: a public CAD
// file.
TEST(SupplyLength, StandardBodyAndWhatFansBelowTakeFromIt) {
  TestTables tables = box_tables();
  tables.row("psu", {{"id", "standard-body"}, {"length_mm", "140"}})
      .row("psu", {{"id", "deep"}, {"length_mm", "160"}});
  tables.row("case_clearances",
             {{"case", "box"}, {"limits", "supply-length"}, {"when", "top"}, {"by_mm", "0"}});
  Scene scene(tables);
  scene.take("box").take("standard-body");
  EXPECT_DOUBLE_EQ(scene.claim(rule("fit.supply-length")).margin->value, 40.0);  // 180 - 140
  scene.drop(Kind::psu).take("deep");
  EXPECT_EQ(scene.claim(rule("fit.supply-length")).verdict, Verdict::holds);
  scene.take("fan-120");  // on top it would leave 180 - 25 = 155 < 160: it goes to the front
  EXPECT_EQ(scene.claim(rule("fit.supply-length")).verdict, Verdict::holds);
  scene.setup.mounts["fan"] = "top";
  const Claim on_top = scene.claim(rule("fit.supply-length"));
  EXPECT_EQ(on_top.verdict, Verdict::fails);
  EXPECT_DOUBLE_EQ(on_top.margin->value, -5.0);
}

TEST(CaseVolume, StatedVolumeElseTheBox) {
  TestTables tables = box_tables();
  tables.row("case",
             {{"id", "unstated"}, {"width_mm", "200"}, {"height_mm", "400"}, {"depth_mm", "500"}});
  tables.row("case", {{"id", "nothing-known"}, {"width_mm", "200"}});
  Scene scene(tables);
  EXPECT_EQ(scene.take("box").places(rule("fit.case-volume")), 0);  // the brief asks for none
  scene.brief.volume_l_at_most = 40.0;
  EXPECT_EQ(scene.claim(rule("fit.case-volume")).verdict, Verdict::holds);
  scene.brief.volume_l_at_most = 39.9;
  EXPECT_EQ(scene.claim(rule("fit.case-volume")).verdict, Verdict::fails);
  scene.drop(Kind::chassis).take("unstated");
  const Claim box = scene.claim(rule("fit.case-volume"));
  EXPECT_NEAR(box.value->value, 40.0, 1e-9);  // 0.2 m x 0.4 m x 0.5 m
  EXPECT_EQ(box.verdict, Verdict::fails);
  scene.drop(Kind::chassis).take("nothing-known");
  EXPECT_EQ(missing_cells(scene.claim(rule("fit.case-volume"))),
            std::vector<std::string>{"case.nothing-known.volume_l"});
}

// 320 mm less a cage of 30: a card of 300 goes in beside M.2 drives, or beside small ones, only.
TEST(CardLength, ACageOfBaysTakesRoomWhenADriveSitsThere) {
  TestTables tables = box_tables();
  tables.row("case_clearances",
             {{"case", "box"}, {"limits", "card-length"}, {"when", "bay-3.5"}, {"by_mm", "30"}});
  tables.row("case_clearances",
             {{"case", "box"}, {"limits", "supply-length"}, {"when", "bay-2.5"}, {"by_mm", "12"}});
  tables.row("storage", {{"id", "large"}, {"mounting", "bay-3.5"}})
      .row("storage", {{"id", "small"}, {"mounting", "bay-2.5"}})
      .row("storage", {{"id", "stick"}, {"mounting", "M.2-2280"}})
      .row("psu", {{"id", "supply"}, {"length_mm", "170"}});
  const auto claim = [&](const std::vector<std::string>& drives, const char* id) {
    Scene scene(tables);
    scene.take("box").take("card-300").take("supply");
    for (const std::string& drive : drives) scene.take(drive);
    return scene.claim(rule(id));
  };
  EXPECT_EQ(claim({"stick"}, "fit.card-length").margin->value, 20.0);
  EXPECT_EQ(claim({"small"}, "fit.card-length").margin->value, 20.0);
  EXPECT_EQ(claim({"stick", "large"}, "fit.card-length").margin->value, -10.0);
  EXPECT_EQ(claim({"large", "small"}, "fit.card-length").verdict, Verdict::fails);
  EXPECT_EQ(claim({"large"}, "fit.supply-length").margin->value, 10.0);
  EXPECT_EQ(claim({"small"}, "fit.supply-length").margin->value, -2.0);
}

// 160 + 45 of 210 mm; unstated, the bend is 30 to 60 mm: 160 + 60 of 210 may be too much.
TEST(SupplyCables, BodyAndBendAgainstTheChamber) {
  TestTables tables = box_tables();
  tables.row(
      "case_clearances",
      {{"case", "box"}, {"limits", "supply-and-cables"}, {"when", "always"}, {"by_mm", "210"}});
  tables.row("psu", {{"id", "stated"}, {"length_mm", "160"}, {"cable_bend_mm", "45"}})
      .row("psu", {{"id", "unstated"}, {"length_mm", "160"}})
      .row("psu", {{"id", "short"}, {"length_mm", "150"}})
      .row("psu", {{"id", "long"}, {"length_mm", "170"}, {"cable_bend_mm", "45"}});
  const auto claim = [&](const char* psu) {
    Scene scene(tables);
    return scene.take("box").take(psu).claim(rule("fit.supply-cables"));
  };
  EXPECT_EQ(claim("stated").verdict, Verdict::holds);
  EXPECT_EQ(claim("stated").margin->value, 5.0);
  EXPECT_EQ(claim("unstated").verdict, Verdict::unknown);
  EXPECT_EQ(claim("short").verdict, Verdict::holds);
  EXPECT_EQ(claim("long").margin->value, -5.0);
  EXPECT_EQ(claim("long").verdict, Verdict::fails);
  EXPECT_EQ(Scene(box_tables()).take("box").take("fan-120").places(rule("fit.supply-cables")), 0);
}

}  // namespace
}  // namespace rigproof
