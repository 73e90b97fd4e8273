#include "server/jobs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <exception>
#include <random>

#include "store/sha256.hpp"

namespace rigproof::server {
namespace {

using Clock = std::chrono::steady_clock;

// While a job waits, whoever follows it looks so often whether room can be made for it.
constexpr double look_again_s = 0.5;

}  // namespace

struct Jobs::Job {
  JobView view;
  const Question* question = nullptr;
  Json inputs;
  std::shared_ptr<const Edition> edition;  ///< let go of when it ended
  std::string key;
  std::atomic<bool> stop = false;
  std::uint64_t used = 0;
  Clock::time_point asked_after;  ///< when somebody last wanted to know
  std::size_t bytes = 0;

  [[nodiscard]] bool searches() const { return question->searches; }
};

std::string_view name_of(JobState state) {
  switch (state) {
    case JobState::waiting:
      return "waiting";
    case JobState::running:
      return "running";
    case JobState::done:
      return "done";
    case JobState::stopped:
      return "stopped";
    case JobState::failed:
      return "failed";
  }
  return "failed";
}

std::string random_id() {
  std::random_device source;
  return fmt::format("{:08x}{:08x}{:08x}{:08x}", source(), source(), source(), source());
}

Jobs::Jobs(int searches, std::chrono::milliseconds left_behind) : left_behind_(left_behind) {
  threads_.reserve(static_cast<std::size_t>(searches) + short_at_a_time);
  for (int i = 0; i < searches; ++i) threads_.emplace_back([this] { work(waiting_searches_); });
  for (std::size_t i = 0; i < short_at_a_time; ++i)
    threads_.emplace_back([this] { work(waiting_short_); });
}

Jobs::~Jobs() { close(); }

void Jobs::close() {
  const std::scoped_lock lock(mutex_);
  closed_ = true;
  for (const auto& [id, job] : jobs_) job->stop = true;
  changed_.notify_all();
}

Result<std::string> Jobs::start(const Question& question, const Json& inputs,
                                std::shared_ptr<const Edition> edition) {
  const std::string asked = inputs.dump(-1, ' ', false, Json::error_handler_t::replace);
  if (asked.size() > most_inputs_bytes)
    return fail(ErrorCode::out_of_range,
                fmt::format("the inputs are larger than {} MiB", most_inputs_bytes >> 20U));
  const std::string key =
      store::sha256(fmt::format("{}\n{}\n{}", question.name, edition->revision, asked));
  const std::scoped_lock lock(mutex_);
  if (const auto known = by_key_.find(key); known != by_key_.end()) {
    jobs_.at(known->second)->used = ++clock_;
    jobs_.at(known->second)->asked_after = Clock::now();
    return known->second;
  }
  const std::size_t waiting = waiting_searches_.size() + waiting_short_.size();
  if (closed_ || waiting >= most_waiting_jobs)
    return fail(ErrorCode::conflict,
                fmt::format("{} jobs are waiting already; stop one or wait", waiting));
  auto job = std::make_shared<Job>();
  job->view.id = random_id();
  job->view.question = question.name;
  job->question = &question;
  job->inputs = inputs;
  job->edition = std::move(edition);
  job->key = key;
  job->used = ++clock_;
  job->asked_after = Clock::now();
  jobs_.emplace(job->view.id, job);
  by_key_.emplace(key, job->view.id);
  waiting_as(*job).push_back(job);
  tell_the_waiting();
  changed_.notify_all();
  return job->view.id;
}

std::optional<JobView> Jobs::view(const std::string& id) {
  const std::scoped_lock lock(mutex_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end()) return {};
  const std::shared_ptr<Job> job = found->second;
  job->used = ++clock_;
  job->asked_after = Clock::now();
  make_room_for(*job);
  return job->view;
}

std::optional<JobView> Jobs::follow(const std::string& id, std::uint64_t said, double most_s) {
  std::unique_lock lock(mutex_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end()) return {};
  const std::shared_ptr<Job> job = found->second;
  const auto over = [&] { return closed_ || job->view.said > said || job->view.ended(); };
  const auto until = Clock::now() + std::chrono::duration<double>(most_s);
  while (true) {
    const auto now = Clock::now();
    job->asked_after = now;
    make_room_for(*job);
    if (over() || now >= until) return job->view;
    const std::chrono::duration<double> left = until - now;
    changed_.wait_for(lock, std::min(left, std::chrono::duration<double>(look_again_s)), over);
  }
}

bool Jobs::stop(const std::string& id) {
  const std::scoped_lock lock(mutex_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end()) return false;
  const std::shared_ptr<Job> job = found->second;
  job->stop = true;
  if (job->view.ended()) return true;
  forget_key(*job);
  if (job->view.state == JobState::waiting) {
    std::erase(waiting_as(*job), job);
    ended_unbegun(*job);
  }
  return true;
}

Jobs::Waiting& Jobs::waiting_as(const Job& job) {
  return job.searches() ? waiting_searches_ : waiting_short_;
}

void Jobs::ended_unbegun(Job& job) {
  job.view.state = JobState::stopped;
  job.view.progress.clear();
  ended(job);
  tell_the_waiting();
}

// Each search that waits says for how many.
void Jobs::tell_the_waiting() {
  std::size_t before = 0;
  for (const auto& [id, job] : jobs_)
    if (job->view.state == JobState::running && job->searches()) ++before;
  for (const std::shared_ptr<Job>& job : waiting_searches_) {
    std::string words = before == 0 ? std::string()
                                    : fmt::format("waits for {} {} asked before it", before,
                                                  before == 1 ? "search" : "searches");
    ++before;
    if (words == job->view.progress) continue;
    job->view.progress = std::move(words);
    ++job->view.said;
  }
  changed_.notify_all();
}

// Searches that nobody asks after, as their page was left or its brief changed, give way to one
// that waits: those before it that wait too are dropped, one that runs is asked to stop.
void Jobs::make_room_for(const Job& job) {
  if (job.view.state != JobState::waiting || !job.searches()) return;
  const auto long_ago = Clock::now() - left_behind_;
  std::vector<std::shared_ptr<Job>> dropped;
  for (const std::shared_ptr<Job>& other : waiting_searches_)
    if (other.get() != &job && other->asked_after < long_ago) dropped.push_back(other);
  for (const std::shared_ptr<Job>& other : dropped) {
    std::erase(waiting_searches_, other);
    other->stop = true;
    ended_unbegun(*other);
  }
  if (waiting_searches_.empty() || waiting_searches_.front().get() != &job) return;
  std::shared_ptr<Job> oldest;
  for (const auto& [id, other] : jobs_) {
    if (other->view.state != JobState::running || !other->searches()) continue;
    if (other->stop) return;  // it ends soon: that is room enough
    if (other->asked_after < long_ago && (!oldest || other->asked_after < oldest->asked_after))
      oldest = other;
  }
  if (!oldest) return;
  oldest->stop = true;
  forget_key(*oldest);
}

// Who asks the same from now on gets a job of their own.
void Jobs::forget_key(const Job& job) {
  const auto known = by_key_.find(job.key);
  if (known != by_key_.end() && known->second == job.view.id) by_key_.erase(known);
}

// What only the work needed is let go of.
void Jobs::ended(Job& job) {
  if (job.view.state != JobState::done) forget_key(job);
  job.edition.reset();
  job.inputs = nullptr;
  ++job.view.said;
  forget_oldest();
  changed_.notify_all();
}

void Jobs::work(Waiting& waiting) {
  while (true) {
    std::shared_ptr<Job> job;
    {
      std::unique_lock lock(mutex_);
      changed_.wait(lock, [&] { return closed_ || !waiting.empty(); });
      if (waiting.empty()) return;
      job = waiting.front();
      waiting.pop_front();
      job->view.state = JobState::running;
      job->view.progress.clear();
      ++job->view.said;
      tell_the_waiting();
    }
    run(*job);
  }
}

void Jobs::run(Job& job) {
  Result<Answer> made = fail(ErrorCode::stopped, "stopped before it began");
  if (!job.stop) {
    const Work work{.workshop = job.edition->workshop,
                    .stop = [&job] { return job.stop.load(std::memory_order_relaxed); },
                    .say =
                        [this, &job, last = Clock::time_point()](std::string words) mutable {
                          const auto now = Clock::now();
                          if (now - last < std::chrono::milliseconds(100)) return;
                          last = now;
                          const std::scoped_lock lock(mutex_);
                          job.view.progress = std::move(words);
                          ++job.view.said;
                          changed_.notify_all();
                        }};
    try {
      made = job.question->answer(job.inputs, work);
    } catch (const std::exception& fault) {  // a mistake of ours must not end the service
      made = fail(ErrorCode::io, fmt::format("an internal fault: {}", fault.what()));
    }
  }
  const std::scoped_lock lock(mutex_);
  if (made) {
    job.bytes = made->json.size();
    for (const AnswerFile& file : made->files) job.bytes += file.bytes.size();
    kept_bytes_ += job.bytes;
    job.view.answer = std::make_shared<const Answer>(std::move(*made));
    job.view.state = job.stop ? JobState::stopped : JobState::done;
  } else if (made.error().code == ErrorCode::stopped) {
    job.view.state = JobState::stopped;
  } else {
    job.view.state = JobState::failed;
    job.view.error = made.error();
  }
  ended(job);
  tell_the_waiting();
}

// Of those that ended. The one that was used last stays whatever its size.
void Jobs::forget_oldest() {
  while (true) {
    std::size_t ended = 0;
    std::shared_ptr<Job> oldest;
    for (const auto& [id, job] : jobs_) {
      if (!job->view.ended()) continue;
      ++ended;
      if (!oldest || job->used < oldest->used) oldest = job;
    }
    if (ended <= 1 || (ended <= most_kept_jobs && kept_bytes_ <= most_kept_bytes)) return;
    kept_bytes_ -= oldest->bytes;
    forget_key(*oldest);
    jobs_.erase(oldest->view.id);
  }
}

}  // namespace rigproof::server
