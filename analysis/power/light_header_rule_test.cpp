// Current on light headers: hand sums, and the sharing against every way there is.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <random>

#include "analysis/power/light_plugs.hpp"
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

double left_by_trying(std::vector<double> gives, const std::vector<double>& plugs,
                      std::size_t plug = 0) {
  if (plug == plugs.size()) return *std::ranges::min_element(gives);
  double best = -1e9;
  for (double& outlet : gives) {
    outlet -= plugs[plug];
    best = std::max(best, left_by_trying(gives, plugs, plug + 1));
    outlet += plugs[plug];
  }
  return best;
}

TEST(ShareLights, LeavesAsMuchAsAnyWay) {
  std::mt19937 generator(20261127);
  const auto up_to = [&](int most) {
    return static_cast<int>(generator() % static_cast<unsigned>(most + 1));
  };
  int overloaded = 0;
  for (int round = 0; round < 2000; ++round) {
    std::vector<double> gives(1U + static_cast<std::size_t>(up_to(2)));
    for (double& each : gives) each = 1.0 + up_to(2);
    std::vector<double> plugs(static_cast<std::size_t>(up_to(7)));
    for (double& each : plugs) each = 0.125 * (1 + up_to(7));  // eighths add exactly
    const double got = power::share_lights(gives, plugs);
    ASSERT_EQ(got, left_by_trying(gives, plugs)) << round;
    overloaded += got < 0.0 ? 1 : 0;
  }
  EXPECT_GT(overloaded, 100);
}

// The first three on one header and the last two on the other: 1.5 A each; the largest first would
// put 0.75 + 0.5 + 0.5 on one.
TEST(ShareLights, IsNotTheLargestFirst) {
  const std::vector<double> plugs = {0.5, 0.5, 0.5, 0.75, 0.75};
  EXPECT_EQ(power::share_lights(std::vector<double>{2.0, 2.0}, plugs), 0.5);
  EXPECT_EQ(power::share_lights({}, plugs), -std::numeric_limits<double>::infinity());
}

TestTables lights() {
  TestTables tables;
  for (const auto& [id, count, current] :
       {std::tuple{"one", "1", "3"}, {"two", "2", "3"}, {"vague", "1", ""}, {"none", "0", ""}})
    tables.row("board", {{"id", id}})
        .row("board_headers",
             {{"board", id}, {"header", "light-5v"}, {"count", count}, {"current_a", current}});
  const auto lit = [&](const char* kind, const char* id, const char* current,
                       const char* count = "1") {
    tables.row(kind, {{"id", id}})
        .row("part_headers",
             {{"part", id}, {"header", "light-5v"}, {"count", count}, {"current_a", current}});
  };
  lit("fan", "glow", "0.75");
  lit("fan", "unsaid", "");
  lit("case", "strip", "1.5");
  lit("case", "bright", "3.5");
  lit("cooler", "ring", "0.5");
  lit("gpu", "about", "3");
  tables.plus_minus("part_headers", "about/light-5v", "current_a", 0.3);
  const auto hub = [&](const char* id, const char* current, const char* power) {
    tables.row("other", {{"id", id}, {"what", "hub"}})
        .row("other_hubs",
             {{"other", id}, {"feeds", "light-5v"}, {"outputs", "6"}, {"current_a", current}})
        .row("part_headers", {{"part", id}, {"header", "sata-power"}, {"count", power}})
        .row("part_headers",
             {{"part", id}, {"header", "light-5v"}, {"count", "1"}, {"current_a", "9"}});
  };
  hub("powered", "4.5", "1");
  hub("modest", "", "1");
  hub("splitter", "", "0");
  return tables.row("board", {{"id", "unlisted"}})
      .row("other", {{"id", "untold"}, {"what", "hub"}})
      .row("other_hubs",
           {{"other", "untold"}, {"feeds", "light-5v"}, {"outputs", "6"}, {"current_a", "4.5"}});
}

using Parts = std::vector<std::pair<std::string, int>>;
const Rule& rule() { return rule_of(power_rules(), "power.light-header"); }

Claim of(const Parts& parts) {
  Scene scene(lights());
  for (const auto& [part, count] : parts) scene.take(part, count);
  return scene.claim(rule());
}
int places(const Parts& parts) {
  Scene scene(lights());
  for (const auto& [part, count] : parts) scene.take(part, count);
  return scene.places(rule());
}

// Two fans of 0.75 A and a strip of 1.5 A: 3 A of 3 A. One fan more: 3.75 A.
TEST(LightHeader, AddsUpWhatHangsOnIt) {
  const Claim even = of({{"one", 1}, {"strip", 1}, {"glow", 2}});
  EXPECT_EQ(even.verdict, Verdict::holds);
  EXPECT_EQ(even.value->value, 3.0);
  EXPECT_EQ(even.margin->value, 0.0);
  EXPECT_EQ(even.where, "light-5v");
  const Claim over = of({{"one", 1}, {"strip", 1}, {"glow", 3}});
  EXPECT_EQ(over.verdict, Verdict::fails);
  EXPECT_EQ(over.value->value, 3.75);
  EXPECT_EQ(over.grade, Grade::must);
  EXPECT_THAT(over.remedy, HasSubstr("destroys"));
}

