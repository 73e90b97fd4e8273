// Adapters and cable sets: plugs counted by hand, and against every way to use the adapters.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "analysis/match/match_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const Rule& rule(std::string_view id) { return rule_of(match_rules(), id); }

TestTables shelf() {
  return TestTables()
      .row("board",
           {{"id", "board"}, {"atx24_inputs", "1"}, {"eps8_inputs", "2"}, {"eps4_inputs", "0"}})
      .row("gpu", {{"id", "new-card"}})
      .row("gpu_inputs", {{"gpu", "new-card"}, {"connector", "12v-2x6"}, {"count", "1"}})
      .row("gpu", {{"id", "both-card"}})
      .row("gpu_inputs", {{"gpu", "both-card"}, {"connector", "12v-2x6"}, {"count", "1"}})
      .row("gpu_inputs", {{"gpu", "both-card"}, {"connector", "pcie8"}, {"count", "1"}})
      .row("storage", {{"id", "disk"}, {"mounting", "bay-3.5"}, {"link", "SATA"}})
      .row("psu", {{"id", "old-psu"}, {"cable_family", "beech"}})
      .row("psu_cables", {{"psu", "old-psu"}, {"connector", "atx24"}, {"count", "1"}})
      .row("psu_cables", {{"psu", "old-psu"}, {"connector", "eps8"}, {"count", "1"}})
      .row("psu_cables", {{"psu", "old-psu"}, {"connector", "pcie8"}, {"count", "2"}})
      .row("psu_cables", {{"psu", "old-psu"}, {"connector", "sata"}, {"count", "2"}})
      .row("psu", {{"id", "plain-psu"}, {"cable_family", "fixed"}})
      .row("psu_cables", {{"psu", "plain-psu"}, {"connector", "eps8"}, {"count", "1"}})
      .row("psu", {{"id", "vague-psu"}})
      .row("psu_cables", {{"psu", "vague-psu"}, {"connector", "eps8"}, {"count", "1"}})
      .row("other", {{"id", "tail"}, {"name", "Twin Tail"}, {"what", "adapter"}})
      .row("other_adapters", {{"other", "tail"},
                              {"takes", "pcie8"},
                              {"takes_count", "2"},
                              {"gives", "12v-2x6"},
                              {"gives_count", "1"}})
      .row("other", {{"id", "sata-eps"}, {"what", "adapter"}})
      .row("other_adapters", {{"other", "sata-eps"},
                              {"takes", "sata"},
                              {"takes_count", "2"},
                              {"gives", "eps8"},
                              {"gives_count", "1"}})
      .row("other", {{"id", "mystery"}, {"what", "adapter"}})
      .row("other", {{"id", "beech-set"},
                     {"name", "Beech Set"},
                     {"what", "cable-set"},
                     {"cable_family", "beech"}})
      .row("other_cables", {{"other", "beech-set"}, {"connector", "eps8"}, {"count", "1"}})
      .row("other", {{"id", "alder-set"}, {"what", "cable-set"}, {"cable_family", "alder"}})
      .row("other_cables", {{"other", "alder-set"}, {"connector", "eps8"}, {"count", "3"}})
      .row("other", {{"id", "loose-set"}, {"what", "cable-set"}})
      .row("other_cables", {{"other", "loose-set"}, {"connector", "eps8"}, {"count", "1"}})
      .row("case", {{"id", "case"}})
      .row("part_headers", {{"part", "case"}, {"header", "sata-power"}, {"count", "1"}})
      .row("other", {{"id", "hub"}, {"what", "hub"}})
      .row("part_headers", {{"part", "hub"}, {"header", "sata-power"}, {"count", "1"}});
}

Claim of(std::string_view id, const std::vector<std::string>& parts, int place = 0) {
  Scene scene(shelf());
  for (const auto& part : parts) scene.take(part);
  return scene.claim(rule(id), place);
}
int places(std::string_view id, const std::vector<std::string>& parts) {
  Scene scene(shelf());
  for (const auto& part : parts) scene.take(part);
  return scene.places(rule(id));
}

// Two 8-pin plugs become one 12V-2x6: 1 needed, 0 + 1 given.
TEST(Adapters, GiveWhatTheyAreFor) {
  const Claim without = of("match.card-connectors", {"new-card", "old-psu"});
  EXPECT_EQ(without.verdict, Verdict::fails);
  EXPECT_EQ(without.limit->value, 0.0);
  const Claim with = of("match.card-connectors", {"new-card", "old-psu", "tail"});
  EXPECT_EQ(with.verdict, Verdict::holds);
  EXPECT_EQ(with.limit->value, 1.0);
  EXPECT_THAT(with.subjects, Contains("tail"));
  EXPECT_THAT(with.working.equation, HasSubstr("(6)"));
}

