// Whole plans against brute force on random small catalogs: same builds, same order, same prices,
// same scores; impossible exactly when no build exists; conflicts irreducible by the same oracle.
#include <gtest/gtest.h>

#include <set>

#include "app/planning.hpp"
#include "tests/plan/brute_force.hpp"
#include "tests/plan/random_workshop.hpp"
#include "tests/support/sanitized.hpp"

namespace rigproof::test_plan {
namespace {

using test_support::enough;
using test_support::fewer;

app::Workshop workshop_of(const RandomWorkshop& random) {
  return {.folder = "random", .catalog = random.catalog, .skipped = {}};
}

struct Seen {
  int possible = 0;
  int impossible = 0;
  int rivals = 0;
  int with_titles = 0;
  std::int64_t outdone = 0;  ///< parts left out because parts like them cost less
};

void compare(std::uint64_t seed, Seen& seen) {
  const auto random = random_workshop(seed);
  const app::Workshop workshop = workshop_of(*random);
  const auto planning = app::Planning::start(workshop, random->brief);
  ASSERT_TRUE(planning) << planning.error().message;
  const std::size_t keep = 1 + seed % 3;
  const auto outcome = (*planning)->plan({.keep = static_cast<int>(keep),
                                          .first_only = false,
                                          .stop = {},
                                          .progress = {},
                                          .most_asked_beforehand = seed % 2 == 0 ? 6'000U : 0U});
  const auto truth = every_build(*random, random->brief, keep);
  ASSERT_EQ(outcome.best.size(), truth.size()) << "seed " << seed;
  EXPECT_EQ(outcome.status == plan::Outcome::Status::impossible, truth.empty()) << "seed " << seed;
  for (std::size_t i = 0; i < truth.size(); ++i) {
    EXPECT_EQ(words(random->catalog, outcome.best[i].build), words(random->catalog, truth[i].build))
        << "seed " << seed << " build " << i;
    EXPECT_EQ(outcome.best[i].score, truth[i].score) << "seed " << seed << " build " << i;
    EXPECT_EQ(outcome.best[i].prices, truth[i].prices) << "seed " << seed << " build " << i;
  }
  if (!truth.empty()) {
    EXPECT_EQ(outcome.status, plan::Outcome::Status::proven);
    EXPECT_EQ(outcome.bound, truth.front().score);
    const auto scored = (*planning)->scored(truth.front().build);
    ASSERT_TRUE(scored);
    EXPECT_EQ(scored->score, truth.front().score) << "seed " << seed;
  }
  for (const plan::Pruned& pruned : outcome.pruned)
    if (pruned.why.starts_with("outdone")) seen.outdone += pruned.count;
  ++(truth.empty() ? seen.impossible : seen.possible);
  if (truth.size() > 1) ++seen.rivals;
  if (!truth.empty() && !random->brief.titles.empty()) ++seen.with_titles;
}

class WholePlans : public testing::TestWithParam<int> {};

TEST_P(WholePlans, EqualBruteForceOnRandomCatalogs) {
  constexpr std::uint64_t seeds = 320;
  const std::uint64_t first = static_cast<std::uint64_t>(GetParam()) * seeds;
  Seen seen;
  for (std::uint64_t seed = first + 1; seed <= first + seeds; ++seed) compare(seed, seen);
  // Six such runs together compare more than 300 catalogs that have a build, and as many that have
  // none; each must exercise rivals and titles too, or the test says little.
  EXPECT_GE(seen.possible, 50);
  EXPECT_GE(seen.impossible, 50);
  EXPECT_GE(seen.rivals, 12);
  EXPECT_GE(seen.with_titles, 20);
  EXPECT_GE(seen.outdone, 20);
}
INSTANTIATE_TEST_SUITE_P(Seeds, WholePlans, testing::Range(0, test_support::sanitized ? 1 : 6));

// Limits on noise and temperature are judged by physics at the leaves, and the plan stays exact.
TEST(AirLimits, EqualBruteForceOnRandomCatalogs) {
  int possible = 0;
  int mattered = 0;
  const std::uint64_t last = 5000 + (test_support::sanitized ? 60U : 240U);
  for (std::uint64_t seed = 5001; seed <= last; ++seed) {
    const auto random = random_workshop(seed);
    const app::Workshop workshop = workshop_of(*random);
    const auto best_with = [&](const Brief& brief) {
      const auto planning = app::Planning::start(workshop, brief);
      return planning
                 ? (*planning)->plan({.keep = 2, .first_only = false, .stop = {}, .progress = {}})
                 : plan::PlanOutcome{};
    };
    const auto without = best_with(random->brief);
    if (without.best.empty()) continue;
    Brief& brief = random->brief;
    brief.limits["noise_dba"] = {
        .at_most = 28.0 + static_cast<double>(seed % 4), .load = "title", .distance_m = 1.0};
    if (seed % 2 == 0)
      brief.limits["cpu_c"] = {.at_most = 60.0, .load = "everything", .distance_m = {}};
    if (seed % 3 == 0) brief.limits["gpu_c"] = {.at_most = 74.0, .load = "title", .distance_m = {}};
    const auto outcome = best_with(brief);
    const auto truth = every_build(*random, brief, 2);
    ASSERT_EQ(outcome.best.size(), truth.size()) << "seed " << seed;
    for (std::size_t i = 0; i < truth.size(); ++i)
      EXPECT_EQ(words(random->catalog, outcome.best[i].build),
                words(random->catalog, truth[i].build))
          << "seed " << seed << " build " << i;
    possible += truth.empty() ? 0 : 1;
    mattered += truth.empty() || words(random->catalog, without.best[0].build) !=
                                     words(random->catalog, truth[0].build)
                    ? 1
                    : 0;
  }
  EXPECT_GE(possible, test_support::sanitized ? 2 : 12);
  EXPECT_GE(mattered, test_support::sanitized ? 1 : 12);
}

// A part done without: the plan equals the oracle's best among builds that lack it.
TEST(PlansWithout, BannedPartsAreLeftOut) {
  int compared = 0;
  for (std::uint64_t seed = 2001; seed <= 2160; ++seed) {
    const auto random = random_workshop(seed);
    const app::Workshop workshop = workshop_of(*random);
    const auto planning = app::Planning::start(workshop, random->brief);
    ASSERT_TRUE(planning);
    const auto best =
        (*planning)->plan({.keep = 1, .first_only = false, .stop = {}, .progress = {}});
    if (best.best.empty()) continue;
    const PartRef banned{Kind::cooler, best.best.front().build.one(Kind::cooler)};
    const auto without = (*planning)->plan(
        {.keep = 1, .first_only = false, .without = {banned}, .stop = {}, .progress = {}});
    const auto truth = every_build(*random, random->brief, 1, {.without = {banned}});
    ASSERT_EQ(without.best.size(), truth.size()) << "seed " << seed;
    if (truth.empty()) continue;
    EXPECT_EQ(words(random->catalog, without.best.front().build),
              words(random->catalog, truth.front().build))
        << "seed " << seed;
    EXPECT_EQ(without.best.front().score, truth.front().score) << "seed " << seed;
    ++compared;
  }
  EXPECT_GE(compared, 5);
}

void expect_irreducible(const RandomWorkshop& random, const plan::ConflictSet& conflict,
                        std::uint64_t seed) {
  ASSERT_TRUE(conflict.known);
  std::set<std::string> others;
  for (const plan::Requirement& requirement : plan::requirements(random.brief))
    others.insert(requirement.path);
  for (const plan::Requirement& requirement : conflict.requirements) others.erase(requirement.path);
  EXPECT_TRUE(every_build(random, plan::without(random.brief, others), 1).empty())
      << "seed " << seed;
  for (const plan::Requirement& requirement : conflict.requirements) {
    auto dropped = others;
    dropped.insert(requirement.path);
    EXPECT_FALSE(every_build(random, plan::without(random.brief, dropped), 1).empty())
        << "seed " << seed << ": " << requirement.path;
  }
}

// Irreducible, by the oracle: the set alone admits no build; without any one of its members it
// does.
TEST(Conflicts, AreIrreducibleByBruteForce) {
  int judged = 0;
  int several = 0;
  for (std::uint64_t seed = 1; seed <= 600 && (judged < 60 || several < 3); ++seed) {
    const auto random = random_workshop(seed);
    const app::Workshop workshop = workshop_of(*random);
    const auto planning = app::Planning::start(workshop, random->brief);
    ASSERT_TRUE(planning);
    if ((*planning)->plan({.keep = 1, .first_only = true, .stop = {}, .progress = {}}).status !=
        plan::Outcome::Status::impossible)
      continue;
    const auto conflicts = (*planning)->conflicts({});
    const plan::ConflictSet& conflict = conflicts.front();
    expect_irreducible(*random, conflict, seed);
    ++judged;
    if (conflicts.size() < 2) continue;
    // The next one is irreducible too, and shares nothing with the first.
    expect_irreducible(*random, conflicts[1], seed);
    for (const plan::Requirement& one : conflict.requirements)
      for (const plan::Requirement& other : conflicts[1].requirements)
        EXPECT_NE(one.path, other.path) << "seed " << seed;
    ++several;
  }
  EXPECT_GE(judged, 40);
  EXPECT_GE(several, 3);
}

// Dropping any one demand never takes a build away: asked of the oracle, with relaxations as the
// planner makes them. (Not so for a kept part: let go, it has to be paid for.)
TEST(Requirements, DroppingOneNeverForbidsMore) {
  int eased = 0;
  for (std::uint64_t seed = 3001; seed <= 3000 + fewer(60U); ++seed) {
    const auto random = random_workshop(seed);
    Brief brief = random->brief;
    brief.accept_by_rule["fit.card-length"] = {WorstVerdict::holds, Unknowns::accept};
    brief.accept_by_rule["power.sustained"] = {WorstVerdict::thin, Unknowns::accept};
    if (every_build(*random, brief, 1).empty()) continue;
    for (const plan::Requirement& requirement : plan::requirements(brief)) {
      if (requirement.path.starts_with("keep.")) continue;
      EXPECT_FALSE(every_build(*random, plan::without(brief, {requirement.path}), 1).empty())
          << "seed " << seed << ": " << requirement.path;
      ++eased;
    }
  }
  EXPECT_GE(eased, enough(20));
}

}  // namespace
}  // namespace rigproof::test_plan
