// Rivals by odds against brute force: every group's best build, scored draw by draw by the oracle.
// Whatever is best in more than 5 % of the draws was compared and is told so, and how often the
// best build beats each is counted right.
#include "app/rivals.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/plan/alike_workshop.hpp"
#include "tests/plan/brute_force.hpp"
#include "tests/plan/random_workshop.hpp"

namespace rigproof::test_plan {
namespace {

struct Truth {
  std::vector<Found> groups;
  std::vector<DrawSet> ahead;   ///< of the first build, for certain
  std::vector<DrawSet> behind;  ///< the first build is, for certain
  std::vector<int> best;        ///< in how many draws it is best of all groups, for certain
};

// Sums in another order may differ in the last digits: what is that close is no difference.
constexpr double close = 1e-6;

Truth truth_of(const RandomWorkshop& random) {
  Truth out;
  out.groups = every_build(random, random.brief, 1000);
  std::vector<std::array<double, draw_count>> scores;
  for (const Found& found : out.groups)
    scores.push_back(score_draws_of(random, random.brief, found));
  out.ahead.resize(scores.size());
  out.behind.resize(scores.size());
  out.best.resize(scores.size(), 0);
  for (std::size_t i = 0; i < draw_count; ++i)
    for (std::size_t g = 0; g < scores.size(); ++g) {
      out.ahead[g][i] = scores[g][i] > scores[0][i] + close;
      out.behind[g][i] = scores[g][i] < scores[0][i] - close;
      bool best = true;
      for (std::size_t other = 0; other < scores.size(); ++other)
        best = best && (other == g || scores[g][i] > scores[other][i] + close);
      out.best[g] += best ? 1 : 0;
    }
  return out;
}

bool same_build(const Found& found, const plan::PlannedChoice& choice) {
  return found.score == choice.score && found.prices == choice.prices &&
         found.build.one(Kind::cpu) == choice.build.one(Kind::cpu) &&
         found.build.one(Kind::gpu) == choice.build.one(Kind::gpu);
}

struct Seen {
  int compared = 0;
  int beyond_asked = 0;  ///< rivals that were not asked for
  int left_out = 0;      ///< groups that were shown to be no rivals without being compared
  int not_second = 0;    ///< a rival that others with higher means are not
};

void compare(std::uint64_t seed, Seen& seen) {
  const auto random = seed % 2 == 0 ? alike_workshop(seed) : random_workshop(seed);
  if (random->brief.titles.empty()) return;
  const Truth truth = truth_of(*random);
  if (truth.groups.size() < 2) return;
  const app::Workshop workshop{.folder = "random", .catalog = random->catalog, .skipped = {}};
  const auto planning = app::Planning::start(workshop, random->brief);
  ASSERT_TRUE(planning);
  const int asked = 1;
  const auto best =
      (*planning)->plan({.keep = asked, .first_only = false, .stop = {}, .progress = {}});
  ASSERT_EQ(best.status, plan::Outcome::Status::proven);
  const auto compared = app::compare_rivals(**planning, best.best, asked, {});
  ASSERT_TRUE(compared.settled) << seed;
  ++seen.compared;
  for (std::size_t g = 0; g < truth.groups.size(); ++g) {
    const auto at = std::ranges::find_if(compared.choices, [&](const plan::PlannedChoice& choice) {
      return same_build(truth.groups[g], choice);
    });
    const auto ahead = static_cast<int>(truth.ahead[g].count());
    if (at == compared.choices.end()) {
      EXPECT_LE(ahead, app::rival_above_draws) << "seed " << seed << " group " << g;
      ++seen.left_out;
      continue;
    }
    const auto c = static_cast<std::size_t>(at - compared.choices.begin());
    EXPECT_GE(compared.odds_best[c] * draw_count, truth.best[g]) << "seed " << seed;
    if (g > 0) {
      EXPECT_GE(compared.odds_first_beats[c] * draw_count,
                static_cast<double>(truth.behind[g].count()));
      EXPECT_LE(compared.odds_first_beats[c] * draw_count, draw_count - ahead);
    }
    if (g >= 1 && truth.best[g] > app::rival_above_draws) {
      ++seen.beyond_asked;
      EXPECT_GT(compared.odds_best[c] * draw_count, app::rival_above_draws);
      if (g > 1 && truth.best[1] <= app::rival_above_draws) ++seen.not_second;
    }
  }
}

TEST(Rivals, AreAllFoundByBruteForce) {
  Seen seen;
  for (std::uint64_t seed = 7001; seed <= 7400; ++seed) compare(seed, seen);
  EXPECT_GE(seen.compared, 150);
  EXPECT_GE(seen.beyond_asked, 100);
  EXPECT_GE(seen.left_out, 30);
  EXPECT_GE(seen.not_second, 20);
  RecordProperty("compared", seen.compared);
  RecordProperty("beyond_asked", seen.beyond_asked);
  RecordProperty("left_out", seen.left_out);
  RecordProperty("not_second", seen.not_second);
}

TEST(Rivals, AreNotSettledWhenStopped) {
  int stopped = 0;
  for (std::uint64_t seed = 7001; seed <= 7100; ++seed) {
    const auto random = random_workshop(seed);
    const app::Workshop workshop{.folder = "random", .catalog = random->catalog, .skipped = {}};
    const auto planning = app::Planning::start(workshop, random->brief);
    ASSERT_TRUE(planning);
    const auto best =
        (*planning)->plan({.keep = 1, .first_only = false, .stop = {}, .progress = {}});
    if (best.best.empty()) continue;
    bool was_asked = false;
    const auto compared = app::compare_rivals(
        **planning, best.best, 1, {.stop = [&] { return was_asked = true; }, .progress = {}});
    EXPECT_NE(compared.settled, was_asked) << seed;
    EXPECT_EQ(compared.choices.size(), 1U);
    stopped += was_asked ? 1 : 0;
  }
  EXPECT_GE(stopped, 5);
}

// The budget of nodes says the same each time, and never that what was not looked at is settled.
TEST(Rivals, AreNotSettledBeyondTheirNodes) {
  int short_of = 0;
  for (std::uint64_t seed = 7001; seed <= 7100; ++seed) {
    const auto random = random_workshop(seed);
    const app::Workshop workshop{.folder = "random", .catalog = random->catalog, .skipped = {}};
    const auto compared = [&](std::int64_t most_nodes) {
      const auto planning = app::Planning::start(workshop, random->brief);
      const auto best =
          (*planning)->plan({.keep = 1, .first_only = false, .stop = {}, .progress = {}});
      return best.best.empty() ? app::Compared{}
                               : app::compare_rivals(**planning, best.best, 1, {}, most_nodes);
    };
    const auto whole = compared(app::nodes_for_rivals);
    const auto none = compared(-1);
    EXPECT_EQ(compared(-1).settled, none.settled) << seed;
    EXPECT_TRUE(whole.settled || !none.settled) << seed;
    short_of += whole.settled && !none.settled ? 1 : 0;
  }
  EXPECT_GE(short_of, 2);
}

}  // namespace
}  // namespace rigproof::test_plan
