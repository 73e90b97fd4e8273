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
    const plan::Staircase stairs = (*planning)->staircase({}, from, to);
    ASSERT_TRUE(stairs.complete);
    ASSERT_EQ(stairs.stairs.size(), truth.size()) << "seed " << seed;
    for (std::size_t i = 0; i < truth.size(); ++i) {
      EXPECT_EQ(stairs.stairs[i].prices, truth[i].prices) << "seed " << seed << " stair " << i;
      EXPECT_EQ(stairs.stairs[i].score, truth[i].score) << "seed " << seed << " stair " << i;
      for (int k = 0; k < kind_count; ++k) {
        const auto kind = static_cast<Kind>(k);
        const auto ids = [&](const Build& build) {
          std::multiset<std::string> out;
          for (const Chosen& part : build.of(kind))
            for (int n = 0; n < part.count; ++n) out.emplace(random->catalog.id({kind, part.row}));
          return out;
        };
        EXPECT_EQ(ids(stairs.stairs[i].build), ids(truth[i].build)) << "seed " << seed;
      }
      if (i == 0) continue;
      EXPECT_GT(stairs.stairs[i].prices.front(), stairs.stairs[i - 1].prices.front());
      EXPECT_GT(stairs.stairs[i].score, stairs.stairs[i - 1].score);
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
    const auto whole = (*planning)->staircase({}, 0, to);
    if (whole.stairs.size() < 3) continue;
    int asked = 0;
    const auto some = (*planning)->staircase({.stop = [&] { return ++asked > 2; }}, 0, to);
    if (some.complete) continue;
    ASSERT_LT(some.stairs.size(), whole.stairs.size());
    for (std::size_t i = 1; i <= some.stairs.size(); ++i)
      EXPECT_EQ(some.stairs[some.stairs.size() - i].score,
                whole.stairs[whole.stairs.size() - i].score);
    ++cut;
  }
  EXPECT_GE(cut, 5);
}

}  // namespace
}  // namespace rigproof::test_plan
