// Behind a full head: depth first, jumping back to what a failure rests on. README, "The search",
// steps 2, 5 and 6.
#include <cmath>

#include "base/contract.hpp"
#include "decision/plan/search_run.hpp"

namespace rigproof::plan::internal {

/// On Go::on, conflict_ says what the failure rests on; it never names slot `level` or a later one.
Search::Go Search::go_deeper(int level) {
  if (level == index_.slots) return complete();
  std::uint64_t why = levels_.culprits(level, level);
  for (int place = levels_.next_place(level, 0); place >= 0;
       place = levels_.next_place(level, place + 1)) {
    const std::int64_t bound =
        bound_of(levels_.most_terms_with(level, place), prefix_.upper, prefix_.exact);
    const bool behind = falls_behind(bound, 0);  // terms only fall from here on
    if (behind || levels_.over_cap_from(level, place)) {
      count(behind ? internal::by_bound : internal::by_caps, levels_.allowed_from(level, place));
      why = Levels::decided(level);
      break;
    }
    const std::optional<Go> go = try_place(level, place);
    if (go) return *go;
    if ((conflict_ >> level & 1U) == 0) {  // whatever stands here, it fails
      levels_.leave(level);
      return Go::on;
    }
    why |= conflict_ & Levels::decided(level);
  }
  levels_.leave(level);
  conflict_ = why;
  return Go::on;
}

/// Nothing when the next place is to be tried; conflict_ says why.
std::optional<Search::Go> Search::try_place(int level, int place) {
  const std::uint64_t all = Levels::decided(level + 1);
  conflict_ = all;
  if (!levels_.within_caps_with(level, place)) {
    count(internal::by_caps);
    return std::nullopt;
  }
  enter_node();
  if (asked_to_end()) return Go::end;
  const auto fails = [&] {
    conflict_ = levels_.conflict();
    return std::nullopt;
  };
  if (!levels_.enter(level, place, true)) return fails();
  const auto fits = [&] {
    if (!levels_.within_caps(level + 1)) {
      count(internal::by_caps);
      return false;
    }
    if (may_improve(level + 1, bound_of_level(level + 1))) return true;
    count(internal::by_bound);
    return false;
  };
  if (options_.look) options_.look(levels_.choice(), bound_of_level(level + 1));
  if (!fits()) return std::nullopt;
  if (!levels_.last_holds(level) || !levels_.tighten(level + 1, least_terms())) return fails();
  if (!fits()) return std::nullopt;
  const Go go = go_deeper(level + 1);
  if (go == Go::on) return std::nullopt;
  return go;
}

Search::Go Search::complete() {
  ++leaves_;
  const bool first_look = !prefix_.exact;
  if (first_look) settle_head_value();
  keep(exact_score());
  conflict_ = Levels::decided(index_.slots);
  if (options_.first_only) return Go::end;
  if (!first_look) return Go::on;
  prefix_bound_ = bound_of_level(problem_.head);
  return prefix_bound_ < open_bound() ? Go::put_back : Go::on;
}

void Search::settle_head_value() {
  const double value = problem_.head_value(levels_.choice().first(z(problem_.head)));
  RP_EXPECT(std::fabs(value) <= most_head_value);  // false for NaN
  RP_EXPECT(value <= prefix_.upper + head_bound_slack + rounding_frac * std::fabs(value));
  prefix_.upper = value;
  prefix_.exact = true;
  ++head_values_;
  until_question_ -= options_.ask_every / head_values_per_question;
}

// (P1), in the order the header promises.
double Search::exact_score() const {
  double score = prefix_.upper;
  const auto choice = levels_.choice();
  std::int64_t paid = 0;
  for (std::size_t s = 0; s < choice.size(); ++s) {
    const Option& option = problem_.slots[s].options[z(choice[s])];
    if (s >= z(problem_.head)) score += option.value;
    paid += option.costs[0];
  }
  return score + problem_.money_weight * static_cast<double>(problem_.budget - paid);
}

void Search::keep(double score) {
  const auto choice = levels_.choice();
  kept_.offer({.solution = {.choice = {choice.begin(), choice.end()},
                            .score = std::llround(score),
                            .costs = levels_.costs()},
               .ranks = levels_.ranks(),
               .group = prefix_.group});
  find_incumbent();
}

}  // namespace rigproof::plan::internal