// The card asks one 8-pin plug itself: with the adapter 1 + 2 of 2, without it none for 12V-2x6.
// Either way one plug is lacking, and fewer adapters are taken then.
TEST(Adapters, TakeWhatTheyAreMadeFrom) {
  const std::vector<std::string> parts = {"both-card", "old-psu", "tail"};
  ASSERT_EQ(places("match.card-connectors", parts), 2);
  const Claim eight = of("match.card-connectors", parts, 0);
  const Claim sixteen = of("match.card-connectors", parts, 1);
  EXPECT_EQ(eight.where, "pcie8");
  EXPECT_EQ(eight.margin->value + sixteen.margin->value, 0.0) << "2 - 1 and 0 - 1";
  EXPECT_EQ(sixteen.verdict, Verdict::fails);
}

// An adapter for the board takes both SATA plugs: none is left for the disk, which the rule of the
// disk says; the board's own rule holds.
TEST(Adapters, ThatFeedSomethingElseStillTakeTheirPlugs) {
  EXPECT_EQ(of("match.board-connectors", {"board", "old-psu", "sata-eps"}, 1).verdict,
            Verdict::holds);
  EXPECT_EQ(of("match.drive-connectors", {"disk", "old-psu"}).margin->value, 1.0);
  const Claim disk = of("match.drive-connectors", {"disk", "old-psu", "sata-eps"});
  EXPECT_EQ(disk.verdict, Verdict::fails);
  EXPECT_EQ(disk.value->value, 3.0) << "one for the disk, two for the adapter";
}

TEST(Adapters, TakeOnlyWhatTheSupplyHas) {
  EXPECT_EQ(of("match.board-connectors", {"board", "plain-psu", "sata-eps"}, 1).limit->value, 1.0)
      << "this supply has no SATA plug to make one from";
}

TEST(Adapters, AreUnknownWithoutRowsOnlyWherePlugsAreShort) {
  const Claim shortage = of("match.board-connectors", {"board", "old-psu", "mystery"}, 1);
  EXPECT_EQ(shortage.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(shortage), ElementsAre("other_adapters.mystery.*"));
  EXPECT_EQ(of("match.board-connectors", {"board", "old-psu", "mystery"}, 0).verdict,
            Verdict::holds);
}

TEST(Adapters, EnterOnlyWhereTheBriefAcceptsThem) {
  Scene scene(shelf());
  scene.take("tail").take("hub");
  EXPECT_EQ(scene.places(rule("match.adapters")), 0) << "no brief";
  scene.market("IE", "EUR", "100");
  ASSERT_EQ(scene.places(rule("match.adapters")), 1) << "the hub is no adapter";
  const Claim refused = scene.claim(rule("match.adapters"));
  EXPECT_EQ(refused.verdict, Verdict::fails);
  EXPECT_EQ(refused.where, "tail");
  EXPECT_THAT(refused.statement, HasSubstr("Twin Tail"));
  scene.brief.accept_adapters = true;
  EXPECT_EQ(scene.claim(rule("match.adapters")).verdict, Verdict::holds);
}

TEST(CableSets, AddPlugsOfTheirOwnFamilyOnly) {
  EXPECT_EQ(of("match.board-connectors", {"board", "old-psu"}, 1).margin->value, -1.0);
  EXPECT_EQ(of("match.board-connectors", {"board", "old-psu", "beech-set"}, 1).margin->value, 0.0);
  EXPECT_EQ(of("match.board-connectors", {"board", "old-psu", "alder-set"}, 1).margin->value, -1.0);
  EXPECT_EQ(of("match.board-connectors", {"board", "plain-psu", "beech-set"}, 1).margin->value,
            -1.0);
  EXPECT_THAT(missing_cells(of("match.board-connectors", {"board", "old-psu", "loose-set"}, 1)),
              ElementsAre("other.loose-set.cable_family"));
  EXPECT_THAT(missing_cells(of("match.board-connectors", {"board", "vague-psu", "beech-set"}, 1)),
              ElementsAre("psu.vague-psu.cable_family"));
}

TEST(CableFamily, MustBeTheSupplys) {
  EXPECT_EQ(places("match.cable-family", {"old-psu", "tail"}), 0);
  EXPECT_EQ(of("match.cable-family", {"old-psu", "beech-set"}).verdict, Verdict::holds);
  const Claim other = of("match.cable-family", {"old-psu", "alder-set"});
  EXPECT_EQ(other.verdict, Verdict::fails);
  EXPECT_THAT(other.remedy, HasSubstr("destroy"));
  const Claim fixed = of("match.cable-family", {"plain-psu", "beech-set"});
  EXPECT_EQ(fixed.verdict, Verdict::fails);
  EXPECT_EQ(fixed.limit->text, "no loose cables");
  EXPECT_EQ(of("match.cable-family", {"plain-psu", "loose-set"}).verdict, Verdict::fails)
      << "whatever family";
  EXPECT_THAT(missing_cells(of("match.cable-family", {"old-psu", "loose-set"})),
              ElementsAre("other.loose-set.cable_family"));
  EXPECT_THAT(missing_cells(of("match.cable-family", {"vague-psu", "alder-set"})),
              ElementsAre("psu.vague-psu.cable_family"));
}

