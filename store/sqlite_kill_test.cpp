// A writer killed at random moments, 200 times: what it said was committed is there whole, and of
// nothing is there half. And two writers at once: no change is lost.
//
// SIGKILL ends the process, not the machine: what the system holds of the file still reaches it.
// That a power cut takes nothing either rests on synchronous=FULL and is not tested here.
#include <gtest/gtest.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <map>
#include <random>
#include <thread>

#include "store/kill_writer.hpp"
#include "tests/support/test_folder.hpp"

extern char** environ;

namespace rigproof::store {
namespace {

using test_support::TestFolder;

/// A child that runs the writer; its standard output comes through a pipe.
class Writer {
 public:
  Writer(const std::string& file, const std::string& mode, std::int64_t number) {
    std::array<int, 2> ends{};
    if (pipe(ends.data()) != 0) throw std::runtime_error("no pipe");
    posix_spawn_file_actions_t actions{};
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
    posix_spawn_file_actions_addclose(&actions, ends[0]);
    posix_spawn_file_actions_addclose(&actions, ends[1]);
    std::array<std::string, 4> words{RP_KILL_WRITER, file, mode, std::to_string(number)};
    std::array<char*, 5> arguments{words[0].data(), words[1].data(), words[2].data(),
                                   words[3].data(), nullptr};
    const int spawned =
        posix_spawn(&process_, RP_KILL_WRITER, &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    close(ends[1]);
    output_ = ends[0];
    if (spawned != 0) throw std::runtime_error("the writer does not start");
  }
  ~Writer() {
    if (process_ > 0) {
      kill(process_, SIGKILL);
      static_cast<void>(end());
    }
    close(output_);
  }
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;

  void kill_now() { kill(process_, SIGKILL); }
  /// Waits for the first `size` bytes it says.
  void wait_for(std::size_t size) {
    while (said_.size() < size && read_more()) {
    }
  }
  /// Waits for its end and gives all it said.
  std::string said() {
    while (read_more()) {
    }
    return said_;
  }
  /// Status of waitpid.
  int end() {
    int status = 0;
    waitpid(process_, &status, 0);
    process_ = 0;
    return status;
  }

 private:
  bool read_more() {
    std::array<char, 4096> buffer{};
    const ssize_t got = read(output_, buffer.data(), buffer.size());
    if (got > 0) said_.append(buffer.data(), static_cast<std::size_t>(got));
    return got > 0;
  }

  pid_t process_ = 0;
  int output_ = -1;
  std::string said_;
};

/// What writers said of one file so far.
struct Said {
  std::int64_t batch = 0;     ///< highest price batch; they count from 1
  std::int64_t revision = 0;  ///< newest of the journal

