// A check over few combinations of classes as rows (M5): what it refuses, grouped by its first
// slot.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "decision/plan/mps_parts.hpp"

namespace rigproof::plan {
namespace {

// The options of one slot of the scope by class; without classes each alone.
using Classes = std::vector<std::vector<int>>;

std::vector<Classes> classes_of(const Problem& problem, const Check& check) {
  std::vector<Classes> out;
  for (std::size_t i = 0; i < check.scope.size(); ++i) {
    const auto slot = static_cast<std::size_t>(check.scope[i]);
    auto& of_slot = out.emplace_back();
    std::map<std::uint32_t, std::size_t> places;  // by first option: class numbers have no order
    for (std::size_t o = 0; o < problem.slots[slot].options.size(); ++o) {
      const std::uint32_t number = check.class_of
                                       ? check.class_of(check.scope[i], static_cast<int>(o))
                                       : static_cast<std::uint32_t>(o);
      const auto [at, fresh] = places.try_emplace(number, of_slot.size());
      if (fresh) of_slot.emplace_back();
      of_slot[at->second].push_back(static_cast<int>(o));
    }
  }
  return out;
}

std::size_t cases_of(const std::vector<Classes>& classes, std::size_t most) {
  std::size_t cases = 1;
  for (const Classes& of_slot : classes) {
    cases *= of_slot.size();
    if (cases > most) break;
  }
  return cases;
}

// Which classes of the last slot are refused, by the classes between the first and the last; with
// whom of the first.
using Between = std::vector<int>;
using Refusals = std::map<std::pair<Between, Bits>, std::vector<int>>;

class Refused {
 public:
  Refused(const Problem& problem, const Check& check, const std::vector<Classes>& classes)
      : check_(check), classes_(classes), choice_(problem.slots.size(), -1) {
    walk(0);
  }
  [[nodiscard]] const Refusals& all() const { return out_; }

 private:
  void choose(std::size_t place, std::size_t of_class) {
    choice_[static_cast<std::size_t>(check_.scope[place])] = classes_[place][of_class].front();
  }

  void walk(std::size_t place) {
    if (place + 1 == check_.scope.size()) return ask_last();
    for (std::size_t c = 0; c < classes_[place].size(); ++c) {
      choose(place, c);
      chosen_.push_back(static_cast<int>(c));
      walk(place + 1);
      chosen_.pop_back();
    }
  }

  void ask_last() {
    const std::size_t last = check_.scope.size() - 1;
    Bits refused((classes_[last].size() + 63) / 64, 0);
    bool any = false;
    for (std::size_t c = 0; c < classes_[last].size(); ++c) {
      choose(last, c);
      if (check_.holds(choice_)) continue;
      set_bit(refused, c);
      any = true;
    }
    if (!any) return;
    const bool alone = chosen_.empty();
    const Between between(chosen_.begin() + (alone ? 0 : 1), chosen_.end());
    out_[{between, std::move(refused)}].push_back(alone ? -1 : chosen_.front());
  }

  const Check& check_;
  const std::vector<Classes>& classes_;
  std::vector<int> choice_;
  std::vector<int> chosen_;  // classes, by place in the scope
  Refusals out_;
};

}  // namespace

bool add_check_rows(const Problem& problem, const Check& check, std::size_t most_cases,
                    const std::string& name, MpsModel& model) {
  const auto classes = classes_of(problem, check);
  if (cases_of(classes, most_cases) > most_cases) return false;
  const Refused refusals(problem, check, classes);
  const std::size_t last = check.scope.size() - 1;
  int number = 0;
  int row = 0;
  const auto enter = [&](std::size_t place, int of_class) {
    const int first = model.first_column[static_cast<std::size_t>(check.scope[place])];
    for (const int option : classes[place][static_cast<std::size_t>(of_class)])
      model.linear.enter(row, first + option, 1.0);
  };
  for (const auto& [what, firsts] : refusals.all()) {
    const auto& [between, refused] = what;
    row = model.linear.add_row(fmt::format("{}_{}", name, number++), LinearModel::Sense::at_most,
                               static_cast<double>(last));
    if (last > 0)
      for (const int of_class : firsts) enter(0, of_class);
    for (std::size_t i = 0; i < between.size(); ++i) enter(i + 1, between[i]);
    for (std::size_t c = 0; c < classes[last].size(); ++c)
      if (bit(refused, c)) enter(last, static_cast<int>(c));
  }
  return true;
}

}  // namespace rigproof::plan
