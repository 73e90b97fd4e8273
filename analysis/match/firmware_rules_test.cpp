// Firmware and mounting sets: what must be there before a processor starts and its cooler sits.
// Expectations by hand from the sentences (13) and (15) of README.md.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/match/match_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

const Rule& rule(std::string_view id) { return rule_of(match_rules(), id); }

Claim judged(const TestTables& tables, const std::vector<std::string>& parts, std::string_view id) {
  Scene scene(tables);
  for (const auto& part : parts) scene.take(part);
  return scene.claim(rule(id));
}

// Versions whose names sort as text in the wrong order: F9 is older than F10.
TestTables with_firmware(const char* shipped_first, const char* shipped_last, const char* flash) {
  TestTables tables;
  tables.row("board", {{"id", "board"},
                       {"name", "Kestrel M4"},
                       {"socket", "K7"},
                       {"firmware_shipped_first", shipped_first},
                       {"firmware_shipped_last", shipped_last},
                       {"flash_without_cpu", flash}});
  const char* versions[] = {"F8", "F9", "F10", "F11a", "F12"};
  for (int i = 0; i < 5; ++i)
    tables.row("board_firmware",
               {{"board", "board"}, {"place", std::to_string(i + 1)}, {"version", versions[i]}});
  for (const auto& [cpu, firmware] : {std::pair{"cpu-1", "1"},
                                      {"cpu-2", "2"},
                                      {"cpu-3", "3"},
                                      {"cpu-4", "4"},
                                      {"cpu-5", "5"},
                                      {"cpu-blank", ""}}) {
    tables.row("cpu", {{"id", cpu}, {"socket", "K7"}});
    tables.row("cpu_support", {{"board", "board"}, {"cpu", cpu}, {"firmware", firmware}});
  }
  tables.row("cpu", {{"id", "cpu-unlisted"}, {"socket", "K7"}});
  tables.row("cpu", {{"id", "cpu-other"}, {"socket", "J2"}});
  tables.row("cpu", {{"id", "cpu-bare"}});
  tables.row("board", {{"id", "board-bare"}, {"socket", "K7"}});
  return tables;
}

// Boards in the shops have one of four firmwares, places 2 to 5, each as likely: 64 draws each.
TEST(Firmware, OddsAreTheShareOfTheShippedVersionsThatStartIt) {
  const TestTables tables = with_firmware("2", "5", "no");
  const auto odds = [&](const char* cpu) {
    return judged(tables, {cpu, "board"}, "match.firmware");
  };
  EXPECT_EQ(odds("cpu-2").verdict, Verdict::holds);
  EXPECT_EQ(odds("cpu-2").odds, 1.0);
  EXPECT_EQ(odds("cpu-3").verdict, Verdict::thin) << "one of four is too old";
  EXPECT_EQ(odds("cpu-3").odds, 0.75);
  EXPECT_EQ(odds("cpu-4").verdict, Verdict::thin);
  EXPECT_EQ(odds("cpu-4").odds, 0.5);
  EXPECT_EQ(odds("cpu-5").verdict, Verdict::doubtful) << "only the newest of four";
  EXPECT_EQ(odds("cpu-5").odds, 0.25);
  const Claim thin = odds("cpu-3");
  EXPECT_EQ(thin.statement,
            "The Kestrel M4 board as sold starts the cpu-3: that takes firmware F10 or newer, and "
            "boards in the shops have F9 to F12.");
  EXPECT_THAT(thin.remedy, HasSubstr("ask the seller for firmware F10 or newer"));
  EXPECT_THAT(thin.remedy, HasSubstr("power must not be lost"));
  EXPECT_THAT(thin.remedy, Not(HasSubstr("without a processor")));
}