  void take(std::string_view lines) {
    while (!lines.empty()) {
      const std::size_t end = lines.find('\n');
      ASSERT_NE(end, std::string_view::npos) << "a line is written in one go";
      std::int64_t number = 0;
      std::from_chars(lines.data() + 2, lines.data() + end, number);
      (lines[0] == 'p' ? batch : revision) = number;
      lines.remove_prefix(end + 1);
    }
  }
};

struct Verdict {
  std::int64_t batches = 0;          ///< whole ones in the file
  std::int64_t torn = 0;             ///< batches of which some offers are there
  std::int64_t revisions = 0;        ///< of the journal
  std::string wrong{};               ///< empty: all that was said is there, and as it was given
  std::vector<std::string> check{};  ///< what the store itself finds
};

Verdict judge(Store& store, const Said& said) {
  Verdict verdict{.check = store.check().value()};
  std::map<std::string, std::int64_t> offers_by_origin;
  for (int part = 0; part < kill_writer::parts; ++part) {
    const auto series = store.price_series(kill_writer::part_of(part)).value();
    for (const PricePoint& point : series) {
      ++offers_by_origin[point.origin];
      if (point.origin != kill_writer::origin_of(point.offer.price.minor))
        verdict.wrong += point.origin + " holds a price of another; ";
    }
  }
  for (const auto& [origin, offers] : offers_by_origin)
    ++(offers == kill_writer::offers_per_batch ? verdict.batches : verdict.torn);
  for (std::int64_t number = 1; number <= said.batch; ++number)
    if (offers_by_origin[kill_writer::origin_of(number)] != kill_writer::offers_per_batch)
      verdict.wrong += kill_writer::origin_of(number) + " was committed and is not whole; ";

  const auto documents = store.documents(DocumentKind::brief).value();
  if (documents.size() > 1) verdict.wrong += "two journals; ";
  if (documents.size() == 1) verdict.revisions = documents[0].revision;
  for (std::int64_t revision = 1; revision <= verdict.revisions; ++revision)
    if (store.document(documents[0].id, revision)->text != kill_writer::text_of(revision))
      verdict.wrong += fmt::format("revision {} is not what was given; ", revision);
  if (verdict.revisions < said.revision) verdict.wrong += "a committed revision is gone; ";
  return verdict;
}

TEST(SqliteKill, NothingCommittedIsLostAndNothingIsHalf) {
  constexpr int kills = 200;
  constexpr int kills_per_file = 20;  // so that making a file is met too, and files stay small
  std::mt19937 random(20261128);
  std::int64_t committed = 0;
  int before_the_first = 0;
  int unsaid = 0;  // all pages written, but killed before it was said
  for (int file = 0; file < kills / kills_per_file; ++file) {
    const TestFolder folder;
    const std::string path = folder.file("workshop.db");
    Said said;
    std::int64_t there = 0;
    for (int kill = 0; kill < kills_per_file; ++kill) {
      Writer writer(path, "batches", there + 1);
      // Every other one is killed after some commits, however slow the machine; the rest from its
      // very start on.
      if (kill % 2 == 1) writer.wait_for(4 + random() % 80);
      std::this_thread::sleep_for(
          std::chrono::microseconds(random() % (kill % 4 == 2 ? 30'000 : 6'000)));
      writer.kill_now();
      const std::string lines = writer.said();
      const int status = writer.end();
      ASSERT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL) << "it ended by itself";
      before_the_first += lines.empty() ? 1 : 0;
      said.take(lines);
      const auto store = open_store("sqlite:" + path);
      ASSERT_TRUE(store) << store.error().message;
      const Verdict verdict = judge(**store, said);
      ASSERT_EQ(verdict.check, std::vector<std::string>{});
      ASSERT_EQ(verdict.wrong, "");
      ASSERT_EQ(verdict.torn, 0);
      // One more than was said may be there: killed between commit and word.
      const std::int64_t more = verdict.batches + verdict.revisions - said.batch - said.revision;
      ASSERT_TRUE(more == 0 || more == 1) << more;
      unsaid += static_cast<int>(more);
      said.batch = there = verdict.batches;
      said.revision = verdict.revisions;
    }
    committed += said.batch + said.revision;
  }
  std::cout << kills << " kills, " << committed << " commits, " << before_the_first
            << " before the first word, " << unsaid << " with the last pages, before the word\n";
  EXPECT_GT(committed, kills) << "else the kills met no work";
  EXPECT_GT(before_the_first, 0);
}

TEST(SqliteKill, TheJudgeSeesABatchThatIsTorn) {
  std::mt19937 random(3);
  std::int64_t torn = 0;
  for (int kill = 0; kill < 100 && torn == 0; ++kill) {
    const TestFolder folder;
    Said said;
    {
      Writer writer(folder.file("workshop.db"), "torn", 1);
      writer.wait_for(4);
      std::this_thread::sleep_for(std::chrono::microseconds(random() % 30'000));
      writer.kill_now();
      said.take(writer.said());
    }
    const auto store = open_store("sqlite:" + folder.file("workshop.db"));
    ASSERT_TRUE(store) << store.error().message;
    torn = judge(**store, said).torn;
  }
  EXPECT_GT(torn, 0);
}

TEST(SqliteKill, TheJudgeMissesWhatIsNotThere) {
  const TestFolder folder;
  const auto store = open_store("sqlite:" + folder.file("workshop.db"));
  ASSERT_TRUE(store);
  ASSERT_TRUE((*store)->append_prices(kill_writer::batch_of(1)));
  EXPECT_EQ(judge(**store, {.batch = 1}).wrong, "");
  EXPECT_NE(judge(**store, {.batch = 2}).wrong, "");
  EXPECT_NE(judge(**store, {.batch = 1, .revision = 1}).wrong, "");
}

TEST(SqliteContention, TwoProcessesLoseNoChange) {
  constexpr std::int64_t times = 100;
  const TestFolder folder;
  const auto store = open_store("sqlite:" + folder.file("workshop.db"));
  ASSERT_TRUE(store);
  const auto counter = (*store)->add_document({.kind = DocumentKind::mapping,
                                               .name = kill_writer::counter_name,
                                               .text = "0",
                                               .saved_at = {0}});
  ASSERT_TRUE(counter);
  Writer one(folder.file("workshop.db"), "count", times);
  Writer two(folder.file("workshop.db"), "count", times);
  const std::string said_one = one.said();
  const std::string said_two = two.said();
  EXPECT_EQ(one.end(), 0);
  EXPECT_EQ(two.end(), 0);
  const auto end = (*store)->document(counter->id);
  ASSERT_TRUE(end);
  EXPECT_EQ(end->text, std::to_string(2 * times));
  EXPECT_EQ(end->info.revision, 1 + 2 * times);
  EXPECT_EQ((*store)->check().value(), std::vector<std::string>{});
  const std::string said = said_one + said_two;
  EXPECT_EQ(std::ranges::count(said, 'c'), 2 * times);
  EXPECT_GT(std::ranges::count(said, 'x'), 0) << "else they were not at it together";
}

TEST(SqliteContention, TwoProcessesMayMakeTheFileAtOnce) {
  for (int round = 0; round < 30; ++round) {
    const TestFolder folder;
    const std::string path = folder.file("workshop.db");
    Writer one(path, "once", 1);
    Writer two(path, "once", 2);
    EXPECT_EQ(one.said(), "p 1\n");
    EXPECT_EQ(two.said(), "p 2\n");
    EXPECT_EQ(one.end(), 0);
    EXPECT_EQ(two.end(), 0);
    const auto store = open_store("sqlite:" + path);
    ASSERT_TRUE(store) << store.error().message;
    const Verdict verdict = judge(**store, {.batch = 2});
    EXPECT_EQ(verdict.wrong, "");
    EXPECT_EQ(verdict.check, std::vector<std::string>{});
  }
}

}  // namespace
}  // namespace rigproof::store
