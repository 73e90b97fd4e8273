// Time of one judgement of each fit rule on a build whose cells are certain, of all of them, and of
// finding the best seats.
#include <benchmark/benchmark.h>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/mounting.hpp"
#include "tests/support/fit_box.hpp"

namespace rigproof {
namespace {

test_support::TestTables bench_tables() {
  auto tables = fit_test::box_tables();
  tables.row("psu", {{"id", "supply"}, {"length_mm", "160"}});
  for (const char* limits : {"card-height", "card-thickness"})
    tables.row("case_clearances",
               {{"case", "box"}, {"limits", limits}, {"when", "always"}, {"by_mm", "150"}});
  tables.row("gpu", {{"id", "card"},
                     {"length_mm", "300"},
                     {"height_mm", "110"},
                     {"thickness_mm", "50"},
                     {"slots", "3"},
                     {"plug_side", "top"},
                     {"plug_bend_mm", "30"}});
  tables.row("gpu_inputs", {{"gpu", "card"}, {"connector", "12v-2x6"}, {"count", "1"}});
  tables.row("board", {{"id", "board"}, {"memory_slots", "4"}, {"memory_fill_order", "2|4|1|3"}});
  tables.row("board_slots",
             {{"board", "board"}, {"slot", "1"}, {"position", "1"}, {"length", "x16"}});
  tables.row("memory", {{"id", "pair"}, {"modules", "2"}, {"height_mm", "34"}});
  tables.row("cooler", {{"id", "loop-over-memory"},
                        {"type", "liquid"},
                        {"height_mm", "55"},
                        {"covers_memory_slots", "2"},
                        {"memory_clearance_mm", "40"},
                        {"radiator_mm", "360"},
                        {"radiator_thickness_mm", "27"},
                        {"fan_thickness_mm", "25"},
                        {"fans", "3"}});
  return tables;
}

// A liquid cooler over memory, a card with a plug at its top, two added fans.
void take_all(test_support::Scene& scene) {
  scene.take("box")
      .take("card")
      .take("loop-over-memory")
      .take("fan-120", 2)
      .take("supply")
      .take("board")
      .take("pair");
  scene.brief.volume_l_at_most = 50.0;
}

void judge_rule(benchmark::State& state, const Rule* rule) {
  const auto tables = bench_tables();
  test_support::Scene scene(tables);
  take_all(scene);
  const Facts facts = scene.facts();
  if (judge(*rule, facts, 0).verdict == Verdict::unknown) {
    state.SkipWithError("unknown");
    return;
  }
  for (auto _ : state) benchmark::DoNotOptimize(judge(*rule, facts, 0));
}

// All clearances of one build with its draws; where things sit is given.
void judge_all_seated(benchmark::State& state, bool drawn) {
  auto tables = bench_tables();
  if (drawn) {
    for (const char* cell : {"length_mm", "height_mm", "thickness_mm", "plug_bend_mm"})
      tables.plus_minus("gpu", "card", cell, 2);
    for (const char* cell : {"height_mm", "radiator_thickness_mm", "fan_thickness_mm"})
      tables.plus_minus("cooler", "loop-over-memory", cell, 1);
    tables.plus_minus("case_clearances", "*", "by_mm", 1);
    tables.plus_minus("case_mounts", "*", "depth_mm", 1);
    tables.plus_minus("psu", "supply", "length_mm", 1);
    tables.plus_minus("fan", "fan-120", "thickness_mm", 0.5);
  }
  test_support::Scene scene(tables);
  take_all(scene);
  scene.setup.mounts = {{"cooler", "top"}, {"fan", "front"}};
  const Facts facts = scene.facts();
  for (auto _ : state)
    for (const Rule* rule : fit_rules())
      for (int place = 0; place < rule->places(facts); ++place)
        benchmark::DoNotOptimize(judge(*rule, facts, place));
}

// The best of all ways to seat radiator and fans, found anew each time. `crowded`: no way is good,
// so that all are tried.
void choose_seats(benchmark::State& state, bool crowded) {
  auto tables = bench_tables();
  if (crowded) tables.row("gpu", {{"id", "long-card"}, {"length_mm", "319"}});
  test_support::Scene scene(tables);
  take_all(scene);
  if (crowded) scene.drop(Kind::gpu).take("long-card").drop(Kind::fan).take("fan-120", 3);
  for (auto _ : state) {
    CellDraws draws(scene.catalog);
    const Facts facts{.catalog = scene.catalog,
                      .brief = scene.brief,
                      .prices = nullptr,
                      .build = scene.build,
                      .draws = draws};
    benchmark::DoNotOptimize(fit::choose_mounting(facts));
  }
}

const int registered = [] {
  benchmark::RegisterBenchmark("fit/all-claims-seated", judge_all_seated, false);
  benchmark::RegisterBenchmark("fit/all-claims-seated-drawn", judge_all_seated, true);
  benchmark::RegisterBenchmark("fit/best-seats", choose_seats, false);
  benchmark::RegisterBenchmark("fit/best-seats-crowded", choose_seats, true);
  for (const Rule* rule : fit_rules())
    benchmark::RegisterBenchmark(("fit/judge/" + std::string(rule->id)).c_str(), judge_rule, rule);
  return 0;
}();

}  // namespace
}  // namespace rigproof

BENCHMARK_MAIN();
