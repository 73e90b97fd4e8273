// The choice of mounts against trying every way by force: each mount of the case for the radiator,
// each set of mounts without fans. The random cases are drawn so that card, memory, supply, cooler
// and fans compete for the same mounts.
#include <gtest/gtest.h>

#include <random>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/mounting.hpp"
#include "analysis/fit/seat_rules.hpp"
#include "tests/support/fit_box.hpp"

namespace rigproof::fit {
namespace {

using test_support::Scene;
using test_support::TestTables;

class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  int between(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1));
  }
  std::string text(int low, int high) { return std::to_string(between(low, high)); }

 private:
  std::mt19937 engine_;
};

constexpr std::array limits = {"card-length", "card-height", "cooler-height", "supply-length"};

TestTables random_tables(Dice& dice, int mounts) {
  TestTables tables;
  tables.row("case", {{"id", "box"}});
  constexpr std::array room_mm = {320, 150, 165, 180};
  for (std::size_t i = 0; i < limits.size(); ++i)
    tables.row("case_clearances", {{"case", "box"},
                                   {"limits", limits[i]},
                                   {"when", "always"},
                                   {"by_mm", std::to_string(room_mm[i])}});
  tables.row("case_fans", {{"case", "box"}, {"mount", "m0"}, {"size_mm", "120"}, {"count", "1"}});
  for (int m = 0; m < mounts; ++m) {
    const std::string name = "m" + std::to_string(m);
    tables.row("case_mounts", {{"case", "box"},
                               {"mount", name},
                               {"face", dice.between(0, 1) == 0 ? "top" : "front"},
                               {"fan_sizes_mm", "120"},
                               {"fan_places", dice.text(1, 3)},
                               {"radiators_mm", dice.between(0, 3) == 0 ? "none" : "240|360"},
                               {"depth_mm", dice.text(4, 7) + "0"},
                               {"beyond_board_mm", dice.text(2, 6) + "0"},
                               {"middle_from_board_mm", dice.text(7, 11) + "0"}});
    for (const char* limit : limits)
      if (dice.between(0, 2) == 0)
        tables.row(
            "case_clearances",
            {{"case", "box"}, {"limits", limit}, {"when", name}, {"by_mm", dice.text(0, 4)}});
  }
  tables.row("gpu", {{"id", "card"},
                     {"length_mm", dice.text(250, 320)},
                     {"height_mm", dice.text(100, 150)},
                     {"plug_side", "none"}});
  tables.row("memory", {{"id", "kit"}, {"modules", "2"}, {"height_mm", dice.text(30, 60)}});
  tables.row("board", {{"id", "board"}, {"upper_edge_mm", dice.text(20, 50)}});
  tables.row("psu", {{"id", "supply"}, {"length_mm", dice.text(130, 180)}});
  tables.row("cooler", {{"id", "loop"},
                        {"type", "liquid"},
                        {"height_mm", dice.text(50, 160)},
                        {"radiator_mm", "360"},
                        {"radiator_thickness_mm", "27"},
                        {"fan_thickness_mm", "25"},
                        {"fan_mm", "120"},
                        {"fans", "3"}});
  tables.row("cooler", {{"id", "tower"}, {"type", "air"}, {"height_mm", "150"}, {"fans", "1"}});
  tables.row("fan", {{"id", "fan"}, {"size_mm", "120"}, {"thickness_mm", "25"}});
  for (const char* table :
       {"case_mounts", "case_clearances", "gpu", "cooler", "psu", "fan", "memory", "board"})
    if (dice.between(0, 1) == 0) tables.plus_minus(table, "*", "*", dice.between(0, 3));
  return tables;
}

// Of all rules but the supply's; where these are all admitted, half a one for the supply.
double not_admitted(const Facts& facts) {
  double count = 0;
  const auto add = [&](const Rule& rule, double weight) {
    for (int place = 0; place < rule.places(facts); ++place)
      if (!admitted(rule, judge(rule, facts, place).verdict, facts.brief)) count += weight;
  };
  for (const Rule* rule : seat_rules()) add(*rule, 1.0);
  if (count == 0) add(test_support::rule_of(fit_rules(), "fit.supply-length"), 0.5);
  return count;
}

TEST(MountChoice, NoWayLeavesFewerClaimsOpen) {
  Dice dice(20261127);
  int moved = 0;
  int mended = 0;
  for (int trial = 0; trial < 400; ++trial) {
    const int mounts = dice.between(1, 5);
    Scene scene(random_tables(dice, mounts));
    scene.take("box").take(dice.between(0, 2) == 0 ? "tower" : "loop");
    if (dice.between(0, 3) > 0) scene.take("card");
    if (dice.between(0, 3) > 0) scene.take("kit").take("board");
    if (dice.between(0, 3) > 0) scene.take("supply");
    if (const int fans = dice.between(0, 3); fans > 0) scene.take("fan", fans);
    if (dice.between(0, 3) == 0) scene.brief.accept.verdict = WorstVerdict::holds;
    const double chosen = not_admitted(scene.facts());
    double fewest = 1000;
    double plain = -1;
    for (int radiator = -1; radiator < mounts; ++radiator)  // -1: on none, where none lists it
      for (int no_fans = 0; no_fans < 1 << mounts; ++no_fans) {
        scene.mounts = {{no_fans_on, std::to_string(no_fans)}};
        if (radiator >= 0) {
          if (!has_radiator(scene.facts()) ||
              !takes_radiator(scene.catalog, static_cast<Row>(radiator), 360))
            continue;
          scene.mounts["cooler"] = "m" + std::to_string(radiator);
        }
        fewest = std::min(fewest, not_admitted(scene.facts()));
      }
    scene.mounts.clear();
    {
      std::array<Row, most_mounts> radiators{};
      const int count = radiator_candidates(scene.facts(), radiators);
      scene.mounts = {{no_fans_on, "0"}};
      if (count > 0)
        scene.mounts["cooler"] = scene.catalog.word(column("case_mounts", "mount"), radiators[0]);
      plain = not_admitted(scene.facts());
      scene.mounts.clear();
    }
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
    return std::string(scene.catalog.word(column("case_mounts", "mount"), mounting.radiator));
  };
  scene.take("box").take("loop-360");
  EXPECT_EQ(where(), "top");  // takes nothing from a card
  scene.take("fan-120", 3);   // two places are left on the front, three on top
  EXPECT_EQ(where(), "front");
  scene.take("card-300");  // 320 - 55 = 265: no room for both; the first of equals
  EXPECT_EQ(where(), "top");
  scene.drop(Kind::gpu).take("short-card");
  EXPECT_EQ(where(), "front");
  scene.mounts["cooler"] = "top";  // the author's word stands, fit or not
  EXPECT_EQ(where(), "top");
}

// A part more never leaves fewer claims open: what lets the planner ask before it is chosen.
TEST(MountChoice, APartMoreNeverMendsAnything) {
  Dice dice(7);
  int pairs = 0;
  for (int trial = 0; trial < 400; ++trial) {
    Scene scene(random_tables(dice, dice.between(1, 4)));
    scene.take("box");
    const auto clean = [&] {
      for (const Rule* rule : seat_rules()) {
        if (rule->id == "fit.moving-air") continue;  // asks for more fans: not a matter of room
        for (int place = 0; place < rule->places(scene.facts()); ++place)
          if (!admitted(*rule, judge(*rule, scene.facts(), place).verdict, scene.brief))
            return false;
      }
      return true;
    };
    bool before = clean();
    for (const char* part : {"card", "kit", "board", "fan", "loop"}) {
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
