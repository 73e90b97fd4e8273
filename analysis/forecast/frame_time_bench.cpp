// What one candidate (processor, card, memory) costs: 256 draws of one title, and single values.
// Each benchmark checks its answer first. Rates are frame times a second.
#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdint>
#include <vector>

#include "analysis/forecast/frame_time.hpp"

namespace {

using namespace rigproof::forecast;

struct Draws256 {
  std::vector<double> cpu_ms, gpu_ms, out_ms;
};

// Stages within +-25 % of 12 and 9 ms: neither stage is out of the other's sight.
Draws256 draws() {
  Draws256 d{.cpu_ms = std::vector<double>(256),
             .gpu_ms = std::vector<double>(256),
             .out_ms = std::vector<double>(256)};
  for (std::size_t i = 0; i < 256; ++i) {
    d.cpu_ms[i] = 12.0 * std::exp(0.25 * std::sin(1.7 * static_cast<double>(i)));
    d.gpu_ms[i] = 9.0 * std::exp(0.25 * std::sin(2.9 * static_cast<double>(i)));
  }
  return d;
}

constexpr Spread bare{.cpu_log_sd = 0.15, .gpu_log_sd = 0.25, .correlation = 0.3};
constexpr Spread with_cap{
    .cpu_log_sd = 0.15, .gpu_log_sd = 0.25, .correlation = 0.3, .cap_fps = 1000.0 / 12.0};

// Figures of frame_time_test.cpp, computed outside with mpmath.
void check_answer(benchmark::State& state, double got, double expected) {
  if (!(std::abs(got - expected) < 1e-9)) state.SkipWithError("wrong answer");
}

void count(benchmark::State& state, std::int64_t each) {
  state.SetItemsProcessed(state.iterations() * each);
}

void mean_batch(benchmark::State& state, const Spread& spread, double expected) {
  const FrameTime model(spread);
  check_answer(state, model.mean_ms(12, 9), expected);
  Draws256 d = draws();
  for (auto _ : state) {
    model.mean_ms(d.cpu_ms, d.gpu_ms, d.out_ms);
    benchmark::DoNotOptimize(d.out_ms.data());
    benchmark::ClobberMemory();
  }
  count(state, 256);
}

void mean_twin(benchmark::State& state, const Spread& spread, double expected) {
  check_answer(state, mean_frame_time_ms({.cpu_ms = 12, .gpu_ms = 9, .spread = spread}), expected);
  Draws256 d = draws();
  for (auto _ : state) {
    for (std::size_t i = 0; i < 256; ++i)
      d.out_ms[i] =
          mean_frame_time_ms({.cpu_ms = d.cpu_ms[i], .gpu_ms = d.gpu_ms[i], .spread = spread});
    benchmark::DoNotOptimize(d.out_ms.data());
    benchmark::ClobberMemory();
  }
  count(state, 256);
}

void quantile_batch(benchmark::State& state) {
  const FrameTime model(bare);
  check_answer(state, model.quantile_ms(12, 9, 0.99), 17.1787624151779);
  Draws256 d = draws();
  for (auto _ : state) {
    model.quantile_ms(d.cpu_ms, d.gpu_ms, 0.99, d.out_ms);
    benchmark::DoNotOptimize(d.out_ms.data());
    benchmark::ClobberMemory();
  }
  count(state, 256);
}

void set_up(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(FrameTime(with_cap));
  count(state, 1);
}

BENCHMARK_CAPTURE(mean_batch, forecast / mean / 256, bare, 12.160279033301160);
BENCHMARK_CAPTURE(mean_twin, forecast / mean_twin / 256, bare, 12.160279033301160);
BENCHMARK_CAPTURE(mean_batch, forecast / mean_capped / 256, with_cap, 12.806753795953);
BENCHMARK_CAPTURE(mean_twin, forecast / mean_capped_twin / 256, with_cap, 12.806753795953);
BENCHMARK(quantile_batch)->Name("forecast/p99/256");
BENCHMARK(set_up)->Name("forecast/set_up/1");

}  // namespace

BENCHMARK_MAIN();
