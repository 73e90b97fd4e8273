// How long an outlook takes on briefs of the demo, and what it says. `outlook_bench [BRIEF...]`.
// Processor time of one thread, since other processes may share the machine; the same answer twice
// is asked for before any time is shown.
#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <filesystem>
#include <string>
#include <vector>

#include "app/planning.hpp"

namespace {

using namespace rigproof;

double processor_ms() { return 1e3 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

void show(const std::string& name, const plan::BuildCount& count) {
  constexpr const char* how[] = {"counted",  "estimated",  "few found",
                                 "at least", "none found", "not known"};
  fmt::print("  {:44} {:10} {:10.3g} ({:.3g} to {:.3g}); {} found, {} probes, {} leaves\n", name,
             how[static_cast<int>(count.how)], count.builds, count.low, count.high, count.found,
             count.probes, count.leaves);
}

// A new session each time: nothing is known from before.
int run(const app::Workshop& workshop, const std::string& file) {
  const auto brief = app::open_brief(std::filesystem::path(file), workshop.catalog);
  if (!brief) return 2;
  double best_ms = 1e9;
  double first_builds = 0.0;
  for (int round = 0; round < 5; ++round) {
    const double start_ms = processor_ms();
    const auto planning = app::Planning::start(workshop, *brief);
    if (!planning) return 2;
    const auto outlook = (*planning)->outlook({.seed = 1});
    if (!outlook) return 2;
    best_ms = std::min(best_ms, processor_ms() - start_ms);
    if (round == 0) first_builds = outlook->possible.builds;
    if (outlook->possible.builds != first_builds) return 3;
    if (round < 4) continue;
    fmt::print("{}: {:.0f} ms, the quickest of 5; {} can be formed\n", file, best_ms, outlook->all);
    show("possible", outlook->possible);
    for (const auto& one : outlook->without) show(one.requirement.path, one.count);
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  const auto workshop = app::open_workshop("demo/catalog");
  if (!workshop) return 2;
  std::vector<std::string> files(argv + 1, argv + argc);
  if (files.empty())
    for (const auto& file : std::filesystem::directory_iterator("demo/briefs"))
      files.push_back(file.path().string());
  std::ranges::sort(files);
  for (const std::string& file : files)
    if (const int wrong = run(*workshop, file); wrong != 0) return wrong;
  return 0;
}
