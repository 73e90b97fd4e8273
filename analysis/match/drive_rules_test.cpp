// Drives and plugs: matching against brute force, counts against hand arithmetic.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numeric>
#include <random>

#include "analysis/match/drive_places.hpp"
#include "analysis/match/match_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using match::place_drives;
using match::Places;
using match::Sockets;
using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::ElementsAre;
using testing::HasSubstr;

const Rule& rule(std::string_view id) { return rule_of(match_rules(), id); }

// Every way to hand out sockets: each drive in turn takes none or any free one that fits.
int most_placed(const std::vector<Sockets>& fits, std::size_t drive, unsigned taken) {
  if (drive == fits.size()) return 0;
  int best = most_placed(fits, drive + 1, taken);
  for (unsigned s = 0; s < match::most_sockets; ++s)
    if ((fits[drive] >> s & 1U) != 0 && (taken >> s & 1U) == 0)
      best = std::max(best, 1 + most_placed(fits, drive + 1, taken | 1U << s));
  return best;
}

TEST(PlaceDrives, AsManyAsBruteForceFinds) {
  std::mt19937 generator(20261001);
  const auto random = [&] { return static_cast<unsigned>(generator()); };
  int tight = 0;
  for (int round = 0; round < 4000; ++round) {
    const unsigned sockets = random() % 6;
    std::vector<Sockets> fits(random() % 6);
    for (Sockets& fit : fits)
      fit = static_cast<Sockets>(random() & random() & ((1U << sockets) - 1U));
    const Places got = place_drives(fits);
    const int best = most_placed(fits, 0, 0);
    ASSERT_EQ(static_cast<int>(fits.size()) - got.without, best);
    // What is handed out is allowed, and nobody sits twice.
    std::vector<int> seats(fits.size());
    for (unsigned s = 0; s < match::most_sockets; ++s) {
      if (got.drive_in[s] < 0) continue;
      const auto drive = static_cast<std::size_t>(got.drive_in[s]);
      ASSERT_TRUE(fits[drive] >> s & 1U);
      ++seats[drive];
    }
    ASSERT_EQ(std::accumulate(seats.begin(), seats.end(), 0), best);
    for (std::size_t d = 0; d < seats.size(); ++d) ASSERT_LE(seats[d], 1);
    ASSERT_EQ(got.first_without >= 0, got.without > 0);
    if (got.without > 0) {
      ASSERT_EQ(seats[static_cast<std::size_t>(got.first_without)], 0);
    }
    tight += got.without > 0 && best > 0 ? 1 : 0;
  }
  EXPECT_GT(tight, 500) << "the cases must include hard ones";
}

// The first drive fits both sockets, the second only socket 0: first come would leave it outside.
TEST(PlaceDrives, MovesAnEarlierDriveOutOfTheWay) {
  const std::vector<Sockets> fits = {0b11, 0b01};
  const Places got = place_drives(fits);
  EXPECT_EQ(got.without, 0);
  EXPECT_EQ(got.drive_in[0], 1);
  EXPECT_EQ(got.drive_in[1], 0);
}

