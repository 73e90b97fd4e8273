// Excursions and contacts by hand. Shares of the rating: [atx12vo-2-01] Table 3-3, looked up.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/power/power_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::ElementsAre;
using testing::HasSubstr;

const Rule& excursions() { return rule_of(power_rules(), "power.excursions"); }
const Rule& contacts() { return rule_of(power_rules(), "power.card-contacts"); }

TestTables tables() {
  TestTables t;
  t.row("cpu", {{"id", "cpu"}, {"sustained_power_w", "120"}, {"peak_power_w", "180"}});
  t.row("board", {{"id", "board"}, {"power_w", "40"}});
  t.row("gpu", {{"id", "card"}, {"sustained_power_w", "300"}, {"slot_power_w", "50"}})
      .row("gpu", {{"id", "unmeasured"}, {"sustained_power_w", "300"}, {"slot_power_w", "50"}})
      .row("gpu", {{"id", "wide"}, {"sustained_power_w", "575"}, {"slot_power_w", "25"}});
  for (const auto& [window, power] :
       {std::pair{"100", "700"}, {"1000", "600"}, {"10000", "450"}, {"100000", "340"}})
    t.row("gpu_peaks", {{"gpu", "card"}, {"window_us", window}, {"power_w", power}});
  t.row("gpu_inputs", {{"gpu", "card"}, {"connector", "pcie8"}, {"count", "2"}})
      .row("gpu_inputs", {{"gpu", "unmeasured"}, {"connector", "pcie8"}, {"count", "1"}})
      .row("gpu_inputs", {{"gpu", "unmeasured"}, {"connector", "pcie6"}, {"count", "1"}})
      .row("gpu_inputs", {{"gpu", "wide"}, {"connector", "12v-2x6"}, {"count", "1"}});
  const auto supply = [&](const char* id, const char* rated, const char* edition,
                          const char* wide) {
    t.row("psu", {{"id", id}, {"rated_power_w", rated}, {"edition", edition}});
    t.row("psu_cables", {{"psu", id}, {"connector", "12v-2x6"}, {"count", wide}});
  };
  supply("new-650", "650", "ATX-3.1", "1");
  supply("new-400", "400", "ATX-3.1", "1");
  supply("narrow-650", "650", "ATX-3.0", "0");
  supply("old-650", "650", "ATX-2.53", "0");
  supply("silent-650", "650", "", "0");
  for (const char* table : {"cpu", "board", "gpu", "psu", "gpu_peaks"})
    t.plus_minus(table, "*", "*", 0);
  return t;
}

Claim judged(const char* psu, int window, const char* card = "card") {
  Scene scene(tables());
  scene.take("cpu").take("board").take(card).take(psu);
  return scene.claim(excursions(), window);
}

// Others: 120 + 40 = 160 W, at the processor's peak 220 W. Against 650 W: 860 to 920 of 1300,
// 760 to 820 of 1170, 610 to 670 of 1040, 500 to 560 of 780 W.
TEST(ExcursionRule, TheFourWindows) {
  constexpr std::array limits_w = {1300.0, 1170.0, 1040.0, 780.0};
  constexpr std::array highest_w = {920.0, 820.0, 670.0, 560.0};
  for (int window = 0; window < 4; ++window) {
    const Claim claim = judged("new-650", window);
    const auto i = static_cast<std::size_t>(window);
    EXPECT_NEAR(claim.limit->value, limits_w[i], 1e-9);
    EXPECT_NEAR(*claim.value->high, highest_w[i], 1e-9);
    EXPECT_NEAR(*claim.value->low, highest_w[i] - 60.0, 1e-9);
    EXPECT_EQ(claim.verdict, Verdict::holds) << claim.where;
    EXPECT_EQ(claim.grade, Grade::tells);
  }
}

// Without the wide plug 150 % are promised for 100 us: 975 W; rated 400 W: 600 W.
TEST(ExcursionRule, TheSecondColumn) {
  EXPECT_NEAR(judged("narrow-650", 0).limit->value, 975.0, 1e-9);
  EXPECT_EQ(judged("narrow-650", 0).verdict, Verdict::holds);
  const Claim small = judged("new-400", 0);
  EXPECT_NEAR(small.limit->value, 600.0, 1e-9);
  EXPECT_EQ(small.verdict, Verdict::fails);
}

