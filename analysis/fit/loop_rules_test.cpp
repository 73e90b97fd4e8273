// Tubes and the height of the pump, (T10) and (T11). Expectations by hand; lengths are exact unless
// a test says so.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/mounting.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::HasSubstr;

const Rule& tubes() { return rule_of(fit_rules(), "fit.tube-reach"); }
const Rule& pump() { return rule_of(fit_rules(), "fit.pump-height"); }

struct Place {
  std::string mount, face, way_mm, end_mm;
};

TestTables loop_tables(const std::vector<Place>& places) {
  TestTables tables;
  tables.row("case", {{"id", "box"}});
  for (const Place& place : places)
    tables.row("case_mounts", {{"case", "box"},
                               {"mount", place.mount},
                               {"face", place.face},
                               {"fan_sizes_mm", "120"},
                               {"fan_places", "3"},
                               {"radiators_mm", "360"},
                               {"depth_mm", "60"},
                               {"tube_way_mm", place.way_mm},
                               {"end_above_socket_mm", place.end_mm}});
  const auto loop = [&](const char* id, const char* tube) {
    tables.row("cooler", {{"id", id},
                          {"type", "liquid"},
                          {"radiator_mm", "360"},
                          {"radiator_thickness_mm", "27"},
                          {"fan_thickness_mm", "25"},
                          {"fans", "3"},
                          {"tube_mm", tube}});
  };
  loop("loop-380", "380");
  loop("loop-unstated", "");
  tables.row("cooler", {{"id", "tower"}, {"type", "air"}});
  tables.plus_minus("case_mounts", "*", "*", 0).plus_minus("cooler", "*", "*", 0);
  return tables;
}

Claim judged(const TestTables& tables, const Rule& rule, const std::string& cooler = "loop-380") {
  Scene scene(tables);
  scene.take("box").take(cooler);
  return scene.claim(rule);
}
int places_of(const TestTables& tables, const Rule& rule, const std::string& cooler = "loop-380") {
  Scene scene(tables);
  scene.take("box").take(cooler);
  return scene.places(rule);
}

TEST(TubeReach, TheWayAgainstTheTubes) {
  const Claim reaches = judged(loop_tables({{"front", "front", "350", "20"}}), tubes());
  EXPECT_EQ(reaches.verdict, Verdict::holds);
  EXPECT_EQ(reaches.margin->value, 30.0);
  EXPECT_EQ(reaches.where, "front");
  const Claim short_by_5 = judged(loop_tables({{"front", "front", "385", "20"}}), tubes());
  EXPECT_EQ(short_by_5.verdict, Verdict::fails);
  EXPECT_EQ(short_by_5.margin->value, -5.0);
  EXPECT_THAT(short_by_5.remedy, HasSubstr("385 mm"));
}

// Tubes of unstated length are 350 to 450 mm: that reaches 340 for certain, 400 perhaps, 460 never.
TEST(TubeReach, UnstatedTubesSpanTheirClass) {
  EXPECT_EQ(
      judged(loop_tables({{"front", "front", "340", "20"}}), tubes(), "loop-unstated").verdict,
      Verdict::holds);
  EXPECT_EQ(
      judged(loop_tables({{"front", "front", "400", "20"}}), tubes(), "loop-unstated").verdict,
      Verdict::unknown);
  EXPECT_EQ(
      judged(loop_tables({{"front", "front", "460", "20"}}), tubes(), "loop-unstated").verdict,
      Verdict::fails);
}

TEST(TubeReach, NothingIsClaimedWithoutAStatedWayOrALoop) {
  EXPECT_EQ(places_of(loop_tables({{"front", "front", "", ""}}), tubes()), 0);
  EXPECT_EQ(places_of(loop_tables({{"front", "front", "350", "20"}}), tubes(), "tower"), 0);
}

TEST(PumpHeight, OnTopItHoldsAndAtTheBottomItFails) {
  const Claim above = judged(loop_tables({{"lid", "top", "", ""}}), pump());
  EXPECT_EQ(above.verdict, Verdict::holds);
  const Claim below = judged(loop_tables({{"floor", "bottom", "", ""}}), pump());
  EXPECT_EQ(below.verdict, Verdict::fails);
  EXPECT_EQ(below.basis, Basis::common_practice);
  EXPECT_FALSE(below.consequence.empty());
}

TEST(PumpHeight, ElsewhereTheCaseSaysIt) {
  const Claim above = judged(loop_tables({{"front", "front", "", "12"}}), pump());
  EXPECT_EQ(above.verdict, Verdict::holds);
  EXPECT_EQ(above.margin->value, 12.0);
  const Claim below = judged(loop_tables({{"front", "front", "", "-12"}}), pump());
  EXPECT_EQ(below.verdict, Verdict::fails);
  EXPECT_EQ(below.margin->value, -12.0);
  EXPECT_EQ(places_of(loop_tables({{"front", "front", "", ""}}), pump()), 0);
}

// The front comes first in the file; each of the two rules drives the radiator off it.
TEST(LoopSeats, TheRadiatorGoesWhereTubesReachAndThePumpIsNotHighest) {
  const auto where = [](const Place& front) {
    Scene scene(loop_tables({front, {"lid", "top", "200", ""}}));
    scene.take("box").take("loop-380");
    return std::string(
        fit::mount_name(scene.catalog, fit::choose_mounting(scene.facts()).radiator));
  };
  EXPECT_EQ(where({"front", "front", "195", "20"}), "front") << "of equals that with shorter tubes";
  EXPECT_EQ(where({"front", "front", "205", "20"}), "lid") << "of equals that with shorter tubes";
  EXPECT_EQ(where({"front", "front", "400", "20"}), "lid");
  EXPECT_EQ(where({"front", "front", "150", "-20"}), "lid");
}

}  // namespace
}  // namespace rigproof
