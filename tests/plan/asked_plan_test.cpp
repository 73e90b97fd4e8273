// Plans that are asked more than the brief says, against brute force on random small catalogs:
// parts done without, parts insisted on, another cap on the first price, few swaps from a build.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "app/planning.hpp"
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
      : seed(the_seed), random(random_workshop(the_seed)), numbers(the_seed * 7919) {
    workshop = {.folder = "random", .catalog = random->catalog, .skipped = {}};
    start();
  }
  void start() {
    auto started = app::Planning::start(workshop, random->brief);
    if (started) planning = std::move(*started);
  }
  std::uint64_t seed;
  std::unique_ptr<RandomWorkshop> random;
  RandomNumbers numbers;
  app::Workshop workshop;
  std::unique_ptr<app::Planning> planning;

  const Catalog& catalog() const { return random->catalog; }

  PartRef any_part() {
    for (;;) {
      const auto kind = static_cast<Kind>(numbers.number(0, kind_count - 1));
      const int rows = static_cast<int>(catalog().rows(table_of(kind)));
      if (rows > 0) return {kind, static_cast<Row>(numbers.number(0, rows - 1))};
    }
  }

  // Any parts at all: what it has may be gone, may not fit, may be more than is ever planned.
  Build any_build() {
    Build build;
    for (int k = 0; k < kind_count; ++k) {
      const auto kind = static_cast<Kind>(k);
      const int rows = static_cast<int>(catalog().rows(table_of(kind)));
      const bool several = kind == Kind::storage || kind == Kind::fan || kind == Kind::other;
      if (rows == 0 || numbers.chance(kind == Kind::display ? 85 : 7)) continue;
      for (int i = several ? numbers.number(1, 3) : 1; i > 0; --i) {
        const auto row = static_cast<Row>(numbers.number(0, rows - 1));
        const bool there = std::ranges::any_of(build.of(kind),
                                               [&](const Chosen& part) { return part.row == row; });
        if (!there) build.add(kind, row, several && numbers.chance(40) ? numbers.number(2, 4) : 1);
      }
    }
    return build;
  }

  // A good build with a few parts changed, more often those of which there may be several.
  Build nearly(const Build& good) {
    const Build other = any_build();
    Build build;
    for (int k = 0; k < kind_count; ++k) {
      const auto kind = static_cast<Kind>(k);
      const bool several = kind == Kind::storage || kind == Kind::fan || kind == Kind::other;
      const Build& from = numbers.chance(several ? 45 : 20) ? other : good;
      for (const Chosen& part : from.of(kind)) build.add(kind, part.row, part.count);
    }
    return build;
  }
};

// The same builds in the same order, or none. True if there is one.
bool same(Case& it, plan::PlanOptions options, const Asked& asked) {
  options.keep = 1 + static_cast<int>(it.seed % 3);
  options.most_asked_beforehand = it.seed % 2 == 0 ? 6'000U : 0U;
  const auto outcome = it.planning->plan(options);
  const auto truth =
      every_build(*it.random, it.random->brief, static_cast<std::size_t>(options.keep), asked);
  EXPECT_EQ(outcome.best.size(), truth.size()) << "seed " << it.seed;
  EXPECT_EQ(outcome.status == plan::Outcome::Status::impossible, truth.empty())
      << "seed " << it.seed;
  for (std::size_t i = 0; i < truth.size() && i < outcome.best.size(); ++i) {
    EXPECT_EQ(words(it.catalog(), outcome.best[i].build), words(it.catalog(), truth[i].build))
        << "seed " << it.seed << " build " << i;
    EXPECT_EQ(outcome.best[i].score, truth[i].score) << "seed " << it.seed << " build " << i;
    EXPECT_EQ(outcome.best[i].prices, truth[i].prices) << "seed " << it.seed << " build " << i;
  }
  options.first_only = true;
  EXPECT_EQ(it.planning->plan(options).best.empty(), truth.empty()) << "seed " << it.seed;
  return !truth.empty() && !outcome.best.empty();
}

// Has a filling that is planned only to stay near a build: three drives, four fans, small parts
// that nothing asks for.
bool is_odd(const Case& it, const Build& build) {
  int drives = 0;
  for (const Chosen& part : build.of(Kind::storage)) drives += part.count;
  int fans = 0;
  for (const Chosen& part : build.of(Kind::fan)) fans += part.count;
  const bool unasked_radio = std::ranges::any_of(build.of(Kind::other), [&](const Chosen& part) {
    return it.catalog().word(column("other", "what"), part.row) == "wifi-card" &&
           !it.random->brief.wifi;
  });
  return drives > 2 || fans > 3 || build.of(Kind::other).size() > 3 || unasked_radio;
}

