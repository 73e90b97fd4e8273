// The choice of mounts against trying every way by force: each mount of the case for the radiator,
// each set of mounts without fans.
#include <gtest/gtest.h>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/mounting.hpp"
#include "analysis/fit/seat_rules.hpp"
#include "tests/support/crowded_case.hpp"
#include "tests/support/fit_box.hpp"

namespace rigproof::fit {
namespace {

using fit_test::crowded_tables;
using fit_test::Dice;
using test_support::Scene;
using test_support::TestTables;

// Fans left over, the weightiest; then claims that fail for certain; then claims of the seat rules;
// where these are all admitted, a half for moving air; else a tenth for each claim of the supply.
double not_admitted(const Facts& facts) {
  double count = 0;
  int certain = 0;
  const auto add = [&](const Rule& rule, double weight) {
    for (int place = 0; place < rule.places(facts); ++place)
      if (!admitted(rule, judge(rule, facts, place).verdict, facts.brief)) count += weight;
  };
  for (const Rule* rule : seat_rules())
    for (int place = 0; place < rule->places(facts); ++place)
      certain += fails_for_certain(judge(*rule, facts, place)) ? 1 : 0;
  for (const Rule* rule : seat_rules()) add(*rule, 1.0);
  if (count == 0) add(test_support::rule_of(fit_rules(), "fit.moving-air"), 0.5);
  if (count == 0)
    for (const char* id : {"fit.supply-length", "fit.supply-cables"})
      add(test_support::rule_of(fit_rules(), id), 0.1);
  for (const int left_over : choose_mounting(facts).unplaced) count += 10'000.0 * left_over;
  count += 100.0 * certain;
  return count;
}

double against(Facts facts, const Mounting& mounting) {
  const Seats seats{mounting};
  facts.seats = &seats;
  return not_admitted(facts);
}

constexpr double loop_radiator_mm = 360;  // crowded_case.hpp

TEST(MountChoice, NoWayLeavesFewerClaimsOpen) {
  Dice dice(20261127);
  int moved = 0;
  int mended = 0;
  for (int trial = 0; trial < 400; ++trial) {
    const int mounts = dice.between(1, 5);
    Scene scene(crowded_tables(dice, mounts));
    scene.take("box").take(dice.between(0, 2) == 0 ? "tower" : "loop");
    if (dice.between(0, 3) > 0) scene.take("card");
    if (dice.between(0, 3) > 0) scene.take("kit").take("board");
    if (dice.between(0, 3) > 0) scene.take("supply");
    if (dice.between(0, 1) > 0) scene.take("drive");
    if (const int fans = dice.between(0, 3); fans > 0) scene.take("fan", fans);
    if (dice.between(0, 3) == 0) scene.brief.accept.verdict = WorstVerdict::holds;
    if (dice.between(0, 3) == 0) scene.brief.accept.unknown = Unknowns::accept;
    if (dice.between(0, 3) == 0)
      scene.brief.accept_by_rule["fit.card-length"] = {.verdict = WorstVerdict::holds,
                                                       .unknown = Unknowns::refuse};
    const Facts facts = scene.facts();
    const double chosen = not_admitted(facts);
    double fewest = 1e6;
    std::vector<Row> places;
    for (Row row = 0; row < static_cast<Row>(mounts); ++row)
      if (has_radiator(facts) && takes_radiator(scene.catalog, row, loop_radiator_mm))
        places.push_back(row);
    if (places.empty()) places.push_back(no_row);
    for (const Row place : places)
      for (std::uint32_t no_fans = 0; no_fans < 1U << static_cast<unsigned>(mounts); ++no_fans)
        fewest = std::min(fewest, against(facts, seated(facts, place, no_fans)));
    std::array<Row, most_mounts> radiators{};
    const int candidates = radiator_candidates(facts, radiators);
    const double plain = against(facts, seated(facts, candidates == 0 ? no_row : radiators[0]));
    EXPECT_EQ(chosen, fewest) << trial;
    moved += chosen < plain ? 1 : 0;
    mended += chosen < plain && chosen == 0 ? 1 : 0;
  }
  EXPECT_GT(moved, 40);
  EXPECT_GT(mended, 20);
}

// Tall memory forbids the top and a long card the front: by hand, see fit_box.hpp. The card of 300
// leaves 20 mm on the front, the radiator takes 55 there; under the top 60 mm are free, it
// takes 52.
TEST(MountChoice, TheRadiatorGoesWhereCardAndMemoryLeaveRoom) {
  TestTables tables = fit_test::box_tables();
  tables.row("board", {{"id", "board"}, {"upper_edge_mm", "30"}});
  tables.row("memory", {{"id", "tall"}, {"modules", "2"}, {"height_mm", "46"}});
  tables.row("gpu", {{"id", "short-card"}, {"length_mm", "200"}});
  Scene scene(tables);
  const auto where = [&] {
    const Mounting mounting = choose_mounting(scene.facts());
    return std::string(mount_name(scene.catalog, mounting.radiator));
  };
  scene.take("box").take("loop-360");
  EXPECT_EQ(where(), "top");  // takes nothing from a card
  scene.take("fan-120", 3);   // two places are left on the front, three on top
  EXPECT_EQ(where(), "front");
  scene.take("card-300");  // 320 - 55 = 265: no room for both; no fan is left over on purpose
  EXPECT_EQ(where(), "front");
  scene.drop(Kind::fan);
  EXPECT_EQ(where(), "top");
  scene.take("fan-120", 3);
  scene.drop(Kind::gpu).take("short-card");
  EXPECT_EQ(where(), "front");
  scene.setup.mounts["cooler"] = "top";  // the author's word stands, fit or not
  EXPECT_EQ(where(), "top");
}

// Two ways that both pass: the one without a close shave. The radiator takes 52 of 52 mm under the
// top, plus-minus some, and of 60 on the front, where a card of 200 leaves it 68.
TEST(MountChoice, WhatSurelyHoldsComesBeforeWhatMay) {
  TestTables tables;
  tables.row("case", {{"id", "box"}});
  const auto mount = [&](const char* name, const char* depth) {
    tables.row("case_mounts", {{"case", "box"},
                               {"mount", name},
                               {"face", "front"},
                               {"fan_sizes_mm", "120"},
                               {"fan_places", "3"},
                               {"radiators_mm", "360"},
                               {"depth_mm", depth}});
  };
  mount("upper", "52");
  mount("front", "60");
  tables.row("case_clearances",
             {{"case", "box"}, {"limits", "card-length"}, {"when", "always"}, {"by_mm", "320"}});
  tables.row("case_clearances",
             {{"case", "box"}, {"limits", "card-length"}, {"when", "front"}, {"by_mm", "0"}});
  tables.row("gpu", {{"id", "card"}, {"length_mm", "200"}});
  tables.row("cooler", {{"id", "loop"},
                        {"type", "liquid"},
                        {"radiator_mm", "360"},
                        {"radiator_thickness_mm", "27"},
                        {"fan_thickness_mm", "25"},
                        {"fans", "3"}});
  tables.plus_minus("cooler", "loop", "radiator_thickness_mm", 1);
  Scene scene(tables);
  scene.take("box").take("card").take("loop");
  scene.setup.mounts["cooler"] = "upper";
  EXPECT_EQ(scene.claim(test_support::rule_of(fit_rules(), "fit.radiator-mount")).verdict,
            Verdict::thin);
  scene.setup.mounts.clear();
  const Mounting mounting = choose_mounting(scene.facts());
  EXPECT_EQ(mount_name(scene.catalog, mounting.radiator), "front");
}

// What the author fixed stands whatever it forbids: no fan leaves the mount it was given.
TEST(MountChoice, TheAuthorsFansStay) {
  Dice dice(5);
  int seated_fans = 0;
  for (int trial = 0; trial < 100; ++trial) {
    Scene scene(crowded_tables(dice, dice.between(2, 4)));
    scene.take("box").take("card").take("kit").take("board").take("supply").take("loop").take(
        "fan", dice.between(1, 3));
    scene.setup.mounts["fan"] = "m1";
    const Facts facts = scene.facts();
    const Mounting chosen = choose_mounting(facts);
    const Mounting plain = seated(facts, chosen.radiator);
    EXPECT_EQ(chosen.unplaced, plain.unplaced) << trial;
    for (const FanGroup& group : chosen.groups()) {
      EXPECT_EQ(mount_name(scene.catalog, group.mount), "m1") << trial;
      seated_fans += group.count;
    }
  }
  EXPECT_GT(seated_fans, 50);
}

// A larger case or a smaller part never loses a fit: no length changed for the better leaves more
// claims open, wherever things then sit.
TEST(MountChoice, ALargerCaseOrASmallerPartNeverLosesAFit) {
  Dice seeds(99);
  int better = 0;
  int same = 0;
  for (int trial = 0; trial < 250; ++trial) {
    const auto seed = static_cast<unsigned>(seeds.between(0, 1'000'000));
    const int mounts = seeds.between(1, 4);
    std::vector<std::string> lengths;
    Dice first(seed);
    Scene before(crowded_tables(first, mounts, {}, &lengths));
    const bool loop = seeds.between(0, 3) > 0;
    const int fans = seeds.between(0, 3);
    const auto take = [&](Scene& scene) {
      scene.take("box").take("card").take("kit").take("board").take("supply").take("drive");
      scene.take(loop ? "loop" : "tower");
      if (fans > 0) scene.take("fan", fans);
    };
    take(before);
    for (const std::string& what : lengths) {
      const bool of_the_case = what.starts_with("room ") || what.ends_with(" depth") ||
                               what.ends_with(" beyond") || what.ends_with(" middle") ||
                               what.ends_with(" end above") || what == "socket edge" ||
                               what == "tube";
      const int by_mm = seeds.between(1, 12);
      Dice again(seed);
      Scene after(
          crowded_tables(again, mounts, {.what = what, .by_mm = of_the_case ? by_mm : -by_mm}));
      take(after);
      const double then = not_admitted(before.facts());
      const double now = not_admitted(after.facts());
      EXPECT_LE(now, then) << trial << ": " << what << " by " << by_mm;
      (now < then ? better : same) += 1;
    }
  }
  EXPECT_GT(better, 200);
  EXPECT_GT(same, 1000);
}

// A part more never leaves fewer claims open: what lets the planner ask before it is chosen.
TEST(MountChoice, APartMoreNeverMendsAnything) {
  Dice dice(7);
  int pairs = 0;
  for (int trial = 0; trial < 400; ++trial) {
    Scene scene(crowded_tables(dice, dice.between(1, 4)));
    scene.take("box");
    const auto clean = [&] {
      for (const Rule* rule : seat_rules()) {
        for (int place = 0; place < rule->places(scene.facts()); ++place)
          if (!admitted(*rule, judge(*rule, scene.facts(), place).verdict, scene.brief))
            return false;
      }
      return true;
    };
    bool before = clean();
    for (const char* part : {"card", "drive", "kit", "board", "fan", "loop"}) {
      if (dice.between(0, 3) == 0) continue;
      scene.take(part, part == std::string_view("fan") ? dice.between(1, 3) : 1);
      const bool now = clean();
      EXPECT_FALSE(now && !before) << trial << " " << part;
      pairs += before && !now ? 1 : 0;
      before = now;
    }
  }
  EXPECT_GT(pairs, 100);
}

}  // namespace
}  // namespace rigproof::fit
