// Limits on temperature, noise, power and cost at random heights, many of them tight or impossible:
// the plan, which asks early of what parts alone foretell, against brute force, which asks of whole
// builds alone.
#include <gtest/gtest.h>

#include <random>

#include "app/planning.hpp"
#include "app/workshop.hpp"
#include "claims/rule.hpp"
#include "tests/plan/brute_force.hpp"
#include "tests/plan/random_workshop.hpp"
#include "tests/support/sanitized.hpp"

namespace rigproof::test_plan {
namespace {

// Of each limit the range in which it matters for these workshops.
struct Tried {
  const char* key;
  double low, high;
};
constexpr Tried all_tried[] = {{"noise_dba", 18, 34},     {"cpu_c", 38, 85},
                               {"gpu_c", 50, 85},         {"coolant_c", 28, 60},
                               {"board_stage_c", 35, 85}, {"drive_c", 50, 70},
                               {"exhaust_c", 25, 38},     {"wall_power_w", 120, 450}};

class Limiter {
 public:
  explicit Limiter(std::uint64_t seed) : random_(seed) {}

  void limit(Brief& brief) {
    brief.loads = {{.name = "evening", .cpu_frac = 0.4, .gpu_frac = 0.8, .hours_per_day = 1.0}};
    brief.use.hours_per_day = {1.0, 2.0, 0.5, 0.0};
    for (const Tried& tried : all_tried) {
      if (number(0, 1) > 0.35) continue;
      brief.limits[tried.key] = {
          .at_most = number(tried.low, tried.high), .load = load(), .distance_m = 1.0};
    }
    if (number(0, 1) < 0.3) {
      brief.running_cost_per_year = number(15, 90);
      // Not the first: that is the one that is said to have been the first in the file.
      brief.running_cost_market = brief.markets.back().market;
      brief.markets.back().kwh_price = 0.4;
    }
    for (MarketGoal& market : brief.markets) market.mains_v = 230.0;
  }

 private:
  double number(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_);
  }
  std::string load() {
    constexpr const char* loads[] = {"idle", "title", "all-core", "everything", "evening"};
    return loads[static_cast<std::size_t>(number(0, 4.999))];
  }
  std::mt19937_64 random_;
};

struct Seen {
  int possible = 0;
  int impossible = 0;
  int mattered = 0;
};

void compare(std::uint64_t seed, Seen& seen) {
  const auto random = random_workshop(seed);
  const app::Workshop workshop{.folder = "random", .catalog = random->catalog, .skipped = {}};
  const auto without = every_build(*random, random->brief, 1);
  if (without.empty()) return;
  Limiter(seed).limit(random->brief);
  const auto truth = every_build(*random, random->brief, 2);
  const auto planning = app::Planning::start(workshop, random->brief);
  ASSERT_TRUE(planning) << planning.error().message;
  const auto outcome =
      (*planning)->plan({.keep = 2, .first_only = false, .stop = {}, .progress = {}});
  ASSERT_EQ(outcome.best.size(), truth.size()) << "seed " << seed;
  for (std::size_t i = 0; i < truth.size(); ++i)
    EXPECT_EQ(words(random->catalog, outcome.best[i].build), words(random->catalog, truth[i].build))
        << "seed " << seed << " build " << i;
  ++(truth.empty() ? seen.impossible : seen.possible);
  if (!truth.empty() &&
      words(random->catalog, truth[0].build) != words(random->catalog, without[0].build))
    ++seen.mattered;
}

TEST(Foretold, PlansUnderTightLimitsEqualBruteForce) {
  Seen seen;
  const std::uint64_t last = 7000 + (test_support::sanitized ? 40U : 300U);
  for (std::uint64_t seed = 7001; seed <= last; ++seed) compare(seed, seen);
  EXPECT_GT(seen.possible, test_support::sanitized ? 1 : 15);
  EXPECT_GT(seen.impossible, test_support::sanitized ? 1 : 15);
  EXPECT_GT(seen.mattered, test_support::sanitized ? -1 : 5);
}

// Each by itself: where one that foretells fails in every draw of a whole build's parts, the rule
// of the same id is not admitted there, or is not judged with certainty.
TEST(Foretold, WhatFailsEarlyFailsInTheEnd) {
  int foretold = 0;
  std::set<std::string> met;
  const std::uint64_t last = 7000 + (test_support::sanitized ? 40U : 300U);
  for (std::uint64_t seed = 7001; seed <= last; ++seed) {
    const auto random = random_workshop(seed);
    const auto builds = all_builds(*random, random->brief);
    Limiter(seed).limit(random->brief);
    CellDraws draws(random->catalog);  // as in a plan: builds share what was found of their air
    constexpr std::size_t most = 40;
    for (std::size_t b = 0; b < builds.size(); b += 1 + builds.size() / most) {
      const auto& each = builds[b];
      const Facts facts{.catalog = random->catalog,
                        .brief = random->brief,
                        .prices = nullptr,
                        .build = each.build,
                        .draws = draws};
      for (const Rule* early : app::searching_rules()) {
        if (!early->foretells || (early->concerns && !early->concerns(random->brief)) ||
            early->places(facts) == 0)
          continue;
        Build part;
        for (const Kind kind : early->kinds)
          for (const Chosen& chosen : each.build.of(kind)) part.add(kind, chosen.row, chosen.count);
        const Facts of_part{.catalog = random->catalog,
                            .brief = random->brief,
                            .prices = nullptr,
                            .build = part,
                            .draws = draws};
        if (early->places(of_part) == 0 || !fails_for_certain(judge(*early, of_part, 0))) continue;
        ++foretold;
        met.insert(std::string(early->id) + "/" + std::string(early->about));
        for (const Rule* late : app::planning_rules()) {
          if (late->id != early->id || late->places(facts) == 0) continue;
          const Verdict verdict = judge(*late, facts, 0).verdict;
          EXPECT_TRUE(verdict == Verdict::fails || verdict == Verdict::unknown)
              << early->id << " (" << early->about << "), seed " << seed;
        }
      }
    }
  }
  EXPECT_GT(foretold, test_support::sanitized ? 20 : 200);
  // Every one of them was met.
  if (!test_support::sanitized) {
    std::size_t all = 0;
    for (const Rule* rule : app::searching_rules()) all += rule->foretells ? 1U : 0U;
    EXPECT_EQ(met.size(), all) << testing::PrintToString(met);
  }
}

}  // namespace
}  // namespace rigproof::test_plan
