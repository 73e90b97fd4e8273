// Time of one judgement of each fit rule on a build whose cells are certain.
#include <benchmark/benchmark.h>

#include "analysis/fit/fit_rules.hpp"
#include "tests/support/fit_box.hpp"

namespace rigproof {
namespace {

void judge_rule(benchmark::State& state, const Rule* rule) {
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
  test_support::Scene scene(tables);
  scene.take("box")
      .take("card")
      .take("loop-over-memory")
      .take("fan-120", 2)
      .take("supply")
      .take("board")
      .take("pair");
  scene.brief.volume_l_at_most = 50.0;
  const Facts facts = scene.facts();
  if (judge(*rule, facts, 0).verdict == Verdict::unknown) {
    state.SkipWithError("unknown");
    return;
  }
  for (auto _ : state) benchmark::DoNotOptimize(judge(*rule, facts, 0));
}

const int registered = [] {
  for (const Rule* rule : fit_rules())
    benchmark::RegisterBenchmark(("fit/judge/" + std::string(rule->id)).c_str(), judge_rule, rule);
  return 0;
}();

}  // namespace
}  // namespace rigproof

BENCHMARK_MAIN();
