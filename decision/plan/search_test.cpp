// The search against published optima and hand-worked cases. Brute force: search_random_test.cpp.
#include "decision/plan/search.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/contract.hpp"
#include "tests/support/published_problems.hpp"

namespace rigproof::plan {
namespace {

using Status = Outcome::Status;
using testing::ElementsAre;
using testing::ElementsAreArray;

// A check may take long: it is not asked of every option of a slot once the search is to stop.
TEST(Search, StopsBetweenTwoChecks) {
  constexpr int options = 500;
  Problem problem;
  problem.caps = {1'000};
  for (const char* name : {"first", "second"}) {
    Slot slot{.name = name};
    for (int i = 0; i < options; ++i)
      slot.options.push_back({.costs = {1}, .value = 1.0 * i, .rank = i});
    problem.slots.push_back(std::move(slot));
  }
  int asked = 0;
  problem.checks.push_back({.scope = {0, 1}, .why = "never", .holds = [&](std::span<const int>) {
                              ++asked;
                              return false;
                            }});
  const Outcome outcome = search(problem, {.stop = [&] { return asked >= 100; }});
  EXPECT_EQ(outcome.status, Status::not_proven);
  EXPECT_GE(asked, 100);
  EXPECT_LT(asked, 250);
  EXPECT_GE(outcome.bound, 2 * (options - 1));
}

class PublishedKnapsack : public testing::TestWithParam<Knapsack> {};

INSTANTIATE_TEST_SUITE_P(Burkardt, PublishedKnapsack, testing::ValuesIn(published_knapsacks()));

TEST_P(PublishedKnapsack, OptimumAndItems) {
  const Knapsack& k = GetParam();
  const Outcome outcome = search(packing(k.profits, {k.weights}, {k.capacity}), {});
  ASSERT_EQ(outcome.status, Status::proven);
  ASSERT_EQ(outcome.best.size(), 1U);
  EXPECT_EQ(outcome.best[0].score, k.optimum);
  EXPECT_EQ(outcome.bound, k.optimum);
  EXPECT_EQ(taken_items(outcome.best[0]), k.items);
}

class PublishedManyConstraints : public testing::TestWithParam<PublishedPacking> {};
INSTANTIATE_TEST_SUITE_P(Petersen, PublishedManyConstraints,
                         testing::ValuesIn(petersen_packings()));

TEST_P(PublishedManyConstraints, OptimumAndItems) {
  const PublishedPacking& instance = GetParam();
  const Outcome outcome = search(instance.problem, {});
  ASSERT_EQ(outcome.status, Status::proven);
  EXPECT_EQ(outcome.best.at(0).score, instance.optimum);
  EXPECT_THAT(outcome.best.at(0).choice, ElementsAreArray(instance.choice));
}

TEST(PublishedCovering, FivePointsMeetEveryTripleOfSteinNine) {
  const Outcome outcome = search(stein_nine(), {});
  ASSERT_EQ(outcome.status, Status::proven);
  EXPECT_EQ(outcome.best.at(0).score, -stein_nine_points);
  const std::vector<int> points = taken_items(outcome.best[0]);
  EXPECT_EQ(points.size(), 5U);
  for (const auto& triple : stein_nine_triples())
    EXPECT_TRUE(std::ranges::any_of(
        triple, [&](int point) { return std::ranges::find(points, point) != points.end(); }));
}

Problem two_by_two() {
  Problem problem;
  problem.caps = {100};
  problem.slots = {
      {.name = "a",
       .options = {{.costs = {10}, .value = 5, .rank = 0}, {.costs = {20}, .value = 7, .rank = 1}}},
      {.name = "b",
       .options = {{.costs = {10}, .value = 5, .rank = 1},
                   {.costs = {10}, .value = 5, .rank = 0}}}};
  return problem;
}

// 7 + 5 is best; the two options of b tie in score and price, so the smaller rank (option 1)
// stands.
TEST(Search, TiesGoToTheSmallerRank) {
  const Outcome outcome = search(two_by_two(), {.keep = 4});
  ASSERT_EQ(outcome.best.size(), 4U);
  EXPECT_THAT(outcome.best[0].choice, ElementsAre(1, 1));
  EXPECT_THAT(outcome.best[1].choice, ElementsAre(1, 0));
  EXPECT_THAT(outcome.best[2].choice, ElementsAre(0, 1));
  EXPECT_THAT(outcome.best[3].choice, ElementsAre(0, 0));
  EXPECT_THAT(outcome.best[0].costs, ElementsAre(30));
}

// The score of a, b with money: (1, 1) is 12 + 0.25 x (50 - 30) = 17; (0, 1) is 10 + 0.25 x 30 =
// 17.5, rounded away from zero to 18: the cheaper one is now best.
TEST(Search, MoneyLeftCountsFromTheBudgetAndRoundsOnce) {
  Problem problem = two_by_two();
  problem.money_weight = 0.25;
  problem.budget = 50;
  const Outcome outcome = search(problem, {.keep = 3});
  EXPECT_EQ(outcome.best.at(0).score, 18);
  EXPECT_THAT(outcome.best.at(0).choice, ElementsAre(0, 1));
  EXPECT_EQ(outcome.best.at(2).score, 17);
}

// Near 1e15 doubles are 0.125 apart, so 0.06 - 1e15 is -1e15. Nine slots of value 0.06 and price
// 1e15 with a budget of 9e15 score 0.54, rounded 1; summed term by term it looks like 0. The rival
// in slot 1 is 1 cheaper and worth -1.05: 8 x 0.06 - 1.05 + 1 = 0.43, rounded 0. It is tried first.
TEST(Search, TheBoundKnowsItsOwnRounding) {
  constexpr std::int64_t large = 1'000'000'000'000'000;
  Problem problem;
  problem.caps = {9 * large};
  problem.budget = 9 * large;
  problem.money_weight = 1.0;
  for (int s = 0; s < 9; ++s)
    problem.slots.push_back(
        {.name = std::to_string(s), .options = {{.costs = {large}, .value = 0.06, .rank = 1}}});
  problem.slots[0].options.push_back({.costs = {large - 1}, .value = -1.05, .rank = 0});
  const Outcome outcome = search(problem, {});
  ASSERT_EQ(outcome.status, Status::proven);
  EXPECT_EQ(outcome.best.at(0).score, 1);
  EXPECT_EQ(outcome.best.at(0).choice[0], 0);
}

TEST(Search, ASlotWithoutOptionsIsImpossible) {
  Problem problem = two_by_two();
  problem.slots.push_back({.name = "empty", .options = {}});
  const Outcome outcome = search(problem, {});
  EXPECT_EQ(outcome.status, Status::impossible);
  EXPECT_TRUE(outcome.best.empty());
}

TEST(Search, PrunedReasonsComeInFixedOrderWithZeros) {
  Problem problem = two_by_two();
  problem.tables.push_back(PairTable::all_allowed(0, 1, 2, 2, "do not meet"));
  problem.tables[0].forbid(1, 0);
  problem.checks.push_back(
      {.scope = {1}, .why = "never asked", .holds = [](std::span<const int>) { return true; }});
  const Outcome outcome = search(problem, {.keep = 4});
  ASSERT_EQ(outcome.pruned.size(), 5U);
  EXPECT_EQ(outcome.pruned[0].why, "bound");
  EXPECT_EQ(outcome.pruned[1].why, "caps");
  EXPECT_EQ(outcome.pruned[2].why, "no option left");
  EXPECT_EQ(outcome.pruned[3].why, "do not meet");
  EXPECT_EQ(outcome.pruned[3].count, 1);
  EXPECT_EQ(outcome.pruned[4].why, "never asked");
  EXPECT_EQ(outcome.pruned[4].count, 0);
  EXPECT_EQ(outcome.best.size(), 3U);
}

// Head values 9, 8, ... 0 with exact bounds and one tail: the first head settles everything.
TEST(Search, HeadValueIsAskedOnlyWhereTheBoundLeavesTheQuestionOpen) {
  Problem problem;
  problem.caps = {1000};
  problem.head = 1;
  problem.slots.resize(2);
  for (int i = 0; i < 10; ++i)
    problem.slots[0].options.push_back({.costs = {1}, .value = 0, .rank = i});
  for (int i = 0; i < 3; ++i)
    problem.slots[1].options.push_back({.costs = {1}, .value = 0.0, .rank = i});
  problem.head_bound = [](std::span<const int> first) { return 10.0 * (9 - first[0]); };
  int asked = 0;
  problem.head_value = [&](std::span<const int> first) {
    ++asked;
    return 10.0 * (9 - first[0]);
  };
  const Outcome outcome = search(problem, {});
  EXPECT_EQ(outcome.best.at(0).score, 90);
  EXPECT_EQ(asked, 1);
  EXPECT_EQ(outcome.head_values, 1);
}

TEST(Search, ABoundThatIsNotAdmissibleIsAFaultNotAnAnswer) {
  Problem problem = two_by_two();
  problem.head = 1;
  problem.head_bound = [](std::span<const int>) { return 1.0; };
  problem.head_value = [](std::span<const int>) { return 3.0; };
  EXPECT_THROW(std::ignore = search(problem, {}), ContractViolation);
}

TEST(Search, AnInfiniteBoundIsAllowed) {
  Problem problem = two_by_two();
  problem.head = 1;
  problem.head_bound = [](std::span<const int>) { return std::numeric_limits<double>::infinity(); };
  problem.head_value = [](std::span<const int> first) { return first[0] == 0 ? 4.0 : 3.0; };
  const Outcome outcome = search(problem, {});
  EXPECT_EQ(outcome.status, Status::proven);
  EXPECT_EQ(outcome.best.at(0).score, 9);  // 4 + 5
  EXPECT_THAT(outcome.best.at(0).choice, ElementsAre(0, 1));
}

// The first option of slot 0 leaves nothing for slots 4 and 5 together, and slots 1 to 3 have no
// part in it: 10 x 10 x 10 choices of theirs need not be tried.
TEST(Search, JumpsBackToWhatAFailureRestsOn) {
  for (const int head : {0, 1, 3}) {
    Problem problem;
    problem.caps = {1000};
    for (const int options : {2, 10, 10, 10, 3, 3}) {
      Slot slot;
      for (int o = 0; o < options; ++o) slot.options.push_back({.costs = {o}, .rank = o});
      problem.slots.push_back(slot);
    }
    problem.money_weight = 1.0;
    problem.checks.push_back({.scope = {0, 4, 5},
                              .why = "apart",
                              .holds = [](std::span<const int> c) { return c[0] != 0; }});
    problem.head = head;
    problem.head_bound = [](std::span<const int>) { return 0.0; };
    problem.head_value = problem.head_bound;
    const Outcome outcome = search(problem, {});
    ASSERT_EQ(outcome.status, Outcome::Status::proven);
    EXPECT_EQ(outcome.best[0].choice, (std::vector<int>{1, 0, 0, 0, 0, 0}));
    EXPECT_LT(outcome.nodes, 100) << "head " << head;
  }
}

TEST(Search, MalformedProblemsAreFaults) {
  const auto fails = [](auto spoil) {
    Problem problem = two_by_two();
    spoil(problem);
    EXPECT_THROW(std::ignore = search(problem, {}), ContractViolation);
  };
  fails([](Problem& p) { p.slots[0].options[0].costs = {-1}; });
  fails([](Problem& p) { p.slots[0].options[0].costs = {1'000'000'000'000'001}; });
  fails([](Problem& p) { p.slots[0].options[0].costs = {1, 2}; });
  fails([](Problem& p) { p.slots[0].options[0].value = std::nan(""); });
  fails([](Problem& p) { p.slots[0].options[1].rank = 0; });
  fails([](Problem& p) { p.caps.clear(); });
  fails([](Problem& p) { p.money_weight = -0.5; });
  fails([](Problem& p) { p.rank_order = {0, 0}; });
  fails([](Problem& p) { p.head = 1; });
  fails([](Problem& p) {
    p.head = 2;
    p.head_bound = [](std::span<const int>) { return 0.0; };
    p.head_value = p.head_bound;
    p.next_bound = [](std::span<const int>, std::int64_t) { return std::nan(""); };
  });
  fails([](Problem& p) { p.tables.push_back(PairTable::all_allowed(0, 1, 2, 70, "wide")); });
  fails([](Problem& p) { p.checks.push_back({.scope = {}, .why = "empty", .holds = {}}); });
}

TEST(PairTable, ForbidsOnePairAndKeepsThePaddingClear) {
  PairTable table = PairTable::all_allowed(0, 1, 2, 65, "x");
  EXPECT_EQ(table.words_per_row, 2);
  EXPECT_EQ(table.bits, (std::vector<std::uint64_t>{~0ULL, 1, ~0ULL, 1}));
  table.forbid(1, 64);
  EXPECT_FALSE(table.allowed(1, 64));
  EXPECT_TRUE(table.allowed(0, 64));
  EXPECT_TRUE(table.allowed(1, 63));
  EXPECT_THROW(std::ignore = table.allowed(2, 0), ContractViolation);
}

}  // namespace
}  // namespace rigproof::plan
