// Branch and bound: the run, its bounds, its end. README, "The search".
#include "decision/plan/search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "decision/plan/search_run.hpp"

namespace rigproof::plan {
namespace internal {

// (P2) Nothing below scores more than this.
std::int64_t Search::bound_of(double terms, double head_upper, bool exact) const {
  if (std::isinf(head_upper))
    return head_upper > 0.0 ? no_limit : std::numeric_limits<std::int64_t>::min();
  const double money = problem_.money_weight * static_cast<double>(problem_.budget);
  const double slack = (exact ? 0.0 : head_bound_slack) +
                       rounding_frac * (std::fabs(head_upper) + index_.magnitude + 1.0);
  return score_at_most(head_upper + money + terms + slack);
}

std::int64_t Search::bound_of_level(int level, const Prefix& prefix) const {
  const std::int64_t bound =
      std::min(prefix_bound_, bound_of(levels_.most_terms(level), prefix.upper, prefix.exact));
  if (level != prefix.depth || std::isinf(prefix.upper_with_next)) return bound;
  return std::min(bound, bound_of(levels_.most_terms_beside(level), prefix.upper_with_next, false));
}

bool Search::falls_behind(std::int64_t bound, std::int64_t least_cost) const {
  if (options_.first_only || incumbent_ == nullptr) return false;
  const Solution& best = incumbent_->solution;
  return bound < best.score || (bound == best.score && least_cost > best.costs[0]);
}

/// Below these terms the bound of the prefix being visited falls behind (P2, solved for them).
double Search::least_terms() const {
  if (options_.first_only || incumbent_ == nullptr || std::isinf(prefix_.upper))
    return -std::numeric_limits<double>::infinity();
  const double money = problem_.money_weight * static_cast<double>(problem_.budget);
  const double slack =
      head_bound_slack + 2.0 * rounding_frac * (std::fabs(prefix_.upper) + index_.magnitude + 1.0);
  return static_cast<double>(incumbent_->solution.score) - 0.5 - prefix_.upper - money - slack;
}

bool Search::may_improve(int level, std::int64_t bound) const {
  if (options_.first_only || incumbent_ == nullptr) return true;
  const std::int64_t least_cost = levels_.least_cost(level, 0);
  if (falls_behind(bound, least_cost)) return false;
  const Solution& best = incumbent_->solution;
  if (bound > best.score || least_cost < best.costs[0]) return true;
  return levels_.may_rank_before(level, incumbent_->ranks);
}

Outcome Search::run() {
  if (!levels_.start()) return result();
  open_root();
  while (!queue_.empty() && !ended_early_) {
    const Entry entry = queue_.top();
    if (sure_to_end(entry)) {
      count(internal::by_bound, static_cast<std::int64_t>(queue_.size()));
      break;
    }
    queue_.pop();
    if (visit(entry) == Go::end) break;
  }
  return result();
}

/// Nothing in the queue scores as much as the worst kept build, and no group is missing.
bool Search::sure_to_end(const Entry& entry) const {
  const Kept* worst = kept_.to_beat(std::nullopt);
  return !options_.first_only && worst != nullptr && entry.bound < worst->solution.score;
}

std::int64_t Search::open_bound() const {
  return queue_.empty() ? std::numeric_limits<std::int64_t>::min() : queue_.top().bound;
}

bool Search::asked_to_end() {
  if (until_question_ > 0) return ended_early_;
  until_question_ = options_.ask_every;
  if (options_.progress) {
    const bool has_best = !kept_.builds().empty();
    options_.progress({.nodes = nodes_,
                       .bound = bound_of_everything(),
                       .has_best = has_best,
                       .best_score = has_best ? kept_.builds().front().solution.score : 0});
  }
  if (options_.stop && options_.stop()) ended_early_ = true;
  return ended_early_;
}

std::int64_t Search::bound_of_everything() const {
  std::int64_t bound = std::max(prefix_bound_, open_bound());
  if (options_.first_only) {
    double terms = 0.0;
    for (const internal::SlotIndex& slot : index_.slot)
      terms += *std::ranges::max_element(slot.term);
    double upper = problem_.head == 0 ? 0.0 : -most_head_value;
    for (int first = 0; problem_.head > 0 && first < index_.slot.front().places; ++first)
      upper = std::max(upper, problem_.head_bound(std::span<const int>(&first, 1)));
    bound = bound_of(terms, upper, problem_.head == 0);
  }
  if (!kept_.builds().empty()) bound = std::max(bound, kept_.builds().front().solution.score);
  return bound;
}

Outcome Search::result() const {
  Outcome outcome{.nodes = nodes_, .leaves = leaves_, .head_values = head_values_};
  for (const Kept& kept : kept_.builds()) outcome.best.push_back(kept.solution);
  for (std::size_t i = 0; i < pruned_.size(); ++i)
    outcome.pruned.push_back({.why = index_.reasons[i], .count = pruned_[i]});
  const bool cut_short = ended_early_ || (options_.first_only && !outcome.best.empty());
  if (cut_short) {
    outcome.status = Outcome::Status::not_proven;
    outcome.bound = bound_of_everything();
  } else if (outcome.best.empty()) {
    outcome.status = Outcome::Status::impossible;
  } else {
    outcome.status = Outcome::Status::proven;
    outcome.bound = outcome.best.front().score;
  }
  return outcome;
}

}  // namespace internal

Outcome search(const Problem& problem, const SearchOptions& options) {
  return internal::Search(problem, options).run();
}

}  // namespace rigproof::plan
