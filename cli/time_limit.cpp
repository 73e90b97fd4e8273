#include "cli/time_limit.hpp"

#include <chrono>
#include <cmath>
#include <string>

namespace rigproof::cli {
namespace {

constexpr double most_s = 604'800.0;  // a week: longer than anybody waits for a plan

double now_s() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// Empty: good. CLI::Range would let a NaN pass.
std::string complaint_about(const std::string& text) {
  double seconds = 0.0;
  if (CLI::detail::lexical_cast(text, seconds) && seconds > 0.0 && seconds <= most_s) return {};
  return "expected a number of seconds above 0 and up to 604800 (a week), got " + text;
}

}  // namespace

TimeLimit::TimeLimit(std::optional<double> limit_s) : limit_s_(limit_s), began_s_(now_s()) {}

bool TimeLimit::over() const { return limit_s_ && now_s() - began_s_ >= *limit_s_; }

app::LongJob TimeLimit::within(const app::LongJob& job) const {
  return {.stop = [this, stop = job.stop] { return (stop && stop()) || over(); },
          .progress = job.progress};
}

void add_time_limit(CLI::App& app, std::optional<double>& limit_s, const std::string& and_then) {
  app.add_option("--time-limit", limit_s, "Stop looking after so many seconds, " + and_then)
      ->type_name("SECONDS")
      ->check(CLI::Validator(complaint_about, "", "seconds"));
}

}  // namespace rigproof::cli
