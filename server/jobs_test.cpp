// Jobs by themselves, with questions of the test's own that last as long as the test wants.
#include "server/jobs.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <stdexcept>

#include "tests/server/test_bench.hpp"

namespace rigproof::server_test {
namespace {

using server::Answer;
using server::Jobs;
using server::JobState;
using server::Question;
using server::Work;

constexpr double long_s = 60.0;  // reached only when something is wrong
constexpr std::uint64_t to_the_end = ~0ULL;

// A search: answers when it is stopped or let go, with how often it was asked.
struct Held {
  std::atomic<int> asked = 0;
  std::atomic<bool> let_go = false;
  Question question{.name = "held",
                    .about = "",
                    .searches = true,
                    .inputs = {},
                    .given = {},
                    .check = {},
                    .answer = [this](const Json& inputs, const Work& work) -> Result<Answer> {
                      const int times = ++asked;
                      if (inputs.contains("fail")) return bad_input("no. " + std::to_string(times));
                      if (inputs.contains("throw")) throw std::runtime_error("a fault");
                      work.say("begun");
                      while (!let_go && !work.stop())
                        std::this_thread::sleep_for(std::chrono::milliseconds(1));
                      return Answer{.json = R"({"found": )" + std::to_string(times) + "}"};
                    }};
};

class JobsTest : public testing::Test {
 protected:
  std::string start(Jobs& jobs, const Json& inputs) {
    const auto id = jobs.start(held.question, inputs, bench.library->edition());
    EXPECT_TRUE(id) << id.error().message;
    return id.value_or("");
  }
  static JobState ended(Jobs& jobs, const std::string& id) {
    return jobs.follow(id, to_the_end, long_s)->state;
  }
  void running(Jobs& jobs, const std::string& id) const {
    std::uint64_t said = 0;
    while (true) {
      const auto view = jobs.follow(id, said, long_s);
      if (view->state != JobState::waiting) return;
      said = view->said;
    }
  }