TEST(Firmware, OneShippedVersionIsOnEitherSideForCertain) {
  const TestTables tables = with_firmware("3", "3", "yes");
  const Claim fits = judged(tables, {"cpu-3", "board"}, "match.firmware");
  EXPECT_EQ(fits.verdict, Verdict::holds);
  EXPECT_EQ(fits.value->value, 3.0);
  EXPECT_EQ(fits.margin->value, 0.0);
  const Claim old = judged(tables, {"cpu-4", "board"}, "match.firmware");
  EXPECT_EQ(old.verdict, Verdict::fails) << "F11a is not there, whatever can be flashed";
  EXPECT_EQ(old.odds, 0.0);
  EXPECT_THAT(old.remedy, HasSubstr("flash firmware F11a without a processor (the board can)"));
}

// The two claims about one board read the same shipped firmware: where place 4 starts, 3 does too.
TEST(Firmware, ClaimsOfOneBoardShareTheirDraws) {
  Scene scene(with_firmware("2", "5", "no"));
  scene.take("cpu-3").take("board");
  const DrawSet third = judge(rule("match.firmware"), scene.facts(), 0).holds;
  scene.drop(Kind::cpu).take("cpu-4");
  const DrawSet fourth = judge(rule("match.firmware"), scene.facts(), 0).holds;
  EXPECT_EQ(fourth & third, fourth);
}

TEST(Firmware, TheOldestStartsWhateverWasShipped) {
  const TestTables tables = with_firmware("", "", "");
  EXPECT_EQ(judged(tables, {"cpu-1", "board"}, "match.firmware").verdict, Verdict::holds);
  const Claim open = judged(tables, {"cpu-2", "board"}, "match.firmware");
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open), ElementsAre("board.board.firmware_shipped_first",
                                               "board.board.firmware_shipped_last"));
  EXPECT_THAT(open.remedy, HasSubstr("whether the board can be flashed without one is not known"));
}

TEST(Firmware, ListsThatLackSomething) {
  const TestTables tables = with_firmware("2", "5", "no");
  const Claim unlisted = judged(tables, {"cpu-unlisted", "board"}, "match.firmware");
  EXPECT_EQ(unlisted.verdict, Verdict::fails);
  EXPECT_EQ(unlisted.value->text, "not on the board's list");
  EXPECT_THAT(unlisted.remedy, HasSubstr("choose another board"));
  const Claim no_list = judged(tables, {"cpu-3", "board-bare"}, "match.firmware");
  EXPECT_EQ(no_list.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(no_list), ElementsAre("cpu_support.board-bare.*"));
  EXPECT_EQ(missing_cells(judged(tables, {"cpu-blank", "board"}, "match.firmware")).front(),
            "cpu_support.board/cpu-blank.firmware");
  const Claim reversed =
      judged(with_firmware("5", "2", "no"), {"cpu-3", "board"}, "match.firmware");
  EXPECT_EQ(reversed.verdict, Verdict::unknown) << "oldest newer than newest says nothing";
}

TEST(Firmware, TwoSocketsThatDifferAreTheSocketsToRefuse) {
  const TestTables tables = with_firmware("2", "5", "no");
  EXPECT_EQ(Scene(tables).take("cpu-other").take("board").places(rule("match.firmware")), 0);
  EXPECT_EQ(Scene(tables).take("cpu-bare").take("board").places(rule("match.firmware")), 1);
  EXPECT_EQ(Scene(tables).take("cpu-3").places(rule("match.firmware")), 0);
}

TEST(Firmware, TheWorkingShowsTheListsRow) {
  const Claim claim = judged(with_firmware("2", "5", "no"), {"cpu-3", "board"}, "match.firmware");
  std::vector<std::string> seen;
  for (const WorkingCell& cell : claim.working.cells)
    seen.push_back(cell.table + "." + cell.column);
  EXPECT_THAT(seen,
              ElementsAre("cpu.socket", "board.socket", "cpu_support.cpu", "cpu_support.firmware",
                          "board.firmware_shipped_first", "board.firmware_shipped_last"));
  EXPECT_THAT(claim.working.equation, HasSubstr("(13)"));
}

