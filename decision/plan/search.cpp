// Branch and bound: heads best bound first, the tail of each depth first. README, "The search".
#include "decision/plan/search.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <optional>
#include <queue>
#include <utility>

#include "base/contract.hpp"
#include "decision/plan/search_index.hpp"
#include "decision/plan/search_kept.hpp"
#include "decision/plan/search_levels.hpp"

namespace rigproof::plan {

namespace {

using internal::Index;
using internal::Kept;
using internal::KeptBuilds;
using internal::Levels;

constexpr std::int64_t no_limit = std::numeric_limits<std::int64_t>::max();
constexpr double most_head_value = 1e15;
/// Head bounds come from formulas of others: one unit is left for their rounding.
constexpr double head_bound_slack = 1.0;
/// At most 2 x 67 roundings separate a bound from the score it bounds, each at most 2^-53 of the
/// largest partial sum: 2^-45 covers them.
constexpr double rounding_frac = 0x1p-45;
/// One head_value weighs as much as this share of the nodes between two questions to `stop`.
constexpr int head_values_per_question = 16;

std::size_t z(int i) { return static_cast<std::size_t>(i); }

/// The largest score that rounds from a number up to x.
std::int64_t score_at_most(double x) {
  const double up = std::floor(x + 0.5);
  if (up >= 0x1p63) return no_limit;
  if (up <= -0x1p63) return std::numeric_limits<std::int64_t>::min();
  return static_cast<std::int64_t>(up);
}

/// A head or the beginning of one.
struct Prefix {
  int parent = -1;  ///< in the list of prefixes
  int depth = 0;
  int place = 0;  ///< of the last slot
  std::optional<int> group;
  double upper = 0.0;  ///< of head_value; the value itself when exact
  /// Of head_value and the term of the next slot together.
  double upper_with_next = std::numeric_limits<double>::infinity();
  bool exact = false;
  bool checked = false;
  bool dead = false;         ///< nothing under it satisfies everything
  bool opened = false;       ///< its extensions are listed
  std::size_t extended = 0;  ///< how many of them were taken
};

/// What a prefix or, once it is opened, the best of its extensions not yet taken may still come to.
struct Entry {
  std::int64_t bound = 0;
  std::int64_t least_cost = 0;
  int depth = 0;
  int prefix = 0;
};

/// An option of the next slot, before it is entered.
struct Extension {
  std::int64_t bound = 0;
  std::int64_t least_cost = 0;
  int place = 0;
};

struct StandsBehind {
  bool operator()(const Entry& a, const Entry& b) const {
    if (a.bound != b.bound) return a.bound < b.bound;
    if (a.least_cost != b.least_cost) return a.least_cost > b.least_cost;
    if (a.depth != b.depth) return a.depth < b.depth;
    return a.prefix > b.prefix;
  }
};

class Search {
 public:
  Search(const Problem& problem, const SearchOptions& options)
      : problem_(problem),
        options_(options),
        index_(problem, options),
        pruned_(index_.reasons.size(), 0),
        levels_(index_, pruned_),
        kept_(options.keep),
        until_question_(options.ask_every) {}

  Outcome run();

 private:
  enum class Go { on, put_back, end };

  void open_root();
  Go visit(Entry entry);
  bool remake(const Entry& entry);
  void open(const Entry& entry);
  void extend(Entry entry);
  void extend_by(const Entry& entry, int place);
  [[nodiscard]] double head_upper(int depth) const;
  [[nodiscard]] double upper_with_next(int depth, std::int64_t least_cost) const;
  Go go_deeper(int level);
  std::optional<Go> try_place(int level, int place);
  Go complete();
  void settle_head_value();
  void keep(double score);
  void put_back(Entry entry);

