// Current on fan headers: hand sums, and the plugging against every way there is.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <random>

#include "analysis/power/fan_plugs.hpp"
#include "analysis/power/power_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using power::FanGroup;
using power::FanHeaders;
using power::FanHub;
using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

const Rule& rule(std::string_view id) { return rule_of(power_rules(), id); }

// Every fan in turn on every outlet. Chains: fans of one group on one outlet count one plug.
double left_by_trying(const std::vector<FanGroup>& groups, const FanHeaders& headers,
                      const std::vector<FanHub>& hubs) {
  struct Outlet {
    double gives_a;
    int plugs;
    bool on_header;
  };
  std::vector<Outlet> outlets;
  for (int h = 0; h < headers.count; ++h) outlets.push_back({headers.gives_a, 1, false});
  for (const FanHub& hub : hubs)
    outlets.push_back({hub.on_header ? std::min(hub.gives_a, headers.gives_a) : hub.gives_a,
                       hub.outputs, hub.on_header});
  std::vector<int> fans;  // group of each fan
  for (std::size_t g = 0; g < groups.size(); ++g)
    for (int i = 0; i < groups[g].count; ++i) fans.push_back(static_cast<int>(g));
  std::vector<std::vector<int>> on(outlets.size(), std::vector<int>(groups.size()));
  double best = -std::numeric_limits<double>::infinity();
  const auto judge = [&] {
    double least = std::numeric_limits<double>::infinity();
    int free_headers = 0;
    int hubs_on_headers = 0;
    for (std::size_t o = 0; o < outlets.size(); ++o) {
      double load = 0.0;
      int plugs = 0;
      for (std::size_t g = 0; g < groups.size(); ++g) {
        load += on[o][g] * groups[g].current_a;
        plugs += groups[g].chains ? (on[o][g] > 0 ? 1 : 0) : on[o][g];
      }
      if (plugs > outlets[o].plugs) return;
      const bool is_header = o < static_cast<std::size_t>(headers.count);
      if (is_header && plugs == 0) ++free_headers;
      if (!is_header && plugs > 0 && outlets[o].on_header) ++hubs_on_headers;
      // An unused hub on a header takes nothing and is left with nothing to ask.
      if (is_header || plugs > 0) least = std::min(least, outlets[o].gives_a - load);
    }
    if (hubs_on_headers > free_headers) return;
    best = std::max(best, least);
  };
  const std::function<void(std::size_t)> place = [&](std::size_t fan) {
    if (fan == fans.size()) return judge();
    for (auto& outlet : on) {
      ++outlet[static_cast<std::size_t>(fans[fan])];
      place(fan + 1);
      --outlet[static_cast<std::size_t>(fans[fan])];
    }
  };
  place(0);
  return best;
}

TEST(PlugFans, LeavesAsMuchAsAnyWay) {
  std::mt19937 generator(20261126);
  const auto up_to = [&](int most) {
    return static_cast<int>(generator() % static_cast<unsigned>(most + 1));
  };
  int possible = 0;
  int impossible = 0;
  int overloaded = 0;
  for (int round = 0; round < 3000; ++round) {
    std::vector<FanGroup> groups(1U + static_cast<std::size_t>(up_to(2)));
    int fans = 0;
    for (FanGroup& group : groups) {
      group = {
          .current_a = 0.0625 * (1 + up_to(8)), .count = 1 + up_to(2), .chains = up_to(1) == 1};
      group.count = std::min(group.count, 6 - fans);
      fans += group.count;
    }
    const FanHeaders headers{.count = up_to(3), .gives_a = 0.5 + 0.25 * up_to(2)};
    std::vector<FanHub> hubs(static_cast<std::size_t>(up_to(2)));
    for (FanHub& hub : hubs)
      hub = {.gives_a = 0.5 * (1 + up_to(3)), .outputs = 1 + up_to(3), .on_header = up_to(1) == 1};
    const auto got = power::plug_fans(groups, headers, hubs);
    const double truth = left_by_trying(groups, headers, hubs);
    ASSERT_EQ(got.possible, truth > -std::numeric_limits<double>::infinity()) << round;
    if (got.possible) {
      ASSERT_NEAR(got.left_a, truth, 1e-12) << round;  // sums of sixteenths are exact
    }
    ++(got.possible ? possible : impossible);
    overloaded += got.possible && got.left_a < 0.0 ? 1 : 0;
  }
  EXPECT_GT(possible, 800);
  EXPECT_GT(impossible, 300);
  EXPECT_GT(overloaded, 100);
}

