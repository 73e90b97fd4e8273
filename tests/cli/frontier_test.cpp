// What a budget buys, as a user asks: steps against each other, against plans, with wrong budgets.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "asking.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

const Json& staircase() {
  static const Json found = answer({"frontier", living_room, "--from", "700", "--to", "3000"});
  return found;
}

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

TEST(Frontier, TellsWhereNineTenthsOfTheGainAreHad) {
  const Json& steps = staircase().at("steps");
  const std::int64_t first = minor(steps.front().at("score"));
  const std::int64_t gain = minor(steps.back().at("score")) - first;
  const std::int64_t at = minor(staircase().at("nine_tenths_at"));
  for (const Json& step : steps) {
    const std::int64_t had = minor(step.at("score")) - first;
    if (minor(step.at("price")) < at) {
      EXPECT_LT(10 * had, 9 * gain);
    } else {
      EXPECT_GE(10 * had, 9 * gain);
    }
  }
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
              changed(text, "budget = \"1500.00\"\nmains_v = 230\nkwh_price = 0.38",
                      "budget = \"" + plain(least) + "\"\nmains_v = 230\nkwh_price = 0.38"));
  EXPECT_EQ(ask({"plan", folder / "a.toml", "--best", "1"}).exit_code, 0);
  write_bytes(folder / "b.toml",
              changed(text, "budget = \"1500.00\"\nmains_v = 230\nkwh_price = 0.38",
                      "budget = \"" + plain(least - 1) + "\"\nmains_v = 230\nkwh_price = 0.38"));
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
  refused("3000", "700", "from 3,000.00 EUR is more than to 700.00 EUR");
  refused("cheap", "700", "from: ");
  refused("700", "1e3", "to: ");
  refused("700.123", "900", "from: ");
  refused("700", "9999999999999.99", "to: ");
  EXPECT_EQ(ask({"frontier", living_room, "--from", "700"}).exit_code, 2);
  EXPECT_EQ(ask({"frontier", living_room, "--to", "700"}).exit_code, 2);
}

}  // namespace
}  // namespace rigproof::cli_test
