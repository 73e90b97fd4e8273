// The staircase of best scores against brute force: all builds of random small catalogs, sorted by
// price, and the running best of their scores.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "app/planning.hpp"
#include "tests/plan/alike_workshop.hpp"
#include "tests/plan/brute_force.hpp"
#include "tests/plan/random_workshop.hpp"
#include "tests/support/sanitized.hpp"

namespace rigproof::test_plan {
namespace {

using test_support::enough;
using test_support::fewer;

// What the words "best score of at most c" say, for every c up to `to`: where it rises.
std::vector<Found> rises_up_to(const RandomWorkshop& random, std::int64_t to) {
  std::vector<Found> all = all_builds(random, random.brief, {.first_cap = to});
  std::ranges::stable_sort(all, {}, [](const Found& found) { return found.prices.front(); });
  std::vector<Found> rises;
  for (Found& found : all)  // of one price the best stands first
    if (rises.empty() || found.score > rises.back().score) rises.push_back(std::move(found));
  return rises;
}

// Of those under `from` only the dearest matters, and only if it is what `from` buys.
std::vector<Found> from_on(const std::vector<Found>& rises, std::int64_t from) {
  const auto within =
      std::ranges::find_if(rises, [&](const Found& found) { return found.prices.front() >= from; });
  const bool exactly = within != rises.end() && within->prices.front() == from;
  auto first = within;
  if (!exactly && first != rises.begin()) --first;
  return {first, rises.end()};
}

// Catalogs that forbid much and have few stairs, and catalogs that allow all and have many; half of
// them give money saved no worth, so that more stairs stand.
std::unique_ptr<RandomWorkshop> workshop_of(std::uint64_t seed) {
  auto random = seed % 2 == 0 ? alike_workshop(seed) : random_workshop(seed);
  if (seed % 4 < 2) random->brief.saved_frac = 0.0;
  return random;
}

TEST(Staircase, EqualsTheRunningBestOfAllBuilds) {
  int climbed = 0;
  int none = 0;
  int from_below = 0;
  for (std::uint64_t seed = 31'001; seed <= 31'000 + fewer(400U); ++seed) {
    const auto random = workshop_of(seed);
    const app::Workshop workshop{.folder = "random", .catalog = random->catalog, .skipped = {}};
    const auto planning = app::Planning::start(workshop, random->brief);
    ASSERT_TRUE(planning);
    const std::int64_t budget = random->brief.markets.front().budget.minor;
    std::int64_t from =
        std::max<std::int64_t>(0, budget - 3000 * static_cast<std::int64_t>(seed % 29));
    const std::int64_t to = budget + 1000 * static_cast<std::int64_t>(seed % 23);
    const std::vector<Found> rises = rises_up_to(*random, to);
    // At a stair's own price, and a unit below it, one stair more or less is asked for.
    if (const auto any = from_on(rises, from); seed % 3 > 0 && !any.empty())
      from = any[seed % any.size()].prices.front() - static_cast<std::int64_t>(seed % 3 - 1);
    const std::vector<Found> truth = from_on(rises, from);
    const plan::Staircase stairs = (*planning)->staircase({}, {.from = from, .to = to});
    ASSERT_TRUE(stairs.complete);
    ASSERT_EQ(stairs.stairs.size(), truth.size()) << "seed " << seed;
    for (std::size_t i = 0; i < truth.size(); ++i) {
      EXPECT_EQ(stairs.stairs[i].choice.prices, truth[i].prices)
          << "seed " << seed << " stair " << i;
      EXPECT_EQ(stairs.stairs[i].choice.score, truth[i].score) << "seed " << seed << " stair " << i;
      for (int k = 0; k < kind_count; ++k) {
        const auto kind = static_cast<Kind>(k);
        const auto ids = [&](const Build& build) {
          std::multiset<std::string> out;
          for (const Chosen& part : build.of(kind))
            for (int n = 0; n < part.count; ++n) out.emplace(random->catalog.id({kind, part.row}));
          return out;
        };
        EXPECT_EQ(ids(stairs.stairs[i].choice.build), ids(truth[i].build)) << "seed " << seed;
      }
      if (i == 0) continue;
      EXPECT_GT(stairs.stairs[i].choice.prices.front(), stairs.stairs[i - 1].choice.prices.front());
      EXPECT_GT(stairs.stairs[i].choice.score, stairs.stairs[i - 1].choice.score);
    }
    climbed += truth.size() > 2 ? 1 : 0;
    none += truth.empty() ? 1 : 0;
    from_below += !truth.empty() && truth.front().prices.front() < from ? 1 : 0;
  }
  EXPECT_GE(climbed, enough(40));
  EXPECT_GE(none, enough(40));
  EXPECT_GE(from_below, enough(10));
}

// Stopped: what is there are the upper stairs of the whole.
TEST(Staircase, StoppedHasTheUpperStairs) {
  int cut = 0;
  for (std::uint64_t seed = 31'001; seed <= 31'200; ++seed) {
    const auto random = workshop_of(seed);
    const app::Workshop workshop{.folder = "random", .catalog = random->catalog, .skipped = {}};
    const auto planning = app::Planning::start(workshop, random->brief);
    ASSERT_TRUE(planning);
    const std::int64_t to = random->brief.markets.front().budget.minor + 10'000;
    const auto whole = (*planning)->staircase({}, {.from = 0, .to = to});
    if (whole.stairs.size() < 3) continue;
    int asked = 0;
    const auto some =
        (*planning)->staircase({.stop = [&] { return ++asked > 2; }}, {.from = 0, .to = to});
    if (some.complete) continue;
    ASSERT_LT(some.stairs.size(), whole.stairs.size());
    for (std::size_t i = 1; i <= some.stairs.size(); ++i)
      EXPECT_EQ(some.stairs[some.stairs.size() - i].choice.score,
                whole.stairs[whole.stairs.size() - i].choice.score);
    ++cut;
  }
  EXPECT_GE(cut, 5);
}

// Begun in the middle it is the same staircase; stopped there, every stair it has is one of the
// whole, and what no stair covers is said to be unsettled or has no build.
TEST(Staircase, BegunInTheMiddleItIsTheSame) {
  int in_two = 0;
  int cut = 0;
  for (std::uint64_t seed = 31'001; seed <= 31'000 + fewer(240U); ++seed) {
    const auto random = workshop_of(seed);
    const app::Workshop workshop{.folder = "random", .catalog = random->catalog, .skipped = {}};
    const auto planning = app::Planning::start(workshop, random->brief);
    ASSERT_TRUE(planning);
    const std::int64_t budget = random->brief.markets.front().budget.minor;
    const std::int64_t to = budget + 10'000;
    const auto whole = (*planning)->staircase({}, {.from = 0, .to = to});
    const std::int64_t first =
        seed % 3 == 0 || whole.stairs.empty()
            ? budget
            : whole.stairs[seed % whole.stairs.size()].choice.prices.front() -
                  static_cast<std::int64_t>(seed % 2);
    std::vector<std::int64_t> ends = {first};
    if (seed % 4 == 0) ends = {first, first + 1, first + 2'500, to, to + 5};
    const auto same = (*planning)->staircase({}, {.from = 0, .to = to, .ends = ends});
    ASSERT_TRUE(same.complete && same.unsettled.empty());
    ASSERT_EQ(same.stairs.size(), whole.stairs.size()) << seed;
    for (std::size_t i = 0; i < whole.stairs.size(); ++i) {
      EXPECT_EQ(same.stairs[i].choice.prices, whole.stairs[i].choice.prices) << seed;
      EXPECT_EQ(same.stairs[i].choice.score, whole.stairs[i].choice.score) << seed;
      EXPECT_EQ(same.stairs[i].covers_to, whole.stairs[i].covers_to) << seed;
    }
    in_two += whole.stairs.size() > 2 ? 1 : 0;

    int asked = 0;
    const int most = static_cast<int>(seed % 5);
    const auto some = (*planning)->staircase({.stop = [&] { return ++asked > most; }},
                                             {.from = 0, .to = to, .ends = ends});
    EXPECT_EQ(some.complete, some.unsettled.empty());
    const auto settled_at = [](const plan::Staircase& stairs,
                               std::int64_t cap) -> std::optional<std::int64_t> {
      for (const auto& stair : stairs.stairs)
        if (stair.choice.prices.front() <= cap && cap <= stair.covers_to) return stair.choice.score;
      return {};
    };
    for (std::int64_t cap = 0; cap <= to; cap += 777) {
      const bool unsettled = std::ranges::any_of(
          some.unsettled, [&](const auto& caps) { return caps.from <= cap && cap <= caps.to; });
      if (unsettled)
        EXPECT_FALSE(settled_at(some, cap)) << seed << " at " << cap;
      else
        EXPECT_EQ(settled_at(some, cap), settled_at(whole, cap)) << seed << " at " << cap;
    }
    cut += some.complete ? 0 : 1;
  }
  EXPECT_GE(in_two, enough(20));
  EXPECT_GE(cut, enough(20));
}

}  // namespace
}  // namespace rigproof::test_plan
