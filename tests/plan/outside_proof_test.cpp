// Whole plans proved by solvers from outside: the integer program of a brief, read from its text
// alone, never has a best score below the plan's; and what the solver chose, if the rules admit it,
// scores the same. Builds are read back from the names of the columns and judged whole, one rule
// after the other, without the planner's tables, groups and checks.
#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "app/planning.hpp"
#include "tests/plan/demo_briefs.hpp"
#include "tests/plan/random_workshop.hpp"
#include "tests/support/outside_solver.hpp"

namespace rigproof::test_plan {
namespace {

using test_support::OutsideAnswer;
using test_support::Solver;

// x_KIND_ID, x_KIND_ID+ID, x_KIND_ID.xCOUNT, x_KIND_none: ids have neither `_` nor `+` nor `.`.
void add_parts(const Catalog& catalog, std::string_view column, Build& build) {
  const auto after_kind = column.find('_', 2);
  std::string_view parts = column.substr(after_kind + 1);
  while (!parts.empty() && parts != "none") {
    const auto end = std::min(parts.find('+'), parts.size());
    std::string_view part = parts.substr(0, end);
    parts.remove_prefix(std::min(end + 1, parts.size()));
    int count = 1;
    if (const auto dot = part.find(".x"); dot != std::string_view::npos) {
      count = std::stoi(std::string(part.substr(dot + 2)));
      part = part.substr(0, dot);
    }
    const auto found = catalog.find_part(part);
    if (!found) throw std::runtime_error("no part is called " + std::string(part));
    EXPECT_EQ(name_of(found->kind), column.substr(2, after_kind - 2));
    build.add(found->kind, found->row, count);
  }
}

Build build_of(const Catalog& catalog, const OutsideAnswer& answer) {
  Build build;
  for (const auto& [column, value] : answer.values)
    if (column.starts_with("x_") && value > 0.5) add_parts(catalog, column, build);
  return build;
}

bool every_rule_admits(const app::Planning& planning, const Build& build) {
  CellDraws draws(planning.catalog());
  const Facts facts{.catalog = planning.catalog(),
                    .brief = planning.brief(),
                    .prices = &planning.prices(),
                    .build = build,
                    .draws = draws,
                    .setup = nullptr};
  for (const Rule* rule : app::planning_rules())
    for (int place = 0; place < rule->places(facts); ++place)
      if (!admitted(*rule, judge(*rule, facts, place).verdict, planning.brief())) return false;
  return true;
}

struct Seen {
  int equal = 0;       ///< the outside optimum is a build that every rule admits
  int complete = 0;    ///< nothing was left out, and there is a build
  int relaxed = 0;     ///< the outside optimum is no build, and above the score
  int impossible = 0;  ///< proved from outside that there is none
};

void compare(app::Planning& planning, Solver solver, int seconds, Seen& seen) {
  plan::PlanOptions options;
  const auto outcome = planning.plan(options);
  const auto model = planning.integer_program({});
  ASSERT_TRUE(model) << model.error().message;
  const OutsideAnswer answer =
      test_support::solve(solver, plan::mps_text(*model), {.seconds = seconds});
  if (answer.status == OutsideAnswer::Status::infeasible) {
    EXPECT_EQ(outcome.status, plan::Outcome::Status::impossible) << answer.log;
    ++seen.impossible;
    return;
  }
  ASSERT_EQ(answer.status, OutsideAnswer::Status::optimal) << answer.log;
  const Build build = build_of(planning.catalog(), answer);
  const bool admitted_whole = every_rule_admits(planning, build);
  if (outcome.best.empty()) {
    EXPECT_FALSE(admitted_whole) << "the planner says impossible, an outside solver found a build";
    EXPECT_FALSE(model->left_out.empty());
    return;
  }
  // Half a unit is rounding (S1); tolerances of the solver are 1e-6 on each of some dozen columns.
  const auto score = static_cast<double>(outcome.best.front().score);
  const double slack =
      0.5 + 1e-5 * static_cast<double>(planning.brief().markets.front().budget.minor);
  EXPECT_GE(-answer.objective, score - slack);
  const auto scored = planning.scored(build);
  ASSERT_TRUE(scored) << "a part of the outside answer cannot be bought";
  EXPECT_NEAR(-answer.objective, static_cast<double>(scored->score), slack);
  for (std::size_t m = 0; m < scored->prices.size(); ++m)
    EXPECT_LE(scored->prices[m], planning.brief().markets[m].budget.minor);
  if (model->left_out.empty()) {
    ++seen.complete;
    EXPECT_TRUE(admitted_whole) << "the program is complete, yet a rule refuses its optimum";
  }
  if (admitted_whole) {
    EXPECT_NEAR(-answer.objective, score, slack);
    ++seen.equal;
  } else if (-answer.objective > score + slack) {
    ++seen.relaxed;
  }
}

class OutsideProof : public testing::TestWithParam<Solver> {
 protected:
  void SetUp() override {
    if (!test_support::installed(GetParam()))
      GTEST_SKIP() << test_support::name_of(GetParam())
                   << " is not installed: nothing was proved from outside";
  }
};
INSTANTIATE_TEST_SUITE_P(Solvers, OutsideProof, testing::ValuesIn(test_support::both_solvers),
                         [](const auto& solver) { return test_support::name_of(solver.param); });

TEST_P(OutsideProof, RandomCatalogs) {
  Seen seen;
  for (std::uint64_t seed = 5001; seed <= 5240; ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const auto random = random_workshop(seed);
    const app::Workshop workshop{.folder = "random", .catalog = random->catalog, .skipped = {}};
    const auto planning = app::Planning::start(workshop, random->brief);
    ASSERT_TRUE(planning);
    compare(**planning, GetParam(), 60, seen);
    if (HasFailure()) return;
  }
  EXPECT_GE(seen.equal, 30);
  EXPECT_GE(seen.complete, 20);
  EXPECT_GE(seen.impossible, 30);
  RecordProperty("equal", seen.equal);
  RecordProperty("complete", seen.complete);
  RecordProperty("relaxed", seen.relaxed);
  RecordProperty("impossible", seen.impossible);
}

TEST_P(OutsideProof, TheDemo) {
  auto workshop = app::open_workshop("demo/catalog");
  ASSERT_TRUE(workshop);
  Seen seen;
  for (const char* name : demo_briefs) {
    SCOPED_TRACE(name);
    const auto brief =
        app::open_brief(std::string("demo/briefs/") + name + ".toml", workshop->catalog);
    ASSERT_TRUE(brief);
    const auto planning = app::Planning::start(*workshop, *brief);
    ASSERT_TRUE(planning);
    compare(**planning, GetParam(), 600, seen);
  }
  EXPECT_GE(seen.equal, 2);
  RecordProperty("equal", seen.equal);
  RecordProperty("relaxed", seen.relaxed);
}

}  // namespace
}  // namespace rigproof::test_plan
