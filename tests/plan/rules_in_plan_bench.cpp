// What becomes of every rule in a plan of the demo, and what it costs: rules_in_plan_bench [BRIEF
// [CATALOG]]
//
// Prints a table for decision/plan/README.md: role, distinct cases in its scope, share of the pairs
// its tables forbid, options the search struck out by it; then the time of compiling and searching.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <map>

#include "app/frame_model.hpp"
#include "app/planning.hpp"
#include "decision/plan/compiler.hpp"

namespace rigproof {
namespace {

double ms_since(std::chrono::steady_clock::time_point begun) {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begun)
      .count();
}

int run(const std::string& file, const std::string& catalog) {
  const auto workshop = app::open_workshop(catalog);
  if (!workshop) {
    fmt::print(stderr, "{}\n", workshop.error().message);
    return 2;
  }
  const auto brief = app::open_brief(file, workshop->catalog);
  if (!brief) {
    fmt::print(stderr, "{}\n", brief.error().message);
    return 2;
  }
  const auto prices = PriceBook::make(workshop->catalog, *brief);
  if (!prices) return 2;
  plan::Verdicts verdicts(workshop->catalog, app::planning_rules(), 0);
  const plan::FrameModel frames =
      app::make_frame_model(workshop->catalog, *brief, verdicts.draws());
  const plan::PlanInput input{.catalog = workshop->catalog,
                              .brief = *brief,
                              .prices = *prices,
                              .frames = frames,
                              .verdicts = verdicts};
  auto begun = std::chrono::steady_clock::now();
  const plan::Compiler compiler(input, {});
  const double compile_ms = ms_since(begun);
  begun = std::chrono::steady_clock::now();
  const plan::Outcome outcome = plan::search(compiler.problem(), {});
  const double search_ms = ms_since(begun);

  std::map<std::string, std::int64_t, std::less<>> struck;
  for (const plan::Pruned& pruned : outcome.pruned) struck[pruned.why] += pruned.count;
  fmt::print(
      "| rule | in a plan | cases | forbidden | struck out |\n| --- | --- | --- | --- | --- |\n");
  for (const Rule* rule : app::planning_rules())
    for (const plan::Compiler::Use& use : compiler.uses()) {
      if (use.rule != rule->id) continue;
      fmt::print("| `{}` | {} | {} | {} | {} |\n", use.rule, plan::name_of(use.role), use.cases,
                 use.pairs == 0
                     ? std::string("-")
                     : fmt::format("{:.0f} %", 100.0 * static_cast<double>(use.forbidden) /
                                                   static_cast<double>(use.pairs)),
                 struck[std::string(use.rule)]);
    }
  fmt::print("\n{}: compiled in {:.1f} ms, searched in {:.1f} ms ({} nodes, {} leaves)\n", file,
             compile_ms, search_ms, outcome.nodes, outcome.leaves);
  return 0;
}

}  // namespace
}  // namespace rigproof

int main(int argc, char** argv) {
  return rigproof::run(argc > 1 ? argv[1] : "demo/briefs/quiet-living-room.toml",
                       argc > 2 ? argv[2] : "demo/catalog");
}
