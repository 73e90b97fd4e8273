#include "app/time_limit.hpp"

#include <chrono>
#include <cmath>
#include <string>

namespace rigproof::app {
namespace {

double now_s() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

}  // namespace

TimeLimit::TimeLimit(std::optional<double> limit_s) : limit_s_(limit_s), began_s_(now_s()) {}

bool TimeLimit::over() const { return limit_s_ && now_s() - began_s_ >= *limit_s_; }

LongJob TimeLimit::within(const LongJob& job) const {
  return {.stop = [this, stop = job.stop] { return (stop && stop()) || over(); },
          .progress = job.progress};
}

}  // namespace rigproof::app