// Between the mean and the peak of the others nobody knows: 500 to 560 W of 400 x 1.1 = 440 fails;
// with 540 W (450 x 1.2) it hangs on them.
TEST(ExcursionRule, BetweenMeanAndPeakItIsUnknown) {
  TestTables t = tables();
  t.row("psu", {{"id", "new-460"}, {"rated_power_w", "460"}, {"edition", "ATX-3.1"}});
  t.row("psu_cables", {{"psu", "new-460"}, {"connector", "12v-2x6"}, {"count", "1"}});
  t.plus_minus("psu", "new-460", "rated_power_w", 0);
  Scene scene(t);
  scene.take("cpu").take("board").take("card").take("new-460");
  EXPECT_EQ(scene.claim(excursions(), 3).verdict, Verdict::unknown);  // 500 to 560 of 552
}

TEST(ExcursionRule, WhatIsNotKnownIsSaid) {
  const Claim old = judged("old-650", 0);
  EXPECT_EQ(old.verdict, Verdict::unknown);
  EXPECT_THAT(old.remedy, HasSubstr("ATX-2.53"));
  EXPECT_THAT(missing_cells(judged("silent-650", 0)), ElementsAre("psu.silent-650.edition"));
  EXPECT_THAT(missing_cells(judged("new-650", 0, "unmeasured")),
              ElementsAre("gpu_peaks.unmeasured.*"));
}

// 250 W over two plugs of three circuits: 3.472 A even, 4.340 A by a quarter unevenly.
TEST(ContactRule, EvenAndUneven) {
  Scene scene(tables());
  scene.take("card");
  const Claim claim = scene.claim(contacts());
  EXPECT_NEAR(*claim.value->low, 250.0 / 72.0, 1e-9);
  EXPECT_NEAR(*claim.value->high, 1.25 * 250.0 / 72.0, 1e-9);
  EXPECT_EQ(claim.verdict, Verdict::holds);
}

// It states 75 W for the slot and draws 60 W: nothing is left for the plug, not less than nothing.
TEST(ContactRule, ASlotCarriesNoMoreThanTheCardDraws) {
  TestTables t = tables();
  t.row("gpu", {{"id", "small"}, {"sustained_power_w", "60"}, {"slot_power_w", "75"}})
      .row("gpu_inputs", {{"gpu", "small"}, {"connector", "pcie6"}, {"count", "1"}});
  Scene scene(t);
  scene.take("small");
  const Claim claim = scene.claim(contacts());
  EXPECT_EQ(claim.value->value, 0.0);
  EXPECT_EQ(claim.verdict, Verdict::holds);
}

// The rating of a supply hangs on the air it draws in, so a change of the room asks these again.
TEST(ExcursionRule, HangsOnTheRoom) {
  EXPECT_THAT(excursions().brief_keys, testing::Contains("room"));
  TestTables t = tables();
  t.row("psu", {{"id", "hot-650"},
                {"rated_power_w", "650"},
                {"edition", "ATX-3.1"},
                {"full_power_c", "40"},
                {"derating_w_k", "10"}});
  t.row("psu_cables", {{"psu", "hot-650"}, {"connector", "12v-2x6"}, {"count", "1"}});
  t.plus_minus("psu", "hot-650", "*", 0);
  Scene scene(t);
  scene.take("cpu").take("board").take("card").take("hot-650");
  scene.brief.room_c = 20.0;
  EXPECT_EQ(scene.claim(excursions(), 0).verdict, Verdict::holds) << "920 of 1300 W";
  scene.brief.room_c = 50.0;  // 10 to 25 K above: 400 to 550 W, twice that for 100 us
  EXPECT_EQ(scene.claim(excursions(), 0).verdict, Verdict::unknown) << "860 to 920 of 800 to 1100";
  scene.brief.room_c = 75.0;  // 35 to 50 K above: 150 to 300 W
  EXPECT_EQ(scene.claim(excursions(), 0).verdict, Verdict::fails) << "of 300 to 600";
}

// 250 W: two thirds through the 8-pin plug, 166.7 W over three circuits 4.63 A; a third through
// the 6-pin one, 83.3 W over two 3.47 A.
TEST(ContactRule, SeveralTypesShareByWhatEachIsFor) {
  Scene scene(tables());
  scene.take("unmeasured");
  ASSERT_EQ(scene.places(contacts()), 2);
  EXPECT_NEAR(*scene.claim(contacts(), 0).value->low, 4.6296, 1e-4);
  EXPECT_NEAR(*scene.claim(contacts(), 1).value->low, 3.4722, 1e-4);
}

// 550 W over six circuits: 7.64 A even of 9.2 A, 9.55 A a quarter unevenly: it hangs on the plug.
TEST(ContactRule, AWidePlugNearItsRatingIsNotSure) {
  Scene scene(tables());
  scene.take("wide");
  EXPECT_EQ(scene.claim(contacts()).verdict, Verdict::unknown);
}

}  // namespace
}  // namespace rigproof
