// The questions asked of a plan, as a user asks them: what a budget buys, what a wish costs, what
// mends a build; each held against what other commands say of the same, and with wrong input.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

constexpr std::int64_t living_room_budget = 150'000;  // written in the brief

std::int64_t minor(const Json& money) { return money.at("minor").get<std::int64_t>(); }

std::string plain(std::int64_t money_minor) {
  const std::string cents = std::to_string(money_minor % 100);
  return std::to_string(money_minor / 100) + (cents.size() < 2 ? ".0" : ".") + cents;
}

Ran ask(std::vector<std::string> args) {
  args.insert(args.end(), {"--catalog", demo_catalog});
  return rigproof(args);
}

Json answer(std::vector<std::string> args) {
  args.emplace_back("--json");
  return json_of(ask(std::move(args)).out);
}

const Json& staircase() {
  static const Json found = answer({"frontier", living_room, "--from", "700", "--to", "3000"});
  return found;
}

const Json& best_plan() {
  static const Json found = answer({"plan", living_room, "--best", "1"}).at("builds").at(0);
  return found;
}

// --- frontier

TEST(Frontier, StepsRiseAndCoverEveryBudgetOnce) {
  const Json& steps = staircase().at("steps");
  ASSERT_GE(steps.size(), 5U);
  for (std::size_t i = 1; i < steps.size(); ++i) {
    const Json& below = steps[i - 1];
    EXPECT_GT(minor(steps[i].at("price")), minor(below.at("price")));
    EXPECT_GT(minor(steps[i].at("score")), minor(below.at("score")));
    EXPECT_EQ(minor(below.at("covers_to")) + 1, minor(steps[i].at("price")));
    const std::int64_t gain = minor(steps[i].at("score")) - minor(below.at("score"));
    const std::int64_t dearer = minor(steps[i].at("price")) - minor(below.at("price"));
    EXPECT_EQ(minor(steps[i].at("gain")), gain);
    // 50.00 EUR are 5000 cents; rounded to a whole cent.
    EXPECT_NEAR(static_cast<double>(minor(steps[i].at("per_50"))),
                5000.0 * static_cast<double>(gain) / static_cast<double>(dearer), 0.51);
    EXPECT_FALSE(steps[i].at("changes").empty());
  }
  EXPECT_EQ(minor(steps.back().at("covers_to")), 300'000);
  // Steps over the brief's own budget are judged under the budgets asked about.
  EXPECT_GT(minor(steps.back().at("price")), living_room_budget);
  EXPECT_GT(steps.back().at("odds_all_hold").get<double>(), 0.5);
  EXPECT_EQ(minor(staircase().at("runs_out_at")), minor(steps.back().at("price")));
}

// The plan knows nothing of stairs.
TEST(Frontier, HoldsThePlanOfTheBriefsOwnBudget) {
  for (const Json& step : staircase().at("steps")) {
    if (minor(step.at("price")) > living_room_budget ||
        minor(step.at("covers_to")) < living_room_budget)
      continue;
    EXPECT_EQ(step.at("score"), best_plan().at("score"));
    EXPECT_EQ(step.at("parts"), best_plan().at("parts"));
    return;
  }
  ADD_FAILURE() << "no step covers the budget of the brief";
}

TEST(Frontier, BelowTheFirstStepThereIsNoBuild) {
  const std::int64_t least = minor(staircase().at("least_price"));
  EXPECT_EQ(least, minor(staircase().at("steps").at(0).at("price")));
  const std::vector<std::string> under = {"frontier", living_room, "--from",
                                          "0",        "--to",      plain(least - 1)};
  const Ran ran = ask(under);
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(ran.out, HasSubstr("No build costs"));
  const Json none = answer(under);
  EXPECT_EQ(none.at("status"), "impossible");
  EXPECT_THAT(none.at("steps"), IsEmpty());
  EXPECT_EQ(minor(none.at("least_price")), least);
  // The brief itself with that budget, and a cent less.
  const Folder folder;
  const std::string text = bytes_of(living_room);
  write_bytes(folder / "a.toml",
              changed(text, "budget = \"1500.00\"\n\n[[markets]]\nmarket = \"GB\"",
                      "budget = \"" + plain(least) + "\"\n\n[[markets]]\nmarket = \"GB\""));
  EXPECT_EQ(ask({"plan", folder / "a.toml", "--best", "1"}).exit_code, 5);
  write_bytes(folder / "b.toml",
              changed(text, "budget = \"1500.00\"\n\n[[markets]]\nmarket = \"GB\"",
                      "budget = \"" + plain(least - 1) + "\"\n\n[[markets]]\nmarket = \"GB\""));
  EXPECT_EQ(ask({"plan", folder / "b.toml", "--best", "1"}).exit_code, 3);
}

TEST(Frontier, OneBudgetAlone) {
  const Json one = answer({"frontier", living_room, "--from", "1500", "--to", "1500"});
  ASSERT_EQ(one.at("steps").size(), 1U);
  EXPECT_EQ(one.at("steps").at(0).at("score"), best_plan().at("score"));
  EXPECT_FALSE(one.contains("least_price"));
}

TEST(Frontier, StoppedTellsOnlyWhatIsProven) {
  const Json cut = answer(
      {"frontier", living_room, "--from", "700", "--to", "3000", "--time-limit", "0.0000001"});
  EXPECT_EQ(cut.at("status"), "not proven");
  EXPECT_LT(cut.at("steps").size(), staircase().at("steps").size());
  EXPECT_FALSE(cut.contains("least_price"));
  EXPECT_FALSE(cut.contains("runs_out_at"));
}

// One market's budget in the way of another's money: told, and as much as a plan without it says.
TEST(Frontier, TellsWhatOtherBudgetsStandInTheWayOf) {
  const Folder folder;
  const std::string text = bytes_of(living_room);
  write_bytes(folder / "tight.toml", changed(text, "\"1320.00\"", "\"900.00\""));
  std::string wide = changed(text, "\"1320.00\"", "\"99000.00\"");
  wide = changed(wide, "budget = \"1500.00\"\nsales_tax", "budget = \"99000.00\"\nsales_tax");
  write_bytes(folder / "wide.toml", wide);
  const Json tight = answer({"frontier", folder / "tight.toml", "--from", "900", "--to", "1500"});
  const Json best = answer({"plan", folder / "wide.toml", "--best", "1"}).at("builds").at(0);
  EXPECT_EQ(minor(tight.at("other_budgets_cost")),
            minor(best.at("score")) - minor(tight.at("steps").back().at("score")));
  EXPECT_GT(minor(tight.at("other_budgets_cost")), 0);
}

TEST(Frontier, WrongBudgets) {
  const auto refused = [](const char* from, const char* to, const char* says) {
    const Ran ran = ask({"frontier", living_room, "--from", from, "--to", to});
    EXPECT_EQ(ran.exit_code, 2) << from << ' ' << to;
    EXPECT_THAT(ran.out, IsEmpty());
    EXPECT_THAT(ran.err, HasSubstr(says));
  };
  refused("3000", "700", "--from 3,000.00 EUR is more than --to 700.00 EUR");
  refused("cheap", "700", "--from: ");
  refused("700", "1e3", "--to: ");
  refused("700.123", "900", "--from: ");
  refused("700", "9999999999999.99", "--to: ");
  EXPECT_EQ(ask({"frontier", living_room, "--from", "700"}).exit_code, 2);
  EXPECT_EQ(ask({"frontier", living_room, "--to", "700"}).exit_code, 2);
}

// --- insist

TEST(Insist, APartOfTheBestBuildCostsNothing) {
  const std::string board = best_plan().at("parts").at("board");
  const Json wished = answer({"insist", living_room, board});
  EXPECT_EQ(minor(wished.at("differences").at("score_change")), 0);
  EXPECT_EQ(wished.at("differences").at("swaps"), 0);
  EXPECT_EQ(wished.at("with").at("parts"), best_plan().at("parts"));
  EXPECT_THAT(ask({"insist", living_room, board}).out, HasSubstr("the wish costs nothing"));
}

TEST(Insist, WithoutAPartOfTheBestBuildItIsTheRunnerUp) {
  const std::string card = best_plan().at("parts").at("gpu");
  const Json wished = answer({"insist", living_room, "--without", card});
  EXPECT_NE(wished.at("with").at("parts").at("gpu"), card);
  EXPECT_EQ(wished.at("free").at("score"), best_plan().at("score"));
  EXPECT_EQ(minor(wished.at("differences").at("score_change")),
            minor(wished.at("with").at("score")) - minor(wished.at("free").at("score")));
  EXPECT_LE(minor(wished.at("differences").at("score_change")), 0);
  EXPECT_EQ(wished.at("without").at(0).at("id"), card);
}

// The brief forces a cooler; its line is counted here.
TEST(Insist, AgainstAForcedPartNamesTheLine) {
  const Ran ran = ask({"insist", living_room, "fjellum-pillar"});
  EXPECT_EQ(ran.exit_code, 3);
  const int line = line_of(bytes_of(living_room), "cooler = { id =");
  EXPECT_THAT(ran.out, HasSubstr("line " + std::to_string(line)));
  EXPECT_THAT(ran.out, HasSubstr("because.cooler"));
  EXPECT_THAT(ran.out, HasSubstr("insist.fjellum-pillar"));
}

// One card dearer than the whole budget allows: with as much money as it is told, it is possible.
TEST(Insist, TellsHowMuchMoreMoneyAWishTakes) {
  const Folder folder;
  const std::string text =
      changed(bytes_of(high_refresh), "budget = \"1900.00\"", "budget = \"1200.00\"");
  write_bytes(folder / "tight.toml", text);
  const Json wide = answer({"insist", high_refresh, "orrvane-rowan-46-depot"});
  ASSERT_EQ(wide.at("status"), "proven");
  const Json tight = answer({"insist", folder / "tight.toml", "orrvane-rowan-46-depot"});
  ASSERT_EQ(tight.at("status"), "impossible");
  for (const Json& conflict : tight.at("conflicts"))
    for (const Json& requirement : conflict)
      if (requirement.at("path") == "markets.IE.budget") {
        const std::int64_t to = minor(requirement.at("relaxation").at("money_to"));
        write_bytes(folder / "enough.toml",
                    changed(text, "budget = \"1200.00\"", "budget = \"" + plain(to) + "\""));
        write_bytes(folder / "short.toml",
                    changed(text, "budget = \"1200.00\"", "budget = \"" + plain(to - 1) + "\""));
        EXPECT_EQ(answer({"insist", folder / "enough.toml", "orrvane-rowan-46-depot"}).at("status"),
                  "proven");
        EXPECT_EQ(answer({"insist", folder / "short.toml", "orrvane-rowan-46-depot"}).at("status"),
                  "impossible");
        return;
      }
  ADD_FAILURE() << "the budget is in no conflict";
}

TEST(Insist, WrongWishes) {
  const auto refused = [](std::vector<std::string> wish, const char* says) {
    wish.insert(wish.begin(), {"insist", living_room});
    const Ran ran = ask(wish);
    EXPECT_EQ(ran.exit_code, 2) << says;
    EXPECT_THAT(ran.out, IsEmpty());
    EXPECT_THAT(ran.err, HasSubstr(says));
  };
  refused({}, "expected a part to insist on, or --without PART");
  refused({"orvane-larch-16"}, "did you mean orrvane-larch-16?");
  refused({"larch-16"}, "did you mean orrvane-larch-16, orrvane-larch-16-vista?");
  refused({"orrvane-larch-16", "--without", "orrvane-larch-16"},
          "orrvane-larch-16: is both insisted on and done without");
  refused({"orrvane-larch-16", "thessic-rondo-204"}, "at most one part of kind cpu");
  refused({"--without", "nothing-of-the-kind-at-all"}, "no part of the catalog has this id");
}

// --- repair

// The best build written down, and offers of its card gone from the catalog.
class Vanished : public testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(ask({"plan", living_room, "--best", "1", "--short", "--save", build}).exit_code, 5);
    copy_demo(catalog, [&](const std::string& name, const std::string& bytes) {
      if (name != "offers") return bytes;
      Table kept;
      const Table table = table_of(bytes);
      const std::size_t part = column_of(table, "part");
      for (const Row& row : table)
        if (row.at(part) != card) kept.push_back(row);
      EXPECT_LT(kept.size(), table.size());
      return csv_of(kept);
    });
  }
  Folder folder;
  const std::string build = folder / "best.toml";
  const std::string catalog = folder / "catalog";
  const std::string card = best_plan().at("parts").at("gpu");
};

