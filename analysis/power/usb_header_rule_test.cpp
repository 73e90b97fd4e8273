// Current on internal USB 2 plugs: [usb-two] 7.2.1 (0.5 A and 0.1 A, a unit load for the hub
// itself, from memory) by hand, and against every way to plug in.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <limits>
#include <random>

#include "analysis/power/power_rules.hpp"
#include "analysis/power/usb_ports.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::ElementsAre;

TestTables usb() {
  TestTables tables;
  for (const auto& [id, count] : {std::pair{"none", "0"}, {"one", "1"}, {"two", "2"}})
    tables.row("board", {{"id", id}})
        .row("board_headers", {{"board", id}, {"header", "usb2"}, {"count", count}});
  tables.row("board", {{"id", "unlisted"}});
  const auto plugged = [&](const char* kind, const char* id, const char* count,
                           const char* current) {
    tables.row(kind, {{"id", id}})
        .row("part_headers",
             {{"part", id}, {"header", "usb2"}, {"count", count}, {"current_a", current}});
  };
  plugged("cooler", "pump", "1", "0.3");
  plugged("cooler", "thirsty", "1", "0.7");
  plugged("cooler", "mute", "1", "");
  plugged("case", "front", "1", "");
  plugged("other", "dial", "1", "0.08");
  plugged("other", "lamp", "1", "0.4");
  tables.plus_minus("part_headers", "lamp/usb2", "current_a", 0.2);
  const auto hub = [&](const char* id, const char* outputs, const char* power,
                       const char* together = "") {
    tables.row("other", {{"id", id}, {"what", "hub"}})
        .row("other_hubs",
             {{"other", id}, {"feeds", "usb2"}, {"outputs", outputs}, {"current_a", together}})
        .row("part_headers", {{"part", id}, {"header", "usb2"}, {"count", "1"}})
        .row("part_headers", {{"part", id}, {"header", "sata-power"}, {"count", power}});
  };
  hub("fed", "4", "1");
  hub("on-the-bus", "4", "0");
  hub("on-the-bus-too", "4", "0");
  hub("wide-on-the-bus", "7", "0");
  hub("meager", "4", "1", "0.6");
  tables.row("other", {{"id", "untold"}, {"what", "hub"}})
      .row("other_hubs", {{"other", "untold"}, {"feeds", "usb2"}, {"outputs", "4"}});
  plugged("other", "five", "5", "0.08");
  plugged("other", "six", "6", "0.08");
  plugged("other", "pair", "2", "0.35");
  return tables;
}

const Rule& rule() { return rule_of(power_rules(), "power.usb-header"); }

Claim of(const std::vector<std::string>& parts) {
  Scene scene(usb());
  for (const std::string& part : parts) scene.take(part);
  return scene.claim(rule());
}
int places(const std::vector<std::string>& parts) {
  Scene scene(usb());
  for (const std::string& part : parts) scene.take(part);
  return scene.places(rule());
}

TEST(UsbHeader, AHeaderGivesHalfAnAmpere) {
  const Claim well = of({"one", "pump"});
  EXPECT_EQ(well.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(well.value->value, 0.3);
  EXPECT_DOUBLE_EQ(well.margin->value, 0.2);
  EXPECT_EQ(well.grade, Grade::tells);
  const Claim over = of({"one", "thirsty"});
  EXPECT_EQ(over.verdict, Verdict::fails);
  EXPECT_DOUBLE_EQ(over.value->value, 0.7);
}

TEST(UsbHeader, AHubOnTheBusGivesATenthOfAnAmpere) {
  const Claim dial = of({"one", "dial", "on-the-bus"});
  EXPECT_EQ(dial.verdict, Verdict::holds);
  EXPECT_NEAR(dial.margin->value, 0.02, 1e-12);
  EXPECT_EQ(of({"one", "pump", "on-the-bus"}).verdict, Verdict::fails);
  EXPECT_EQ(of({"one", "pump", "fed"}).verdict, Verdict::holds);
  // One header is left beside the hub: it goes to the pump, and the dial to the hub.
  EXPECT_EQ(of({"two", "pump", "dial", "on-the-bus"}).verdict, Verdict::holds);
}

TEST(UsbHeader, AFrontPortWantsAllThatAPortGives) {
  EXPECT_EQ(of({"one", "front"}).verdict, Verdict::holds);
  EXPECT_EQ(of({"one", "front", "on-the-bus"}).verdict, Verdict::fails);
  EXPECT_EQ(of({"one", "front", "fed"}).verdict, Verdict::holds);
}

TEST(UsbHeader, WhatIsNotStatedIsNoMoreThanAPartMayDraw) {
  EXPECT_EQ(of({"one", "mute"}).verdict, Verdict::holds) << "whatever it draws";
  const Claim open = of({"one", "mute", "on-the-bus"});
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open), ElementsAre("part_headers.mute/usb2.current_a"));
  EXPECT_EQ(of({"one", "thirsty", "on-the-bus"}).verdict, Verdict::fails);
  EXPECT_EQ(of({"unlisted", "pump"}).verdict, Verdict::unknown);
}

