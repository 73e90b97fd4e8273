// Long jobs of the pages: asked, followed, stopped, and kept for who asks the same again.
#pragma once

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

/// May be used from many threads.
class Jobs {
 public:
  explicit Jobs(int threads);
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
  void work();
  void run(Job& job);
  void forget_key(const Job& job);
  void ended(Job& job);
  void forget_oldest();

  std::mutex mutex_;
  std::condition_variable changed_;
  std::map<std::string, std::shared_ptr<Job>> jobs_;
  std::map<std::string, std::string> by_key_;
  std::deque<std::shared_ptr<Job>> waiting_;
  std::uint64_t clock_ = 0;  ///< of uses, for forgetting
  std::size_t kept_bytes_ = 0;
  bool closed_ = false;
  std::vector<std::jthread> threads_;
};

/// Random, in 32 hexadecimal digits: nobody guesses it.
[[nodiscard]] std::string random_id();

}  // namespace rigproof::server