TEST_F(Vanished, IsToldAndSwapped) {
  const std::vector<std::string> args = {"repair", living_room, build, "--catalog", catalog};
  auto as_json = args;
  as_json.emplace_back("--json");
  const Json repaired = json_of(rigproof(as_json).out);
  EXPECT_EQ(repaired.at("status"), "proven");
  EXPECT_FALSE(repaired.contains("score_now"));  // it has no price any more
  bool told = false;
  for (const Json& wrong : repaired.at("wrong"))
    told = told || (wrong.at("id") == "market.offer" &&
                    wrong.at("claim").at("where").get<std::string>().ends_with(card));
  EXPECT_TRUE(told);
  EXPECT_GE(repaired.at("swaps"), 1);
  EXPECT_NE(repaired.at("repaired").at("parts").at("gpu"), card);
  EXPECT_THAT(rigproof(args).out, HasSubstr("no offer in IE is known"));
}

TEST_F(Vanished, WhatWasRepairedNeedsNoRepair) {
  const std::string mended = folder / "mended.toml";
  const Ran first =
      rigproof({"repair", living_room, build, "--catalog", catalog, "--save", mended});
  EXPECT_EQ(first.exit_code, 5);
  EXPECT_THAT(first.err, HasSubstr("mended.toml"));
  const Ran again = rigproof({"repair", living_room, mended, "--catalog", catalog});
  EXPECT_EQ(again.exit_code, 5);
  EXPECT_THAT(again.out, HasSubstr("No swap is needed"));
  EXPECT_THAT(again.out, HasSubstr("nothing is wrong"));
}

