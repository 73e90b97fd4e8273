#include <gtest/gtest.h>

#include "analysis/fit/fit_rules.hpp"
#include "tests/support/allocations.hpp"
#include "tests/support/fit_box.hpp"

namespace rigproof {
namespace {

using fit_test::box_tables;
using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;

const Rule& radiator_rule() { return rule_of(fit_rules(), "fit.radiator-mount"); }
const Rule& fan_rule() { return rule_of(fit_rules(), "fit.fan-places"); }
const Rule& air_rule() { return rule_of(fit_rules(), "fit.moving-air"); }

TEST(RadiatorMount, TakesTheMountThatLeavesTheCardMost) {
  Scene scene(box_tables());
  const Claim claim = scene.take("box").take("loop-360").claim(radiator_rule());
  EXPECT_EQ(claim.where, "top");
  EXPECT_EQ(claim.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(claim.margin->value, 3.0);  // 55 - (27 + 25)
}

TEST(RadiatorMount, GoesWhereItIsDeepEnough) {
  TestTables tables = box_tables();
  tables.row("cooler", {{"id", "thick"},
                        {"type", "liquid"},
                        {"radiator_mm", "360"},
                        {"radiator_thickness_mm", "35"},
                        {"fan_thickness_mm", "25"}});
  tables.row("cooler", {{"id", "thicker"},
                        {"type", "liquid"},
                        {"radiator_mm", "360"},
                        {"radiator_thickness_mm", "36"},
                        {"fan_thickness_mm", "25"}});
  Scene scene(tables);
  scene.take("box").take(
      "thick");  // 60 mm: too much for the top (55), just right for the front (60)
  const Claim front = scene.claim(radiator_rule());
  EXPECT_EQ(front.where, "front");
  EXPECT_EQ(front.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(front.margin->value, 0.0);
  scene.drop(Kind::cooler).take("thicker");  // the deepest, and still 1 mm short
  const Claim short_of = scene.claim(radiator_rule());
  EXPECT_EQ(short_of.where, "front");
  EXPECT_EQ(short_of.verdict, Verdict::fails);
  EXPECT_DOUBLE_EQ(short_of.margin->value, -1.0);
}

TEST(RadiatorMount, AuthorsMountIsJudgedAsItIs) {
  Scene scene(box_tables());
  scene.take("box").take("loop-280");
  EXPECT_EQ(scene.claim(radiator_rule()).where, "front");  // the only one that lists 280
  scene.setup.mounts["cooler"] = "top";
  EXPECT_EQ(scene.claim(radiator_rule()).verdict, Verdict::fails);
  scene.setup.mounts["cooler"] = "no-such-mount";
  EXPECT_EQ(scene.claim(radiator_rule()).verdict, Verdict::fails);
}

TEST(RadiatorMount, OddsOfAThicknessThatIsNotExact) {
  TestTables tables = box_tables();
  tables.row("cooler", {{"id", "about-29"},
                        {"type", "liquid"},
                        {"radiator_mm", "360"},
                        {"radiator_thickness_mm", "29.5"},
                        {"fan_thickness_mm", "25"}});
  tables.plus_minus("cooler", "about-29", "radiator_thickness_mm", 2);
  Scene scene(tables);
  scene.setup.mounts["cooler"] = "top";
  const Claim claim = scene.take("box").take("about-29").claim(radiator_rule());
  // 52.5...56.5 against 55: 2.5 / 4 of the interval, 160 of 256 quantiles.
  EXPECT_DOUBLE_EQ(*claim.odds, 0.625);
  EXPECT_EQ(claim.verdict, Verdict::thin);
}

TEST(RadiatorMount, UnknownAndNotApplicable) {
  TestTables tables = box_tables();
  tables.row("case", {{"id", "blank-case"}}).row("case", {{"id", "deep-unknown"}});
  tables.row(
      "case_mounts",
      {{"case", "deep-unknown"}, {"mount", "top"}, {"face", "top"}, {"radiators_mm", "360"}});
  tables.row("case", {{"id", "list-unknown"}});
  tables.row("case_mounts",
             {{"case", "list-unknown"}, {"mount", "top"}, {"face", "top"}, {"depth_mm", "60"}});
  tables.row("cooler", {{"id", "nameless"}});
  Scene scene(tables);
  EXPECT_EQ(scene.take("box").take("tower").places(radiator_rule()), 0);
  const auto missing = [&](const char* chassis, const char* cooler) {
    scene.drop(Kind::chassis).drop(Kind::cooler).take(chassis).take(cooler);
    const Claim claim = scene.claim(radiator_rule());
    EXPECT_EQ(claim.verdict, Verdict::unknown) << chassis;
    return missing_cells(claim);
  };
  using Cells = std::vector<std::string>;
  EXPECT_EQ(missing("blank-case", "loop-360"), Cells{"case_mounts.blank-case.*"});
  EXPECT_EQ(missing("deep-unknown", "loop-360"), Cells{"case_mounts.deep-unknown/top.depth_mm"});
  EXPECT_EQ(missing("list-unknown", "loop-360"),
            Cells{"case_mounts.list-unknown/top.radiators_mm"});
  EXPECT_EQ(missing("box", "nameless"),
            (Cells{"cooler.nameless.type", "cooler.nameless.radiator_mm"}));
}

// Free in the box: front 360 - 120 = 240 mm, top 360 mm, rear none: five of 120, one of 140.
TEST(FanPlaces, CountsLengthNotPlaces) {
  Scene scene(box_tables());
  scene.take("box").take("fan-120", 5);
  const Claim five = scene.claim(fan_rule());
  EXPECT_EQ(five.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(five.limit->value, 5.0);
  scene.drop(Kind::fan).take("fan-120", 6);
  const Claim six = scene.claim(fan_rule());
  EXPECT_EQ(six.verdict, Verdict::fails);
  EXPECT_EQ(six.remedy, "1 fan fewer");
  scene.drop(Kind::fan).take("fan-140", 2);
  EXPECT_DOUBLE_EQ(scene.claim(fan_rule()).limit->value, 1.0);
}

TEST(FanPlaces, RadiatorAndEarlierModelsTakePlaces) {
  Scene scene(box_tables());
  scene.take("box").take("loop-360").take("fan-120", 3);  // the radiator makes room for them: front
  EXPECT_DOUBLE_EQ(scene.claim(fan_rule()).limit->value, 3.0);
  EXPECT_EQ(scene.claim(radiator_rule()).where, "front");
  scene.setup.mounts["cooler"] = "top";  // two are left on the front
  EXPECT_DOUBLE_EQ(scene.claim(fan_rule()).limit->value, 2.0);
  EXPECT_EQ(scene.claim(fan_rule()).verdict, Verdict::fails);
  scene.drop(Kind::fan).take("fan-120", 1).take("fan-140", 1);
  EXPECT_EQ(scene.places(fan_rule()), 2);
  EXPECT_EQ(scene.claim(fan_rule(), 0).verdict, Verdict::holds);
  const Claim second = scene.claim(fan_rule(), 1);  // 240 - 120 = 120 mm left
  EXPECT_EQ(second.where, "fan-140");
  EXPECT_EQ(second.verdict, Verdict::fails);
  scene.drop(Kind::cooler);  // the first one moves to the top
  scene.setup.mounts.clear();
  EXPECT_EQ(scene.claim(fan_rule(), 1).verdict, Verdict::holds);
}

TEST(FanPlaces, AuthorsMountForTheFans) {
  Scene scene(box_tables());
  scene.take("box").take("fan-120", 3);
  scene.setup.mounts["fan"] = "front";
  EXPECT_EQ(scene.claim(fan_rule()).verdict, Verdict::fails);  // two free there
  scene.setup.mounts["fan"] = "top";
  EXPECT_EQ(scene.claim(fan_rule()).verdict, Verdict::holds);
  scene.take("loop-360");  // makes room for them: front
  EXPECT_EQ(scene.claim(radiator_rule()).where, "front");
  EXPECT_EQ(scene.claim(fan_rule()).verdict, Verdict::holds);
}

TEST(FanPlaces, UnknownCellsAreNamed) {
  TestTables tables = box_tables();
  tables.row("case", {{"id", "no-fans-row"}}).row("fan", {{"id", "sizeless"}});
  tables.row("case_mounts", {{"case", "no-fans-row"},
                             {"mount", "top"},
                             {"face", "top"},
                             {"fan_sizes_mm", "120"},
                             {"fan_places", "2"},
                             {"radiators_mm", "none"}});
  tables.row("case_mounts", {{"case", "no-fans-row"},
                             {"mount", "side"},
                             {"face", "side"},
                             {"fan_sizes_mm", "120"},
                             {"radiators_mm", "none"}});
  Scene scene(tables);
  using Cells = std::vector<std::string>;
  scene.take("no-fans-row").take("fan-120", 2);
  EXPECT_EQ(missing_cells(scene.claim(fan_rule())), Cells{"case_fans.no-fans-row.*"});
  scene.drop(Kind::fan).take("fan-120", 3);
  EXPECT_EQ(missing_cells(scene.claim(fan_rule())),
            Cells{"case_mounts.no-fans-row/side.fan_places"});
  scene.drop(Kind::fan).take("sizeless");
  EXPECT_EQ(missing_cells(scene.claim(fan_rule())), Cells{"fan.sizeless.size_mm"});
  scene.drop(Kind::fan);
  EXPECT_EQ(scene.places(fan_rule()), 0);
}

TEST(MovingAir, TwoWithACardElseOne) {
  TestTables tables = box_tables();
  tables.row("case", {{"id", "still"}});
  tables.row("case_fans",
             {{"case", "still"}, {"mount", "rear"}, {"size_mm", "120"}, {"count", "1"}});
  tables.row("case_mounts", {{"case", "still"},
                             {"mount", "rear"},
                             {"face", "rear"},
                             {"fan_sizes_mm", "120"},
                             {"fan_places", "1"},
                             {"radiators_mm", "120"},
                             {"depth_mm", "100"}});
  tables.row("case_mounts", {{"case", "still"},
                             {"mount", "top"},
                             {"face", "top"},
                             {"fan_sizes_mm", "120"},
                             {"fan_places", "1"},
                             {"radiators_mm", "none"},
                             {"depth_mm", "30"}});
  tables.row("cooler",
             {{"id", "loop-120"}, {"type", "liquid"}, {"radiator_mm", "120"}, {"fans", "1"}});
  Scene scene(tables);
  scene.take("still").take("tower");
  EXPECT_EQ(scene.claim(air_rule()).verdict, Verdict::holds);
  scene.take("card-300");
  EXPECT_EQ(scene.claim(air_rule()).verdict, Verdict::fails);  // an air cooler's fan does not count
  scene.take("fan-120");
  EXPECT_EQ(scene.claim(air_rule()).verdict, Verdict::holds);
  scene.drop(Kind::fan).take("fan-120", 5);  // only one of them has a place
  EXPECT_DOUBLE_EQ(scene.claim(air_rule()).value->value, 2.0);
  scene.drop(Kind::fan)
      .drop(Kind::cooler)
      .take("loop-120");  // its fan takes the place of the case's own
  EXPECT_DOUBLE_EQ(scene.claim(air_rule()).value->value, 1.0);
  EXPECT_EQ(scene.claim(air_rule()).verdict, Verdict::fails);
}

TEST(MovingAir, UnknownUnlessWhatIsKnownIsEnough) {
  TestTables tables = box_tables();
  tables.row("case", {{"id", "silent-sheet"}});
  tables.row("case_mounts", {{"case", "silent-sheet"},
                             {"mount", "top"},
                             {"face", "top"},
                             {"fan_sizes_mm", "120"},
                             {"fan_places", "3"},
                             {"radiators_mm", "360"},
                             {"depth_mm", "60"}});
  Scene scene(tables);
  scene.take("silent-sheet").take("tower").take("card-300");
  const Claim claim = scene.claim(air_rule());
  EXPECT_EQ(claim.verdict, Verdict::unknown);
  EXPECT_EQ(missing_cells(claim), std::vector<std::string>{"case_fans.silent-sheet.*"});
  scene.drop(Kind::cooler).take("loop-360");  // its three fans are enough, whatever else there is
  EXPECT_EQ(scene.claim(air_rule()).verdict, Verdict::holds);
}

TEST(FitRules, MeasureAllocatesNothing) {
  const std::size_t before = test_support::allocations;
  TestTables tables = box_tables();
  EXPECT_GT(test_support::allocations, before);  // the counter counts
  tables.plus_minus("gpu", "fed-card", "length_mm", 2);
  for (const char* limits : {"card-height", "card-thickness", "supply-and-cables"})
    tables.row("case_clearances",
               {{"case", "box"}, {"limits", limits}, {"when", "always"}, {"by_mm", "150"}});
  for (const char* connector : {"eps8", "pcie8", "sata"}) {
    tables.row("case_ways", {{"case", "box"}, {"connector", connector}, {"way_mm", "400"}});
    tables.row("psu_cables", {{"psu", "supply"}, {"connector", connector}, {"count", "2"}});
  }
  tables.row("case_clearances",
             {{"case", "box"}, {"limits", "card-length"}, {"when", "bay-3.5"}, {"by_mm", "10"}});
  tables.row("psu", {{"id", "supply"}, {"length_mm", "160"}});
  tables.row("storage", {{"id", "drive"}, {"mounting", "bay-3.5"}});
  tables.row("gpu", {{"id", "fed-card"}, {"length_mm", "300"}, {"mass_kg", "1"}});
  tables.row("gpu_inputs", {{"gpu", "fed-card"}, {"connector", "pcie8"}, {"count", "2"}});
  tables.row("cooler", {{"id", "loop"},
                        {"type", "liquid"},
                        {"height_mm", "55"},
                        {"radiator_mm", "360"},
                        {"fans", "3"}});
  tables.row("case_mounts", {{"case", "box"},
                             {"mount", "stated"},
                             {"face", "side"},
                             {"fan_sizes_mm", "140"},
                             {"fan_places", "3"},
                             {"radiators_mm", "360"},
                             {"depth_mm", "60"},
                             {"tube_way_mm", "300"},
                             {"end_above_socket_mm", "20"}});
  tables.row("board", {{"id", "board"},
                       {"atx24_inputs", "0"},
                       {"eps8_inputs", "1"},
                       {"memory_slots", "4"},
                       {"memory_fill_order", "2|4|1|3"}});
  tables.row("board_slots", {{"board", "board"}, {"slot", "1"}, {"length", "x16"}});
  tables.row("memory", {{"id", "pair"}, {"modules", "2"}});
  tables.row("memory", {{"id", "other-pair"}, {"modules", "2"}, {"height_mm", "40"}});
  tables.row("cooler", {{"id", "broad-tower"},
                        {"type", "air"},
                        {"covers_memory_slots", "2"},
                        {"memory_clearance_mm", "40"}});
  Scene scene(tables);
  scene.take("box").take("fed-card").take("loop").take("fan-120", 4).take("supply");
  scene.take("board").take("pair").take("other-pair").take("drive");
  scene.setup.mounts["cooler"] = "stated";
  scene.brief.volume_l_at_most = 50.0;
  const Facts facts = scene.facts();
  for (const Rule* each : fit_rules()) {
    if (each->id == "fit.over-cooler") continue;  // of an air cooler, below
    ASSERT_EQ(each->places(facts), 1) << each->id;
    EXPECT_EQ(test_support::allocations_of(*each, facts, 0), 0U) << each->id;
  }
  scene.drop(Kind::cooler).take("broad-tower");  // reaches over memory, as the loop does not
  for (const char* id : {"fit.memory-height", "fit.over-cooler"}) {
    const Rule& rule = rule_of(fit_rules(), id);
    ASSERT_EQ(rule.places(scene.facts()), 1) << id;
    EXPECT_EQ(test_support::allocations_of(rule, scene.facts(), 0), 0U) << id;
  }
}

}  // namespace
}  // namespace rigproof