TestTables drives() {
  return TestTables()
      .row("board", {{"id", "two"}, {"sata_ports", "2"}})
      .row("board", {{"id", "none"}, {"sata_ports", "0"}})
      .row("board", {{"id", "vague"}})
      .row("board", {{"id", "unlisted"}})
      .row("board_m2", {{"board", "two"},
                        {"socket", "1"},
                        {"lengths_mm", "60|80"},
                        {"links", "NVMe"},
                        {"sata_ports_off", "0"}})
      .row("board_m2", {{"board", "two"},
                        {"socket", "2"},
                        {"lengths_mm", "80|110"},
                        {"links", "NVMe|SATA"},
                        {"sata_ports_off", "0"}})
      .row("board_m2", {{"board", "vague"}, {"socket", "1"}, {"lengths_mm", "80"}})
      .row("storage", {{"id", "fast-80"},
                       {"name", "Fast 80"},
                       {"mounting", "M.2-2280"},
                       {"link", "NVMe"},
                       {"capacity_gb", "1000"}})
      .row("storage",
           {{"id", "long-110"}, {"name", "Long 110"}, {"mounting", "M.2-22110"}, {"link", "NVMe"}})
      .row("storage",
           {{"id", "slow-80"}, {"name", "Slow 80"}, {"mounting", "M.2-2280"}, {"link", "SATA"}})
      .row("storage",
           {{"id", "tiny-30"}, {"name", "Tiny 30"}, {"mounting", "M.2-2230"}, {"link", "NVMe"}})
      .row("storage", {{"id", "some-80"}, {"name", "Some 80"}, {"mounting", "M.2-2280"}})
      .row("storage",
           {{"id", "flat"}, {"mounting", "bay-2.5"}, {"link", "SATA"}, {"capacity_gb", "500"}})
      .row("storage",
           {{"id", "disk"}, {"mounting", "bay-3.5"}, {"link", "SATA"}, {"capacity_gb", "4000"}})
      .row("storage", {{"id", "bare"}})
      .row("case", {{"id", "shell"}, {"bays_2_5", "2"}, {"bays_3_5", "1"}})
      .row("case", {{"id", "case-bare"}})
      .row("psu", {{"id", "brook"}})
      .row("psu", {{"id", "psu-bare"}})
      .row("psu_cables", {{"psu", "brook"}, {"connector", "sata"}, {"count", "2"}})
      .row("psu_cables", {{"psu", "brook"}, {"connector", "atx24"}, {"count", "1"}})
      .row("psu_cables", {{"psu", "brook"}, {"connector", "eps8"}, {"count", "2"}})
      .row("psu_cables", {{"psu", "brook"}, {"connector", "pcie8"}, {"count", "2"}})
      .row("board",
           {{"id", "eps-2"}, {"atx24_inputs", "1"}, {"eps8_inputs", "2"}, {"eps4_inputs", "0"}})
      .row("board",
           {{"id", "eps-3"}, {"atx24_inputs", "1"}, {"eps8_inputs", "3"}, {"eps4_inputs", "1"}})
      .row("gpu", {{"id", "card-2"}})
      .row("gpu", {{"id", "card-6"}})
      .row("gpu", {{"id", "slot-fed"}})
      .row("gpu", {{"id", "card-bare"}})
      .row("gpu_inputs", {{"gpu", "card-2"}, {"connector", "pcie8"}, {"count", "2"}})
      .row("gpu_inputs", {{"gpu", "card-6"}, {"connector", "pcie8"}, {"count", "1"}})
      .row("gpu_inputs", {{"gpu", "card-6"}, {"connector", "pcie6"}, {"count", "1"}})
      .row("gpu_inputs", {{"gpu", "slot-fed"}, {"connector", "pcie8"}, {"count", "0"}});
}

Claim m2(const std::vector<std::string>& parts, const Mounts& mounts = {}) {
  Scene scene(drives());
  for (const auto& part : parts) scene.take(part);
  scene.setup.mounts = mounts;
  return scene.claim(rule("match.m2-places"));
}

TEST(M2Places, LengthAndLinkMustFit) {
  EXPECT_EQ(m2({"two", "fast-80"}).verdict, Verdict::holds);
  EXPECT_EQ(m2({"two", "long-110"}).verdict, Verdict::holds) << "socket 2 is long enough";
  EXPECT_EQ(m2({"two", "slow-80"}).verdict, Verdict::holds) << "socket 2 speaks SATA";
  const Claim tiny = m2({"two", "tiny-30"});
  EXPECT_EQ(tiny.verdict, Verdict::fails);
  EXPECT_THAT(tiny.remedy, HasSubstr("Tiny 30"));
}

TEST(M2Places, OneDriveASocket) {
  EXPECT_EQ(m2({"two", "fast-80", "long-110"}).verdict, Verdict::holds);
  EXPECT_EQ(m2({"two", "fast-80", "slow-80"}).verdict, Verdict::holds)
      << "the fast one must go to socket 1";
  const Claim clash = m2({"two", "long-110", "slow-80"});
  EXPECT_EQ(clash.verdict, Verdict::fails) << "both need socket 2";
  EXPECT_EQ(clash.value->value, 1.0);
  EXPECT_THAT(clash.remedy, HasSubstr("Slow 80"));
}