TEST(Repair, FewerSwapsThanItTakesAreOutOfReach) {
  const Json mended = answer({"repair", living_room, friday_shelf});
  const int swaps = mended.at("swaps");
  ASSERT_GE(swaps, 2);
  const std::string fewer = std::to_string(swaps - 1);
  const Ran ran = ask({"repair", living_room, friday_shelf, "--most-swaps", fewer});
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(ran.out, HasSubstr(fewer + " swaps or fewer"));
  EXPECT_EQ(answer({"repair", living_room, friday_shelf, "--most-swaps", fewer}).at("status"),
            "out of reach");
}

TEST(Repair, TheBestBuildIsRightAsItIs) {
  const Folder folder;
  const std::string build = folder / "best.toml";
  ASSERT_EQ(ask({"plan", living_room, "--best", "1", "--short", "--save", build}).exit_code, 5);
  const Json right = answer({"repair", living_room, build});
  EXPECT_EQ(right.at("swaps"), 0);
  EXPECT_THAT(right.at("wrong"), IsEmpty());
  EXPECT_EQ(right.at("score_now"), best_plan().at("score"));
  EXPECT_FALSE(right.contains("one_more"));  // nothing stands before the best
}

TEST(Answers, StoppedTheyClaimNoProof) {
  const std::string at_once = "0.0000001";
  const Ran wish =
      ask({"insist", "demo/briefs/boat-locker.toml", "orrvane-larch-16", "--time-limit", at_once});
  EXPECT_THAT(wish.out, HasSubstr("Stopped before both builds were proven"));
  const Json mended = answer({"repair", living_room, friday_shelf, "--time-limit", at_once});
  EXPECT_EQ(mended.at("status"), "not proven");
  EXPECT_FALSE(mended.contains("swaps"));
}

TEST(Repair, UnderABriefThatNothingSatisfies) {
  const Ran ran = ask({"repair", impossible, evening_chair});
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(ran.out, HasSubstr("CONFLICT"));
  EXPECT_THAT(ran.out, HasSubstr("however many swaps"));
}

TEST(Repair, WrongInput) {
  EXPECT_EQ(ask({"repair", living_room, "no-such-build.toml"}).exit_code, 2);
  EXPECT_EQ(ask({"repair", living_room, living_room}).exit_code, 2);
  EXPECT_EQ(ask({"repair", living_room, evening_chair, "--most-swaps", "-1"}).exit_code, 2);
  EXPECT_EQ(ask({"repair", living_room}).exit_code, 2);
}

}  // namespace
}  // namespace rigproof::cli_test
