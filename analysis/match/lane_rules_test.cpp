// Lanes and links: places by hand, rates against the table of generations.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/match/match_rules.hpp"
#include "analysis/match/pcie_link.hpp"
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
using testing::Not;

const Rule& rule(std::string_view id) { return rule_of(match_rules(), id); }

// Check values F3: looked up in two public tables, computed (generations 6 and 7: rate looked up
// or from memory, flit share from memory). Tolerance: half a unit of the last digit printed.
TEST(PcieLink, RatesOfTheTable) {
  struct Row {
    int generation;
    double lane, x4, x8, x16;
  };
  for (const Row& row :
       {Row{1, 0.2500, 1.000, 2.000, 4.000}, Row{2, 0.5000, 2.000, 4.000, 8.000},
        Row{3, 0.9846, 3.938, 7.877, 15.754}, Row{4, 1.9692, 7.877, 15.754, 31.508},
        Row{5, 3.9385, 15.754, 31.508, 63.015}, Row{6, 7.5625, 30.25, 60.5, 121.0},
        Row{7, 15.125, 60.5, 121.0, 242.0}}) {
    const auto rate = [&](double lanes) {
      return match::PcieLink{double(row.generation), lanes}.gb_s();
    };
    EXPECT_NEAR(rate(1), row.lane, 0.5e-4) << row.generation;
    EXPECT_NEAR(rate(4), row.x4, 0.5e-3) << row.generation;
    EXPECT_NEAR(rate(8), row.x8, 0.5e-3) << row.generation;
    EXPECT_NEAR(rate(16), row.x16, 0.5e-3) << row.generation;
  }
}

TestTables::Cells socket(std::string board, std::string number, std::string generation,
                         std::string lanes, std::string shares, std::string left,
                         std::string ports) {
  return {{"board", std::move(board)},
          {"socket", std::move(number)},
          {"lengths_mm", "80"},
          {"links", "NVMe"},
          {"pcie_generation", std::move(generation)},
          {"pcie_lanes", std::move(lanes)},
          {"shares_slot", std::move(shares)},
          {"slot_lanes_left", std::move(left)},
          {"sata_ports_off", std::move(ports)}};
}

