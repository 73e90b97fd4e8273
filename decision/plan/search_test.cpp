// The search against published optima and hand-worked cases. Brute force: search_random_test.cpp.
#include "decision/plan/search.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <ostream>

#include "base/contract.hpp"

namespace rigproof::plan {
namespace {

using Status = Outcome::Status;
using testing::ElementsAre;

/// One slot an item, options "leave" (0) and "take" (1), a resource a constraint, profit as value.
Problem packing(const std::vector<double>& profits,
                const std::vector<std::vector<std::int64_t>>& weights,
                const std::vector<std::int64_t>& capacities) {
  Problem problem;
  problem.caps = capacities;
  for (std::size_t item = 0; item < profits.size(); ++item) {
    Option leave{.costs = std::vector<std::int64_t>(capacities.size(), 0), .rank = 0};
    Option take{.costs = {}, .value = profits[item], .rank = 1};
    for (const auto& row : weights) take.costs.push_back(row.at(item));
    problem.slots.push_back({.name = std::to_string(item + 1), .options = {leave, take}});
  }
  return problem;
}

std::vector<int> taken_items(const Solution& solution) {
  std::vector<int> items;
  for (std::size_t slot = 0; slot < solution.choice.size(); ++slot)
    if (solution.choice[slot] == 1) items.push_back(static_cast<int>(slot) + 1);
  return items;
}

struct Knapsack {
  const char* name;
  std::int64_t capacity;
  std::vector<std::int64_t> weights;
  std::vector<double> profits;
  std::int64_t optimum;
  std::vector<int> items;
};
void PrintTo(const Knapsack& k, std::ostream* out) { *out << k.name; }

class PublishedKnapsack : public testing::TestWithParam<Knapsack> {};

// Source: [knapsack-01], J. Burkardt's set (P01-P06 from Kreher and Stinson, and Martello and
// Toth). How known: P01, P02, P06 looked up, computed by enumeration; P03 weights and profits
// looked up, capacity from memory, computed; P04, P05, P07 from memory, computed. Tolerance: exact.
INSTANTIATE_TEST_SUITE_P(
    Burkardt, PublishedKnapsack,
    testing::Values(
        Knapsack{"P01",
                 165,
                 {23, 31, 29, 44, 53, 38, 63, 85, 89, 82},
                 {92, 57, 49, 68, 60, 43, 67, 84, 87, 72},
                 309,
                 {1, 2, 3, 4, 6}},
        Knapsack{"P02", 26, {12, 7, 11, 8, 9}, {24, 13, 23, 15, 16}, 51, {2, 3, 4}},
        Knapsack{"P03", 190, {56, 59, 80, 64, 75, 17}, {50, 50, 64, 46, 50, 5}, 150, {1, 2, 5}},
        Knapsack{"P04", 50, {31, 10, 20, 19, 4, 3, 6}, {70, 20, 39, 37, 7, 5, 10}, 107, {1, 4}},
        Knapsack{"P05",
                 104,
                 {25, 35, 45, 5, 25, 3, 2, 2},
                 {350, 400, 450, 20, 70, 8, 5, 5},
                 900,
                 {1, 3, 4, 5, 7, 8}},
        Knapsack{"P06",
                 170,
                 {41, 50, 49, 59, 55, 57, 60},
                 {442, 525, 511, 593, 546, 564, 617},
                 1735,
                 {2, 4, 7}},
        Knapsack{"P07",
                 750,
                 {70, 73, 77, 80, 82, 87, 90, 94, 98, 106, 110, 113, 115, 118, 120},
                 {135, 139, 149, 150, 156, 163, 173, 184, 192, 201, 210, 214, 221, 229, 240},
                 1458,
                 {1, 3, 5, 7, 8, 9, 14, 15}}));

TEST_P(PublishedKnapsack, OptimumAndItems) {
  const Knapsack& k = GetParam();
  const Outcome outcome = search(packing(k.profits, {k.weights}, {k.capacity}), {});
  ASSERT_EQ(outcome.status, Status::proven);
  ASSERT_EQ(outcome.best.size(), 1U);
  EXPECT_EQ(outcome.best[0].score, k.optimum);
  EXPECT_EQ(outcome.bound, k.optimum);
  EXPECT_EQ(taken_items(outcome.best[0]), k.items);
}

// Source: OR-Library mknap1, problems 1 to 3 [petersen-1967]. How known: looked up (optima stand in
// the file), computed again by enumeration. Tolerance: exact.
TEST(PublishedManyConstraints, PetersenOne) {
  const Outcome outcome = search(packing({100, 600, 1200, 2400, 500, 2000},
                                         {{8, 12, 13, 64, 22, 41},
                                          {8, 12, 13, 75, 22, 41},
                                          {3, 6, 4, 18, 6, 4},
                                          {5, 10, 8, 32, 6, 12},
                                          {5, 13, 8, 42, 6, 20},
                                          {5, 13, 8, 48, 6, 20},
                                          {0, 0, 0, 0, 8, 0},
                                          {3, 0, 4, 0, 8, 0},
                                          {3, 2, 4, 0, 8, 4},
                                          {3, 2, 4, 8, 8, 4}},
                                         {80, 96, 20, 36, 44, 48, 10, 18, 22, 24}),
                                 {});
  ASSERT_EQ(outcome.status, Status::proven);
  EXPECT_EQ(outcome.best.at(0).score, 3800);
  EXPECT_THAT(outcome.best.at(0).choice, ElementsAre(0, 1, 1, 0, 0, 1));
}

TEST(PublishedManyConstraints, PetersenTwo) {  // profits x 10: the published optimum is 8706.1
  const Outcome outcome =
      search(packing({6001, 3105, 18000, 38500, 186, 1987, 8820, 42000, 4025, 3270},
                     {{20, 5, 100, 200, 2, 4, 60, 150, 80, 40},
                      {20, 7, 130, 280, 2, 8, 110, 210, 100, 40},
                      {60, 3, 50, 100, 4, 2, 20, 40, 6, 12},
                      {60, 8, 70, 200, 4, 6, 40, 70, 16, 20},
                      {60, 13, 70, 250, 4, 10, 60, 90, 20, 24},
                      {60, 13, 70, 280, 4, 10, 70, 105, 22, 28},
                      {5, 2, 20, 100, 2, 5, 10, 60, 0, 0},
                      {45, 14, 80, 180, 6, 10, 40, 100, 20, 0},
                      {55, 14, 80, 200, 6, 10, 50, 140, 30, 40},
                      {65, 14, 80, 220, 6, 10, 50, 180, 30, 50}},
                     {450, 540, 200, 360, 440, 480, 200, 360, 440, 480}),
             {});
  ASSERT_EQ(outcome.status, Status::proven);
  EXPECT_EQ(outcome.best.at(0).score, 87061);
  EXPECT_THAT(outcome.best.at(0).choice, ElementsAre(0, 1, 0, 1, 1, 0, 0, 1, 0, 1));
}

TEST(PublishedManyConstraints, PetersenThree) {
  const Outcome outcome =
      search(packing({100, 220, 90, 400, 300, 400, 205, 120, 160, 580, 400, 140, 100, 1300, 650},
                     {{8, 24, 13, 80, 70, 80, 45, 15, 28, 90, 130, 32, 20, 120, 40},
                      {8, 44, 13, 100, 100, 90, 75, 25, 28, 120, 130, 32, 40, 160, 40},
                      {3, 6, 4, 20, 20, 30, 8, 3, 12, 14, 40, 6, 3, 20, 5},
                      {5, 9, 6, 40, 30, 40, 16, 5, 18, 24, 60, 16, 11, 30, 25},
                      {5, 11, 7, 50, 40, 40, 19, 7, 18, 29, 70, 21, 17, 30, 25},
                      {5, 11, 7, 55, 40, 40, 21, 9, 18, 29, 70, 21, 17, 35, 25},
                      {0, 0, 1, 10, 4, 10, 0, 6, 0, 6, 32, 3, 0, 70, 10},
                      {3, 4, 5, 20, 14, 20, 6, 12, 10, 18, 42, 9, 12, 100, 20},
                      {3, 6, 9, 30, 29, 20, 12, 12, 10, 30, 42, 18, 18, 110, 20},
                      {3, 8, 9, 35, 29, 20, 16, 15, 10, 30, 42, 20, 18, 120, 20}},
                     {550, 700, 130, 240, 280, 310, 110, 205, 260, 275}),
             {});
  ASSERT_EQ(outcome.status, Status::proven);
  EXPECT_EQ(outcome.best.at(0).score, 4015);
  EXPECT_THAT(outcome.best.at(0).choice, ElementsAre(1, 1, 0, 1, 0, 1, 1, 0, 1, 1, 0, 0, 0, 1, 1));
}

// Source: Steiner triples [steiner-1974]; stein9 is the affine plane of
// order 3. How known: optimum 5 computed by enumeration, published value from memory.
TEST(PublishedCovering, FivePointsMeetEveryTripleOfSteinNine) {
  const std::vector<std::vector<int>> triples{{1, 2, 3}, {1, 4, 7}, {1, 5, 9}, {1, 6, 8},
                                              {2, 4, 9}, {2, 5, 8}, {2, 6, 7}, {3, 4, 8},
                                              {3, 5, 7}, {3, 6, 9}, {4, 5, 6}, {7, 8, 9}};
  Problem problem = packing(std::vector<double>(9, -1.0), {std::vector<std::int64_t>(9, 0)}, {0});
  for (const auto& triple : triples)
    problem.checks.push_back({.scope = {triple[0] - 1, triple[1] - 1, triple[2] - 1},
                              .why = "triple is met",
                              .holds = [triple](std::span<const int> choice) {
                                return std::ranges::any_of(triple, [&](int point) {
                                  return choice[static_cast<std::size_t>(point) - 1] == 1;
                                });
                              }});
  const Outcome outcome = search(problem, {});
  ASSERT_EQ(outcome.status, Status::proven);
  EXPECT_EQ(outcome.best.at(0).score, -5);
  const std::vector<int> points = taken_items(outcome.best[0]);
  EXPECT_EQ(points.size(), 5U);
  for (const auto& triple : triples)
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
