// The easings of conflicts against brute force: at the value that is told a build exists, and a
// hair (a minor unit, a whole step) nearer to what was asked there is none.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "app/planning.hpp"
#include "tests/plan/brute_force.hpp"
#include "tests/plan/random_workshop.hpp"
#include "tests/support/sanitized.hpp"

namespace rigproof::test_plan {
namespace {

using test_support::enough;
using test_support::fewer;

using plan::Easing;

struct Case {
  std::uint64_t seed;
  const RandomWorkshop& random;
  const Brief& beside;
  const std::string& path;

  bool exists(const Brief& brief) const { return !every_build(random, brief, 1).empty(); }
  bool exists_without() const { return exists(plan::without(beside, {path})); }
  bool exists_at(double value) const { return exists(plan::eased(beside, path, value)); }
};

void expect_least_budget(const Case& it, const plan::Relaxation& relaxation) {
  Brief brief = it.beside;
  for (MarketGoal& market : brief.markets) {
    if (it.path != "markets." + market.market + ".budget") continue;
    const std::int64_t least = std::llround(relaxation.to);
    EXPECT_GT(least, market.budget.minor) << it.seed;
    market.budget.minor = least;
    EXPECT_TRUE(it.exists(brief)) << it.seed << ' ' << it.path;
    market.budget.minor = least - 1;
    EXPECT_FALSE(it.exists(brief)) << it.seed << ' ' << it.path;
  }
}

// The value nearest to `to` that is tighter and that the brief could state.
double a_hair_tighter(const plan::Scale& scale, double to) {
  if (scale.in == plan::EasedIn::days) return to - 1.0;
  if (scale.step > 0.0) return std::min(scale.asked, to + scale.step);
  return std::nextafter(to, scale.asked);
}

void expect_smallest(const Case& it, const plan::Scale& scale, const plan::Relaxation& relaxation) {
  if (relaxation.how == Easing::value) {
    EXPECT_TRUE(it.exists_at(relaxation.to)) << it.seed << ' ' << it.path;
    EXPECT_FALSE(it.exists_at(a_hair_tighter(scale, relaxation.to))) << it.seed << ' ' << it.path;
    return;
  }
  ASSERT_EQ(relaxation.how, Easing::drop);
  EXPECT_TRUE(it.exists_without()) << it.seed << ' ' << it.path;
  if (!scale.values.empty()) {
    EXPECT_FALSE(it.exists_at(scale.values.back())) << it.seed << ' ' << it.path;
  }
}

std::string class_of(const std::string& path) {
  if (path.starts_with("markets.")) return "budget";
  if (path.ends_with("_fps")) return "fps";
  if (path.starts_with("keep.") || path.starts_with("because.") || path.starts_with("accept."))
    return "yes or no";
  return path;
}

// Random briefs seldom fail by their budget, and never by the supply's reserve.
void demand_more(std::uint64_t seed, Brief& brief) {
  if (seed % 3 == 0)
    for (MarketGoal& market : brief.markets)
      market.budget.minor = market.budget.minor * (3 + static_cast<int>(seed % 2)) / 10;
  if (seed % 3 == 1) brief.supply_reserve_frac = 0.375 + 0.0625 * static_cast<double>(seed % 8);
}

// Every requirement of a conflict, with what the other conflicts demand left out.
void compare(std::uint64_t seed, std::map<std::string, int>& seen) {
  const auto random = random_workshop(seed);
  demand_more(seed, random->brief);
  const app::Workshop workshop{.folder = "random", .catalog = random->catalog, .skipped = {}};
  const auto planning = app::Planning::start(workshop, random->brief);
  ASSERT_TRUE(planning);
  if ((*planning)->plan({.keep = 1, .first_only = true, .stop = {}, .progress = {}}).status !=
      plan::Outcome::Status::impossible)
    return;
  const auto sets = (*planning)->conflicts({});
  if (sets.back().requirements.empty()) return;
  for (const plan::ConflictSet& set : sets) {
    std::set<std::string> elsewhere;
    for (const plan::ConflictSet& other : sets)
      for (const plan::Requirement& requirement : other.requirements)
        if (&other != &set) elsewhere.insert(requirement.path);
    const Brief beside = plan::without(random->brief, elsewhere);
    for (const plan::Requirement& requirement : set.requirements) {
      const Case it{seed, *random, beside, requirement.path};
      const auto scale = (*planning)->scale_of(beside, requirement.path);
      const auto relaxation = (*planning)->relaxation(beside, requirement.path, scale, {});
      ASSERT_NE(relaxation.how, Easing::stopped);
      if (relaxation.how == Easing::not_enough) {
        EXPECT_FALSE(it.exists_without()) << seed << ' ' << requirement.path;
        ++seen["not enough"];
        continue;
      }
      ++seen[class_of(requirement.path)];
      if (scale)
        expect_smallest(it, *scale, relaxation);
      else if (class_of(requirement.path) == "budget")
        expect_least_budget(it, relaxation);
      else
        EXPECT_TRUE(relaxation.how == Easing::drop && it.exists_without())
            << seed << ' ' << requirement.path;
    }
  }
}

TEST(Relaxations, AreSmallestByBruteForce) {
  std::map<std::string, int> seen;
  for (std::uint64_t seed = 4001; seed <= 4000 + fewer(500U); ++seed) compare(seed, seen);
  for (const auto& [what, count] : seen) RecordProperty(what, count);
  // Each sort must come up, or the test says little of it.
  EXPECT_GE(seen["budget"], enough(20));
  EXPECT_GE(seen["fps"], enough(3));
  EXPECT_GE(seen["yes or no"], enough(10));
  EXPECT_GE(seen["not enough"], enough(3));
  EXPECT_GE(seen["limits.supply_reserve_frac"], enough(2));
  EXPECT_GE(seen["limits.volume_l"], enough(2));
  EXPECT_GE(seen["musts.memory_gb"], enough(2));
  EXPECT_GE(seen["musts.storage_gb"], enough(2));
  EXPECT_GE(seen["offers_not_older_than_days"], enough(2));
}

// Stopped at any question, it says so instead of a value.
TEST(Relaxations, StoppedSaysSo) {
  int stopped = 0;
  for (std::uint64_t seed = 4001; seed <= 4040; ++seed) {
    const auto random = random_workshop(seed);
    for (const plan::Requirement& requirement : plan::requirements(random->brief)) {
      CellDraws draws(random->catalog);
      const auto scale = plan::scale_of(random->catalog, draws, random->brief, requirement.path);
      if (!scale || scale->values.empty()) continue;
      int asked = 0;
      const auto relaxation = plan::smallest_easing(random->brief, requirement.path, *scale,
                                                    [&](const Brief&) -> std::optional<bool> {
                                                      if (++asked == 2) return {};
                                                      return true;
                                                    });
      EXPECT_EQ(relaxation.how, Easing::stopped);
      ++stopped;
    }
  }
  EXPECT_GE(stopped, 10);
}

}  // namespace
}  // namespace rigproof::test_plan
