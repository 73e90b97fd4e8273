// Our planner against general solvers on the same question: plan_vs_mip [SECONDS [N...]]
//
// For each N a market with N parts of each of the eight kinds, under an ordinary and a hard brief
// (market_briefs.hpp). All times are processor time, so that a shared machine disturbs them less. A
// plan is compiling (options, prices, tables) and searching; what a solver does instead is making
// its program (from the same compiled problem) and solving it, with starting and reading the file.
// Every answer is compared with the plan's. Contenders:
//
// written  the program as `plan --export-mps` writes it, but without the parts that others outdo
// (P8) tight    made small first: arc consistency, dominance (strong_program.hpp) pairs    tight,
// and one small program for every leading pair (processor, card), best bound first strong   tight,
// and told the answer: the score of the plan as a cutoff, and without the pairs whose
//          bound is below it
// lazy     strong, but no check is written as rows: what a solution breaks is added, and again
//
// What a program leaves out is asked of its solution; a refused one is cut off and it is solved
// again, so that every contender ends with the best build, not with a bound.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <optional>
#include <string>
#include <vector>

#include "app/frame_model.hpp"
#include "app/workshop.hpp"
#include "catalog/load.hpp"
#include "decision/plan/compiler.hpp"
#include "tests/plan/market_briefs.hpp"
#include "tests/plan/outside_rounds.hpp"
#include "tests/plan/strong_program.hpp"
#include "tests/support/outside_solver.hpp"

