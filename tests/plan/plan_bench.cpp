// What a plan of a whole market costs, with its proof: plan_bench [N...]
//
// For each N a market with N parts of each of the eight kinds that every plan chooses from is made,
// loaded and planned, under an ordinary brief and under a hard one (a tight budget, a reserve that
// binds, a small case, near-ties by a small saved_frac). Prints a Markdown table for
// decision/plan/README.md: the first plan of a session, and the next one, which knows the verdicts.
#include <fmt/format.h>
#include <sys/resource.h>

#include <chrono>
#include <cstdlib>
#include <string>
#include <vector>

#include "app/planning.hpp"
#include "tests/plan/market_briefs.hpp"

namespace rigproof {
namespace {

double ms_since(std::chrono::steady_clock::time_point begun) {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begun)
      .count();
}

int row(int each, std::string_view name, const app::Workshop& workshop, const std::string& text,
        double load_ms) {
  const auto brief = read_brief(text, "market.toml", workshop.catalog);
  if (!brief) {
    fmt::print(stderr, "{}\n", brief.error().report());
    return 2;
  }
  auto begun = std::chrono::steady_clock::now();
  const auto planning = app::Planning::start(workshop, *brief);
  if (!planning) return 2;
  const auto outcome = (*planning)->plan({});
  const double first_ms = ms_since(begun);
  begun = std::chrono::steady_clock::now();
  const auto again = (*planning)->plan({});
  const double again_ms = ms_since(begun);
  rusage usage{};
  ::getrusage(RUSAGE_SELF, &usage);
  const bool proven = outcome.status == plan::Outcome::Status::proven &&
                      again.status == plan::Outcome::Status::proven;
  fmt::print("| {} | {} | {} | {:.0f} | {:.1f} | {:.1f} | {} | {} |\n", each, name,
             proven ? "proven" : "none", load_ms, first_ms, again_ms, outcome.nodes,
             usage.ru_maxrss / 1024);
  return 0;
}

int run(int each) {
  const auto files = demo::make_market_of_each(each);
  const auto begun = std::chrono::steady_clock::now();
  const auto workshop = market_workshop(files);
  const double load_ms = ms_since(begun);
  if (!workshop) return 2;
  const std::string& brief = files.at("briefs/market.toml");
  const int easy = row(each, "ordinary", *workshop, brief, load_ms);
  return easy != 0 ? easy : row(each, "hard", *workshop, hard_market_brief(brief), load_ms);
}

}  // namespace
}  // namespace rigproof

int main(int argc, char** argv) {
  fmt::print(
      "| parts a kind | brief | | loading, ms | first plan, ms | next plan, ms | nodes | peak, MB "
      "|\n"
      "| --- | --- | --- | --- | --- | --- | --- | --- |\n");
  std::vector<int> sizes = {100, 300, 1000};
  if (argc > 1) sizes.clear();
  for (int i = 1; i < argc; ++i) sizes.push_back(std::atoi(argv[i]));
  for (const int each : sizes)
    if (const int failed = rigproof::run(each); failed != 0) return failed;
  return 0;
}