TestTables lanes() {
  TestTables tables;
  tables.row("cpu", {{"id", "cpu-4"}, {"pcie_generation", "4"}})
      .row("cpu", {{"id", "cpu-5"}, {"pcie_generation", "5"}})
      .row("cpu", {{"id", "cpu-bare"}})
      .row("storage", {{"id", "new"},
                       {"name", "New"},
                       {"mounting", "M.2-2280"},
                       {"link", "NVMe"},
                       {"pcie_generation", "4"},
                       {"pcie_lanes", "4"}})
      .row("storage", {{"id", "old"},
                       {"name", "Old"},
                       {"mounting", "M.2-2280"},
                       {"link", "NVMe"},
                       {"pcie_generation", "3"},
                       {"pcie_lanes", "4"}})
      .row("storage",
           {{"id", "vague"}, {"name", "Vague"}, {"mounting", "M.2-2280"}, {"link", "NVMe"}})
      .row("storage", {{"id", "flat"}, {"mounting", "bay-2.5"}, {"link", "SATA"}})
      .row("storage", {{"id", "bare"}})
      .row("gpu",
           {{"id", "wide"}, {"name", "Wide"}, {"pcie_generation", "4"}, {"pcie_lanes", "16"}})
      .row("gpu",
           {{"id", "narrow"}, {"name", "Narrow"}, {"pcie_generation", "5"}, {"pcie_lanes", "8"}})
      .row("gpu", {{"id", "gpu-bare"}})
      // Socket 1 is free of cost and slow; 2 takes eight lanes; 3 takes four ports.
      .row("board", {{"id", "shared"}, {"name", "Shared"}, {"sata_ports", "4"}})
      .row("board_slots", {{"board", "shared"},
                           {"slot", "2"},
                           {"length", "x16"},
                           {"pcie_generation", "3"},
                           {"pcie_lanes", "4"}})
      .row("board_slots", {{"board", "shared"},
                           {"slot", "1"},
                           {"length", "x16"},
                           {"pcie_generation", "5"},
                           {"pcie_lanes", "16"}})
      .row("board_m2", socket("shared", "1", "3", "4", "0", "", "0"))
      .row("board_m2", socket("shared", "2", "5", "4", "1", "8", "0"))
      .row("board_m2", socket("shared", "3", "4", "4", "2", "0", "4"))
      // As above, one socket, with holes.
      .row("board", {{"id", "holes"}, {"sata_ports", "2"}})
      .row("board_slots", {{"board", "holes"},
                           {"slot", "1"},
                           {"length", "x16"},
                           {"pcie_generation", "4"},
                           {"pcie_lanes", "16"}})
      .row("board_m2", socket("holes", "1", "", "4", "", "", ""))
      .row("board", {{"id", "half-known"}, {"sata_ports", "2"}})
      .row("board_slots", {{"board", "half-known"}, {"slot", "1"}, {"length", "x16"}})
      .row("board_m2", socket("half-known", "1", "4", "4", "1", "8", "1"))
      .row("board_m2", socket("half-known", "2", "4", "4", "", "", "0"))
      .row("board", {{"id", "unlisted"}, {"sata_ports", "2"}})
      // The slot is dead while the only socket is in use.
      .row("board", {{"id", "either"}})
      .row("board_slots", {{"board", "either"},
                           {"slot", "1"},
                           {"length", "x16"},
                           {"pcie_generation", "4"},
                           {"pcie_lanes", "16"}})
      .row("board_m2", socket("either", "1", "4", "4", "1", "0", "0"))
      .row("board", {{"id", "taker"}})
      .row("board_slots", {{"board", "taker"},
                           {"slot", "1"},
                           {"length", "x16"},
                           {"pcie_generation", "4"},
                           {"pcie_lanes", "16"}})
      .row("board_m2", socket("taker", "1", "4", "4", "1", "8", "0"))
      .row("board", {{"id", "no-slot"}})
      .row("board_slots", {{"board", "no-slot"}, {"slot", "1"}, {"length", "x4"}});
  return tables;
}

struct Parts {
  std::vector<std::string> ids;
  Mounts mounts = {};
  bool accept_shared_lanes = false;
};

Claim claim(std::string_view id, const Parts& parts, int place = 0) {
  Scene scene(lanes());
  for (const auto& part : parts.ids) scene.take(part);
  scene.setup.mounts = parts.mounts;
  scene.brief.accept_shared_lanes = parts.accept_shared_lanes;
  return scene.claim(rule(id), place);
}
int places(std::string_view id, const std::vector<std::string>& parts) {
  Scene scene(lanes());
  for (const auto& part : parts) scene.take(part);
  return scene.places(rule(id));
}

TEST(DriveLink, HalfTheRateInASlowerSocket) {
  const Claim slow = claim("match.drive-link", {{"shared", "new"}, {{"new", "1"}}});
  EXPECT_EQ(slow.grade, Grade::tells);
  EXPECT_EQ(slow.verdict, Verdict::fails);
  EXPECT_NEAR(slow.value->value, 3.938, 0.5e-3) << "F3: generation 3, x4";
  EXPECT_NEAR(slow.limit->value, 7.877, 0.5e-3) << "F3: generation 4, x4";
  EXPECT_THAT(slow.statement, HasSubstr("generation 3 x4 in socket 1"));
  EXPECT_THAT(slow.statement, HasSubstr("half its rate"));
  EXPECT_EQ(slow.where, "socket 1");
  const Claim fast = claim("match.drive-link", {{"shared", "new"}});
  EXPECT_EQ(fast.verdict, Verdict::holds) << "without a card nothing is lost in socket 2";
  EXPECT_THAT(fast.statement, HasSubstr("generation 4 x4 in socket 2"));
}

