// Cost of a steady state of a build's air: one draw, all draws, the quietest speed.
#include <benchmark/benchmark.h>

#include "coupled/air/air_answer.hpp"
#include "tests/support/scene.hpp"

namespace rigproof::coupled {
namespace {

// A tower with three fans, a card and an air cooler, every cell with its tolerance.
test_support::TestTables tower() {
  test_support::TestTables t;
  t.row("case", {{"id", "box"},
                 {"width_mm", "210"},
                 {"depth_mm", "430"},
                 {"leak_cm2", "60"},
                 {"supply_chamber", "yes"}});
  for (const char* name : {"front", "rear", "top"}) {
    t.row("case_mounts", {{"case", "box"},
                          {"mount", name},
                          {"face", name},
                          {"fan_sizes_mm", "120"},
                          {"fan_places", "3"},
                          {"radiators_mm", "none"},
                          {"depth_mm", "60"},
                          {"open_frac", "0.5"},
                          {"filter_pa", "4"}});
    t.row("case_fans", {{"case", "box"},
                        {"mount", name},
                        {"size_mm", "120"},
                        {"count", "2"},
                        {"flow_m3_h", "90"},
                        {"pressure_pa", "15"},
                        {"noise_dba", "30"}});
  }
  t.row("cpu", {{"id", "cpu"}, {"sustained_power_w", "120"}, {"limit_c", "95"}})
      .row("board", {{"id", "board"}, {"power_w", "40"}})
      .row("gpu", {{"id", "card"},
                   {"length_mm", "300"},
                   {"sustained_power_w", "250"},
                   {"rise_k", "42"},
                   {"limit_c", "90"},
                   {"noise_dba", "34"}})
      .row("cooler", {{"id", "cooler"},
                      {"type", "air"},
                      {"rated_heat_w", "200"},
                      {"rise_at_rating_k", "55"},
                      {"power_w", "2"},
                      {"fans", "1"},
                      {"noise_dba", "29"}});
  return t;
}

struct Made {
  test_support::Scene scene{tower()};
  AirCase of;
  Made() {
    for (const char* part : {"box", "cpu", "board", "card", "cooler"}) scene.take(part);
    Measure m;
    of = air_case(scene.facts(), power::Load::everything, m);
  }
};

void one_state(benchmark::State& state) {
  Made made;
  AirModel model(made.of);
  for (auto _ : state) benchmark::DoNotOptimize(model.at(AirModel::middle, 0.7));
}
BENCHMARK(one_state);

void all_draws(benchmark::State& state) {
  Made made;
  AirModel model(made.of);
  for (auto _ : state)
    for (int draw = 0; draw < draw_count; ++draw) benchmark::DoNotOptimize(model.at(draw, 0.7));
}
BENCHMARK(all_draws);

void quietest_speed(benchmark::State& state) {
  Made made;
  AirModel model(made.of);
  Limits limits{SpeedLimits::filled(no_limit_c), SpeedLimits::filled(no_limit_c)};
  limits.middle[Watched::cpu] = 70.0;
  limits.middle[Watched::gpu] = 80.0;
  for (auto _ : state) benchmark::DoNotOptimize(quietest_speed_frac(model, limits));
}
BENCHMARK(quietest_speed);

void case_of_facts(benchmark::State& state) {
  Made made;
  for (auto _ : state) {
    Measure m;
    benchmark::DoNotOptimize(air_case(made.scene.facts(), power::Load::everything, m));
  }
}
BENCHMARK(case_of_facts);

}  // namespace
}  // namespace rigproof::coupled

BENCHMARK_MAIN();