struct Counts {
  int possible = 0;
  int impossible = 0;
  void add(bool is_possible) { ++(is_possible ? possible : impossible); }
};

constexpr std::uint64_t cases = fewer(std::uint64_t{300});

TEST(AskedPlans, DoWithoutParts) {
  Counts counts;
  for (std::uint64_t seed = 20'001; seed <= 20'000 + 2 * cases; ++seed) {
    Case it(seed);
    const auto best = it.planning->plan({});
    if (best.best.empty()) continue;
    std::vector<PartRef> without;
    for (int i = it.numbers.number(1, 3); i > 0; --i) {
      PartRef part = it.any_part();
      // Mostly what the best build uses: doing without anything else changes nothing.
      const auto used = best.best.front().build.of(part.kind);
      if (!used.empty() && it.numbers.chance(70)) part.row = used.front().row;
      without.push_back(part);
    }
    counts.add(same(it, {.without = without}, {.without = without}));
  }
  EXPECT_GE(counts.possible, enough(30));
  EXPECT_GE(counts.impossible, enough(10));
}

TEST(AskedPlans, UsePartsThatAreInsistedOn) {
  Counts counts;
  int helped = 0;  // forced or kept parts of the same kind beside it
  for (std::uint64_t seed = 21'001; seed <= 21'000 + 3 * cases; ++seed) {
    Case it(seed);
    if (it.planning->plan({.first_only = true}).best.empty()) continue;
    std::vector<PartRef> insisted;
    for (int i = it.numbers.number(1, 3); i > 0; --i) insisted.push_back(it.any_part());
    if (it.numbers.chance(50)) insisted.push_back({Kind::other, 0});
    if (it.catalog().rows(table("other")) == 0)
      std::erase_if(insisted, [](PartRef part) { return part.kind == Kind::other; });
    const bool possible = same(it, {.insisted = insisted}, {.insisted = insisted});
    counts.add(possible);
    for (const PartRef& part : insisted)
      for (const auto* list : {&it.random->brief.keep, &it.random->brief.because})
        for (const ForcedPart& forced : *list)
          helped += possible && forced.kind == part.kind &&
                            forced.id != it.catalog().id({part.kind, part.row})
                        ? 1
                        : 0;
  }
  EXPECT_GE(counts.possible, enough(30));
  EXPECT_GE(counts.impossible, enough(30));
  EXPECT_GE(helped, enough(3));
}

TEST(AskedPlans, KeepToAnotherCapWithTheScoreOfTheBrief) {
  Counts counts;
  int raised = 0;
  for (std::uint64_t seed = 22'001; seed <= 22'000 + 2 * cases; ++seed) {
    Case it(seed);
    const auto best = it.planning->plan({});
    if (best.best.empty()) continue;
    // A budget around the price of the best build, so that the cap is often above it.
    const std::int64_t price = best.best.front().prices.front();
    it.random->brief.markets.front().budget.minor = price + 1000 * it.numbers.number(-8, 8);
    it.start();
    const std::int64_t cap = price + 1000 * it.numbers.number(-8, 8);
    counts.add(same(it, {.first_cap = cap}, {.first_cap = cap}));
    const auto capped = it.planning->plan({.first_cap = cap});
    raised += !capped.best.empty() && capped.best.front().prices.front() >
                                          it.random->brief.markets.front().budget.minor
                  ? 1
                  : 0;
  }
  EXPECT_GE(counts.possible, enough(40));
  EXPECT_GE(counts.impossible, enough(15));
  EXPECT_GE(raised, enough(10));  // builds over the brief's own budget
}

TEST(AskedPlans, StayWithinSwapsOfABuild) {
  Counts counts;
  int odd = 0;
  for (std::uint64_t seed = 23'001; seed <= 23'000 + 5 * cases; ++seed) {
    Case it(seed);
    const auto best = it.planning->plan({});
    if (best.best.empty()) continue;
    const Build near = it.numbers.chance(20) ? it.any_build() : it.nearly(best.best.front().build);
    const int most = it.numbers.number(0, 5);
    const bool possible =
        same(it, {.stay_near = &near, .most_swaps = most}, {.near = &near, .most_swaps = most});
    counts.add(possible);
    if (!possible) continue;
    const auto nearest = it.planning->plan({.stay_near = &near, .most_swaps = most});
    odd += is_odd(it, nearest.best.front().build) ? 1 : 0;
  }
  EXPECT_GE(counts.possible, enough(60));
  EXPECT_GE(counts.impossible, enough(60));
  EXPECT_GE(odd, enough(10));
}