// The disk, the case's light strip and a hub: three SATA plugs of two.
TEST(DriveConnectors, CountWhateverAsksASataPlug) {
  EXPECT_EQ(of("match.drive-connectors", {"disk", "case", "old-psu"}).margin->value, 0.0);
  const Claim three = of("match.drive-connectors", {"disk", "case", "hub", "old-psu"});
  EXPECT_EQ(three.verdict, Verdict::fails);
  EXPECT_EQ(three.value->value, 3.0);
  EXPECT_THAT(three.subjects, Contains("hub"));
  EXPECT_EQ(places("match.drive-connectors", {"case", "old-psu"}), 1) << "no drive at all";
  EXPECT_THAT(
      missing_cells(of("match.drive-connectors", {"disk", "case", "hub", "old-psu", "mystery"})),
      ElementsAre("other_adapters.mystery.*"));
}

// One way to use adapters that satisfies every input of the card, if there is one: all ways tried.
struct Case {
  int needed[3];
  int plain[5];  // pcie6 pcie8 12v-2x6 sata peripheral4
  struct {
    int from, from_count, to, to_count, pieces;
  } adapters[2];
};

bool any_way(const Case& c) {
  for (int u = 0; u <= c.adapters[0].pieces; ++u)
    for (int v = 0; v <= c.adapters[1].pieces; ++v) {
      int taken[5] = {};
      int given[5] = {};
      const int used[] = {u, v};
      for (int a = 0; a < 2; ++a) {
        taken[c.adapters[a].from] += used[a] * c.adapters[a].from_count;
        given[c.adapters[a].to] += used[a] * c.adapters[a].to_count;
      }
      bool fine = true;
      for (int n = 0; n < 5; ++n) fine = fine && taken[n] <= c.plain[n];
      for (int n = 0; n < 3; ++n) fine = fine && c.needed[n] + taken[n] <= c.plain[n] + given[n];
      if (fine) return true;
    }
  return false;
}

TEST(Adapters, AreUsedWhereThereIsAnyWay) {
  constexpr std::array names = {"pcie6", "pcie8", "12v-2x6", "sata", "peripheral4"};
  std::mt19937 generator(20261125);
  const auto up_to = [&](int most) {
    return static_cast<int>(generator() % static_cast<unsigned>(most + 1));
  };
  int possible = 0;
  int saved = 0;
  constexpr int rounds = 1500;
  for (int round = 0; round < rounds; ++round) {
    Case c{};
    for (int& each : c.needed) each = up_to(2);
    if (c.needed[0] + c.needed[1] + c.needed[2] == 0) c.needed[1] = 1;
    for (int& each : c.plain) each = up_to(3);
    TestTables tables;
    tables.row("gpu", {{"id", "card"}}).row("psu", {{"id", "psu"}});
    for (std::size_t n = 0; n < 3; ++n)
      tables.row(
          "gpu_inputs",
          {{"gpu", "card"}, {"connector", names[n]}, {"count", std::to_string(c.needed[n])}});
    for (std::size_t n = 0; n < 5; ++n)
      tables.row("psu_cables",
                 {{"psu", "psu"}, {"connector", names[n]}, {"count", std::to_string(c.plain[n])}});
    int serial = 0;
    for (auto& adapter : c.adapters) {
      adapter = {up_to(4), 1 + up_to(1), up_to(2), 1 + up_to(1), 1 + up_to(2)};
      const std::string id = "adapter-" + std::to_string(serial++);
      tables.row("other", {{"id", id}, {"what", "adapter"}})
          .row("other_adapters", {{"other", id},
                                  {"takes", names[static_cast<std::size_t>(adapter.from)]},
                                  {"takes_count", std::to_string(adapter.from_count)},
                                  {"gives", names[static_cast<std::size_t>(adapter.to)]},
                                  {"gives_count", std::to_string(adapter.to_count)}});
    }
    Scene scene(tables);
    scene.take("card").take("psu");
    const auto all_hold = [&] {
      bool all = true;
      for (int place = 0; place < scene.places(rule("match.card-connectors")); ++place)
        all = all && scene.claim(rule("match.card-connectors"), place).verdict == Verdict::holds;
      return all;
    };
    const bool before = all_hold();
    scene.take("adapter-0", c.adapters[0].pieces).take("adapter-1", c.adapters[1].pieces);
    const bool after = all_hold();
    ASSERT_EQ(after, any_way(c)) << "round " << round;
    possible += after ? 1 : 0;
    saved += after && !before ? 1 : 0;
  }
  EXPECT_GT(possible, 200);
  EXPECT_LT(possible, rounds - 200);
  EXPECT_GT(saved, 50) << "adapters must make a difference";
}

}  // namespace
}  // namespace rigproof
