// What must never make a plan worse, over random catalogs: more money, a demand less, a part more;
// and what must not change it at all: the loss of a part that no listed build uses.
#include <gtest/gtest.h>

#include <algorithm>

#include "app/planning.hpp"
#include "tests/plan/random_workshop.hpp"

namespace rigproof::test_plan {
namespace {

class Monotone : public testing::Test {
 protected:
  struct Base {
    std::uint64_t seed;
    std::unique_ptr<RandomWorkshop> random;
    app::Workshop workshop;
    std::unique_ptr<app::Planning> planning;
    plan::PlanOutcome outcome;
  };

  static plan::PlanOptions options(std::vector<PartRef> without = {}) {
    return {
        .keep = 3, .first_only = false, .without = std::move(without), .stop = {}, .progress = {}};
  }

  // Calls `look` for each random catalog that has a build.
  template <class Look>
  static int for_each_possible(Look look) {
    int possible = 0;
    for (std::uint64_t seed = 9001; seed <= 9400; ++seed) {
      Base base{.seed = seed,
                .random = random_workshop(seed),
                .workshop = {},
                .planning = {},
                .outcome = {}};
      base.workshop = {.folder = "random", .catalog = base.random->catalog, .skipped = {}};
      auto planning = app::Planning::start(base.workshop, base.random->brief);
      if (!planning) continue;
      base.planning = std::move(*planning);
      base.outcome = base.planning->plan(options());
      if (base.outcome.best.empty()) continue;
      ++possible;
      look(base);
    }
    return possible;
  }
};

std::int64_t score(const plan::PlanOutcome& outcome) {
  return outcome.best.empty() ? std::numeric_limits<std::int64_t>::min()
                              : outcome.best.front().score;
}

TEST_F(Monotone, MoreMoneyNeverLowersTheScore) {
  int raised = 0;
  const int possible = for_each_possible([&](const Base& base) {
    for (std::size_t m = 0; m < base.random->brief.markets.size(); ++m)
      for (const std::int64_t more : {1, 1000, 30'000}) {
        Brief richer = base.random->brief;
        richer.markets[m].budget.minor += more;
        const auto outcome = base.planning->plan_under(richer, options());
        ASSERT_TRUE(outcome);
        EXPECT_GE(score(*outcome), score(base.outcome)) << base.seed << ' ' << more;
        raised += score(*outcome) > score(base.outcome) ? 1 : 0;
      }
  });
  EXPECT_GE(possible, 50);
  EXPECT_GE(raised, 20);
}

TEST_F(Monotone, ADemandLessNeverLowersTheScore) {
  int eased = 0;
  int raised = 0;
  for_each_possible([&](const Base& base) {
    for (const plan::Requirement& requirement : plan::requirements(base.random->brief)) {
      // Without a budget the score has another scale; a kept part that is let go has a price.
      if (requirement.path.starts_with("markets.") || requirement.path.starts_with("keep."))
        continue;
      const auto outcome = base.planning->plan_under(
          plan::without(base.random->brief, {requirement.path}), options());
      ASSERT_TRUE(outcome);
      EXPECT_GE(score(*outcome), score(base.outcome)) << base.seed << ' ' << requirement.path;
      ++eased;
      raised += score(*outcome) > score(base.outcome) ? 1 : 0;
    }
  });
  EXPECT_GE(eased, 100);
  EXPECT_GE(raised, 10);
}

bool used(const plan::PlanOutcome& outcome, PartRef part) {
  return std::ranges::any_of(outcome.best, [&](const plan::PlannedChoice& choice) {
    return std::ranges::any_of(choice.build.of(part.kind),
                               [&](const Chosen& chosen) { return chosen.row == part.row; });
  });
}

bool same_builds(const plan::PlanOutcome& a, const plan::PlanOutcome& b) {
  return std::ranges::equal(a.best, b.best, [](const auto& one, const auto& other) {
    for (int k = 0; k < kind_count; ++k) {
      const auto same = [](const Chosen& x, const Chosen& y) {
        return x.row == y.row && x.count == y.count;
      };
      if (!std::ranges::equal(one.build.of(static_cast<Kind>(k)),
                              other.build.of(static_cast<Kind>(k)), same))
        return false;
    }
    return one.score == other.score && one.prices == other.prices;
  });
}

// A catalog without a part and the same with it: the part more is never a loss, and only those that
// a listed build uses matter.
TEST_F(Monotone, APartMoreNeverLowersTheScoreAndAnUnusedOneChangesNothing) {
  int unused = 0;
  int missed = 0;
  for_each_possible([&](const Base& base) {
    const Brief& brief = base.random->brief;
    for (int k = 0; k < kind_count; ++k) {
      const Kind kind = static_cast<Kind>(k);
      const auto forced = [&](const ForcedPart& part) { return part.kind == kind; };
      if (std::ranges::any_of(brief.keep, forced) || std::ranges::any_of(brief.because, forced))
        continue;
      for (Row row = 0; row < base.random->catalog.rows(table_of(kind)); ++row) {
        const auto without = base.planning->plan(options({PartRef{kind, row}}));
        EXPECT_LE(score(without), score(base.outcome)) << base.seed;
        missed += score(without) < score(base.outcome) ? 1 : 0;
        if (used(base.outcome, {kind, row})) continue;
        EXPECT_TRUE(same_builds(without, base.outcome))
            << base.seed << ' ' << base.random->catalog.id({kind, row});
        ++unused;
      }
    }
  });
  EXPECT_GE(unused, 300);
  EXPECT_GE(missed, 100);
}

}  // namespace
}  // namespace rigproof::test_plan
