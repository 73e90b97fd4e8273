#include "tests/plan/outside_rounds.hpp"

#include <chrono>

namespace rigproof::plan {

using test_support::OutsideAnswer;

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

bool cut_off(const Problem& problem, const std::vector<int>& choice, MpsModel& model) {
  const Check* broken = nullptr;
  for (const Check& check : problem.checks)
    if ((broken == nullptr || check.scope.size() < broken->scope.size()) && !check.holds(choice))
      broken = &check;
  if (broken == nullptr) return false;
  const int row = model.linear.add_row("cut", LinearModel::Sense::at_most,
                                       static_cast<double>(broken->scope.size()) - 1.0);
  for (std::size_t i = 0; i < broken->scope.size(); ++i) {
    const auto slot = static_cast<std::size_t>(broken->scope[i]);
    const auto alike = [&](int option) {
      if (i + 1 == broken->scope.size()) {
        auto other = choice;
        other[slot] = option;
        return !broken->holds(other);
      }
      if (!broken->class_of) return option == choice[slot];
      const int s = broken->scope[i];
      return broken->class_of(s, option) == broken->class_of(s, choice[slot]);
    };
    for (int o = 0; o < static_cast<int>(problem.slots[slot].options.size()); ++o)
      if (alike(o)) model.linear.enter(row, model.first_column[slot] + o, 1.0);
  }
  return true;
}

Rounds solve_asking(test_support::Solver solver, const Problem& problem, MpsModel& model,
                    const test_support::SolverLimits& limits) {
  Rounds out;
  const auto begun = std::chrono::steady_clock::now();
  while (std::chrono::steady_clock::now() - begun < std::chrono::seconds(limits.seconds)) {
    out.answer = test_support::solve(solver, mps_text(model), limits);
    ++out.runs;
    out.cpu_seconds += out.answer.cpu_seconds;
    out.settled = out.answer.status == OutsideAnswer::Status::infeasible;
    if (out.answer.status != OutsideAnswer::Status::optimal) return out;
    auto choice = choice_of(problem, model, out.answer);
    if (cut_off(problem, choice, model)) continue;
    out.choice = std::move(choice);
    out.settled = true;
    return out;
  }
  return out;
}

}  // namespace rigproof::plan