TEST(DriveLink, PlacesAreTheSameAsForTheCard) {
  EXPECT_EQ(claim("match.drive-link", {{"shared", "wide", "new"}}).where, "socket 3")
      << "socket 2 would take lanes; the ports of 3 are not needed";
  EXPECT_EQ(claim("match.drive-link", {{"shared", "wide", "new", "flat"}}).where, "socket 1")
      << "now a port is needed, and bandwidth comes last";
  EXPECT_EQ(claim("match.drive-link", {{"shared", "narrow", "new", "flat"}}).where, "socket 2")
      << "a card of eight lanes loses none to socket 2";
}

TEST(DriveLink, OneClaimAPieceAndNoneWithoutAPlace) {
  ASSERT_EQ(places("match.drive-link", {"shared", "new", "old"}), 2);
  EXPECT_EQ(claim("match.drive-link", {{"shared", "old", "new"}}, 0).where, "socket 1")
      << "the old drive loses nothing in the slow socket";
  EXPECT_EQ(claim("match.drive-link", {{"shared", "old", "new"}}, 1).where, "socket 2");
  EXPECT_EQ(places("match.drive-link", {"taker", "new", "old"}), 1);
  EXPECT_EQ(places("match.drive-link", {"unlisted", "new"}), 0);
  EXPECT_EQ(places("match.drive-link", {"shared", "flat"}), 0);
}

TEST(DriveLink, UnknownRatesAreNamed) {
  EXPECT_THAT(missing_cells(claim("match.drive-link", {{"holes", "new"}})),
              ElementsAre("board_m2.holes/1.pcie_generation"));
  const Claim vague = claim("match.drive-link", {{"shared", "vague"}});
  EXPECT_EQ(vague.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(vague),
              ElementsAre("storage.vague.pcie_generation", "storage.vague.pcie_lanes"));
}

TEST(SharedLanes, AnotherSocketIsTakenWhereThereIsOne) {
  EXPECT_EQ(claim("match.shared-lanes", {{"shared", "wide", "new"}}).verdict, Verdict::holds);
  EXPECT_EQ(claim("match.shared-lanes", {{"shared", "wide", "new", "old"}}).verdict,
            Verdict::holds);
  Scene three(lanes());
  three.take("shared").take("wide").take("new", 3);
  const Claim all = three.claim(rule("match.shared-lanes"));
  EXPECT_EQ(all.verdict, Verdict::fails);
  EXPECT_EQ(all.value->value, 8.0);
  EXPECT_EQ(all.limit->value, 0.0);
  EXPECT_THAT(all.statement, HasSubstr("socket 2 leaves it 8 lanes"));
}

TEST(SharedLanes, TheAuthorsSocketIsRespected) {
  const Claim fixed = claim("match.shared-lanes", {{"shared", "wide", "new"}, {{"new", "2"}}});
  EXPECT_EQ(fixed.verdict, Verdict::fails);
  EXPECT_EQ(fixed.value->value, 8.0);
  EXPECT_EQ(claim("match.shared-lanes", {{"shared", "narrow", "new"}, {{"new", "2"}}}).verdict,
            Verdict::holds)
      << "eight lanes are left, and the card has no more";
  EXPECT_EQ(claim("match.shared-lanes", {{"shared", "wide", "new"}, {{"new", "3"}}}).verdict,
            Verdict::holds)
      << "socket 3 takes the second slot's lanes; the card sits in the first";
}

