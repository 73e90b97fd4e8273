// Answers about a plan against brute force on random small catalogs: what stands against a wish is
// irreducible, what a wish costs is exact, and no repair takes fewer swaps or scores more.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "app/insist.hpp"
#include "app/repair.hpp"
#include "tests/plan/brute_force.hpp"
#include "tests/plan/random_numbers.hpp"
#include "tests/plan/random_workshop.hpp"
#include "tests/support/sanitized.hpp"

namespace rigproof::test_plan {
namespace {

using test_support::enough;
using test_support::fewer;

struct Case {
  explicit Case(std::uint64_t the_seed)
      : seed(the_seed), random(random_workshop(the_seed)), numbers(the_seed * 104'729) {
    workshop = {.folder = "random", .catalog = random->catalog, .skipped = {}};
    start();
  }
  void start() {
    if (auto started = app::Planning::start(workshop, random->brief))
      planning = std::move(*started);
  }
  std::uint64_t seed;
  std::unique_ptr<RandomWorkshop> random;
  RandomNumbers numbers;
  app::Workshop workshop;
  std::unique_ptr<app::Planning> planning;

  PartRef any_part() {
    for (;;) {
      const auto kind = static_cast<Kind>(numbers.number(0, kind_count - 1));
      const int rows = static_cast<int>(random->catalog.rows(table_of(kind)));
      if (rows > 0) return {kind, static_cast<Row>(numbers.number(0, rows - 1))};
    }
  }
  // The build with other parts of some kinds, whatever they are.
  Build disturbed(const Build& good) {
    Build out;
    for (int k = 0; k < kind_count; ++k) {
      const auto kind = static_cast<Kind>(k);
      const int rows = static_cast<int>(random->catalog.rows(table_of(kind)));
      if (numbers.chance(30) && rows > 0)
        out.add(kind, static_cast<Row>(numbers.number(0, rows - 1)));
      else
        for (const Chosen& part : good.of(kind)) out.add(kind, part.row, part.count);
    }
    return out;
  }
};

using Paths = std::set<std::string>;

Paths all_paths(const Case& it, const app::Wish& wish) {
  Paths out;
  for (const auto& requirement : plan::requirements(it.random->brief)) out.insert(requirement.path);
  for (const auto& requirement : app::requirements(it.random->catalog, wish))
    out.insert(requirement.path);
  return out;
}

// By the oracle, which reads the paths of a wish by itself.
bool possible_without(const Case& it, const app::Wish& wish, const Paths& dropped) {
  const auto kept = [&](const char* what, const std::vector<PartRef>& parts) {
    std::vector<PartRef> out;
    for (const PartRef& part : parts)
      if (!dropped.contains(what + std::string(it.random->catalog.id(part)))) out.push_back(part);
    return out;
  };
  return !every_build(*it.random, plan::without(it.random->brief, dropped), 1,
                      {.without = kept("without.", wish.without),
                       .insisted = kept("insist.", wish.insisted)})
              .empty();
}

// The set alone forbids every build, and without any one member it does not. The other demands are
// dropped, but for kept parts where these are needed: let go they would have to be bought.
bool is_irreducible(const Case& it, const app::Wish& wish, const plan::ConflictSet& set,
                    bool keep_kept) {
  Paths others = all_paths(it, wish);
  for (const auto& requirement : set.requirements) others.erase(requirement.path);
  if (keep_kept)
    std::erase_if(others, [](const std::string& path) { return path.starts_with("keep."); });
  if (possible_without(it, wish, others)) return false;
  return std::ranges::all_of(set.requirements, [&](const plan::Requirement& requirement) {
    Paths dropped = others;
    dropped.insert(requirement.path);
    return possible_without(it, wish, dropped);
  });
}

void expect_irreducible(const Case& it, const app::Wish& wish, const plan::ConflictSet& set) {
  ASSERT_TRUE(set.known);
  EXPECT_TRUE(is_irreducible(it, wish, set, false) || is_irreducible(it, wish, set, true))
      << "seed " << it.seed;
  // The brief alone can be satisfied: the wish has a part in it.
  EXPECT_TRUE(std::ranges::any_of(set.requirements,
                                  [](const plan::Requirement& requirement) {
                                    return requirement.path.starts_with("insist.") ||
                                           requirement.path.starts_with("without.");
                                  }))
      << "seed " << it.seed;
}

TEST(Insist, WhatStandsAgainstAWishIsIrreducible) {
  int judged = 0;
  int several = 0;
  int with_brief = 0;
  for (std::uint64_t seed = 41'001;
       seed <= 42'200 && (judged < fewer(60) || several < 3 || with_brief < fewer(15)); ++seed) {
    Case it(seed);
    const auto best = it.planning->plan({});
    if (best.best.empty()) continue;
    // Budgets that leave little room, so that they stand against many a wish.
    for (std::size_t m = 0; m < it.random->brief.markets.size(); ++m)
      if (it.numbers.chance(80))
        it.random->brief.markets[m].budget.minor =
            best.best.front().prices[m] + 1000 * it.numbers.number(0, 2);
    it.start();
    app::Wish wish;
    for (int i = it.numbers.number(1, 2); i > 0; --i) {
      const PartRef part = it.any_part();
      if (std::ranges::find(wish.insisted, part) == wish.insisted.end())
        wish.insisted.push_back(part);
    }
    const PartRef without = it.any_part();
    if (it.numbers.chance(40) && std::ranges::find(wish.insisted, without) == wish.insisted.end())
      wish.without.push_back(without);
    if (!it.planning->plan({.first_only = true, .without = wish.without, .insisted = wish.insisted})
             .best.empty())
      continue;
    const auto sets = it.planning->conflicts({}, wish);
    ASSERT_FALSE(sets.empty());
    expect_irreducible(it, wish, sets.front());
    ++judged;
    several += sets.size() > 1 ? 1 : 0;
    Paths of_brief;  // no demand of the brief stands in two sets
    bool last_of_wish = false;
    for (const plan::ConflictSet& set : sets) {
      last_of_wish = true;
      for (const auto& requirement : set.requirements) {
        const bool of_wish =
            requirement.path.starts_with("insist.") || requirement.path.starts_with("without.");
        if (of_wish) continue;
        last_of_wish = false;
        EXPECT_TRUE(of_brief.insert(requirement.path).second) << "seed " << seed;
      }
    }
    with_brief += of_brief.empty() ? 0 : 1;
    // With all of them dropped the wish is granted, or it cannot be whatever the brief.
    EXPECT_NE(possible_without(it, wish, of_brief), last_of_wish) << "seed " << seed;
  }
  EXPECT_GE(judged, enough(40));
  EXPECT_GE(several, enough(3));
  EXPECT_GE(with_brief, enough(15));
}

TEST(Insist, WhatAWishCostsIsExact) {
  int cost = 0;
  for (std::uint64_t seed = 43'001; seed <= 43'000 + fewer(400U); ++seed) {
    Case it(seed);
    const auto free = every_build(*it.random, it.random->brief, 1);
    if (free.empty()) continue;
    const app::Wish wish{.insisted = {it.any_part()}, .without = {}};
    const auto truth = every_build(*it.random, it.random->brief, 1, {.insisted = wish.insisted});
    const app::Insisted insisted = app::insist_on(it.workshop, *it.planning, wish, {});
    ASSERT_EQ(insisted.choice.has_value(), !truth.empty()) << "seed " << seed;
    if (truth.empty()) continue;
    ASSERT_TRUE(insisted.view.differences && insisted.view.differences->score_change);
    EXPECT_EQ(insisted.view.differences->score_change->minor,
              truth.front().score - free.front().score);
    EXPECT_EQ(insisted.view.differences->price_changes.front().minor,
              truth.front().prices.front() - free.front().prices.front());
    EXPECT_LE(insisted.view.differences->score_change->minor, 0);
    cost += insisted.view.differences->score_change->minor < 0 ? 1 : 0;
  }
  EXPECT_GE(cost, enough(10));
}

TEST(Repair, TakesTheFewestSwapsAndThenTheMostScore) {
  int mended = 0;
  int untouched = 0;
  int one_more = 0;
  for (std::uint64_t seed = 44'001; seed <= 44'000 + fewer(400U); ++seed) {
    Case it(seed);
    const auto best = every_build(*it.random, it.random->brief, 1);
    if (best.empty()) continue;
    const Build build = it.disturbed(best.front().build);
    const BuildFile file{.name = "random", .build = build, .setup = {}};
    const app::Repaired repaired =
        app::repair(it.workshop, *it.planning,
                    {.build = file, .file = "random.toml", .most_swaps = {}, .job = {}});
    int fewest = 0;
    std::vector<Found> truth;
    while ((truth = every_build(*it.random, it.random->brief, 1,
                                {.near = &build, .most_swaps = fewest}))
               .empty())
      ++fewest;
    ASSERT_TRUE(repaired.choice && repaired.view.swaps) << "seed " << seed;
    EXPECT_EQ(*repaired.view.swaps, fewest) << "seed " << seed;
    EXPECT_EQ(repaired.choice->score, truth.front().score) << "seed " << seed;
    EXPECT_EQ(repaired.choice->prices, truth.front().prices) << "seed " << seed;
    ASSERT_TRUE(repaired.view.differences);
    EXPECT_EQ(repaired.view.differences->swaps, fewest) << "seed " << seed;
    // What no plan would have is wrong, and only that.
    EXPECT_EQ(repaired.view.wrong.empty(), fewest == 0) << "seed " << seed;
    const auto more =
        every_build(*it.random, it.random->brief, 1, {.near = &build, .most_swaps = fewest + 1});
    const std::int64_t gain = more.front().score - truth.front().score;
    ASSERT_EQ(repaired.view.one_more.has_value(), gain > 0) << "seed " << seed;
    if (gain > 0) {
      EXPECT_EQ(repaired.view.one_more->score_change->minor, gain);
    }
    ++(fewest == 0 ? untouched : mended);
    one_more += gain > 0 ? 1 : 0;
    if (fewest == 0) continue;
    const app::Repaired too_few =
        app::repair(it.workshop, *it.planning,
                    {.build = file, .file = "random.toml", .most_swaps = fewest - 1, .job = {}});
    EXPECT_EQ(too_few.view.status, "out of reach");
    EXPECT_FALSE(too_few.choice);
  }
  EXPECT_GE(mended, enough(40));
  EXPECT_GE(untouched, enough(10));
  EXPECT_GE(one_more, enough(20));
}

}  // namespace
}  // namespace rigproof::test_plan
