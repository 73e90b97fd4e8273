#include "server/jobs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <exception>
#include <random>

#include "store/sha256.hpp"

namespace rigproof::server {

struct Jobs::Job {
  JobView view;
  const Question* question = nullptr;
  Json inputs;
  std::shared_ptr<const Edition> edition;  ///< let go of when it ended
  std::string key;
  std::atomic<bool> stop = false;
  std::uint64_t used = 0;
  std::size_t bytes = 0;
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

Jobs::Jobs(int threads) {
  threads_.reserve(static_cast<std::size_t>(threads));
  for (int i = 0; i < threads; ++i) threads_.emplace_back([this] { work(); });
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
    return known->second;
  }
  if (closed_ || waiting_.size() >= most_waiting_jobs)
    return fail(ErrorCode::conflict,
                fmt::format("{} jobs are waiting already; stop one or wait", waiting_.size()));
  auto job = std::make_shared<Job>();
  job->view.id = random_id();
  job->view.question = question.name;
  job->question = &question;
  job->inputs = inputs;
  job->edition = std::move(edition);
  job->key = key;
  job->used = ++clock_;
  jobs_.emplace(job->view.id, job);
  by_key_.emplace(key, job->view.id);
  waiting_.push_back(job);
  changed_.notify_all();
  return job->view.id;
}

std::optional<JobView> Jobs::view(const std::string& id) {
  const std::scoped_lock lock(mutex_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end()) return {};
  found->second->used = ++clock_;
  return found->second->view;
}

std::optional<JobView> Jobs::follow(const std::string& id, std::uint64_t said, double most_s) {
  std::unique_lock lock(mutex_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end()) return {};
  const std::shared_ptr<Job> job = found->second;
  changed_.wait_for(lock, std::chrono::duration<double>(most_s),
                    [&] { return closed_ || job->view.said > said || job->view.ended(); });
  return job->view;
}

bool Jobs::stop(const std::string& id) {
  const std::scoped_lock lock(mutex_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end()) return false;
  const std::shared_ptr<Job> job = found->second;
  job->stop = true;
  if (job->view.ended()) return true;
  forget_key(*job);
  if (const auto at = std::ranges::find(waiting_, job); at != waiting_.end()) {
    waiting_.erase(at);
    job->view.state = JobState::stopped;
    ended(*job);
  }
  return true;
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

void Jobs::work() {
  while (true) {
    std::shared_ptr<Job> job;
    {
      std::unique_lock lock(mutex_);
      changed_.wait(lock, [&] { return closed_ || !waiting_.empty(); });
      if (waiting_.empty()) return;
      job = waiting_.front();
      waiting_.pop_front();
      job->view.state = JobState::running;
      ++job->view.said;
      changed_.notify_all();
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
                        [this, &job, last = std::chrono::steady_clock::time_point()](
                            std::string words) mutable {
                          const auto now = std::chrono::steady_clock::now();
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