// Where drives are of one look, the cheaper outdo the dearer ones, which no plan looks at: but what
// is done without outdoes nothing, and what a build has already is looked at.
TEST(AskedPlans, LookAtDrivesThatOthersOutdo) {
  Counts without;
  Counts near;
  int three = 0;  // drives in the best build near one
  for (std::uint64_t seed = 25'001; seed <= 25'000 + 10 * cases; ++seed) {
    Case it(seed);
    if (it.catalog().rows(table("storage")) < 4) continue;
    const auto best = it.planning->plan({});
    if (best.best.empty()) continue;
    std::vector<PartRef> banned;
    for (int i = 0; i < 3; ++i)
      banned.push_back({Kind::storage, static_cast<Row>(it.numbers.number(0, 3))});
    without.add(same(it, {.without = banned}, {.without = banned}));
    // One of them stands alone; the brief may ask for two.
    Build build = best.best.front().build;
    build.clear(Kind::storage);
    build.add(Kind::storage, static_cast<Row>(it.numbers.number(0, 3)));
    if (it.numbers.chance(70)) it.random->brief.storage_gb = it.numbers.chance(50) ? 4000 : 2000;
    it.start();
    const int most = it.numbers.number(0, 2);
    near.add(
        same(it, {.stay_near = &build, .most_swaps = most}, {.near = &build, .most_swaps = most}));
    // Three drives, one of which is done without.
    build.clear(Kind::storage);
    for (Row row = 0; row < 3; ++row) build.add(Kind::storage, row);
    it.random->brief.storage_gb = 1000 * it.numbers.number(2, 6);
    it.start();
    const std::vector<PartRef> gone{{Kind::storage, static_cast<Row>(it.numbers.number(0, 3))}};
    if (same(it, {.without = gone, .stay_near = &build, .most_swaps = 2},
             {.without = gone, .near = &build, .most_swaps = 2})) {
      const auto nearest =
          it.planning->plan({.without = gone, .stay_near = &build, .most_swaps = 2});
      three += is_odd(it, nearest.best.front().build) ? 1 : 0;
    }
  }
  EXPECT_GE(three, enough(5));
  EXPECT_GE(without.possible, enough(15));
  EXPECT_GE(near.possible, enough(15));
  EXPECT_GE(near.impossible, enough(15));
}

TEST(AskedPlans, OfEverythingAtOnce) {
  Counts counts;
  for (std::uint64_t seed = 24'001; seed <= 24'000 + 2 * cases; ++seed) {
    Case it(seed);
    const auto best = it.planning->plan({});
    if (best.best.empty()) continue;
    const Build near = it.nearly(best.best.front().build);
    const int most = it.numbers.number(2, 6);
    const std::int64_t cap = best.best.front().prices.front() + 1000 * it.numbers.number(-2, 12);
    const std::vector<PartRef> without{it.any_part()};
    std::vector<PartRef> insisted{it.any_part()};
    if (it.numbers.chance(60)) insisted.clear();
    counts.add(same(it,
                    {.without = without,
                     .insisted = insisted,
                     .first_cap = cap,
                     .stay_near = &near,
                     .most_swaps = most},
                    {.without = without,
                     .insisted = insisted,
                     .first_cap = cap,
                     .near = &near,
                     .most_swaps = most}));
  }
  EXPECT_GE(counts.possible, enough(40));
  EXPECT_GE(counts.impossible, enough(40));
}

// By hand: a part is a row of the catalog, whatever the number of pieces.
TEST(Swaps, CountPartsThatChange) {
  const Chosen a{0, 1};
  const Chosen b{1, 1};
  const Chosen c{2, 1};
  const auto count = [](std::vector<Chosen> from, std::vector<Chosen> to) {
    return plan::swaps(from, to);
  };
  EXPECT_EQ(count({}, {}), 0);
  EXPECT_EQ(count({a}, {a}), 0);
  EXPECT_EQ(count({a, b}, {b, a}), 0);
  EXPECT_EQ(count({}, {a}), 1);
  EXPECT_EQ(count({a}, {}), 1);
  EXPECT_EQ(count({a}, {b}), 1);
  EXPECT_EQ(count({a, b}, {a, c}), 1);
  EXPECT_EQ(count({a, b}, {c}), 2);
  EXPECT_EQ(count({a, b}, {{2, 2}}), 2);
  EXPECT_EQ(count({{0, 2}}, {a, b}), 1);
  EXPECT_EQ(count({{0, 3}}, {{1, 3}}), 1);
  EXPECT_EQ(count({{0, 2}}, {a}), 1);
  EXPECT_EQ(count({a}, {{0, 3}}), 1);
}

}  // namespace
}  // namespace rigproof::test_plan