TestTables scene_tables() {
  return TestTables()
      .row("board", {{"id", "one-header"}})
      .row("board_headers",
           {{"board", "one-header"}, {"header", "fan"}, {"count", "1"}, {"current_a", "1"}})
      .row("board_headers",
           {{"board", "one-header"}, {"header", "cpu-fan"}, {"count", "1"}, {"current_a", "1"}})
      .row("board", {{"id", "three-headers"}})
      .row("board_headers",
           {{"board", "three-headers"}, {"header", "fan"}, {"count", "3"}, {"current_a", "1"}})
      .row("board", {{"id", "vague-header"}})
      .row("board_headers", {{"board", "vague-header"}, {"header", "fan"}, {"count", "1"}})
      .row("board", {{"id", "no-header"}})
      .row("board_headers", {{"board", "no-header"}, {"header", "fan"}, {"count", "0"}})
      .row("board", {{"id", "unlisted"}})
      .row("case", {{"id", "empty-case"}})
      .row("case_fans",
           {{"case", "empty-case"}, {"mount", "rear"}, {"size_mm", "120"}, {"count", "0"}})
      .row("case", {{"id", "one-fan-case"}})
      .row("case_fans", {{"case", "one-fan-case"},
                         {"mount", "rear"},
                         {"size_mm", "120"},
                         {"count", "1"},
                         {"current_a", "0.2"}})
      .row("case", {{"id", "vague-fan-case"}})
      .row("case_fans",
           {{"case", "vague-fan-case"}, {"mount", "rear"}, {"size_mm", "120"}, {"count", "1"}})
      .row("case", {{"id", "unlisted-case"}})
      .row("fan", {{"id", "link"}, {"name", "Link 12"}, {"current_a", "0.45"}, {"chains", "yes"}})
      .row("fan", {{"id", "single"}, {"current_a", "0.45"}, {"chains", "no"}})
      .row("fan", {{"id", "perhaps"}, {"current_a", "0.45"}})
      .row("fan", {{"id", "strong"}, {"current_a", "1.2"}, {"chains", "no"}})
      .row("fan", {{"id", "about-one"}, {"current_a", "1"}, {"chains", "no"}})
      .plus_minus("fan", "about-one", "current_a", 0.1)
      .row("other", {{"id", "powered-hub"}, {"what", "hub"}})
      .row("other_hubs",
           {{"other", "powered-hub"}, {"feeds", "fan"}, {"outputs", "4"}, {"current_a", "4"}})
      .row("part_headers", {{"part", "powered-hub"}, {"header", "sata-power"}, {"count", "1"}})
      .row("other", {{"id", "splitter"}, {"what", "hub"}})
      .row("other_hubs", {{"other", "splitter"}, {"feeds", "fan"}, {"outputs", "4"}})
      .row("part_headers", {{"part", "splitter"}, {"header", "sata-power"}, {"count", "0"}})
      .row("other", {{"id", "silent-hub"}, {"what", "hub"}})
      .row("other_hubs", {{"other", "silent-hub"}, {"feeds", "fan"}, {"outputs", "4"}})
      .row("part_headers", {{"part", "silent-hub"}, {"header", "sata-power"}, {"count", "1"}})
      .row("cooler", {{"id", "tower"}, {"type", "air"}, {"fans", "2"}, {"power_w", "6"}})
      .row("cooler", {{"id", "roaring"}, {"type", "air"}, {"fans", "2"}, {"power_w", "13"}})
      .row("cooler", {{"id", "vague-tower"}, {"type", "air"}})
      .row("cooler", {{"id", "loop"}, {"type", "liquid"}, {"fans", "3"}, {"power_w", "20"}})
      .row("cooler", {{"id", "silent"}, {"type", "air"}, {"fans", "0"}, {"power_w", "0"}});
}

