// Questions of the pages as jobs: asked, followed, stopped, and kept for who asks the same again.
// Searches, which may take minutes, have threads of their own: what is answered in a moment never
// waits behind them.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "server/library.hpp"
#include "server/questions.hpp"

namespace rigproof::server {

enum class JobState { waiting, running, done, stopped, failed };
[[nodiscard]] std::string_view name_of(JobState state);

/// A job as it stood at one moment.
struct JobView {
  std::string id, question;
  JobState state = JobState::waiting;
  std::string progress;    ///< in words; empty: nothing said yet
  std::uint64_t said = 0;  ///< grows with every word of progress and every change of state
  std::shared_ptr<const Answer> answer;  ///< when done; when stopped, what was found by then
  std::optional<Error> error;            ///< when failed
  [[nodiscard]] bool ended() const {
    return state != JobState::waiting && state != JobState::running;
  }
};

/// Answers that are kept, oldest use forgotten first.
inline constexpr std::size_t most_kept_jobs = 200;
inline constexpr std::size_t most_kept_bytes = 256ULL << 20;
inline constexpr std::size_t most_waiting_jobs = 64;
inline constexpr std::size_t most_inputs_bytes = 4ULL << 20;  ///< of one job
/// Questions that do not search, at a time.
inline constexpr std::size_t short_at_a_time = 2;
/// Nobody asked after a search for so long: it gives way to one that waits and is asked after.
inline constexpr std::chrono::milliseconds left_behind_after{10'000};

/// May be used from many threads.
class Jobs {
 public:
  /// In: how many searches run at a time. `left_behind` is for tests.
  explicit Jobs(int searches, std::chrono::milliseconds left_behind = left_behind_after);
  /// Asks all jobs to stop and waits for them.
  ~Jobs();
  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;

  /// In: inputs that were checked, with texts in place of ids. The same question about the same
  /// edition is the same job while that one waits, runs or is done, and nobody asked it to stop.
  /// Errors: conflict (too many are waiting), out_of_range (the inputs are too large).
  [[nodiscard]] Result<std::string> start(const Question& question, const Json& inputs,
                                          std::shared_ptr<const Edition> edition);
  [[nodiscard]] std::optional<JobView> view(const std::string& id);
  /// Waits until more was said than `said` or the job ended, at most so long. nullopt: no such job.
  [[nodiscard]] std::optional<JobView> follow(const std::string& id, std::uint64_t said,
                                              double most_s);
  /// Asks it to stop, for all who share it; one that waits ends at once. False: no such job.
  bool stop(const std::string& id);
  /// Asks every job to stop; nothing new begins.
  void close();

 private:
  struct Job;
  using Waiting = std::deque<std::shared_ptr<Job>>;
  Waiting& waiting_as(const Job& job);
  void work(Waiting& waiting);
  void run(Job& job);
  void ended_unbegun(Job& job);
  void tell_the_waiting();
  void make_room_for(const Job& job);
  void forget_key(const Job& job);
  void ended(Job& job);
  void forget_oldest();

  std::mutex mutex_;
  std::condition_variable changed_;
  std::map<std::string, std::shared_ptr<Job>> jobs_;
  std::map<std::string, std::string> by_key_;
  Waiting waiting_searches_, waiting_short_;
  std::chrono::milliseconds left_behind_;
  std::uint64_t clock_ = 0;  ///< of uses, for forgetting
  std::size_t kept_bytes_ = 0;
  bool closed_ = false;
  std::vector<std::jthread> threads_;
};

/// Random, in 32 hexadecimal digits: nobody guesses it.
[[nodiscard]] std::string random_id();

}  // namespace rigproof::server
