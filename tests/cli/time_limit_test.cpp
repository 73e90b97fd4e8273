// A time limit: what is said when it ends the search is true, and it is no stop by the user.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/progress_words.hpp"
#include "cli/terminal.hpp"
#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

// Its search is by far the longest of the demo: most cards fit no such case.
const std::string boat_locker = "demo/briefs/boat-locker.toml";

Ran plan_within(const std::string& seconds, std::vector<std::string> more = {}) {
  std::vector<std::string> args = {"plan",       boat_locker,    "--catalog",
                                   demo_catalog, "--time-limit", seconds};
  args.insert(args.end(), more.begin(), more.end());
  return rigproof(args);
}

TEST(TimeLimit, TheBoundIsTrue) {
  const Json full =
      json_of(rigproof({"plan", boat_locker, "--catalog", demo_catalog, "--json"}).out);
  ASSERT_EQ(full.at("status"), "proven");
  EXPECT_FALSE(full.at("proof").contains("at_most_more"));
  const std::int64_t best = full.at("builds").at(0).at("score").at("minor");
  int stopped = 0;
  for (const std::string seconds : {"0.0001", "0.02", "0.1", "0.2", "0.3"}) {
    const Ran ran = plan_within(seconds, {"--json"});
    EXPECT_THAT(ran.err, IsEmpty());
    EXPECT_THAT(schema_complaints("plan", ran.out), IsEmpty());
    EXPECT_NE(ran.exit_code, 6) << "a time limit is no stop by the user";
    const Json plan = json_of(ran.out);
    if (plan.at("status") == "proven") continue;  // a fast machine
    ++stopped;
    EXPECT_EQ(plan.at("status"), "not proven");
    const Json& proof = plan.at("proof");
    EXPECT_GE(proof.at("bound").at("minor").get<std::int64_t>(), best) << seconds;
    EXPECT_EQ(proof.at("stopped_after_s"), std::stod(seconds));
    if (plan.at("builds").empty()) {
      EXPECT_EQ(ran.exit_code, 5) << "nothing found in time: whether there is a build is unknown";
      EXPECT_FALSE(proof.contains("at_most_more"));
      continue;
    }
    const std::int64_t found = plan.at("builds").at(0).at("score").at("minor");
    EXPECT_LE(found, best);
    EXPECT_EQ(proof.at("at_most_more").at("minor"),
              proof.at("bound").at("minor").get<std::int64_t>() - found);
  }
  EXPECT_GE(stopped, 1) << "no limit was short enough to stop the search";
}

TEST(TimeLimit, TheTextSaysHowMuchMoreThereCanBe) {
  for (const bool short_form : {false, true}) {
    const Ran ran = plan_within(
        "0.0001", short_form ? std::vector<std::string>{"--short"} : std::vector<std::string>{});
    EXPECT_THAT(ran.out, HasSubstr("not proven"));
    EXPECT_THAT(ran.out, HasSubstr("Stopped after 1e-04 s"));
    EXPECT_THAT(ran.out, testing::Not(HasSubstr("No build satisfies")));
  }
}

TEST(TimeLimit, LongEnoughChangesNothing) {
  const Ran without = rigproof({"plan", high_refresh, "--catalog", demo_catalog, "--json"});
  const Ran within =
      rigproof({"plan", high_refresh, "--catalog", demo_catalog, "--json", "--time-limit", "600"});
  EXPECT_EQ(within.out, without.out);
  EXPECT_EQ(within.exit_code, without.exit_code);
}

// Known to be impossible, but not yet why.
TEST(TimeLimit, InTheMiddleOfTheConflicts) {
  const Ran ran =
      rigproof({"plan", impossible, "--catalog", demo_catalog, "--json", "--time-limit", "0.0001"});
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(schema_complaints("plan", ran.out), IsEmpty());
  EXPECT_EQ(json_of(ran.out).at("status"), "impossible");
}

TEST(TimeLimit, RefusesWhatIsNoTime) {
  for (const std::string seconds : {"0", "-1", "nan", "inf", "1e9", "soon", ""}) {
    const Ran ran = plan_within(seconds);
    EXPECT_EQ(ran.exit_code, 2) << seconds;
    EXPECT_THAT(ran.out, IsEmpty()) << seconds;
    EXPECT_THAT(ran.err, HasSubstr("--time-limit")) << seconds;
  }
}

TEST(ProgressWords, TellBestBoundAndGap) {
  const Currency euro = parse_currency("EUR").value_or(Currency{});
  EXPECT_EQ(app::progress_words(
                {.nodes = 4096, .bound = 123400, .has_best = false, .best_score = 0}, euro),
            "4,096 choices looked at, none scores over 1,234.00 EUR");
  EXPECT_EQ(app::progress_words(
                {.nodes = 1048576, .bound = 123400, .has_best = true, .best_score = 120000}, euro),
            "1,048,576 choices looked at, best 1,200.00 EUR, at most 34.00 EUR more (2.8 %)");
  EXPECT_EQ(
      app::progress_words({.nodes = 512,
                           .bound = 120100,
                           .has_best = true,
                           .best_score = 120000,
                           .stairs = 12,
                           .under_cap = 81234},
                          euro),
      "12 steps found, now looking for the best under 812.34 EUR; 512 choices looked at, best "
      "1,200.00 EUR, at most 1.00 EUR more (0.1 %)");
}

}  // namespace
}  // namespace rigproof::cli_test