// Strip and one fan against two fans and the ring: 2.25 A and 2 A of 3 A.
TEST(LightHeader, SharesAmongHeaders) {
  EXPECT_EQ(of({{"two", 1}, {"strip", 1}, {"glow", 3}, {"ring", 1}}).value->value, 2.25);
  EXPECT_EQ(of({{"two", 1}, {"bright", 1}}).verdict, Verdict::fails) << "one plug is not split";
}

TEST(LightHeader, AHubWithPowerOfItsOwnTakesItsShare) {
  EXPECT_EQ(of({{"one", 1}, {"bright", 1}, {"glow", 3}, {"powered", 1}}).verdict, Verdict::holds)
      << "3.5 + 0.75 of 4.5 A and 1.5 of 3 A";
  EXPECT_EQ(of({{"none", 1}, {"bright", 1}, {"powered", 1}}).margin->value, 1.0);
  EXPECT_EQ(of({{"one", 1}, {"bright", 1}, {"splitter", 1}}).verdict, Verdict::fails)
      << "it gives no more than the header";
  EXPECT_EQ(of({{"one", 1}, {"glow", 1}, {"splitter", 1}}).value->value, 0.75)
      << "its own plug is no light";
}

TEST(LightHeader, IsThinWhereTheCurrentIsUncertain) {
  const Claim claim = of({{"one", 1}, {"about", 1}});
  EXPECT_EQ(claim.verdict, Verdict::thin);
  EXPECT_NEAR(*claim.odds, 0.5, 1e-9) << "3 A either way of 3 A";
}

// 1 to 3 A are common where a board states none.
TEST(LightHeader, ClassRangesAndAbsentCells) {
  EXPECT_EQ(of({{"vague", 1}, {"glow", 1}}).verdict, Verdict::holds);
  EXPECT_EQ(of({{"vague", 1}, {"strip", 1}}).verdict, Verdict::unknown);
  EXPECT_EQ(of({{"vague", 1}, {"bright", 1}}).verdict, Verdict::fails);
  const Claim unsaid = of({{"one", 1}, {"unsaid", 1}});
  EXPECT_EQ(unsaid.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(unsaid), ElementsAre("part_headers.unsaid/light-5v.current_a"));
  EXPECT_EQ(of({{"one", 1}, {"bright", 1}, {"unsaid", 1}}).verdict, Verdict::fails)
      << "too much without it";
  EXPECT_THAT(missing_cells(of({{"unlisted", 1}, {"glow", 1}})),
              ElementsAre("board_headers.unlisted.*"));
  EXPECT_EQ(of({{"one", 1}, {"glow", 1}, {"modest", 1}}).verdict, Verdict::holds)
      << "the header alone carries it";
  EXPECT_THAT(missing_cells(of({{"one", 1}, {"bright", 1}, {"modest", 1}})),
              ElementsAre("other_hubs.modest/light-5v.current_a"));
  EXPECT_THAT(missing_cells(of({{"one", 1}, {"bright", 1}, {"untold", 1}})),
              ElementsAre("part_headers.untold.*"));
}

TEST(LightHeader, AppliesOnlyWhereLightsHaveAnOutlet) {
  EXPECT_EQ(places({{"one", 1}}), 0);
  EXPECT_EQ(places({{"none", 1}, {"glow", 1}}), 0) << "nothing flows; another rule tells it";
}

// A hundred and more plugs are taken several at once: never more is said to be left than is.
TEST(LightHeader, ManyPlugs) {
  EXPECT_EQ(of({{"two", 1}, {"glow", 8}, {"ring", 1}}).verdict, Verdict::fails) << "6.5 A of 6 A";
  Scene scene(
      TestTables()
          .row("board", {{"id", "two"}})
          .row("board_headers",
               {{"board", "two"}, {"header", "light-5v"}, {"count", "2"}, {"current_a", "3"}})
          .row("fan", {{"id", "glow"}})
          .row("part_headers", {{"part", "glow"},
                                {"header", "light-5v"},
                                {"count", "12"},
                                {"current_a", "0.0625"}}));
  scene.take("two").take("glow", 12);
  EXPECT_EQ(scene.claim(rule()).verdict, Verdict::fails) << "9 A of 6 A";
  scene.drop(Kind::fan).take("glow", 6);
  EXPECT_EQ(scene.claim(rule()).verdict, Verdict::holds) << "4.5 A of 6 A";
}

}  // namespace
}  // namespace rigproof
