// Our planner against general solvers on the same question: plan_vs_mip [SECONDS [N...]]
//
// For each N a market with N parts of each of the eight kinds, under an ordinary and a hard brief
// (market_briefs.hpp). All times are processor time of one thread, so that a shared machine
// disturbs them less; of a solver with what it takes to start and to read its file, without what it
// takes to make that file. Every answer is compared with the plan's before its time is printed.
// Contenders:
//
// written  the program as `plan --export-mps` writes it, but without the parts that others outdo
// (P8) strong   made small and tight (strong_program.hpp) and told the plan's own score as a cutoff
// lazy     the same, but no check is written as rows: what a solution breaks is added, and again
// pairs    no cutoff: one small program for every leading pair (processor, card), best bound first
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
#include "tests/plan/strong_program.hpp"
#include "tests/support/outside_solver.hpp"

namespace rigproof {
namespace {

using plan::HeadClasses;
using plan::MpsModel;
using plan::Problem;
using test_support::OutsideAnswer;
using test_support::Solver;

double cpu_s() {
  timespec now{};
  ::clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

struct Contest {
  int seconds = 60;  ///< of wall clock, for one run of a solver and for a contender as a whole
  std::int64_t score = 0;
};

struct Ended {
  bool proven = false;
  double cpu_seconds = 0.0;
  int runs = 0;
  std::size_t columns = 0;  ///< of the last program
  std::size_t rows = 0;
  std::optional<double> score = {};  ///< none: nothing scores more than the cutoff
};

std::vector<int> choice_of(const Problem& problem, const MpsModel& model,
                           const OutsideAnswer& answer) {
  std::vector<int> choice(problem.slots.size(), -1);
  for (std::size_t s = 0; s < choice.size(); ++s)
    for (std::size_t o = 0; o < problem.slots[s].options.size(); ++o) {
      const auto column = static_cast<std::size_t>(model.first_column[s]) + o;
      const auto at = answer.values.find(model.linear.columns[column].name);
      if (at != answer.values.end() && at->second > 0.5) choice[s] = static_cast<int>(o);
    }
  return choice;
}

// (M5) for one refused choice: all that its check refuses of the last slot, beside the same others.
bool cut_off(const Problem& problem, const std::vector<int>& choice, MpsModel& model) {
  const plan::Check* broken = nullptr;
  for (const plan::Check& check : problem.checks)
    if ((broken == nullptr || check.scope.size() < broken->scope.size()) && !check.holds(choice))
      broken = &check;
  if (broken == nullptr) return false;
  const int row = model.linear.add_row("cut", plan::LinearModel::Sense::at_most,
                                       static_cast<double>(broken->scope.size()) - 1.0);
  for (std::size_t i = 0; i < broken->scope.size(); ++i) {
    const auto slot = static_cast<std::size_t>(broken->scope[i]);
    const auto alike = [&](int option) {
      if (i + 1 == broken->scope.size()) {
        auto other = choice;
        other[slot] = option;
        return !broken->holds(other);
      }
      if (broken->classes.empty()) return option == choice[slot];
      const auto& classes = broken->classes[i];
      return classes[static_cast<std::size_t>(option)] ==
             classes[static_cast<std::size_t>(choice[slot])];
    };
    for (int o = 0; o < static_cast<int>(problem.slots[slot].options.size()); ++o)
      if (alike(o)) model.linear.enter(row, model.first_column[slot] + o, 1.0);
  }
  return true;
}

// Solves, asks the checks, cuts off, until a solution satisfies all or there is none.
Ended solved(const Problem& problem, const HeadClasses& classes, std::size_t most_check_cases,
             Solver solver, const Contest& contest, double cutoff) {
  Ended ended;
  auto model =
      plan::mps_model(problem, {.head_classes = &classes, .most_check_cases = most_check_cases});
  if (!model) return ended;
  const auto begun = std::chrono::steady_clock::now();
  while (std::chrono::steady_clock::now() - begun < std::chrono::seconds(contest.seconds)) {
    ended.columns = model->linear.columns.size();
    ended.rows = model->linear.rows.size();
    const OutsideAnswer answer = test_support::solve(
        solver, plan::mps_text(*model), {.seconds = contest.seconds, .cutoff = -cutoff});
    ++ended.runs;
    ended.cpu_seconds += answer.cpu_seconds;
    if (answer.status == OutsideAnswer::Status::infeasible) {
      ended.proven = true;
      return ended;
    }
    if (answer.status != OutsideAnswer::Status::optimal) return ended;
    if (cut_off(problem, choice_of(problem, *model, answer), *model)) continue;
    ended.proven = true;
    ended.score = -answer.objective;
    return ended;
  }
  return ended;
}

Ended by_pairs(const Problem& original, const HeadClasses& classes, const Contest& contest) {
  Ended ended;
  double best = -1e300;
  const plan::Smaller base = plan::strengthened(original, classes, best);
  const auto begun = std::chrono::steady_clock::now();
  for (const plan::LeadingPair& pair : plan::leading_pairs(base.problem, best)) {
    if (pair.bound <= best) break;
    if (std::chrono::steady_clock::now() - begun > std::chrono::seconds(contest.seconds))
      return ended;
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
    if (std::ranges::any_of(small.problem.slots, empty)) continue;
    const Ended of_pair = solved(small.problem, small.classes, 2'000, Solver::cbc, contest, best);
    ended.runs += of_pair.runs;
    ended.cpu_seconds += of_pair.cpu_seconds;
    ended.columns = std::max(ended.columns, of_pair.columns);
    ended.rows = std::max(ended.rows, of_pair.rows);
    if (!of_pair.proven) return ended;
    best = std::max(best, of_pair.score.value_or(best));
  }
  ended.proven = true;
  ended.score = best;
  return ended;
}

// Rounding (S1) and the solver's tolerances.
bool agrees(const Ended& ended, const Contest& contest) {
  return ended.proven && ended.score &&
         std::abs(*ended.score - static_cast<double>(contest.score)) < 5.0;
}

void tell(std::string_view name, const Ended& ended, const Contest& contest, double next_s) {
  fmt::print("|  | {} | {} | {} | {} | {} | {} |\n", name, ended.columns, ended.rows, ended.runs,
             agrees(ended, contest) ? fmt::format("{:.3f}", ended.cpu_seconds)
             : ended.proven         ? "ANOTHER ANSWER"
                                    : fmt::format("not in {} s", contest.seconds),
             agrees(ended, contest) ? fmt::format("{:.0f}", ended.cpu_seconds / next_s) : "");
  std::fflush(stdout);
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
  constexpr int again = 5;
  begun = cpu_s();
  for (int i = 0; i < again; ++i)
    if (plan::plan(input).status != outcome.status) return 2;
  const double next_s = (cpu_s() - begun) / again;
  if (outcome.status != plan::Outcome::Status::proven) return 2;
  contest.score = outcome.best.front().score;
  fmt::print(
      "| {} {} | first plan |  |  |  | {:.4f} | {:.1f} |\n|  | next plan |  |  |  | {:.4f} | 1 |\n",
      each, name, first_s, first_s / next_s, next_s);
  const plan::Compiler compiler(input, {});
  const Problem& problem = compiler.problem();
  const HeadClasses classes = compiler.head_classes();
  constexpr double none = -1e300;
  constexpr std::size_t rows_of_written = 100'000;
  tell("CBC, written", solved(problem, classes, rows_of_written, Solver::cbc, contest, none),
       contest, next_s);
  tell("GLPK, written", solved(problem, classes, rows_of_written, Solver::glpk, contest, none),
       contest, next_s);
  const auto reached = static_cast<double>(contest.score) - 1.0;
  const plan::Smaller strong = plan::strengthened(problem, classes, reached);
  tell("CBC, strong",
       solved(strong.problem, strong.classes, rows_of_written, Solver::cbc, contest, reached),
       contest, next_s);
  tell("GLPK, strong",
       solved(strong.problem, strong.classes, rows_of_written, Solver::glpk, contest, none),
       contest, next_s);
  tell("CBC, lazy", solved(strong.problem, strong.classes, 0, Solver::cbc, contest, reached),
       contest, next_s);
  tell("GLPK, lazy", solved(strong.problem, strong.classes, 0, Solver::glpk, contest, none),
       contest, next_s);
  tell("CBC, pairs", by_pairs(problem, classes, contest), contest, next_s);
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
  rigproof::Contest contest;
  if (argc > 1) contest.seconds = std::atoi(argv[1]);
  std::vector<int> sizes = {30, 100, 300};
  if (argc > 2) sizes.clear();
  for (int i = 2; i < argc; ++i) sizes.push_back(std::atoi(argv[i]));
  fmt::print(
      "| parts a kind, brief | | columns | rows | runs | processor time, s | of the next plan |\n"
      "| --- | --- | --- | --- | --- | --- | --- |\n");
  const auto trivial = rigproof::test_support::solve(
      rigproof::test_support::Solver::cbc,
      "NAME none FREE\nROWS\n N cost\n L most\nCOLUMNS\n x cost 1\n x most 1\nRHS\n RHS most "
      "1\nENDATA\n");
  fmt::print("| nothing at all | CBC |  |  | 1 | {:.3f} |  |\n", trivial.cpu_seconds);
  for (const int each : sizes)
    if (const int failed = rigproof::run(each, contest); failed != 0) return failed;
  return 0;
}
