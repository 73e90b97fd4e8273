// Time of one judgement of each power rule, with certain cells and with the schema's tolerances.
#include <benchmark/benchmark.h>

#include "analysis/power/power_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

void judge_rule(benchmark::State& state, const Rule* rule, bool certain) {
  test_support::TestTables tables;
  tables.row("cpu", {{"id", "cpu"}, {"sustained_power_w", "150"}, {"peak_power_w", "200"}});
  tables.row("board",
             {{"id", "board"}, {"power_w", "40"}, {"eps8_inputs", "1"}, {"eps4_inputs", "1"}});
  tables.row("memory", {{"id", "kit"}, {"power_w", "8"}});
  tables.row("gpu", {{"id", "card"}, {"sustained_power_w", "300"}, {"slot_power_w", "50"}});
  tables.row("gpu_inputs", {{"gpu", "card"}, {"connector", "pcie8"}, {"count", "2"}});
  tables.row("storage", {{"id", "drive"}, {"power_w", "7"}});
  tables.row("cooler", {{"id", "cooler"}, {"power_w", "10"}});
  tables.row("fan", {{"id", "fan"}, {"current_a", "0.25"}});
  tables.row("psu", {{"id", "supply"}, {"rated_power_w", "540"}});
  if (certain)
    for (const char* table : {"cpu", "gpu"}) tables.plus_minus(table, "*", "*", 0);
  test_support::Scene scene(tables);
  for (const char* id : {"cpu", "board", "kit", "card", "drive", "cooler", "supply"})
    scene.take(id);
  scene.take("fan", 3);
  const Facts facts = scene.facts();
  if (judge(*rule, facts, 0).verdict == Verdict::unknown) {
    state.SkipWithError("unknown");
    return;
  }
  for (auto _ : state) benchmark::DoNotOptimize(judge(*rule, facts, 0));
}

const int registered = [] {
  for (const Rule* rule : power_rules())
    for (const bool certain : {true, false})
      benchmark::RegisterBenchmark(
          ("power/judge/" + std::string(rule->id) + (certain ? "/certain" : "/draws")).c_str(),
          judge_rule, rule, certain);
  return 0;
}();

}  // namespace
}  // namespace rigproof

BENCHMARK_MAIN();
