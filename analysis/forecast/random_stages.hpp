// For tests only: stages drawn at random.
#pragma once

#include <cmath>
#include <random>

#include "analysis/forecast/frame_time.hpp"

namespace rigproof::forecast {

// A stage drawn at random from the whole range the engine meets.
struct Random {
  std::mt19937_64 source{20261124};
  double in(double low, double high) {
    return low + (high - low) * std::uniform_real_distribution<double>()(source);
  }
  Stages stages(bool with_cap) {
    Stages s{
        .cpu_ms = std::exp(in(0.0, 4.0)),
        .gpu_ms = 0.0,
        .spread = {
            .cpu_log_sd = in(0.0, 0.6), .gpu_log_sd = in(0.0, 0.6), .correlation = in(-1.0, 1.0)}};
    s.gpu_ms = s.cpu_ms * std::exp(in(-1.0, 1.0));
    if (with_cap) s.spread.cap_fps = 1000.0 / (s.cpu_ms * std::exp(in(-1.0, 1.0)));
    return s;
  }
};

}  // namespace rigproof::forecast