  Bench bench{0};
  Held held;
};

TEST_F(JobsTest, TheSameQuestionIsTheSameJob) {
  Jobs jobs(2);
  const std::string one = start(jobs, {{"x", 1}});
  EXPECT_EQ(start(jobs, {{"x", 1}}), one);
  EXPECT_NE(start(jobs, {{"x", 2}}), one);
  held.let_go = true;
  EXPECT_EQ(ended(jobs, one), JobState::done);
  EXPECT_EQ(start(jobs, {{"x", 1}}), one) << "done, its answer is kept";
  // Another edition of the catalog is another question.
  write_bytes(bench.table("gpu"), bytes_of(bench.table("gpu")) + "\n");
  bench.library->look_again();
  EXPECT_NE(start(jobs, {{"x", 1}}), one);
}

TEST_F(JobsTest, StopEndsWithWhatWasFound) {
  Jobs jobs(1);
  const std::string id = start(jobs, {{"x", 1}});
  running(jobs, id);
  // One that runs may be stopped before its question began: then there is nothing found.
  while (held.asked == 0) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  EXPECT_TRUE(jobs.stop(id));
  EXPECT_EQ(ended(jobs, id), JobState::stopped);
  ASSERT_TRUE(jobs.view(id)->answer);
  EXPECT_EQ(jobs.view(id)->answer->json, R"({"found": 1})");
  EXPECT_TRUE(jobs.stop(id)) << "once more is no harm";
  EXPECT_FALSE(jobs.stop("nobody"));
}

// Who asks again between the stop and its end gets an answer of their own, not the stopped one.
TEST_F(JobsTest, AStoppedJobIsNotShared) {
  Jobs jobs(1);
  const std::string stopped = start(jobs, {{"x", 1}});
  running(jobs, stopped);
  jobs.stop(stopped);
  const std::string again = start(jobs, {{"x", 1}});
  EXPECT_NE(again, stopped);
  held.let_go = true;
  EXPECT_EQ(ended(jobs, stopped), JobState::stopped);
  EXPECT_EQ(ended(jobs, again), JobState::done);
  EXPECT_EQ(start(jobs, {{"x", 1}}), again) << "the end of the first takes nothing from the second";
}

TEST_F(JobsTest, OneThatWaitsIsStoppedAtOnce) {
  Jobs jobs(1);
  running(jobs, start(jobs, {{"x", 1}}));
  const std::string waits = start(jobs, {{"x", 2}});
  EXPECT_EQ(jobs.view(waits)->state, JobState::waiting);
  jobs.stop(waits);
  EXPECT_EQ(jobs.view(waits)->state, JobState::stopped);
  EXPECT_FALSE(jobs.view(waits)->answer);
  held.let_go = true;
}

TEST_F(JobsTest, AFailedJobCanBeAskedAgain) {
  Jobs jobs(1);
  const std::string first = start(jobs, {{"fail", 1}});
  EXPECT_EQ(ended(jobs, first), JobState::failed);
  EXPECT_EQ(jobs.view(first)->error->message, "no. 1");
  const std::string second = start(jobs, {{"fail", 1}});
  EXPECT_NE(second, first);
  EXPECT_EQ(ended(jobs, second), JobState::failed);
  EXPECT_EQ(jobs.view(second)->error->message, "no. 2");
}

TEST_F(JobsTest, AFaultOfOursEndsTheJobAlone) {
  Jobs jobs(1);
  EXPECT_EQ(ended(jobs, start(jobs, {{"throw", 1}})), JobState::failed);
  held.let_go = true;
  EXPECT_EQ(ended(jobs, start(jobs, {{"x", 1}})), JobState::done);
}

TEST_F(JobsTest, SoManyMayWaitAndNoMore) {
  Jobs jobs(1);
  running(jobs, start(jobs, {{"x", -1}}));
  for (std::size_t i = 0; i < server::most_waiting_jobs; ++i) start(jobs, {{"x", i}});
  const auto more = jobs.start(held.question, {{"x", "more"}}, bench.library->edition());
  ASSERT_FALSE(more);
  EXPECT_EQ(more.error().code, ErrorCode::conflict);
  EXPECT_TRUE(jobs.start(held.question, {{"x", 0}}, bench.library->edition())) << "shared";
  held.let_go = true;
}

TEST_F(JobsTest, SoLargeMayInputsBe) {
  Jobs jobs(1);
  held.let_go = true;
  start(jobs, {{"x", std::string(server::most_inputs_bytes - 100, 'x')}});
  const auto more = jobs.start(held.question, {{"x", std::string(server::most_inputs_bytes, 'x')}},
                               bench.library->edition());
  ASSERT_FALSE(more);
  EXPECT_EQ(more.error().code, ErrorCode::out_of_range);
}

// The answer used longest ago goes first; what was looked at stays, and what is not done yet.
TEST_F(JobsTest, TheOldestIsForgotten) {
  Jobs jobs(2);
  held.let_go = true;
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < server::most_kept_jobs; ++i) {
    ids.push_back(start(jobs, {{"x", i}}));
    ASSERT_EQ(ended(jobs, ids.back()), JobState::done);
  }
  EXPECT_TRUE(jobs.view(ids[0]));  // used: no longer the oldest
  EXPECT_EQ(ended(jobs, start(jobs, {{"x", "one more"}})), JobState::done);
  EXPECT_TRUE(jobs.view(ids[0]));
  EXPECT_FALSE(jobs.view(ids[1]));
  EXPECT_TRUE(jobs.view(ids[2]));
  EXPECT_NE(start(jobs, {{"x", 1}}), ids[1]) << "asked again, it is done again";
}

TEST_F(JobsTest, LargeAnswersPushOthersOut) {
  Jobs jobs(1);
  const std::size_t half = server::most_kept_bytes / 2;
  const Question large{.name = "large",
                       .about = "",
                       .inputs = {},
                       .given = {},
                       .check = {},
                       .answer = [&](const Json&, const Work&) -> Result<Answer> {
                         return Answer{.json = "{}", .files = {{"f", std::string(half, 'x')}}};
                       }};
  std::vector<std::string> ids;
  for (int i = 0; i < 3; ++i) {
    ids.push_back(jobs.start(large, {{"x", i}}, bench.library->edition()).value());
    ASSERT_EQ(ended(jobs, ids.back()), JobState::done);
  }
  EXPECT_FALSE(jobs.view(ids[0]));
  EXPECT_FALSE(jobs.view(ids[1]));
  EXPECT_TRUE(jobs.view(ids[2])) << "two of them are more than is kept, by two bytes each";
}

// What is answered in a moment has threads of its own, however many searches run and wait.
TEST_F(JobsTest, AShortQuestionDoesNotWaitForSearches) {
  Jobs jobs(1);
  running(jobs, start(jobs, {{"x", 1}}));
  start(jobs, {{"x", 2}});
  const Question quick{
      .name = "quick",
      .about = "",
      .inputs = {},
      .given = {},
      .check = {},
      .answer = [](const Json&, const Work&) -> Result<Answer> { return Answer{.json = "{}"}; }};
  const auto id = jobs.start(quick, Json::object(), bench.library->edition());
  ASSERT_TRUE(id);
  EXPECT_EQ(ended(jobs, *id), JobState::done);
  held.let_go = true;
}

TEST_F(JobsTest, ASearchThatWaitsSaysForHowMany) {
  Jobs jobs(1);
  const std::string first = start(jobs, {{"x", 1}});
  running(jobs, first);
  const std::string second = start(jobs, {{"x", 2}});
  const std::string third = start(jobs, {{"x", 3}});
  EXPECT_EQ(jobs.view(second)->progress, "waits for 1 search asked before it");
  EXPECT_EQ(jobs.view(third)->progress, "waits for 2 searches asked before it");
  const std::uint64_t said = jobs.view(third)->said;
  jobs.stop(second);
  EXPECT_EQ(jobs.view(third)->progress, "waits for 1 search asked before it");
  EXPECT_GT(jobs.view(third)->said, said) << "who follows it is told";
  held.let_go = true;
  EXPECT_EQ(ended(jobs, third), JobState::done);
}

// A brief was changed four times: the searches of its older texts do not stand before the newest.
TEST_F(JobsTest, SearchesLeftBehindGiveWay) {
  Jobs jobs(1, std::chrono::milliseconds(50));
  std::vector<std::string> left;
  for (int i = 0; i < 3; ++i) left.push_back(start(jobs, {{"x", i}}));
  running(jobs, left[0]);
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  EXPECT_EQ(jobs.view(left[0])->state, JobState::running) << "nobody needs its place";
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  const std::string newest = start(jobs, {{"x", "newest"}});
  running(jobs, newest);
  EXPECT_EQ(jobs.view(newest)->state, JobState::running);
  for (const std::string& id : left) EXPECT_EQ(ended(jobs, id), JobState::stopped);
  held.let_go = true;
  EXPECT_EQ(ended(jobs, newest), JobState::done);
}

// One whose progress somebody reads keeps its place however long it takes.
TEST_F(JobsTest, ASearchThatIsFollowedGivesNoWay) {
  Jobs jobs(1, std::chrono::milliseconds(4'000));
  const std::string followed = start(jobs, {{"x", 1}});
  running(jobs, followed);
  auto follower = std::async(std::launch::async, [&] { return ended(jobs, followed); });
  const std::string waits = start(jobs, {{"x", 2}});
  EXPECT_EQ(jobs.follow(waits, to_the_end, 6.0)->state, JobState::waiting);
  held.let_go = true;
  EXPECT_EQ(follower.get(), JobState::done);
  EXPECT_EQ(ended(jobs, waits), JobState::done);
}

// Ends what runs and waits, and wakes who follows.
TEST_F(JobsTest, CloseEndsAll) {
  Jobs jobs(1);
  const std::string runs = start(jobs, {{"x", 1}});
  const std::string waits = start(jobs, {{"x", 2}});
  running(jobs, runs);
  auto follower = std::async(std::launch::async,
                             [&] { return jobs.follow(waits, to_the_end, long_s).has_value(); });
  jobs.close();
  EXPECT_EQ(follower.wait_for(std::chrono::seconds(10)), std::future_status::ready);
  EXPECT_FALSE(jobs.start(held.question, {{"x", 3}}, bench.library->edition()));
}

TEST_F(JobsTest, ProgressIsFollowed) {
  Jobs jobs(1);
  const std::string id = start(jobs, {{"x", 1}});
  std::uint64_t said = 0;
  std::string words;
  while (words.empty()) {
    const auto view = jobs.follow(id, said, long_s);
    ASSERT_GT(view->said, said);
    said = view->said;
    words = view->progress;
  }
  EXPECT_EQ(words, "begun");
  EXPECT_EQ(jobs.follow(id, said, 0.01)->said, said) << "nothing new: it waits, and no longer";
  held.let_go = true;
  EXPECT_EQ(ended(jobs, id), JobState::done);
  EXPECT_FALSE(jobs.follow("nobody", 0, 0.0));
}

TEST(RandomId, NobodyGuessesIt) {
  const std::string one = server::random_id();
  EXPECT_EQ(one.size(), 32U);
  EXPECT_EQ(one.find_first_not_of("0123456789abcdef"), std::string::npos);
  EXPECT_NE(one, server::random_id());
}

}  // namespace
}  // namespace rigproof::server_test
