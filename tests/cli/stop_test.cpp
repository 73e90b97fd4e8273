// Stopping: Ctrl-C in the middle of a plan, made certain by holding the terminal that the progress
// line goes to; and the plan stopped after n questions through the library.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <csignal>

#include "app/plan_brief.hpp"
#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

// The terminal's output is stopped (as Ctrl-S does), so the program waits inside its first progress
// line, in the middle of the search; the signal comes while it waits; then the terminal goes on.
Ran interrupted(std::vector<std::string> args, int signal) {
  Child child({.args = std::move(args), .err = Stream::terminal}, true);
  EXPECT_TRUE(child.waits_with_sigint_caught(60.0)) << "no progress line was begun";
  ::kill(child.pid(), signal);
  child.release_stderr();
  return child.finish();
}

TEST(Stop, InterruptEndsThePlanWithWhatIsKnown) {
  for (const int signal : {SIGINT, SIGTERM}) {
    const Ran ran = interrupted({"plan", living_room, "--catalog", demo_catalog, "--json"}, signal);
    EXPECT_EQ(ran.signal, 0);
    EXPECT_EQ(ran.exit_code, 6);
    EXPECT_THAT(schema_complaints("plan", ran.out), IsEmpty());
    const Json plan = json_of(ran.out);
    EXPECT_EQ(plan.at("status"), "not proven");
    // What it knows is true: nothing scores above the bound, and the full plan's best is within it.
    const std::int64_t bound = plan.at("proof").at("bound").at("minor");
    const Json full =
        json_of(rigproof({"plan", living_room, "--catalog", demo_catalog, "--json"}).out);
    ASSERT_EQ(full.at("status"), "proven");
    const std::int64_t best = full.at("builds").at(0).at("score").at("minor");
    EXPECT_GE(bound, best);
    if (plan.at("builds").empty()) continue;  // the stop came before the first build
    EXPECT_LE(plan.at("builds").at(0).at("score").at("minor").get<std::int64_t>(), best);
  }
}

TEST(Stop, InterruptInHumanText) {
  const Ran ran = interrupted({"plan", living_room, "--catalog", demo_catalog}, SIGINT);
  EXPECT_EQ(ran.exit_code, 6);
  EXPECT_THAT(ran.out, HasSubstr("not proven"));
  EXPECT_THAT(ran.out, HasSubstr("PROOF"));
}

TEST(Stop, ASheetIsWholeOrNotThere) {
  const Folder folder;
  const Ran ran = interrupted({"plan", living_room, "--catalog", demo_catalog, "--sheet",
                               folder / "s", "--save", folder / "b.toml"},
                              SIGINT);
  EXPECT_EQ(ran.exit_code, 6);
  const auto names = folder.names();
  for (const std::string& name : names) EXPECT_TRUE(name == "s" || name == "b.toml") << name;
  if (std::filesystem::exists(folder / "s")) {
    EXPECT_EQ(folder.names("s"),
              (std::vector<std::string>{"claims.csv", "drawing.svg", "parts.csv", "physics.json",
                                        "prices.csv", "sheet.html", "sheet.md"}));
    EXPECT_THAT(bytes_of(folder / "s/sheet.html"), HasSubstr("</html>"));
    EXPECT_THAT(bytes_of(folder / "s/sheet.md"), HasSubstr("not proven"));
  }
}

// Runner-ups are the long part of a sheet: stopped there, no file is written.
TEST(Stop, SheetOfAGivenBuildStoppedOnTheWay) {
  const Folder folder;
  ASSERT_EQ(rigproof({"plan", high_refresh, "--catalog", demo_catalog, "--save", folder / "b.toml"})
                .exit_code,
            0);
  const Ran ran = interrupted({"sheet", folder / "b.toml", "-o", folder / "s", "--catalog",
                               demo_catalog, "--brief", high_refresh},
                              SIGINT);
  EXPECT_EQ(ran.exit_code, 6);
  EXPECT_THAT(ran.out, IsEmpty());
  EXPECT_FALSE(std::filesystem::exists(folder / "s"));
}

// The first Ctrl-C asks, the second one ends the program at once, by the signal.
TEST(Stop, SecondInterruptEndsAtOnce) {
  Child child({.args = {"plan", living_room, "--catalog", demo_catalog}, .err = Stream::terminal},
              true);
  ASSERT_TRUE(child.waits_with_sigint_caught(60.0));
  ::kill(child.pid(), SIGINT);
  ASSERT_TRUE(child.waits_with_sigint_caught(60.0)) << "the first signal was not only asked for";
  ::kill(child.pid(), SIGINT);
  const Ran ran = child.finish();
  EXPECT_EQ(ran.signal, SIGINT);
  EXPECT_THAT(ran.out, IsEmpty());
}

// Through the library: whatever the number of questions before it is told to stop, what is said
// holds. The first ten and the last are tried, and thirty between.
TEST(Stop, AfterAnyNumberOfQuestionsTheBoundHolds) {
  const auto workshop = app::open_workshop(demo_catalog);
  ASSERT_TRUE(workshop);
  const auto brief = app::open_brief(living_room, workshop->catalog);
  ASSERT_TRUE(brief);
  const auto whole = app::Planning::start(*workshop, *brief);
  ASSERT_TRUE(whole);
  int questions = 0;
  const auto proven = app::plan_brief(
      *workshop, **whole,
      {.best = 3, .job = {.stop = [&] { return ++questions, false; }, .progress = {}}});
  ASSERT_EQ(proven.status, plan::Outcome::Status::proven);
  ASSERT_GT(questions, 1);
  const std::int64_t best = proven.choices.front().score;
  const int stride = 1 + questions / 30;
  for (int after = 1; after <= questions;
       after += after < 10 || after + stride > questions ? 1 : stride) {
    const auto planning = app::Planning::start(*workshop, *brief);
    ASSERT_TRUE(planning);
    int asked = 0;
    const auto stopped = app::plan_brief(
        *workshop, **planning,
        {.best = 3, .job = {.stop = [&] { return ++asked >= after; }, .progress = {}}});
    EXPECT_TRUE(stopped.stopped);
    EXPECT_GE(stopped.view.proof.bound.minor, best) << after;
    if (stopped.status == plan::Outcome::Status::proven)
      continue;  // the last question comes after the search
    EXPECT_EQ(stopped.view.proof.status, "not proven") << after;
    if (stopped.choices.empty()) continue;
    EXPECT_LE(stopped.choices.front().score, best) << after;
    EXPECT_NE(stopped.standing, app::Standing::fails) << "the best found does not stand: " << after;
  }
}

}  // namespace
}  // namespace rigproof::cli_test