TestTables with_sets() {
  return TestTables()
      .row("cpu", {{"id", "cpu"}, {"name", "Orrin 6"}, {"socket", "K7"}})
      .row("cooler", {{"id", "old-tower"}, {"name", "Old Tower"}})
      .row("cooler", {{"id", "silent-tower"}})
      .row("cooler", {{"id", "other-tower"}})
      .row("cooler_sockets", {{"cooler", "old-tower"}, {"socket", "J2"}})
      .row("cooler_sockets", {{"cooler", "other-tower"}, {"socket", "J2"}})
      .row("other", {{"id", "set-k7"}, {"name", "Tower Set"}, {"what", "socket-mount"}})
      .row("other", {{"id", "set-q1"}, {"what", "socket-mount"}})
      .row("other", {{"id", "set-blank"}, {"what", "socket-mount"}})
      .row("other", {{"id", "radio"}, {"what", "wifi-card"}})
      .row("other_mounts", {{"other", "set-k7"}, {"cooler", "old-tower"}, {"socket", "K7"}})
      .row("other_mounts", {{"other", "set-k7"}, {"cooler", "silent-tower"}, {"socket", "K7"}})
      .row("other_mounts", {{"other", "set-q1"}, {"cooler", "old-tower"}, {"socket", "Q1"}});
}

TEST(CoolerSocket, AMountingSetInTheBuildSettlesIt) {
  const TestTables tables = with_sets();
  const auto socket = [&](const std::vector<std::string>& parts) {
    return judged(tables, parts, "match.cooler-socket");
  };
  const Claim without = socket({"cpu", "old-tower"});
  EXPECT_EQ(without.verdict, Verdict::fails);
  EXPECT_EQ(without.limit->text, "J2");
  EXPECT_EQ(without.remedy,
            "add the Tower Set, which mounts this cooler on socket K7, or choose a cooler with a "
            "mounting set for socket K7");
  const Claim with = socket({"cpu", "old-tower", "set-k7"});
  EXPECT_EQ(with.verdict, Verdict::holds);
  EXPECT_EQ(with.limit->text, "J2, K7");
  EXPECT_EQ(with.statement,
            "With the Tower Set, the Old Tower mounts on the socket of the Orrin 6 (K7).");
  EXPECT_THAT(with.subjects, ElementsAre("cpu", "old-tower", "set-k7"));
  EXPECT_EQ(socket({"cpu", "old-tower", "set-q1"}).verdict, Verdict::fails) << "for another socket";
  EXPECT_EQ(socket({"cpu", "other-tower", "set-k7"}).verdict, Verdict::fails)
      << "for another cooler";
  EXPECT_EQ(socket({"cpu", "other-tower"}).remedy,
            "choose a cooler with a mounting set for socket K7")
      << "no part of the catalog mounts it";
  EXPECT_EQ(socket({"cpu", "old-tower", "radio"}).verdict, Verdict::fails);
}

TEST(CoolerSocket, WhatIsNotKnownMattersOnlyWhileNothingFits) {
  const TestTables tables = with_sets();
  const Claim silent = judged(tables, {"cpu", "silent-tower"}, "match.cooler-socket");
  EXPECT_EQ(silent.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(silent), ElementsAre("cooler_sockets.silent-tower.*"));
  EXPECT_EQ(judged(tables, {"cpu", "silent-tower", "set-k7"}, "match.cooler-socket").verdict,
            Verdict::holds);
  const Claim blank = judged(tables, {"cpu", "old-tower", "set-blank"}, "match.cooler-socket");
  EXPECT_EQ(blank.verdict, Verdict::unknown) << "nothing says what that set is for";
  EXPECT_THAT(missing_cells(blank), ElementsAre("other_mounts.set-blank.*"));
}

}  // namespace
}  // namespace rigproof