TEST(SharedLanes, AcceptedUnlessTheCardKeepsNone) {
  const Claim eight = claim("match.shared-lanes", {{"taker", "wide", "new"}, {}, true});
  EXPECT_EQ(eight.verdict, Verdict::holds);
  EXPECT_EQ(eight.value->value, 8.0);
  EXPECT_EQ(eight.limit->value, 15.0);
  EXPECT_THAT(eight.statement, HasSubstr("accepts"));
  EXPECT_EQ(claim("match.shared-lanes", {{"taker", "wide", "new"}}).verdict, Verdict::fails);
  EXPECT_EQ(claim("match.shared-lanes", {{"either", "wide", "new"}, {}, true}).verdict,
            Verdict::fails);
}

TEST(SharedLanes, UnknownWhereASocketThatMustBeUsedDoesNotSay) {
  const Claim hole = claim("match.shared-lanes", {{"holes", "wide", "new"}});
  EXPECT_EQ(hole.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(hole), ElementsAre("board_m2.holes/1.shares_slot"));
  // Socket 1 shares the slot, but neither says how many lanes are wired to it.
  const Claim half = claim("match.shared-lanes", {{"half-known", "wide", "new"}});
  EXPECT_EQ(half.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(half), ElementsAre("board_slots.half-known/1.pcie_lanes",
                                               "board_m2.half-known/2.shares_slot"));
  EXPECT_EQ(claim("match.shared-lanes", {{"half-known", "narrow", "new"}}).verdict, Verdict::holds)
      << "eight lanes are left in any case";
  EXPECT_THAT(missing_cells(claim("match.shared-lanes", {{"taker", "gpu-bare", "new"}})),
              ElementsAre("gpu.gpu-bare.pcie_lanes"));
  EXPECT_THAT(missing_cells(claim("match.shared-lanes", {{"unlisted", "wide", "new"}})),
              ElementsAre("board_m2.unlisted.*"));
  EXPECT_THAT(missing_cells(claim("match.shared-lanes", {{"shared", "wide", "bare"}})),
              ElementsAre("storage.bare.mounting"));
  EXPECT_EQ(places("match.shared-lanes", {"shared", "new"}), 0);
  EXPECT_EQ(places("match.shared-lanes", {"shared", "wide", "flat"}), 0);
}

TEST(SataPorts, SocketsInUseCostPorts) {
  const auto ports = [](const std::vector<std::string>& ids, const Mounts& mounts) {
    return claim("match.sata-ports", {ids, mounts});
  };
  const Claim fixed = ports({"shared", "new", "flat"}, {{"new", "3"}});
  EXPECT_EQ(fixed.verdict, Verdict::fails);
  EXPECT_EQ(fixed.limit->value, 0.0) << "four ports, four dead";
  EXPECT_THAT(fixed.statement, HasSubstr("less 4 for the drive in socket 3"));
  const Claim free = ports({"shared", "new", "flat"}, {});
  EXPECT_EQ(free.verdict, Verdict::holds);
  EXPECT_EQ(free.limit->value, 4.0);
  // With the card in, three drives need all sockets but 2 is allowed to take lanes before that.
  EXPECT_EQ(ports({"shared", "wide", "new", "old", "flat"}, {}).verdict, Verdict::fails)
      << "lanes come before ports: sockets 1 and 3";
}

TEST(SataPorts, UnknownWhereASocketInUseDoesNotSay) {
  const Claim hole = claim("match.sata-ports", {{"holes", "new", "flat"}});
  EXPECT_EQ(hole.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(hole), ElementsAre("board_m2.holes/1.sata_ports_off"));
  // One of two ports is left at worst; the drives in sockets 1 and 2 are known to cost no more.
  EXPECT_EQ(claim("match.sata-ports", {{"half-known", "new", "old", "flat"}}).verdict,
            Verdict::holds);
  Scene scene(lanes());
  scene.take("half-known").take("new").take("old").take("flat", 2);
  EXPECT_EQ(scene.claim(rule("match.sata-ports")).verdict, Verdict::fails)
      << "both sockets are needed and one costs a port, card or none";
  Scene three(lanes());
  three.take("holes").take("new").take("flat", 3);
  EXPECT_EQ(three.claim(rule("match.sata-ports")).verdict, Verdict::fails)
      << "too many whatever the socket costs";
  EXPECT_THAT(missing_cells(claim("match.sata-ports", {{"unlisted", "new", "flat"}})),
              ElementsAre("board_m2.unlisted.*"));
}