TEST(UsbHeader, WhatAHubGivesTogetherIsShared) {
  const Claim two = of({"one", "pair", "meager"});
  EXPECT_EQ(two.verdict, Verdict::fails) << "2 x 0.35 A of 0.6 A";
  EXPECT_DOUBLE_EQ(two.value->value, 0.7);
  EXPECT_DOUBLE_EQ(two.limit->value, 0.6);
  // With a header free one of them goes there: 0.35 A of 0.5 A.
  const Claim apart = of({"two", "pair", "meager"});
  EXPECT_EQ(apart.verdict, Verdict::holds);
  EXPECT_DOUBLE_EQ(apart.margin->value, 0.15);
}

// Four unit loads of five are left for the outputs of a hub on the bus: 5 x 0.08 A take them all.
TEST(UsbHeader, AHubOnTheBusHasFourUnitLoadsTogether) {
  EXPECT_NEAR(of({"one", "wide-on-the-bus", "five"}).margin->value, 0.0, 1e-12);
  const Claim six = of({"one", "wide-on-the-bus", "six"});
  EXPECT_EQ(six.verdict, Verdict::fails);
  EXPECT_NEAR(six.margin->value, -0.08, 1e-12);
}

TEST(UsbHeader, HubsOnHubs) {
  EXPECT_EQ(of({"one", "on-the-bus", "on-the-bus-too", "dial"}).verdict, Verdict::fails)
      << "a hub on the bus wants more than another gives";
  EXPECT_EQ(of({"one", "on-the-bus", "fed", "pump"}).verdict, Verdict::holds);
  // The second hub takes 0.5 A of 0.6 A, the pump 0.3 A.
  const Claim full = of({"one", "on-the-bus", "meager", "pump"});
  EXPECT_EQ(full.verdict, Verdict::fails);
  EXPECT_NEAR(full.margin->value, -0.2, 1e-12);
  EXPECT_EQ(places({"none", "fed", "pump"}), 0) << "a hub alone leads nowhere";
}

TEST(UsbHeader, AHubOfWhichTheFeedIsNotKnown) {
  EXPECT_EQ(of({"one", "untold", "dial"}).verdict, Verdict::holds) << "either way";
  EXPECT_EQ(of({"one", "untold", "thirsty"}).verdict, Verdict::fails) << "either way";
  const Claim open = of({"one", "untold", "pump"});
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open), ElementsAre("part_headers.untold.*"));
}

TEST(UsbHeader, CurrentsThatAreNoneAreRefused) {
  const auto scene_of = [](const char* current_a) {
    TestTables tables;
    tables.row("other", {{"id", "dial"}})
        .row("part_headers",
             {{"part", "dial"}, {"header", "usb2"}, {"count", "1"}, {"current_a", current_a}});
    return Scene(tables);
  };
  EXPECT_NO_THROW(scene_of("0.3"));
  for (const char* wrong : {"-0.3", "0", "nan", "inf", "12"})
    EXPECT_ANY_THROW(scene_of(wrong)) << wrong;
}

TEST(UsbHeader, DrawsCountWhereItIsNotSure) {
  // 0.4 +- 0.2 A, uniform: at most 0.5 A in three quarters of the draws.
  EXPECT_NEAR(*of({"one", "lamp"}).odds, 0.75, 0.01);
}

TEST(UsbHeader, IsNotAskedWhereAPlugHasNoPortAnyway) {
  EXPECT_EQ(places({"none", "pump"}), 0);
  EXPECT_EQ(places({"one", "pump", "dial"}), 0);
  EXPECT_EQ(places({"one"}), 0);
  EXPECT_EQ(places({"pump"}), 0) << "no board";
}

