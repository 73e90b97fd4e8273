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
  tables.row("gpu",
             {{"id", "card"}, {"length_mm", "300"}, {"height_mm", "120"}, {"thickness_mm", "50"}});
  test_support::Scene scene(tables);
  scene.take("box").take("card").take("loop-360").take("fan-120", 2).take("supply");
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