  [[nodiscard]] std::int64_t bound_of(double terms, double head_upper, bool exact) const;
  [[nodiscard]] std::int64_t bound_of_level(int level) const {
    return bound_of_level(level, prefix_);
  }
  [[nodiscard]] std::int64_t bound_of_level(int level, const Prefix& prefix) const;
  [[nodiscard]] bool may_improve(int level, std::int64_t bound) const;
  [[nodiscard]] bool falls_behind(std::int64_t bound, std::int64_t least_cost) const;
  [[nodiscard]] double least_terms() const;
  [[nodiscard]] bool is_dead(const Entry& entry) const;
  void bury(const Entry& entry);
  [[nodiscard]] bool sure_to_end(const Entry& entry) const;
  [[nodiscard]] double exact_score() const;
  [[nodiscard]] std::int64_t open_bound() const;
  [[nodiscard]] std::int64_t bound_of_everything() const;
  void find_incumbent() { incumbent_ = kept_.to_beat(prefix_.group); }
  void count(internal::Reason reason, std::int64_t by = 1) { pruned_[reason] += by; }
  void enter_node() {
    ++nodes_;
    --until_question_;
  }
  bool asked_to_end();
  Outcome result() const;

  const Problem& problem_;
  const SearchOptions& options_;
  Index index_;
  std::vector<std::int64_t> pruned_;
  Levels levels_;
  KeptBuilds kept_;
  std::vector<Prefix> prefixes_;
  std::vector<std::vector<Extension>> extensions_;  ///< [prefix] best first, once it is opened
  std::priority_queue<Entry, std::vector<Entry>, StandsBehind> queue_;

  Prefix prefix_;                    ///< the one being visited
  std::int64_t prefix_bound_ = 0;    ///< its bound; everything under it stays below
  const Kept* incumbent_ = nullptr;  ///< what its builds must stand before
  /// Why nothing was found under the partial choice left last: slots that it rests on.
  std::uint64_t conflict_ = 0;
  bool ended_early_ = false;
  int until_question_;
  std::int64_t nodes_ = 0;
  std::int64_t leaves_ = 0;
  std::int64_t head_values_ = 0;
};

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
  const Go go = go_deeper(entry.depth);
  if (go == Go::on) bury(entry);
  if (go == Go::put_back) put_back(entry);
  return go == Go::end ? Go::end : Go::on;
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
  return problem_.next_bound(levels_.choice().first(z(depth)), problem_.caps[0] - least_cost);
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
      if (problem_.next_bound && level + 1 < problem_.head) {
        const std::int64_t beside = next.least_cost - levels_.least_cost_of(level, level + 1, 0);
        const double joint = problem_.next_bound(first_options, problem_.caps[0] - beside);
        next.bound = std::min(next.bound, bound_of(levels_.most_terms_with(level, place) -
                                                       levels_.most_term_of(level, level + 1),
                                                   joint, false));
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
    if (a.bound != b.bound) return a.bound > b.bound;
    if (a.least_cost != b.least_cost) return a.least_cost < b.least_cost;
    return a.place < b.place;
  });
  prefix_.opened = true;
}

/// Takes extensions, best first, as long as nothing else in the queue may come before the next one.
void Search::extend(Entry entry) {
  if (!prefix_.opened) open(entry);
  std::vector<Extension> extensions = std::move(extensions_[z(entry.prefix)]);
  while (prefix_.extended < extensions.size()) {
    const Extension& next = extensions[prefix_.extended];
    if (falls_behind(next.bound, next.least_cost)) {
      count(internal::by_bound, static_cast<std::int64_t>(extensions.size() - prefix_.extended));
      prefix_.extended = extensions.size();
      break;
    }
    entry.bound = next.bound;
    entry.least_cost = next.least_cost;
    if (!queue_.empty() && StandsBehind{}(entry, queue_.top())) break;
    prefix_bound_ = next.bound;
    ++prefix_.extended;
    extend_by(entry, next.place);
  }
  levels_.leave(entry.depth);
  prefixes_[z(entry.prefix)] = prefix_;
  if (prefix_.extended == extensions.size()) return;
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
  next.extended = 0;
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

}  // namespace

Outcome search(const Problem& problem, const SearchOptions& options) {
  return Search(problem, options).run();
}

}  // namespace rigproof::plan
