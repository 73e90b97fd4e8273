// Every brief of the demo proved by solvers from outside, also where not all of it is linear: what
// the program leaves out is asked of each solution. Takes minutes.
#include "tests/plan/outside_rounds.hpp"

#include <gtest/gtest.h>

#include "app/frame_model.hpp"
#include "app/planning.hpp"
#include "decision/plan/compiler.hpp"
#include "tests/plan/demo_briefs.hpp"

namespace rigproof::test_plan {
namespace {

using test_support::Solver;

class OutsideRounds : public testing::TestWithParam<Solver> {
 protected:
  void SetUp() override {
    if (!test_support::installed(GetParam()))
      GTEST_SKIP() << test_support::name_of(GetParam())
                   << " is not installed: nothing was proved from outside";
  }
};
INSTANTIATE_TEST_SUITE_P(Solvers, OutsideRounds, testing::ValuesIn(test_support::both_solvers),
                         [](const auto& solver) { return test_support::name_of(solver.param); });

// Where the relaxation ends above the plan, what is left out is asked of its solution, which is cut
// off if it breaks it: in the end every brief is proved from outside.
TEST_P(OutsideRounds, TheDemo) {
  auto workshop = app::open_workshop("demo/catalog");
  ASSERT_TRUE(workshop);
  int proved = 0;
  int asked_again = 0;
  for (const char* name : demo_briefs) {
    SCOPED_TRACE(name);
    const auto brief =
        app::open_brief(std::string("demo/briefs/") + name + ".toml", workshop->catalog);
    ASSERT_TRUE(brief);
    const auto prices = PriceBook::make(workshop->catalog, *brief);
    ASSERT_TRUE(prices);
    plan::Verdicts verdicts(workshop->catalog, app::planning_rules(), 0);
    const auto frames = app::make_frame_model(workshop->catalog, *brief, verdicts.draws());
    const plan::PlanInput input{.catalog = workshop->catalog,
                                .brief = *brief,
                                .prices = *prices,
                                .frames = frames,
                                .verdicts = verdicts};
    const auto outcome = plan::plan(input);
    plan::PlanOptions options;
    options.with_outdone = true;
    const plan::Compiler compiler(input, options);
    const plan::HeadClasses classes = compiler.head_classes();
    auto model = plan::mps_model(compiler.problem(), {.head_classes = &classes});
    ASSERT_TRUE(model);
    const plan::Rounds rounds =
        plan::solve_asking(GetParam(), compiler.problem(), *model, {.seconds = 1800});
    RecordProperty(std::string("runs-") + name, rounds.runs);
    ASSERT_TRUE(rounds.settled) << rounds.answer.log;
    ASSERT_EQ(rounds.choice.empty(), outcome.best.empty());
    ++proved;
    if (rounds.runs > 1) ++asked_again;
    if (outcome.best.empty()) continue;
    const double slack = 0.5 + 1e-5 * static_cast<double>(brief->markets.front().budget.minor);
    EXPECT_NEAR(-rounds.answer.objective, static_cast<double>(outcome.best.front().score), slack);
  }
  EXPECT_EQ(proved, static_cast<int>(std::size(demo_briefs)));
  EXPECT_GE(asked_again, 1);
}

}  // namespace
}  // namespace rigproof::test_plan
