// Our two solvers beside a general library's on the same networks, in one run: flow against
// SUNDIALS KINSOL, warming against SUNDIALS CVODE. Each pair is compared before it is timed. What
// the library can set up beforehand is not timed.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>

#include "analysis/air/cvode_warming.hpp"
#include "analysis/air/kinsol_flow.hpp"
#include "analysis/air/random_network.hpp"
#include "analysis/air/transient.hpp"

namespace rigproof::air {
namespace {

using namespace by_sundials;
using test_support::Random;
using test_support::RandomNetwork;

// The first random one of 6 rooms, 14 paths and 6 fans.
const RandomNetwork& case_of_six_fans() {
  static const RandomNetwork found = [] {
    Random random(1);
    for (;;) {
      RandomNetwork net(random, {.most_rooms = 6, .most_more_paths = 12});
      if (net.rooms == 6 && net.paths.size() == 14 && net.curves.size() == 6) return net;
    }
  }();
  return found;
}

constexpr double start_frac = 0.3;

bool flows_agree(FlowByKinsol& kinsol) {
  const RandomNetwork& net = case_of_six_fans();
  const auto ours = solve_flow(net.rooms, net.paths);
  const auto theirs = kinsol.solve(start_frac * kinsol.scale().flow_m3_s);
  if (!ours || !theirs) return false;
  for (std::size_t k = 0; k < net.paths.size(); ++k)
    if (!(std::abs(ours->flow_m3_s[k] - theirs->flow_m3_s[k]) <= 1e-8)) return false;
  return true;
}

void flow_ours(benchmark::State& state) {
  const RandomNetwork& net = case_of_six_fans();
  for (auto _ : state) benchmark::DoNotOptimize(solve_flow(net.rooms, net.paths));
}
BENCHMARK(flow_ours)->Name("air/flow cold, ours/6 rooms 14 paths 6 fans");

void flow_kinsol(benchmark::State& state) {
  const RandomNetwork& net = case_of_six_fans();
  FlowByKinsol kinsol(net.rooms, by_hand(net));
  if (!flows_agree(kinsol)) return state.SkipWithError("the two disagree");
  for (auto _ : state)
    benchmark::DoNotOptimize(kinsol.solve(start_frac * kinsol.scale().flow_m3_s));
}
BENCHMARK(flow_kinsol)->Name("air/flow cold, KINSOL/6 rooms 14 paths 6 fans");

// Ten nodes, all of which store heat.
WarmingStart ten_nodes() {
  std::mt19937_64 engine(1);
  WarmingStart out{.network = trial::random_network(
                       engine, {.rooms = 6, .bodies = 5, .streams = 3, .loop = true}),
                   .capacity_j_k = {},
                   .start_c = std::vector<double>(10, 22.0)};
  for (std::size_t i = 0; i < 10; ++i)
    out.capacity_j_k.push_back(std::uniform_real_distribution(20.0, 400.0)(engine));
  return out;
}

// Every ten seconds for ten minutes.
std::vector<double> curve_times_s() {
  std::vector<double> out(60);
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = 10.0 * static_cast<double>(i + 1);
  return out;
}

std::vector<double> ours_curve(const HeatBalance& balance, const WarmingStart& start,
                               const std::vector<double>& times_s) {
  const auto warming = Transient::of(balance, start.capacity_j_k, start.start_c);
  std::vector<double> out(times_s.size() * start.start_c.size());
  if (!warming || !warming->sample(times_s, out)) out.clear();
  return out;
}

std::vector<double> cvode_curve(WarmingByCvode& cvode, const std::vector<double>& times_s) {
  std::vector<double> out;
  cvode.restart();
  for (const double time_s : times_s) {
    const auto temps_c = cvode.temps_c(time_s);
    if (!temps_c) return {};
    out.insert(out.end(), temps_c->begin(), temps_c->end());
  }
  return out;
}

void warming_ours(benchmark::State& state) {
  const WarmingStart start = ten_nodes();
  const HeatBalance balance = HeatField::of(start.network).value().balance();
  const auto times_s = curve_times_s();
  for (auto _ : state) benchmark::DoNotOptimize(ours_curve(balance, start, times_s));
}
BENCHMARK(warming_ours)->Name("air/warm-up of 60 times, ours/10 nodes");

// 10^-range of tolerance.
void warming_cvode(benchmark::State& state) {
  const double relative_frac = std::pow(10.0, -static_cast<double>(state.range(0)));
  const WarmingStart start = ten_nodes();
  const auto times_s = curve_times_s();
  WarmingByCvode cvode(start, {.relative_frac = relative_frac, .absolute_k = 10 * relative_frac});
  const auto theirs_c = cvode_curve(cvode, times_s);
  const auto ours_c = ours_curve(HeatField::of(start.network).value().balance(), start, times_s);
  double off_k = theirs_c.size() == ours_c.size() && !ours_c.empty() ? 0.0 : 1e300;
  for (std::size_t i = 0; i < std::min(theirs_c.size(), ours_c.size()); ++i)
    off_k = std::max(off_k, std::abs(theirs_c[i] - ours_c[i]));
  if (!(off_k <= 1e4 * relative_frac)) return state.SkipWithError("the two disagree");
  for (auto _ : state) benchmark::DoNotOptimize(cvode_curve(cvode, times_s));
  state.counters["steps"] = static_cast<double>(cvode.steps());
  state.counters["off_k"] = off_k;
}
BENCHMARK(warming_cvode)->Name("air/warm-up of 60 times, CVODE/10 nodes")->Arg(6)->Arg(9);

}  // namespace
}  // namespace rigproof::air

BENCHMARK_MAIN();