namespace rigproof {
namespace {

using plan::HeadClasses;
using plan::Problem;
using test_support::Solver;

double cpu_s() {
  timespec now{};
  ::clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

struct Contest {
  int seconds = 60;  ///< of wall clock, for one run of a solver and for a contender as a whole
  std::int64_t score = 0;
  double compile_s = 0.0;
  double search_s = 0.0;
};

struct Ended {
  bool proven = false;
  double making_s = 0.0;
  double solving_s = 0.0;
  int runs = 0;
  std::size_t columns = 0;  ///< of the last program
  std::size_t rows = 0;
  std::optional<double> score = {};  ///< none: nothing scores more than the cutoff
};

Ended solved(const Problem& problem, const HeadClasses& classes, std::size_t most_check_cases,
             Solver solver, const Contest& contest, double cutoff) {
  Ended ended;
  const double own = cpu_s();
  auto model =
      plan::mps_model(problem, {.head_classes = &classes, .most_check_cases = most_check_cases});
  if (!model) return ended;
  const plan::Rounds rounds =
      plan::solve_asking(solver, problem, *model, {.seconds = contest.seconds, .cutoff = -cutoff});
  ended.proven = rounds.settled;
  ended.making_s = cpu_s() - own;
  ended.solving_s = rounds.cpu_seconds;
  ended.runs = rounds.runs;
  ended.columns = model->linear.columns.size();
  ended.rows = model->linear.rows.size();
  if (!rounds.choice.empty()) ended.score = -rounds.answer.objective;
  return ended;
}

Ended by_pairs(const Problem& original, const HeadClasses& classes, Solver solver,
               const Contest& contest) {
  Ended ended;
  const double own = cpu_s();
  double best = -1e300;
  bool stopped = false;
  const plan::Smaller base = plan::strengthened(original, classes, best);
  const auto begun = std::chrono::steady_clock::now();
  plan::each_leading_pair(base.problem, [&](const plan::LeadingPair& pair) {
    if (pair.bound <= best) return false;
    if (std::chrono::steady_clock::now() - begun > std::chrono::seconds(contest.seconds)) {
      stopped = true;
      return false;
    }
    std::vector<std::vector<int>> kept;
    for (const plan::Slot& slot : base.problem.slots) {
      kept.emplace_back();
      for (int o = 0; o < static_cast<int>(slot.options.size()); ++o) kept.back().push_back(o);
    }
    kept[0] = {pair.first};
    kept[1] = {pair.second};
    const plan::Smaller alone = plan::only(base.problem, base.classes, kept);
    const plan::Smaller small = plan::strengthened(alone.problem, alone.classes, best);
    const auto empty = [](const plan::Slot& slot) { return slot.options.empty(); };
    if (std::ranges::any_of(small.problem.slots, empty)) return true;
    const Ended of_pair = solved(small.problem, small.classes, 2'000, solver, contest, best);
    ended.runs += of_pair.runs;
    ended.solving_s += of_pair.solving_s;
    ended.columns = std::max(ended.columns, of_pair.columns);
    ended.rows = std::max(ended.rows, of_pair.rows);
    if (!of_pair.proven) {
      stopped = true;
      return false;
    }
    best = std::max(best, of_pair.score.value_or(best));
    return true;
  });
  ended.making_s = cpu_s() - own;
  ended.proven = !stopped;
  ended.score = best;
  return ended;
}

// Half a unit is rounding (S1), the rest the solver's tolerances.
bool agrees(const Ended& ended, const Contest& contest) {
  return ended.proven && ended.score &&
         std::abs(*ended.score - static_cast<double>(contest.score)) < 1.0;
}

void tell(std::string_view name, const Ended& ended, const Contest& contest) {
  if (!agrees(ended, contest)) {
    fmt::print("|  | {} | {} | {} | {} | {} |  |  |  |\n", name, ended.columns, ended.rows,
               ended.runs,
               ended.proven ? "ANOTHER ANSWER" : fmt::format("not in {} s", contest.seconds));
  } else {
    const double whole_s = contest.compile_s + ended.making_s + ended.solving_s;
    fmt::print("|  | {} | {} | {} | {} | {:.3f} | {:.3f} | {:.0f} | {:.0f} |\n", name,
               ended.columns, ended.rows, ended.runs, ended.making_s, ended.solving_s,
               ended.solving_s / contest.search_s,
               whole_s / (contest.compile_s + contest.search_s));
  }
  std::fflush(stdout);
}

Ended tight(const Problem& problem, const HeadClasses& classes, std::size_t most_check_cases,
            Solver solver, const Contest& contest, double reached) {
  const double own = cpu_s();
  const plan::Smaller small = plan::strengthened(problem, classes, reached);
  const double strengthening_s = cpu_s() - own;
  Ended ended = solved(small.problem, small.classes, most_check_cases, solver, contest, reached);
  ended.making_s += strengthening_s;
  return ended;
}

int row(int each, std::string_view name, const app::Workshop& workshop, const std::string& text,
        Contest contest) {
  const auto brief = read_brief(text, "market.toml", workshop.catalog);
  if (!brief) return 2;
  const auto prices = PriceBook::make(workshop.catalog, *brief);
  if (!prices) return 2;
  double begun = cpu_s();
  plan::Verdicts verdicts(workshop.catalog, app::planning_rules(), 0);
  const plan::FrameModel frames = app::make_frame_model(workshop.catalog, *brief, verdicts.draws());
  const plan::PlanInput input{.catalog = workshop.catalog,
                              .brief = *brief,
                              .prices = *prices,
                              .frames = frames,
                              .verdicts = verdicts};
  const auto outcome = plan::plan(input);
  const double first_s = cpu_s() - begun;
  if (outcome.status != plan::Outcome::Status::proven) {
    fmt::print("| {} {} | no build |  |  |  |  |  |  |  |\n", each, name);
    return 0;
  }
  constexpr int again = 9;
  for (int i = 0; i < again; ++i) {
    begun = cpu_s();
    const plan::Compiler once(input, {});
    contest.compile_s += (cpu_s() - begun) / again;
    begun = cpu_s();
    if (plan::search(once.problem(), {}).best.at(0).score != outcome.best.front().score) return 2;
    contest.search_s += (cpu_s() - begun) / again;
  }
  contest.score = outcome.best.front().score;
  fmt::print("| {} {} | first plan |  |  |  |  | {:.4f} |  | {:.1f} |\n", each, name, first_s,
             first_s / (contest.compile_s + contest.search_s));
  fmt::print("|  | next plan |  |  |  | {:.4f} | {:.4f} | 1 | 1 |\n", contest.compile_s,
             contest.search_s);
  const plan::Compiler compiler(input, {});
  const Problem& problem = compiler.problem();
  const HeadClasses classes = compiler.head_classes();
  constexpr double none = -1e300;
  constexpr std::size_t as_rows = 100'000;
  const auto reached = static_cast<double>(contest.score) - 1.0;
  for (const Solver solver : {Solver::cbc, Solver::glpk}) {
    const auto named = [&](std::string_view contender) {
      return fmt::format("{}, {}", solver == Solver::cbc ? "CBC" : "GLPK", contender);
    };
    tell(named("written"), solved(problem, classes, as_rows, solver, contest, none), contest);
    tell(named("tight"), tight(problem, classes, as_rows, solver, contest, none), contest);
    tell(named("pairs"), by_pairs(problem, classes, solver, contest), contest);
    tell(named("strong"), tight(problem, classes, as_rows, solver, contest, reached), contest);
    tell(named("lazy"), tight(problem, classes, 0, solver, contest, reached), contest);
  }
  return 0;
}

int run(int each, const Contest& contest) {
  const auto files = demo::make_market_of_each(each);
  const auto workshop = market_workshop(files);
  if (!workshop) return 2;
  const std::string& brief = files.at("briefs/market.toml");
  const int easy = row(each, "ordinary", *workshop, brief, contest);
  return easy != 0 ? easy : row(each, "hard", *workshop, hard_market_brief(brief), contest);
}

}  // namespace
}  // namespace rigproof

int main(int argc, char** argv) {
  using rigproof::test_support::Solver;
  rigproof::Contest contest;
  if (argc > 1) contest.seconds = std::atoi(argv[1]);
  std::vector<int> sizes = {30, 100, 300};
  if (argc > 2) sizes.clear();
  for (int i = 2; i < argc; ++i) sizes.push_back(std::atoi(argv[i]));
  fmt::print(
      "| parts a kind, brief | | columns | rows | runs | making or compiling, s | solving or "
      "searching, s | solving : searching | whole : next plan |\n"
      "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n");
  for (const Solver solver : rigproof::test_support::both_solvers) {
    const auto trivial = rigproof::test_support::solve(
        solver,
        "NAME none FREE\nROWS\n N cost\n L most\nCOLUMNS\n x cost 1\n x most 1\nRHS\n RHS most "
        "1\nENDATA\n");
    fmt::print("| nothing at all | {} | 1 | 1 | 1 |  | {:.3f} |  |  |\n",
               rigproof::test_support::name_of(solver), trivial.cpu_seconds);
  }
  for (const int each : sizes)
    if (const int failed = rigproof::run(each, contest); failed != 0) return failed;
  return 0;
}