TEST(M2Places, CountsPieces) {
  for (const auto& [count, without] : {std::pair{2, 0.0}, std::pair{3, 1.0}, std::pair{40, 38.0}}) {
    Scene scene(drives());
    scene.take("two").take("fast-80", count);
    EXPECT_EQ(scene.claim(rule("match.m2-places")).value->value, without);
  }
}

TEST(M2Places, UnknownOnlyWhenItHangsOnAnAbsentCell) {
  const Claim links = m2({"vague", "fast-80"});
  EXPECT_EQ(links.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(links), ElementsAre("board_m2.vague/1.links"));
  EXPECT_EQ(m2({"vague", "tiny-30"}).verdict, Verdict::fails) << "too short whatever it speaks";
  EXPECT_EQ(m2({"vague", "fast-80", "slow-80"}).verdict, Verdict::fails)
      << "two drives, one socket";
}

// Socket 2 takes either link, socket 1 only NVMe.
TEST(M2Places, UnknownLinkOfADrive) {
  EXPECT_EQ(m2({"two", "some-80"}).verdict, Verdict::holds) << "socket 2, whatever it speaks";
  const Claim claim = m2({"two", "long-110", "some-80"});
  EXPECT_EQ(claim.verdict, Verdict::unknown) << "the long one needs socket 2";
  EXPECT_THAT(missing_cells(claim), ElementsAre("storage.some-80.link"));
}

TEST(M2Places, UnlistedSocketsAndMountings) {
  EXPECT_THAT(missing_cells(m2({"unlisted", "fast-80"})), ElementsAre("board_m2.unlisted.*"));
  EXPECT_THAT(missing_cells(m2({"two", "bare"})), ElementsAre("storage.bare.mounting"));
  EXPECT_EQ(Scene(drives()).take("two").take("disk").places(rule("match.m2-places")), 0)
      << "no M.2 drive";
}

TEST(M2Places, KeepsWhatTheAuthorFixed) {
  EXPECT_EQ(m2({"two", "fast-80", "slow-80"}, {{"fast-80", "1"}}).verdict, Verdict::holds);
  EXPECT_EQ(m2({"two", "fast-80", "slow-80"}, {{"fast-80", "2"}}).verdict, Verdict::fails);
  EXPECT_EQ(m2({"two", "long-110"}, {{"long-110", "1"}}).verdict, Verdict::fails)
      << "only socket 2 is long enough";
  EXPECT_EQ(m2({"two", "fast-80"}, {{"fast-80", "3"}}).verdict, Verdict::fails)
      << "there is no socket 3";
}

TEST(M2Places, KnownDrivesMayBeTooManyAlready) {
  const Claim claim = m2({"two", "long-110", "slow-80", "bare"});
  EXPECT_EQ(claim.verdict, Verdict::fails) << "both need socket 2, whatever the third is";
  EXPECT_EQ(claim.value->value, 1.0);
}

Claim of(std::string_view id, const std::vector<std::pair<std::string, int>>& parts,
         int place = 0) {
  Scene scene(drives());
  for (const auto& [part, count] : parts) scene.take(part, count);
  return scene.claim(rule(id), place);
}
int places(std::string_view id, const std::vector<std::string>& parts) {
  Scene scene(drives());
  for (const auto& part : parts) scene.take(part);
  return scene.places(rule(id));
}

TEST(SataPorts, OneForEveryDriveInABay) {
  EXPECT_EQ(of("match.sata-ports", {{"two", 1}, {"disk", 1}, {"flat", 1}}).verdict, Verdict::holds);
  const Claim three = of("match.sata-ports", {{"two", 1}, {"disk", 1}, {"flat", 2}});
  EXPECT_EQ(three.verdict, Verdict::fails);
  EXPECT_EQ(three.margin->value, -1.0);
  EXPECT_EQ(of("match.sata-ports", {{"none", 1}, {"disk", 1}}).verdict, Verdict::fails);
  EXPECT_EQ(of("match.sata-ports", {{"vague", 1}, {"disk", 1}}).verdict, Verdict::unknown);
  EXPECT_EQ(of("match.sata-ports", {{"two", 1}, {"bare", 1}}).verdict, Verdict::unknown);
  EXPECT_EQ(places("match.sata-ports", {"two", "slow-80"}), 0) << "an M.2 drive uses its socket";
}