Claim of(const std::vector<std::pair<std::string, int>>& parts,
         std::string_view id = "power.fan-header") {
  Scene scene(scene_tables());
  for (const auto& [part, count] : parts) scene.take(part, count);
  return scene.claim(rule(id));
}
int places(const std::vector<std::pair<std::string, int>>& parts,
           std::string_view id = "power.fan-header") {
  Scene scene(scene_tables());
  for (const auto& [part, count] : parts) scene.take(part, count);
  return scene.places(rule(id));
}

// Three chained fans of 0.45 A on the only header: 1.35 A of 1 A.
TEST(FanHeader, AChainAddsUpOnOneHeader) {
  const Claim claim = of({{"one-header", 1}, {"empty-case", 1}, {"link", 3}});
  EXPECT_EQ(claim.verdict, Verdict::fails);
  EXPECT_DOUBLE_EQ(claim.value->value, 1.35);
  EXPECT_EQ(claim.limit->value, 1.0);
  EXPECT_EQ(claim.value->unit, "A");
  EXPECT_THAT(claim.remedy, HasSubstr("hub"));
  const Claim two = of({{"one-header", 1}, {"empty-case", 1}, {"link", 2}});
  EXPECT_EQ(two.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(two.value->value, 0.9);
}

// One header for the case's own fan, two for the chain: two fans on one of them, 0.9 A.
TEST(FanHeader, AChainIsSplitOverFreeHeaders) {
  const Claim claim = of({{"three-headers", 1}, {"one-fan-case", 1}, {"link", 3}});
  EXPECT_DOUBLE_EQ(claim.value->value, 0.9);
  EXPECT_EQ(claim.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(of({{"three-headers", 1}, {"empty-case", 1}, {"link", 3}}).value->value, 0.45);
}

TEST(FanHeader, AFanThatDoesNotChainSitsAlone) {
  EXPECT_DOUBLE_EQ(of({{"three-headers", 1}, {"empty-case", 1}, {"single", 3}}).value->value, 0.45);
  EXPECT_EQ(of({{"three-headers", 1}, {"empty-case", 1}, {"strong", 1}}).verdict, Verdict::fails);
  EXPECT_EQ(places({{"one-header", 1}, {"empty-case", 1}, {"single", 2}}), 0)
      << "one of them has no plug: that is another rule's concern";
}

TEST(FanHeader, AHubWithPowerOfItsOwnTakesThemAll) {
  const Claim claim = of({{"one-header", 1}, {"empty-case", 1}, {"link", 3}, {"powered-hub", 1}});
  EXPECT_EQ(claim.verdict, Verdict::holds);
  EXPECT_THAT(claim.subjects, Contains("powered-hub"));
  EXPECT_EQ(of({{"one-header", 1}, {"empty-case", 1}, {"link", 3}, {"splitter", 1}}).verdict,
            Verdict::fails)
      << "a splitter gives no more than the header it hangs on";
  // 4 x 1.2 A on four outputs that give 4 A together, and the fifth on the header.
  EXPECT_EQ(of({{"no-header", 1}, {"empty-case", 1}, {"strong", 3}, {"powered-hub", 1}}).verdict,
            Verdict::holds);
  const Claim over = of({{"no-header", 1}, {"empty-case", 1}, {"strong", 4}, {"powered-hub", 1}});
  EXPECT_EQ(over.verdict, Verdict::fails);
  EXPECT_NEAR(over.margin->value, -0.8, 1e-12);
}

// One fan stated as 1 A and known to a tenth either way, against 1 A: half of the draws.
TEST(FanHeader, IsThinWhereTheCurrentIsUncertain) {
  const Claim claim = of({{"one-header", 1}, {"empty-case", 1}, {"about-one", 1}});
  EXPECT_EQ(claim.verdict, Verdict::thin);
  EXPECT_NEAR(*claim.odds, 0.5, 1e-9);
  EXPECT_NEAR(*claim.value->low, 0.91, 0.001) << "5 % of 0.9 to 1.1";
}

// Where a board states no current 1 to 3 A are common: 0.9 A is below all of it, 1.2 A inside.
TEST(FanHeader, ClassRangesDecideOnlyWhenTheyAgree) {
  const Claim below = of({{"vague-header", 1}, {"empty-case", 1}, {"link", 2}});
  EXPECT_EQ(below.verdict, Verdict::holds);
  EXPECT_THAT(missing_cells(below), ElementsAre("board_headers.vague-header/fan.current_a"));
  EXPECT_EQ(of({{"vague-header", 1}, {"empty-case", 1}, {"link", 3}}).verdict, Verdict::unknown);
  EXPECT_EQ(of({{"vague-header", 1}, {"empty-case", 1}, {"link", 7}}).verdict, Verdict::fails)
      << "3.15 A";
  const Claim split = of({{"vague-header", 1}, {"empty-case", 1}, {"link", 3}, {"splitter", 1}});
  EXPECT_EQ(split.verdict, Verdict::unknown) << "1.35 A through the splitter's header";
  EXPECT_THAT(missing_cells(split), ElementsAre("board_headers.vague-header/fan.current_a"));
  // A fan of a case draws 0.1 to 0.5 A: below 1 A whatever it is.
  const Claim own = of({{"one-header", 1}, {"vague-fan-case", 1}});
  EXPECT_EQ(own.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(*own.value->low, 0.1);
  EXPECT_DOUBLE_EQ(*own.value->high, 0.5);
}

// The tightest outlet is the hub (4 - 3.6 A), whatever the header gives.
TEST(FanHeader, AHubMayBeTheTightestBesideAVagueHeader) {
  const Claim claim =
      of({{"vague-header", 1}, {"vague-fan-case", 1}, {"strong", 3}, {"powered-hub", 1}});
  EXPECT_EQ(claim.verdict, Verdict::holds);
}

TEST(FanHeader, UnknownCellsAreNamedWhereTheyMatter) {
  EXPECT_THAT(missing_cells(of({{"unlisted", 1}, {"one-fan-case", 1}})),
              ElementsAre("board_headers.unlisted.*"));
  EXPECT_THAT(missing_cells(of({{"one-header", 1}, {"unlisted-case", 1}})),
              ElementsAre("case_fans.unlisted-case.*"));
  // Three headers suffice whether they chain or not.
  EXPECT_EQ(of({{"three-headers", 1}, {"empty-case", 1}, {"perhaps", 3}}).verdict, Verdict::holds);
  const Claim chained = of({{"one-header", 1}, {"empty-case", 1}, {"perhaps", 2}});
  EXPECT_EQ(chained.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(chained), ElementsAre("fan.perhaps.chains"));
  EXPECT_EQ(of({{"one-header", 1}, {"empty-case", 1}, {"perhaps", 3}}).verdict, Verdict::fails)
      << "even if they chain";
  const Claim hub = of({{"one-header", 1}, {"empty-case", 1}, {"link", 3}, {"silent-hub", 1}});
  EXPECT_EQ(hub.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(hub), ElementsAre("other_hubs.silent-hub/fan.current_a"));
}

// 6 W / 12 V = 0.5 A; 13 W: 1.083 A.
TEST(CpuFanHeader, CarriesTheCoolersFans) {
  const auto id = "power.cpu-fan-header";
  const Claim tower = of({{"one-header", 1}, {"tower", 1}}, id);
  EXPECT_EQ(tower.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(tower.value->value, 0.5);
  EXPECT_EQ(tower.grade, Grade::tells);
  EXPECT_EQ(of({{"one-header", 1}, {"roaring", 1}}, id).verdict, Verdict::fails);
  EXPECT_EQ(of({{"three-headers", 1}, {"tower", 1}}, id).verdict, Verdict::fails)
      << "its headers are listed and this one is not among them";
  EXPECT_THAT(missing_cells(of({{"unlisted", 1}, {"tower", 1}}, id)),
              ElementsAre("board_headers.unlisted.*"));
  EXPECT_EQ(of({{"one-header", 1}, {"vague-tower", 1}}, id).verdict, Verdict::unknown)
      << "1 to 20 W are common";
  EXPECT_EQ(places({{"one-header", 1}, {"loop", 1}}, id), 0);
  EXPECT_EQ(places({{"one-header", 1}, {"silent", 1}}, id), 0);
}

}  // namespace
}  // namespace rigproof
