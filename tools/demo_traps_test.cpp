// Each trap of the demo is one mistake: the rule it names does not hold, all other musts do; one
// part swapped or added takes it away; and by price and speed alone the mistake would be the better
// buy.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <memory>
#include <ostream>
#include <set>
#include <stdexcept>

#include "app/planning.hpp"
#include "tests/support/demo_workshop.hpp"
#include "tools/demo_catalog.hpp"
#include "tools/make_demo_traps.hpp"

namespace rigproof::demo {

static void PrintTo(const Trap& trap, std::ostream* out) { *out << trap.name; }

namespace {

using test_support::demo;

const Brief& careless() {
  static const Brief brief = test_support::demo_brief("careless-bargains");
  return brief;
}

app::Planning& planning() {
  static const auto started = [] {
    auto made = app::Planning::start(demo(), careless());
    if (!made) throw std::runtime_error(made.error().message);
    return std::move(*made);
  }();
  return *started;
}

Build parts_of(const std::string& text) {
  auto read = read_build(text, "build", demo().catalog);
  if (!read) throw std::runtime_error(read.error().report());
  return read->build;
}

// The ids of rules of which a claim does not hold; those that would keep the build out of a plan.
std::set<std::string> refused_by(const Build& build, const PriceBook& prices,
                                 Grade grade = Grade::must) {
  std::set<std::string> out;
  for (const Claim& claim : app::claims_of(demo().catalog, careless(), &prices, build))
    if (claim.grade == grade && claim.verdict != Verdict::holds && claim.verdict != Verdict::thin)
      out.insert(claim.id);
  return out;
}

bool is_judged(const Trap& trap) {
  const auto rules = app::rulebook();
  return std::ranges::find(rules, trap.rule, &Rule::id) != rules.end();
}

class Traps : public testing::TestWithParam<Trap> {
 protected:
  void SetUp() override {
    if (!is_judged(GetParam())) GTEST_SKIP() << "no engine has the rule " << GetParam().rule;
  }
};

TEST_P(Traps, OnlyTheirOwnClaimDoesNotHold) {
  const Trap& trap = GetParam();
  const Build build = parts_of(build_of(trap, false));
  const auto ids = refused_by(build, planning().prices());
  const auto told = refused_by(build, planning().prices(), Grade::tells);
  EXPECT_TRUE((trap.tells ? told : ids).contains(std::string(trap.rule))) << "the trap is none";
  for (const std::string& id : ids) {
    // Without an offer the sum is unknown; without its cells all that is asked of the card is.
    const bool follows =
        trap.unknown || (trap.rule == "market.offer" && id == "market.budget") || id == trap.rule;
    EXPECT_TRUE(follows) << id;
  }
}

TEST_P(Traps, OnePartTakesTheMistakeAway) {
  const Build cured = parts_of(build_of(GetParam(), true));
  EXPECT_THAT(refused_by(cured, planning().prices()), testing::IsEmpty());
  EXPECT_FALSE(
      refused_by(cured, planning().prices(), Grade::tells).contains(std::string(GetParam().rule)));
}

// Scored without the brief's demand on lone offers, since a part without a price has no score.
TEST_P(Traps, ByScoreAloneTheMistakeWouldBeTaken) {
  Brief any_price = careless();
  any_price.lone_offers_not_older_than_days.reset();
  const auto scoring = app::Planning::start(demo(), any_price);
  ASSERT_TRUE(scoring);
  const auto trapped = (*scoring)->scored(parts_of(build_of(GetParam(), false)));
  const auto cured = (*scoring)->scored(parts_of(build_of(GetParam(), true)));
  ASSERT_TRUE(trapped && cured);
  EXPECT_GT(trapped->score, cured->score);
  EXPECT_LE(trapped->prices.front(), careless().markets.front().budget.minor);
}

// The plan walks into none of them; without the one rule that speaks of it, it would.
TEST_P(Traps, WithoutItsRuleThePlanFallsIn) {
  const Trap& trap = GetParam();
  if (trap.tells) return;  // a plan does not look at it: nothing to leave out
  if (!std::ranges::all_of(traps(), is_judged))
    GTEST_SKIP() << "a plan may fall into another trap, of which no engine has the rule";
  Brief brief = careless();
  if (trap.rule == "market.offer") brief.lone_offers_not_older_than_days.reset();
  if (trap.unknown) brief.accept.unknown = Unknowns::accept;
  const bool by_brief = trap.unknown || trap.rule == "market.offer";
  const auto outcome =
      planning().plan_under(brief, {.keep = 1,
                                    .first_only = false,
                                    .without_rule = by_brief ? std::string_view{} : trap.rule,
                                    .stop = {},
                                    .progress = {}});
  ASSERT_TRUE(outcome);
  ASSERT_FALSE(outcome->best.empty());
  const auto ids = refused_by(outcome->best.front().build, planning().prices());
  EXPECT_TRUE(ids.contains(std::string(trap.rule)));
}

TEST(TrapPlan, WalksIntoNone) {
  const auto outcome = planning().plan(
      {.keep = 1, .first_only = false, .without_rule = {}, .stop = {}, .progress = {}});
  ASSERT_EQ(outcome.status, plan::Outcome::Status::proven);
  EXPECT_THAT(refused_by(outcome.best.front().build, planning().prices()), testing::IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(Demo, Traps, testing::ValuesIn(traps()), [](const auto& each) {
  std::string name(each.param.name);
  std::ranges::replace(name, '-', '_');
  return name;
});

}  // namespace
}  // namespace rigproof::demo