TEST(BayPlaces, EachSizeOnItsOwn) {
  ASSERT_EQ(places("match.bay-places", {"shell", "flat", "disk"}), 2);
  EXPECT_EQ(places("match.bay-places", {"shell", "disk"}), 1);
  EXPECT_EQ(places("match.bay-places", {"shell", "fast-80"}), 0);
  const Claim small = of("match.bay-places", {{"shell", 1}, {"flat", 2}, {"disk", 2}}, 0);
  EXPECT_EQ(small.where, "2.5 inch places");
  EXPECT_EQ(small.verdict, Verdict::holds);
  const Claim large = of("match.bay-places", {{"shell", 1}, {"flat", 2}, {"disk", 2}}, 1);
  EXPECT_EQ(large.where, "3.5 inch places");
  EXPECT_EQ(large.verdict, Verdict::fails) << "two drives, one place; 2.5 inch places do not help";
  EXPECT_THAT(missing_cells(of("match.bay-places", {{"case-bare", 1}, {"disk", 1}})),
              ElementsAre("case.case-bare.bays_3_5"));
  EXPECT_EQ(of("match.bay-places", {{"shell", 1}, {"bare", 1}}).verdict, Verdict::unknown);
}

TEST(BoardConnectors, OneClaimAnInputCountedStrictly) {
  ASSERT_EQ(places("match.board-connectors", {"eps-2", "brook"}), 2)
      << "eps4_inputs 0 needs nothing";
  const Claim main = of("match.board-connectors", {{"eps-2", 1}, {"brook", 1}}, 0);
  EXPECT_EQ(main.where, "atx24");
  EXPECT_EQ(main.verdict, Verdict::holds);
  const Claim two = of("match.board-connectors", {{"eps-2", 1}, {"brook", 1}}, 1);
  EXPECT_EQ(two.where, "eps8");
  EXPECT_EQ(two.verdict, Verdict::holds);
  EXPECT_EQ(two.margin->value, 0.0);
  ASSERT_EQ(places("match.board-connectors", {"eps-3", "brook"}), 3);
  EXPECT_EQ(of("match.board-connectors", {{"eps-3", 1}, {"brook", 1}}, 1).margin->value, -1.0);
  const Claim four = of("match.board-connectors", {{"eps-3", 1}, {"brook", 1}}, 2);
  EXPECT_EQ(four.where, "eps4");
  EXPECT_EQ(four.verdict, Verdict::fails) << "listed cables without this plug: none";
  EXPECT_EQ(four.limit->value, 0.0);
}

TEST(BoardConnectors, UnknownPlugsAndUnknownInputs) {
  EXPECT_THAT(missing_cells(of("match.board-connectors", {{"eps-2", 1}, {"psu-bare", 1}}, 1)),
              ElementsAre("psu_cables.psu-bare.*"));
  ASSERT_EQ(places("match.board-connectors", {"vague", "brook"}), 3);
  // The 24-pin input has the class range 1 to 1: it holds without the cell, and names it.
  const Claim main = of("match.board-connectors", {{"vague", 1}, {"brook", 1}}, 0);
  EXPECT_EQ(main.verdict, Verdict::holds);
  EXPECT_THAT(missing_cells(main), ElementsAre("board.vague.atx24_inputs"));
  EXPECT_THAT(missing_cells(of("match.board-connectors", {{"vague", 1}, {"brook", 1}}, 1)),
              ElementsAre("board.vague.eps8_inputs"));
}

TEST(CardConnectors, EachTypeTheCardHas) {
  ASSERT_EQ(places("match.card-connectors", {"card-2", "brook"}), 1);
  EXPECT_EQ(of("match.card-connectors", {{"card-2", 1}, {"brook", 1}}).verdict, Verdict::holds);
  EXPECT_EQ(of("match.card-connectors", {{"card-2", 2}, {"brook", 1}}).margin->value, -2.0);
  ASSERT_EQ(places("match.card-connectors", {"card-6", "brook"}), 2);
  const Claim six = of("match.card-connectors", {{"card-6", 1}, {"brook", 1}}, 0);
  EXPECT_EQ(six.where, "pcie6");
  EXPECT_EQ(six.verdict, Verdict::fails)
      << "strictly by name: an 8-pin plug is not counted for a 6-pin input";
  EXPECT_EQ(of("match.card-connectors", {{"card-6", 1}, {"brook", 1}}, 1).verdict, Verdict::holds);
  EXPECT_EQ(places("match.card-connectors", {"slot-fed", "brook"}), 0)
      << "count 0 states that there is none";
}

