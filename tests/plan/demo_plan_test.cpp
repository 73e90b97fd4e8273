// The planner on the demo workshop: what it returns is re-judged by code outside the search.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>
#include <stdexcept>

#include "app/plan_brief.hpp"
#include "app/planning.hpp"
#include "app/runner_up.hpp"
#include "tests/support/demo_workshop.hpp"

namespace rigproof {
namespace {

using test_support::demo;
using test_support::demo_brief;

std::unique_ptr<app::Planning> planning_of(const Brief& brief) {
  return test_support::opened(app::Planning::start(demo(), brief));
}

plan::PlanOutcome best_of(app::Planning& planning, int keep = 1) {
  return planning.plan({.keep = keep, .first_only = false, .stop = {}, .progress = {}});
}

// Verdicts remembered by group equal verdicts asked for the parts themselves.
TEST(Verdicts, GroupsChangeNothingOnTheDemo) {
  const Brief brief = demo_brief("quiet-living-room");
  const auto prices = PriceBook::make(demo().catalog, brief);
  ASSERT_TRUE(prices);
  plan::Verdicts verdicts(demo().catalog, app::planning_rules(), 0);
  verdicts.use(brief, *prices);
  CellDraws draws(demo().catalog);
  std::mt19937_64 random(7);
  const auto slots = plan::slot_options(demo().catalog, brief, *prices);
  int refused = 0;
  int admitted_count = 0;
  for (int round = 0; round < 1500; ++round) {
    std::vector<plan::Filling> all;
    for (const plan::KindSlot& slot : slots)
      if (!slot.options.empty())
        all.push_back({slot.kind, &slot.options[random() % slot.options.size()]});
    for (std::size_t r = 0; r < verdicts.rules().size(); ++r) {
      const Rule& rule = *verdicts.rules()[r];
      auto groups = plan::Verdicts::no_groups();
      std::vector<plan::Filling> scope;
      Build build;
      for (const plan::Filling& filling : all) {
        if (std::ranges::find(rule.kinds, filling.kind) == rule.kinds.end()) continue;
        scope.push_back(filling);
        groups[static_cast<std::size_t>(filling.kind)] =
            verdicts.group(r, filling.kind, *filling.option);
        for (const Chosen& part : filling.option->parts)
          build.add(filling.kind, part.row, part.count);
      }
      const Facts facts{.catalog = demo().catalog,
                        .brief = brief,
                        .prices = &*prices,
                        .build = build,
                        .draws = draws,
                        .setup = nullptr};
      bool direct = true;
      for (int place = 0; place < rule.places(facts); ++place)
        direct = direct && admitted(rule, explain(rule, facts, place).verdict, brief);
      ASSERT_EQ(verdicts.admits(r, groups, scope), direct) << rule.id << " in round " << round;
      ++(direct ? admitted_count : refused);
    }
  }
  EXPECT_GT(refused, 1000);
  EXPECT_GT(admitted_count, 1000);
}

class DemoBriefs : public testing::TestWithParam<const char*> {};

TEST_P(DemoBriefs, BestBuildKeepsEveryWishWhenJudgedWhole) {
  const Brief brief = demo_brief(GetParam());
  const auto planning = planning_of(brief);
  const auto outcome = best_of(*planning, 3);
  ASSERT_EQ(outcome.status, plan::Outcome::Status::proven);
  ASSERT_EQ(outcome.best.size(), 3U);
  EXPECT_EQ(outcome.bound, outcome.best.front().score);
  for (const plan::PlannedChoice& choice : outcome.best) {
    for (std::size_t m = 0; m < brief.markets.size(); ++m)
      EXPECT_LE(choice.prices[m], brief.markets[m].budget.minor);
    CellDraws draws(demo().catalog);
    const Facts facts{.catalog = demo().catalog,
                      .brief = brief,
                      .prices = &planning->prices(),
                      .build = choice.build,
                      .draws = draws,
                      .setup = nullptr};
    for (const Rule* rule : app::rulebook())
      for (int place = 0; place < rule->places(facts); ++place) {
        const Verdict verdict = judge(*rule, facts, place).verdict;
        EXPECT_TRUE(admitted(*rule, verdict, brief)) << rule->id << ": " << name_of(verdict);
      }
    const auto again = planning->scored(choice.build);
    ASSERT_TRUE(again);
    EXPECT_EQ(again->score, choice.score);
    EXPECT_EQ(again->prices, choice.prices);
  }
  EXPECT_GE(outcome.best[0].score, outcome.best[1].score);
  EXPECT_GE(outcome.best[1].score, outcome.best[2].score);
}
INSTANTIATE_TEST_SUITE_P(Demo, DemoBriefs,
                         testing::Values("quiet-living-room", "competition-high-refresh"));

// No single swap of one part for another of its kind makes a better build: a proof must survive it.
TEST_P(DemoBriefs, NoSingleSwapIsBetter) {
  const Brief brief = demo_brief(GetParam());
  const auto planning = planning_of(brief);
  const auto outcome = best_of(*planning);
  ASSERT_FALSE(outcome.best.empty());
  const plan::PlannedChoice& best = outcome.best.front();
  CellDraws draws(demo().catalog);
  int tried = 0;
  for (const Kind kind : {Kind::cpu, Kind::board, Kind::memory, Kind::gpu, Kind::storage,
                          Kind::cooler, Kind::chassis, Kind::psu}) {
    const bool forced =
        std::ranges::any_of(brief.keep,
                            [&](const ForcedPart& part) { return part.kind == kind; }) ||
        std::ranges::any_of(brief.because,
                            [&](const ForcedPart& part) { return part.kind == kind; });
    if (forced) continue;
    for (Row row = 0; row < demo().catalog.rows(table_of(kind)); ++row) {
      Build swapped = best.build;
      swapped.clear(kind);
      swapped.add(kind, row);
      const auto scored = planning->scored(swapped);
      if (!scored || scored->score <= best.score) continue;
      bool affordable = true;
      for (std::size_t m = 0; m < brief.markets.size(); ++m)
        affordable = affordable && scored->prices[m] <= brief.markets[m].budget.minor;
      if (!affordable) continue;
      ++tried;
      const Facts facts{.catalog = demo().catalog,
                        .brief = brief,
                        .prices = &planning->prices(),
                        .build = swapped,
                        .draws = draws,
                        .setup = nullptr};
      bool all = true;
      for (const Rule* rule : app::planning_rules())
        for (int place = 0; place < rule->places(facts); ++place)
          all = all && admitted(*rule, judge(*rule, facts, place).verdict, brief);
      EXPECT_FALSE(all) << demo().catalog.id({kind, row}) << " scores " << scored->score << " over "
                        << best.score;
    }
  }
  EXPECT_GT(tried, 0) << "no dearer or faster part was in reach: the test says nothing";
}

TEST(DemoPlans, TheImpossibleBriefNamesItsConflict) {
  const Brief brief = demo_brief("cannot-be-satisfied");
  const auto planning = planning_of(brief);
  EXPECT_EQ(best_of(*planning).status, plan::Outcome::Status::impossible);
  const plan::ConflictSet conflict = planning->conflicts({}).front();
  ASSERT_TRUE(conflict.known);
  std::vector<std::string> paths;
  for (const plan::Requirement& requirement : conflict.requirements)
    paths.push_back(requirement.path);
  EXPECT_NE(std::ranges::find(paths, "markets.IE.budget"), paths.end());
  EXPECT_NE(std::ranges::find(paths, "titles.wide-fallow.floor_fps"), paths.end());
  for (const plan::Requirement& requirement : conflict.requirements) {
    std::set<std::string> others;
    for (const plan::Requirement& each : plan::requirements(brief)) others.insert(each.path);
    for (const std::string& path : paths)
      if (path != requirement.path) others.erase(path);
    const auto eased = planning->plan_under(
        plan::without(brief, others), {.keep = 1, .first_only = true, .stop = {}, .progress = {}});
    ASSERT_TRUE(eased);
    EXPECT_FALSE(eased->best.empty()) << requirement.path << " is not needed";
  }
}

TEST(DemoPlans, StoppedEarlyGivesATrueBoundAndNoFalseProof) {
  const Brief brief = demo_brief("competition-high-refresh");
  const auto planning = planning_of(brief);
  const auto proven = best_of(*planning);
  ASSERT_EQ(proven.status, plan::Outcome::Status::proven);
  const auto stopped =
      planning->plan({.keep = 1, .first_only = false, .stop = [] { return true; }, .progress = {}});
  ASSERT_EQ(stopped.status, plan::Outcome::Status::not_proven);
  EXPECT_GE(stopped.bound, proven.best.front().score);
  if (!stopped.best.empty()) {
    EXPECT_LE(stopped.best.front().score, proven.best.front().score);
  }
}

TEST(DemoPlans, KeptPartsAreUsedAndCostNothing) {
  const Brief brief = demo_brief("competition-high-refresh");
  ASSERT_FALSE(brief.keep.empty());
  const auto planning = planning_of(brief);
  const auto outcome = best_of(*planning);
  ASSERT_FALSE(outcome.best.empty());
  const auto kept = demo().catalog.find_part(brief.keep.front().id);
  ASSERT_TRUE(kept);
  EXPECT_EQ(outcome.best.front().build.one(kept->kind), kept->row);
  EXPECT_EQ(planning->prices().price(*kept, 0)->minor, 0);
}

// The runner-up of each part scores no more than the best build: otherwise that was not the best.
TEST(DemoPlans, NoRunnerUpStandsBeforeTheBest) {
  const Brief brief = demo_brief("quiet-living-room");
  const auto planning = planning_of(brief);
  const auto outcome = best_of(*planning);
  ASSERT_FALSE(outcome.best.empty());
  auto view = app::view_of(*planning, outcome.best.front());
  ASSERT_TRUE(app::add_reasons(*planning, outcome.best.front(), view, app::Beside::everything, {}));
  int with_runner_up = 0;
  for (const sheet::PartLine& line : view.parts) {
    EXPECT_FALSE(line.why.empty()) << line.id;
    if (!line.runner_up || line.runner_up->id.empty()) continue;
    EXPECT_LE(line.runner_up->score_change.minor, 0) << line.id;
    EXPECT_NE(line.runner_up->id, line.id);
    ++with_runner_up;
  }
  EXPECT_GE(with_runner_up, 5);
}

// Of a given build a runner-up leaves every other part as it is: its price differs from the build's
// by exactly the two parts' offers, and where the build fails somewhere else there is none.
TEST(Reasons, OfAGivenBuildLeaveTheOtherPartsAlone) {
  const Brief brief = demo_brief("careless-bargains");
  const auto planning = planning_of(brief);
  const auto build = app::open_build("demo/builds/trap-one-cable-short.toml", demo().catalog);
  ASSERT_TRUE(build);
  const auto choice = planning->scored(build->build);
  ASSERT_TRUE(choice);
  auto view = app::view_of(*planning, *choice);
  ASSERT_TRUE(app::add_reasons(*planning, *choice, view, app::Beside::nothing, {}));
  int mended = 0;
  for (const sheet::PartLine& line : view.parts) {
    ASSERT_TRUE(line.runner_up) << line.id;
    EXPECT_TRUE(line.runner_up->others_fixed);
    if (line.runner_up->id.empty()) continue;
    const auto price = [&](const std::string& id) {
      return planning->prices().price(*demo().catalog.find_part(id), 0)->minor;
    };
    EXPECT_EQ(line.runner_up->price_change.minor, price(line.runner_up->id) - price(line.id));
    ++mended;
  }
  // The supply has a plug too few: another supply or a card that wants fewer mends it, nothing
  // else.
  EXPECT_GE(mended, 1);
  for (const sheet::PartLine& line : view.parts)
    EXPECT_TRUE(line.kind == "psu" || line.kind == "gpu" || line.runner_up->id.empty())
        << line.id << ": " << line.runner_up->id;
}

// A given build is proven best only where a search comes to its very parts, in whatever order its
// file lists them; what was stopped or cannot be met proves nothing.
TEST(Proofs, OfAGivenBuildSpeakOfItsVeryParts) {
  const Brief brief = demo_brief("competition-high-refresh");
  const auto planning = planning_of(brief);
  const auto outcome = best_of(*planning, 2);
  ASSERT_EQ(outcome.best.size(), 2U);
  const sheet::Proof best = app::proof_of_given(*planning, outcome.best[0], {}, {});
  EXPECT_EQ(best.status, "proven");
  EXPECT_EQ(best.bound.minor, outcome.best[0].score);

  const sheet::Proof second = app::proof_of_given(*planning, outcome.best[1], {}, {});
  EXPECT_EQ(second.status, "another build is best");
  EXPECT_EQ(second.nodes, 0);

  rigproof::Setup as_set;
  as_set.mounts["cooler"] = "top";
  const sheet::Proof set = app::proof_of_given(*planning, outcome.best[0], as_set, {});
  EXPECT_EQ(set.status, "proven");
  EXPECT_NE(set.note, best.note);

  const app::LongJob stopped{.stop = [] { return true; }, .progress = {}};
  EXPECT_EQ(app::proof_of_given(*planning, outcome.best[0], {}, stopped).status, "not planned");

  const Brief never = demo_brief("cannot-be-satisfied");
  const auto hopeless = planning_of(never);
  const auto choice = hopeless->scored(outcome.best[0].build);
  ASSERT_TRUE(choice);
  EXPECT_EQ(app::proof_of_given(*hopeless, *choice, {}, {}).status, "not planned");
}

TEST(Proofs, AnOrderOfDrivesIsNoOtherBuild) {
  Brief brief = demo_brief("competition-high-refresh");
  brief.storage_gb = 5000;  // more than the 2000 of the drive that is kept
  brief.markets.front().budget.minor *= 2;
  const auto planning = planning_of(brief);
  auto outcome = best_of(*planning);
  ASSERT_FALSE(outcome.best.empty());
  plan::PlannedChoice turned = outcome.best.front();
  const auto drives = turned.build.of(Kind::storage);
  ASSERT_EQ(drives.size(), 2U);
  const std::vector<Chosen> there(drives.begin(), drives.end());
  turned.build.clear(Kind::storage);
  for (auto drive = there.rbegin(); drive != there.rend(); ++drive)
    turned.build.add(Kind::storage, drive->row, drive->count);
  ASSERT_NE(turned.build, outcome.best.front().build);
  EXPECT_EQ(app::proof_of_given(*planning, turned, {}, {}).status, "proven");
}

}  // namespace
}  // namespace rigproof
