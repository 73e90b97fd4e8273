// A check over few combinations as rows (M5): what it refuses, grouped by its first slot.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "decision/plan/mps_parts.hpp"

namespace rigproof::plan {
namespace {

// Every combination of options of some slots, written into `choice`, which holds -1 elsewhere.
template <class See>
void walk(const Problem& problem, std::span<const int> slots, std::vector<int>& choice,
          const See& see) {
  if (slots.empty()) return see();
  const auto slot = static_cast<std::size_t>(slots.front());
  for (std::size_t o = 0; o < problem.slots[slot].options.size(); ++o) {
    choice[slot] = static_cast<int>(o);
    walk(problem, slots.subspan(1), choice, see);
  }
  choice[slot] = -1;
}

std::size_t cases_of(const Problem& problem, const Check& check, std::size_t most) {
  std::size_t cases = 1;
  for (const int slot : check.scope) {
    cases *= problem.slots[static_cast<std::size_t>(slot)].options.size();
    if (cases > most) return cases;
  }
  return cases;
}

// What is refused of the last slot, by the options between the first and the last; with whom.
using Between = std::vector<int>;
using Refusals = std::map<std::pair<Between, Bits>, std::vector<int>>;

Refusals refusals_of(const Problem& problem, const Check& check) {
  Refusals out;
  const int last = check.scope.back();
  const std::size_t last_options = problem.slots[static_cast<std::size_t>(last)].options.size();
  std::vector<int> choice(problem.slots.size(), -1);
  const std::span<const int> before(check.scope.data(), check.scope.size() - 1);
  walk(problem, before, choice, [&] {
    Bits refused((last_options + 63) / 64, 0);
    bool any = false;
    for (std::size_t o = 0; o < last_options; ++o) {
      choice[static_cast<std::size_t>(last)] = static_cast<int>(o);
      if (check.holds(choice)) continue;
      set_bit(refused, o);
      any = true;
    }
    choice[static_cast<std::size_t>(last)] = -1;
    if (!any) return;
    Between between;
    for (std::size_t i = 1; i < before.size(); ++i)
      between.push_back(choice[static_cast<std::size_t>(before[i])]);
    const int first = before.empty() ? -1 : choice[static_cast<std::size_t>(before.front())];
    out[{std::move(between), std::move(refused)}].push_back(first);
  });
  return out;
}

}  // namespace

bool add_check_rows(const Problem& problem, const Check& check, std::size_t most_cases,
                    const std::string& name, MpsModel& model) {
  if (cases_of(problem, check, most_cases) > most_cases) return false;
  const auto column = [&](int slot, int option) {
    return model.first_column[static_cast<std::size_t>(slot)] + option;
  };
  const auto& scope = check.scope;
  int number = 0;
  for (const auto& [what, firsts] : refusals_of(problem, check)) {
    const auto& [between, refused] = what;
    const int row =
        model.linear.add_row(fmt::format("{}_{}", name, number++), LinearModel::Sense::at_most,
                             static_cast<double>(scope.size()) - 1.0);
    if (scope.size() > 1)
      for (const int option : firsts) model.linear.enter(row, column(scope.front(), option), 1.0);
    for (std::size_t i = 0; i < between.size(); ++i)
      model.linear.enter(row, column(scope[i + 1], between[i]), 1.0);
    for (std::size_t o = 0; o < refused.size() * 64; ++o)
      if (bit(refused, o)) model.linear.enter(row, column(scope.back(), static_cast<int>(o)), 1.0);
  }
  return true;
}

}  // namespace rigproof::plan