TEST(CardLink, TheSlowestOfCardSlotAndProcessor) {
  const Claim full = claim("match.card-link", {{"cpu-5", "shared", "wide"}});
  EXPECT_EQ(full.verdict, Verdict::holds);
  EXPECT_NEAR(full.value->value, 31.508, 0.5e-3) << "F3: generation 4, x16";
  EXPECT_THAT(full.statement, HasSubstr("runs at generation 4 x16"));
  const Claim cpu = claim("match.card-link", {{"cpu-4", "shared", "narrow"}});
  EXPECT_EQ(cpu.verdict, Verdict::fails);
  EXPECT_NEAR(cpu.value->value, 15.754, 0.5e-3) << "F3: generation 4, x8";
  EXPECT_NEAR(cpu.limit->value, 31.508, 0.5e-3) << "F3: generation 5, x8";
  EXPECT_THAT(cpu.statement, HasSubstr("generation 4 x8"));
  EXPECT_THAT(cpu.statement, HasSubstr("half its rate"));
}

TEST(CardLink, LanesTakenByADriveAreLost) {
  const Claim taken = claim("match.card-link", {{"cpu-5", "taker", "wide", "new"}});
  EXPECT_EQ(taken.verdict, Verdict::fails);
  EXPECT_NEAR(taken.value->value, 15.754, 0.5e-3) << "F3: generation 4, x8";
  EXPECT_EQ(claim("match.card-link", {{"cpu-5", "taker", "wide"}}).verdict, Verdict::holds);
}

TEST(CardLink, UnknownCellsAreNamed) {
  EXPECT_THAT(missing_cells(claim("match.card-link", {{"cpu-bare", "shared", "wide"}})),
              ElementsAre("cpu.cpu-bare.pcie_generation"));
  EXPECT_THAT(missing_cells(claim("match.card-link", {{"cpu-5", "half-known", "gpu-bare"}})),
              ElementsAre("gpu.gpu-bare.pcie_generation", "gpu.gpu-bare.pcie_lanes",
                          "board_slots.half-known/1.pcie_generation",
                          "board_slots.half-known/1.pcie_lanes"));
  EXPECT_THAT(missing_cells(claim("match.card-link", {{"cpu-5", "unlisted", "wide"}})),
              ElementsAre("board_slots.unlisted.*"));
  const Claim hole = claim("match.card-link", {{"cpu-5", "holes", "wide", "new"}});
  EXPECT_EQ(hole.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(hole), Contains("board_m2.holes/1.shares_slot"));
  EXPECT_EQ(places("match.card-link", {"cpu-5", "no-slot", "wide"}), 0)
      << "match.card-slot speaks of that";
  EXPECT_THAT(missing_cells(claim("match.card-link", {{"cpu-5", "shared", "wide", "new"}})),
              Not(Contains("board_m2.shared/1.slot_lanes_left")));
}

// A claim shows what it rests on, the cells read past the readers too.
TEST(SharedLanes, ShowsItsWorking) {
  const Claim taken = claim("match.shared-lanes", {{"taker", "wide", "new"}});
  std::vector<std::string> cells;
  for (const WorkingCell& cell : taken.working.cells)
    cells.push_back(cell.table + "." + cell.row + "." + cell.column);
  EXPECT_THAT(cells, Contains("board_m2.taker/1.slot_lanes_left"));
  EXPECT_THAT(cells, Contains("board_slots.taker/1.pcie_lanes"));
  EXPECT_THAT(cells, Contains("gpu.wide.pcie_lanes"));
  EXPECT_FALSE(taken.working.equation.empty());
}

}  // namespace
}  // namespace rigproof