TEST(CardConnectors, UnlistedInputsAreOneUnknownClaim) {
  ASSERT_EQ(places("match.card-connectors", {"card-bare", "brook"}), 1);
  const Claim claim = of("match.card-connectors", {{"card-bare", 1}, {"brook", 1}});
  EXPECT_EQ(claim.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(claim), ElementsAre("gpu_inputs.card-bare.*"));
  EXPECT_THAT(missing_cells(of("match.card-connectors", {{"card-2", 1}, {"psu-bare", 1}})),
              ElementsAre("psu_cables.psu-bare.*"));
}

TEST(DriveConnectors, OnePlugForEveryDriveInABay) {
  EXPECT_EQ(of("match.drive-connectors", {{"disk", 1}, {"flat", 1}, {"fast-80", 2}, {"brook", 1}})
                .verdict,
            Verdict::holds);
  const Claim three = of("match.drive-connectors", {{"disk", 1}, {"flat", 2}, {"brook", 1}});
  EXPECT_EQ(three.verdict, Verdict::fails);
  EXPECT_EQ(three.margin->value, -1.0);
  EXPECT_EQ(of("match.drive-connectors", {{"disk", 1}, {"psu-bare", 1}}).verdict, Verdict::unknown);
  EXPECT_EQ(of("match.drive-connectors", {{"bare", 1}, {"brook", 1}}).verdict, Verdict::unknown);
  EXPECT_EQ(places("match.drive-connectors", {"fast-80", "slow-80", "psu-bare"}), 0)
      << "M.2 drives need no plug";
}

// Three SATA drives against two ports, two plugs; two large ones against one place: a further drive
// of which nothing is known saves none of them. An M.2 drive whose link is absent concerns none.
TEST(Drives, KnownOnesMayBeTooManyAlready) {
  EXPECT_EQ(of("match.sata-ports", {{"two", 1}, {"flat", 3}, {"bare", 1}}).verdict, Verdict::fails);
  EXPECT_EQ(of("match.sata-ports", {{"two", 1}, {"flat", 2}, {"bare", 1}}).verdict,
            Verdict::unknown);
  EXPECT_EQ(of("match.sata-ports", {{"two", 1}, {"flat", 2}, {"some-80", 1}}).verdict,
            Verdict::holds);
  EXPECT_EQ(of("match.sata-ports", {{"vague", 1}, {"flat", 3}, {"bare", 1}}).verdict,
            Verdict::unknown);
  EXPECT_EQ(of("match.drive-connectors", {{"brook", 1}, {"flat", 3}, {"bare", 1}}).verdict,
            Verdict::fails);
  EXPECT_EQ(of("match.drive-connectors", {{"psu-bare", 1}, {"flat", 3}, {"bare", 1}}).verdict,
            Verdict::unknown);
  EXPECT_EQ(of("match.bay-places", {{"shell", 1}, {"disk", 2}, {"bare", 1}}, 1).verdict,
            Verdict::fails);
  EXPECT_EQ(of("match.bay-places", {{"shell", 1}, {"disk", 2}, {"bare", 1}}, 0).verdict,
            Verdict::unknown);
}

TEST(MustStorage, SumOfAllDrives) {
  Scene scene(drives());
  scene.take("fast-80", 2).take("flat");
  EXPECT_EQ(scene.places(rule("match.must-storage")), 0) << "nobody asked";
  scene.brief.storage_gb = 2500.0;
  EXPECT_EQ(scene.claim(rule("match.must-storage")).verdict, Verdict::holds) << "2 x 1000 + 500";
  scene.brief.storage_gb = 2501.0;
  EXPECT_EQ(scene.claim(rule("match.must-storage")).verdict, Verdict::fails);
  EXPECT_EQ(scene.take("bare").claim(rule("match.must-storage")).verdict, Verdict::unknown);
}

}  // namespace
}  // namespace rigproof