// Least that is left, over every plug on every outlet in turn.
double left_by_trying(std::span<const power::UsbOutlet> outlets, std::span<const double> drawn) {
  double best = -std::numeric_limits<double>::infinity();
  std::vector<std::size_t> at(drawn.size(), 0);
  for (bool more = true; more;) {
    double left = std::numeric_limits<double>::infinity();
    for (std::size_t o = 0; o < outlets.size(); ++o) {
      int used = 0;
      double sum = 0.0;
      for (std::size_t i = 0; i < drawn.size(); ++i)
        if (at[i] == o) {
          ++used;
          sum += drawn[i];
          left = std::min(left, outlets[o].each_a - drawn[i]);
        }
      if (used > 0) left = std::min(left, outlets[o].all_a - sum);
      if (used > outlets[o].ports) left = -std::numeric_limits<double>::infinity();
    }
    best = std::max(best, left);
    more = false;
    for (std::size_t i = 0; i < at.size() && !more; ++i) {
      at[i] = (at[i] + 1) % outlets.size();
      more = at[i] != 0;
    }
  }
  return best;
}

TEST(UsbPorts, IsTheBestOfAllWays) {
  std::mt19937 generator(20261128);
  int possible = 0;
  int over = 0;
  for (int round = 0; round < 2000; ++round) {
    std::vector<power::UsbOutlet> outlets(1 + generator() % 3U);
    for (auto& outlet : outlets) {
      outlet.ports = static_cast<int>(generator() % 5U);
      outlet.each_a = generator() % 2U == 0 ? 0.5 : 0.125;
      if (generator() % 2U == 0) outlet.all_a = static_cast<double>(1 + generator() % 16U) / 16.0;
    }
    std::vector<double> drawn(1 + generator() % 6U);
    for (double& each : drawn) each = static_cast<double>(1 + generator() % 9U) / 32.0;
    std::ranges::sort(drawn, std::greater<>());
    const double got = power::share_usb(outlets, drawn).left_a;
    ASSERT_EQ(got, left_by_trying(outlets, drawn)) << round;  // sums of 1/32 are exact
    possible += got > -1e9 ? 1 : 0;
    over += got > -1e9 && got < 0.0 ? 1 : 0;
  }
  EXPECT_GT(possible, 800);
  EXPECT_LT(possible, 1900);
  EXPECT_GT(over, 200);
  EXPECT_LT(over, possible - 200);
}

// Every permutation of plugs over ports: best is the one with most left where least is.
TEST(UsbHeader, IsTheBestOfAllWaysToPlugIn) {
  std::mt19937 generator(20261127);
  int failed = 0;
  for (int round = 0; round < 200; ++round) {
    TestTables tables;
    const int headers = 1 + static_cast<int>(generator() % 3U);
    const bool hub = headers > 1 && generator() % 2U == 0;
    tables.row("board", {{"id", "board"}})
        .row("board_headers",
             {{"board", "board"}, {"header", "usb2"}, {"count", std::to_string(headers)}});
    std::vector<double> ports(static_cast<std::size_t>(hub ? headers - 1 : headers), 0.5);
    if (hub) ports.insert(ports.end(), 2, 0.1);
    const std::size_t plugs = 1 + generator() % std::min<std::size_t>(ports.size(), 3);
    std::vector<double> drawn;
    for (std::size_t i = 0; i < plugs; ++i) {
      drawn.push_back(0.05 * static_cast<double>(1 + generator() % 10U));
      const std::string id = "part-" + std::to_string(i);
      tables.row("other", {{"id", id}})
          .row("part_headers", {{"part", id},
                                {"header", "usb2"},
                                {"count", "1"},
                                {"current_a", std::to_string(drawn.back())}});
    }
    if (hub)
      tables.row("other", {{"id", "hub"}, {"what", "hub"}})
          .row("other_hubs", {{"other", "hub"}, {"feeds", "usb2"}, {"outputs", "2"}})
          .row("part_headers", {{"part", "hub"}, {"header", "usb2"}, {"count", "1"}})
          .row("part_headers", {{"part", "hub"}, {"header", "sata-power"}, {"count", "0"}});
    Scene scene(tables);
    scene.take("board");
    for (std::size_t i = 0; i < plugs; ++i) scene.take("part-" + std::to_string(i));
    if (hub) scene.take("hub");
    std::ranges::sort(ports);
    double best = -1.0;
    do {
      double left = 1.0;
      for (std::size_t i = 0; i < plugs; ++i) left = std::min(left, ports[i] - drawn[i]);
      best = std::max(best, left);
    } while (std::ranges::next_permutation(ports).found);
    const Claim claim = scene.claim(rule());
    EXPECT_EQ(claim.verdict, best >= -1e-9 ? Verdict::holds : Verdict::fails) << round;
    EXPECT_NEAR(claim.margin->value, best, 1e-9) << round;
    failed += best < 0.0 ? 1 : 0;
  }
  EXPECT_GT(failed, 10);
  EXPECT_LT(failed, 190);
}

}  // namespace
}  // namespace rigproof
