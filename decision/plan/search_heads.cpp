// Beginnings of heads, best bound first; their extensions are taken one at a time. README, "The
// search", steps 1 and 6.
#include <algorithm>
#include <bit>
#include <cmath>
#include <utility>

#include "base/contract.hpp"
#include "decision/plan/search_run.hpp"

namespace rigproof::plan::internal {

void Search::open_root() {
  Prefix root;
  root.exact = problem_.head == 0;
  root.upper = root.exact ? 0.0 : std::numeric_limits<double>::infinity();
  prefixes_.push_back(root);
  extensions_.emplace_back();
  queue_.push({.bound = no_limit, .least_cost = 0, .depth = 0, .prefix = 0});
}

Search::Go Search::visit(Entry entry) {
  if (is_dead(entry)) {
    count(internal::by_no_option);
    return Go::on;
  }
  prefix_ = prefixes_[z(entry.prefix)];
  prefix_bound_ = entry.bound;
  find_incumbent();
  if (falls_behind(entry.bound, entry.least_cost)) {
    count(internal::by_bound);
    return Go::on;
  }
  if (!remake(entry)) {
    bury(entry);
    return Go::on;
  }
  prefix_bound_ = bound_of_level(entry.depth);
  if (!may_improve(entry.depth, prefix_bound_)) {
    count(internal::by_bound);
    return Go::on;
  }
  if (prefix_bound_ < entry.bound && prefix_bound_ < open_bound()) {
    put_back(entry);
    return Go::on;
  }
  if (entry.depth < problem_.head) {
    extend(entry);
    return asked_to_end() ? Go::end : Go::on;
  }
  if (only_slack_is_left()) {
    settle_head_value();
    prefix_bound_ = bound_of_level(entry.depth);
    if (!may_improve(entry.depth, prefix_bound_)) {
      count(internal::by_bound);
      return Go::on;
    }
  }
  const Go go = go_deeper(entry.depth);
  if (go == Go::on) bury(entry);
  if (go == Go::put_back) put_back(entry);
  return go == Go::end ? Go::end : Go::on;
}

/// A full head whose bound is over the score to beat by no more than is left for the rounding of
/// head_bound: whether it is at all, its value tells for less than walking its tails.
bool Search::only_slack_is_left() const {
  if (prefix_.exact || problem_.head == 0 || options_.first_only || incumbent_ == nullptr)
    return false;
  const auto slack = static_cast<std::int64_t>(head_bound_slack);
  return prefix_bound_ <= incumbent_->solution.score + slack;
}

void Search::put_back(Entry entry) {
  prefixes_[z(entry.prefix)] = prefix_;
  entry.bound = prefix_bound_;
  queue_.push(entry);
}

/// Makes the levels of a prefix again, and asks its checks the first time.
bool Search::remake(const Entry& entry) {
  std::vector<int> places(z(entry.depth));
  for (int at = entry.prefix; prefixes_[z(at)].depth > 0; at = prefixes_[z(at)].parent)
    places[z(prefixes_[z(at)].depth - 1)] = prefixes_[z(at)].place;
  for (int level = 0; level < index_.slots; ++level) levels_.leave(level);
  levels_.strike_for_good();
  for (int level = 0; level < entry.depth; ++level)
    if (!levels_.enter(level, places[z(level)], false)) {  // level 0 has lost options since
      count(internal::by_no_option);
      conflict_ = levels_.conflict();
      return false;
    }
  const bool holds = prefix_.checked || entry.depth == 0 || levels_.last_holds(entry.depth - 1);
  prefix_.checked = true;
  if (!holds || !levels_.tighten(entry.depth, least_terms())) {
    conflict_ = levels_.conflict();
    return false;
  }
  if (levels_.within_caps(entry.depth)) return true;
  count(internal::by_caps);
  conflict_ = Levels::decided(entry.depth);
  return false;
}

/// The shortest beginning of a prefix that fails for the same reason takes all that begin so with
/// it.
void Search::bury(const Entry& entry) {
  const auto depth = static_cast<int>(std::bit_width(conflict_));
  int at = entry.prefix;
  while (prefixes_[z(at)].depth > depth) at = prefixes_[z(at)].parent;
  prefixes_[z(at)].dead = true;
}

bool Search::is_dead(const Entry& entry) const {
  for (int at = entry.prefix; at >= 0; at = prefixes_[z(at)].parent)
    if (prefixes_[z(at)].dead) return true;
  return false;
}

double Search::head_upper(int depth) const {
  if (options_.first_only) return std::numeric_limits<double>::infinity();
  const double upper = problem_.head_bound(levels_.choice().first(z(depth)));
  RP_EXPECT(upper >= -most_head_value);  // false for NaN
  return std::min(prefix_.upper, upper);
}

/// Of a prefix of `depth` slots whose builds cost no less than `least_cost` beside the next slot.
double Search::upper_with_next(int depth, std::int64_t least_cost) const {
  if (options_.first_only || !problem_.next_bound || depth >= problem_.head)
    return std::numeric_limits<double>::infinity();
  const double upper =
      problem_.next_bound(levels_.choice().first(z(depth)), problem_.caps[0] - least_cost);
  RP_EXPECT(!std::isnan(upper));
  return upper;
}

/// Lists what the next slot may hold, by a bound that needs none of it entered.
void Search::open(const Entry& entry) {
  const int level = entry.depth;
  auto& extensions = extensions_[z(entry.prefix)];
  for (int place = levels_.next_place(level, 0); place >= 0;
       place = levels_.next_place(level, place + 1)) {
    if (!levels_.within_caps_with(level, place)) {
      count(internal::by_caps);
      continue;
    }
    Extension next{.bound = prefix_bound_,
                   .least_cost = levels_.least_cost_with(level, place, 0),
                   .place = place};
    if (!options_.first_only) {
      levels_.choose(level, place);
      const auto first_options = levels_.choice().first(z(level) + 1);
      const double upper = problem_.head_ceiling ? problem_.head_ceiling(first_options)
                                                 : problem_.head_bound(first_options);
      RP_EXPECT(upper >= -most_head_value);  // false for NaN
      next.bound = std::min(next.bound, bound_of(levels_.most_terms_with(level, place),
                                                 std::min(prefix_.upper, upper), false));
      if (level + 1 < problem_.head) {
        const std::int64_t beside = next.least_cost - levels_.least_cost_of(level, level + 1, 0);
        next.bound = std::min(next.bound, bound_of(levels_.most_terms_with(level, place) -
                                                       levels_.most_term_of(level, level + 1),
                                                   upper_with_next(level + 1, beside), false));
      }
      if (options_.look) options_.look(levels_.choice(), next.bound);
      levels_.leave(level);
    }
    if (falls_behind(next.bound, next.least_cost))
      count(internal::by_bound);
    else
      extensions.push_back(next);
  }
  std::ranges::sort(extensions, [](const Extension& a, const Extension& b) {
    if (a.bound != b.bound) return a.bound < b.bound;  // the best is taken first, from the back
    if (a.least_cost != b.least_cost) return a.least_cost > b.least_cost;
    return a.place > b.place;
  });
  prefix_.opened = true;
}

/// Takes extensions, best first, as long as nothing else in the queue may come before the next one.
void Search::extend(Entry entry) {
  if (!prefix_.opened) open(entry);
  std::vector<Extension> extensions = std::move(extensions_[z(entry.prefix)]);
  while (!extensions.empty()) {
    const Extension next = extensions.back();
    if (falls_behind(next.bound, next.least_cost)) {
      count(internal::by_bound, static_cast<std::int64_t>(extensions.size()));
      extensions.clear();
      break;
    }
    entry.bound = next.bound;
    entry.least_cost = next.least_cost;
    if (!queue_.empty() && StandsBehind{}(entry, queue_.top())) break;
    prefix_bound_ = next.bound;
    extensions.pop_back();
    extend_by(entry, next.place);
  }
  levels_.leave(entry.depth);
  prefixes_[z(entry.prefix)] = prefix_;
  if (extensions.empty()) return;
  extensions_[z(entry.prefix)] = std::move(extensions);
  prefix_bound_ = entry.bound;
  queue_.push(entry);
}

void Search::extend_by(const Entry& entry, int place) {
  const int level = entry.depth;
  enter_node();
  if (!levels_.enter(level, place, true)) return;
  if (!levels_.within_caps(level + 1)) return count(internal::by_caps);
  if (!may_improve(level + 1, bound_of_level(level + 1))) return count(internal::by_bound);

  Prefix next = prefix_;
  next.parent = entry.prefix;
  next.depth = level + 1;
  next.place = place;
  next.checked = false;
  next.dead = false;
  next.opened = false;
  const auto first_options = levels_.choice().first(z(level) + 1);
  if (next.depth == problem_.group_slots) next.group = problem_.group(first_options);
  next.upper = head_upper(next.depth);
  next.upper_with_next = std::numeric_limits<double>::infinity();
  Entry to{.bound = no_limit,
           .least_cost = levels_.least_cost(level + 1, 0),
           .depth = level + 1,
           .prefix = static_cast<int>(prefixes_.size())};
  if (next.depth < problem_.head)
    next.upper_with_next =
        upper_with_next(next.depth, to.least_cost - levels_.least_cost_of(level + 1, level + 1, 0));
  if (!options_.first_only) to.bound = bound_of_level(level + 1, next);
  if (options_.look) options_.look(levels_.choice(), to.bound);
  prefixes_.push_back(next);
  extensions_.emplace_back();
  queue_.push(to);
}

}  // namespace rigproof::plan::internal
