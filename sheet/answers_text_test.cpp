// Sentences of the answers whose cases the demo does not all meet. Views are made by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sheet/frontier_text.hpp"
#include "sheet/repair_text.hpp"

namespace rigproof::sheet {
namespace {

using testing::HasSubstr;
using testing::Not;

Money euro(std::int64_t minor) { return {*parse_currency("EUR"), minor}; }
const TextStyle plain{.color = false, .width = 200};

Repair repaired() {
  Repair view;
  view.status = "proven";
  view.swaps = 1;
  view.repaired.emplace();
  view.differences.emplace();
  view.differences->swaps = 1;
  view.differences->slots.push_back({.kind = "fan", .out = {}, .in = {}, .swaps = 1});
  return view;
}

TEST(RepairText, GainsNothingIsSaidOnlyWhenThatIsKnown) {
  Repair view = repaired();
  const std::string stopped = repair_text(view, plain);
  EXPECT_THAT(stopped, HasSubstr("Stopped before it was known what one swap more gains."));
  EXPECT_THAT(stopped, Not(HasSubstr("gains nothing")));
  view.one_more_known = true;
  EXPECT_THAT(repair_text(view, plain), HasSubstr("One swap more gains nothing."));
}

TEST(RepairText, AStoppedRepairClaimsNoProofOfTheScore) {
  Repair view = repaired();
  view.status = "not proven";
  const std::string text = repair_text(view, plain);
  EXPECT_THAT(text, HasSubstr("THE FEWEST SWAPS: 1"));
  EXPECT_THAT(text, HasSubstr("stopped before these were known to be the best"));
  EXPECT_THAT(text, Not(HasSubstr("proven: fewer")));
}

TEST(RepairText, OutOfReachOfNoneOneAndMoreSwaps) {
  Repair view;
  view.status = "out of reach";
  view.asked_at_most = 0;
  EXPECT_THAT(repair_text(view, plain), HasSubstr("As it is it does not satisfy its brief."));
  view.asked_at_most = 1;
  EXPECT_THAT(repair_text(view, plain), HasSubstr("It takes more than 1 swap to bring it back"));
  view.asked_at_most = 4;
  EXPECT_THAT(repair_text(view, plain), HasSubstr("It takes more than 4 swaps to bring it back"));
}

// 12.00 of score for 24.00 of price is 25.00 for 50.00.
TEST(FrontierText, GainsAreToldInMoneyOfTheMarket) {
  Frontier view;
  view.status = "proven";
  view.from = euro(50'000);
  view.to = euro(90'000);
  for (const std::int64_t price : {60'000, 62'400}) {
    FrontierStep& step = view.steps.emplace_back();
    step.build.prices = {euro(price)};
    step.build.markets = {"IE"};
    step.build.score = euro(100'000);
    step.covers_to = euro(90'000);
  }
  view.steps[1].gain = euro(1'200);
  view.steps[1].per_50 = euro(2'500);
  EXPECT_THAT(frontier_text(view, true, plain),
              HasSubstr("12.00 EUR more for 24.00 EUR (25.00 EUR of score for every 50.00 EUR)"));
}

}  // namespace
}  // namespace rigproof::sheet
