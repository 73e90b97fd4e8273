#include "tests/plan/strong_program.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <functional>
#include <map>
#include <memory>
#include <numeric>
#include <queue>
#include <set>

#include "decision/plan/mps_pairs.hpp"

namespace rigproof::plan {
namespace {

using Kept = std::vector<std::vector<int>>;

Kept all_of(const Problem& problem) {
  Kept kept;
  for (const Slot& slot : problem.slots) {
    kept.emplace_back(slot.options.size());
    std::iota(kept.back().begin(), kept.back().end(), 0);
  }
  return kept;
}

// Without what checks over one slot alone refuse.
Kept not_refused(const Problem& problem) {
  Kept kept = all_of(problem);
  std::vector<int> choice(problem.slots.size(), -1);
  for (const Check& check : problem.checks) {
    if (check.scope.size() != 1) continue;
    const auto slot = static_cast<std::size_t>(check.scope.front());
    std::erase_if(kept[slot], [&](int option) {
      choice[slot] = option;
      return !check.holds(choice);
    });
    choice[slot] = -1;
  }
  return kept;
}

// (P1), what an option adds by itself: value less price.
double term(const Problem& p, std::size_t slot, int option) {
  const Option& o = p.slots[slot].options[static_cast<std::size_t>(option)];
  const double value = slot < static_cast<std::size_t>(p.head) ? 0.0 : o.value;
  return value - p.money_weight * static_cast<double>(o.costs[0]);
}

Bits all_set(std::size_t count) {
  Bits bits((count + 63) / 64, ~std::uint64_t{0});
  if (count % 64 != 0) bits.back() = (std::uint64_t{1} << (count % 64)) - 1;
  return bits;
}

// What goes with each option in every other slot.
class Pairs {
 public:
  Pairs(const Problem& p, const std::vector<ForbiddenPairs>& forbidden)
      : slots_(p.slots.size()), with_(slots_ * slots_) {
    for (const ForbiddenPairs& pairs : forbidden) {
      const auto s = static_cast<std::size_t>(pairs.first);
      const auto t = static_cast<std::size_t>(pairs.second);
      auto& there = with_[s * slots_ + t];
      auto& back = with_[t * slots_ + s];
      there.assign(pairs.rows.size(), all_set(pairs.columns));
      back.assign(pairs.columns, all_set(pairs.rows.size()));
      for (std::size_t a = 0; a < pairs.rows.size(); ++a)
        for (std::size_t word = 0; word < pairs.rows[a].size(); ++word) {
          there[a][word] &= ~pairs.rows[a][word];
          for (std::uint64_t left = pairs.rows[a][word]; left != 0; left &= left - 1) {
            const auto b = word * 64 + static_cast<std::size_t>(std::countr_zero(left));
            back[b][a / 64] &= ~(std::uint64_t{1} << (a % 64));
          }
        }
    }
  }
  [[nodiscard]] bool meet(std::size_t s, std::size_t t) const {
    return !with_[s * slots_ + t].empty();
  }
  /// Only if the two slots meet.
  [[nodiscard]] const Bits& with(std::size_t s, int a, std::size_t t) const {
    return with_[s * slots_ + t][static_cast<std::size_t>(a)];
  }
  [[nodiscard]] bool go_together(std::size_t s, int a, std::size_t t, int b) const {
    return !meet(s, t) || bit(with(s, a, t), static_cast<std::size_t>(b));
  }

 private:
  std::size_t slots_;
  std::vector<std::vector<Bits>> with_;  // by both slots, then option of the first
};

Bits bits_of(const Problem& p, const Kept& kept, std::size_t slot) {
  Bits bits((p.slots[slot].options.size() + 63) / 64, 0);
  for (const int option : kept[slot]) set_bit(bits, static_cast<std::size_t>(option));
  return bits;
}

bool any_of_both(const Bits& a, const Bits& b) {
  for (std::size_t word = 0; word < a.size(); ++word)
    if ((a[word] & b[word]) != 0) return true;
  return false;
}

bool strike_lonely(const Problem& p, const Pairs& pairs, Kept& kept) {
  bool struck = false;
  for (std::size_t t = 0; t < kept.size(); ++t) {
    const Bits there = bits_of(p, kept, t);
    for (std::size_t s = 0; s < kept.size(); ++s)
      if (s != t && pairs.meet(s, t))
        struck =
            std::erase_if(kept[s],
                          [&](int a) { return !any_of_both(pairs.with(s, a, t), there); }) > 0 ||
            struck;
  }
  return struck;
}

// What has to be equal for one option to stand in for another: its classes in checks and head.
std::vector<std::int64_t> look(const Problem& p, const HeadClasses& classes, std::size_t slot,
                               int option) {
  std::vector<std::int64_t> key;
  for (const Check& check : p.checks)
    for (std::size_t i = 0; i < check.scope.size(); ++i)
      if (static_cast<std::size_t>(check.scope[i]) == slot)
        key.push_back(check.class_of ? check.class_of(check.scope[i], option) : option);
  if (slot < static_cast<std::size_t>(p.head))
    key.push_back(classes.of_option[slot][static_cast<std::size_t>(option)]);
  return key;
}

class Dominance {
 public:
  Dominance(const Problem& p, const HeadClasses& classes, const Pairs& pairs, const Kept& kept)
      : p_(p), classes_(classes), pairs_(pairs), kept_(kept) {
    for (std::size_t slot = 0; slot < kept.size(); ++slot) there_.push_back(bits_of(p, kept, slot));
  }

  [[nodiscard]] std::vector<int> left_of(std::size_t slot) const {
    std::map<std::vector<std::int64_t>, std::vector<int>> alike;
    for (const int option : kept_[slot]) alike[look(p_, classes_, slot, option)].push_back(option);
    std::vector<int> left;
    for (const auto& [key, options] : alike)
      for (const int option : options)
        if (std::ranges::none_of(options, [&](int other) { return outdoes(slot, other, option); }))
          left.push_back(option);
    std::ranges::sort(left);
    return left;
  }

 private:
  // Equals go to the smaller number, so that one of them stays.
  [[nodiscard]] bool outdoes(std::size_t slot, int better, int option) const {
    if (better == option) return false;
    const double more = term(p_, slot, better) - term(p_, slot, option);
    const auto& options = p_.slots[slot].options;
    const auto& less = options[static_cast<std::size_t>(better)].costs;
    const auto& cost = options[static_cast<std::size_t>(option)].costs;
    if (more < 0.0) return false;
    for (std::size_t r = 0; r < cost.size(); ++r)
      if (less[r] > cost[r]) return false;
    bool same = true;
    for (std::size_t t = 0; t < kept_.size(); ++t) {
      if (t == slot || !pairs_.meet(slot, t)) continue;
      const Bits& mine = pairs_.with(slot, option, t);
      const Bits& theirs = pairs_.with(slot, better, t);
      for (std::size_t word = 0; word < mine.size(); ++word) {
        if ((mine[word] & there_[t][word] & ~theirs[word]) != 0) return false;
        same = same && ((mine[word] ^ theirs[word]) & there_[t][word]) == 0;
      }
    }
    return more > 0.0 || less != cost || better < option || !same;
  }
  const Problem& p_;
  const HeadClasses& classes_;
  const Pairs& pairs_;
  const Kept& kept_;
  std::vector<Bits> there_;  // what is kept of each slot
};

// The bound (P2) of a pair of first options, for one price on one resource (a Lagrangian bound):
// what goes over the cap would cost so much a unit, what is left under it counts in favour. True
// for any price of 0 or more. What the other slots can add is the least of what goes with either of
// the two.
class PairBound {
 public:
  PairBound(const Problem& p, const Pairs& pairs, const Kept& kept, std::size_t resource,
            double price)
      : p_(p), resource_(resource), price_(price) {
    for (std::size_t head = 0; head < 2; ++head)
      most_[head].assign(p.slots[head].options.size(), std::vector<double>(kept.size() - 2, none));
    for (std::size_t s = 2; s < kept.size(); ++s) {
      std::vector<std::pair<double, int>> best_first;
      for (const int o : kept[s]) best_first.emplace_back(worth(s, o), o);
      std::ranges::sort(best_first, std::greater{});
      for (std::size_t head = 0; head < 2; ++head)
        for (const int option : kept[head])
          for (const auto& [value, o] : best_first)
            if (pairs.go_together(head, option, s, o)) {
              most_[head][static_cast<std::size_t>(option)][s - 2] = value;
              break;
            }
    }
  }
  /// Without the value of the head.
  [[nodiscard]] double of(int a, int b) const {
    double sum = p_.money_weight * static_cast<double>(p_.budget) +
                 price_ * static_cast<double>(p_.caps[resource_]) + worth(0, a) + worth(1, b);
    const auto& with_a = most_[0][static_cast<std::size_t>(a)];
    const auto& with_b = most_[1][static_cast<std::size_t>(b)];
    for (std::size_t s = 0; s < with_a.size(); ++s) sum += std::min(with_a[s], with_b[s]);
    return sum;
  }

 private:
  static constexpr double none = -1e300;  // nothing goes with it
  [[nodiscard]] double worth(std::size_t slot, int option) const {
    const auto& costs = p_.slots[slot].options[static_cast<std::size_t>(option)].costs;
    return term(p_, slot, option) - price_ * static_cast<double>(costs[resource_]);
  }
  const Problem& p_;
  std::size_t resource_;
  double price_;
  std::array<std::vector<std::vector<double>>, 2> most_;  // by option, then slot
};

// Without a price; and each resource at prices around what the budget is worth a unit of its cap.
std::vector<PairBound> bounds_of(const Problem& p, const Pairs& pairs, const Kept& kept) {
  std::vector<PairBound> out;
  out.emplace_back(p, pairs, kept, 0, 0.0);
  for (std::size_t r = 0; r < p.caps.size(); ++r)
    for (const double share : {0.01, 0.03, 0.1, 0.2, 0.4, 0.6, 0.8, 1.0, 1.5, 2.5})
      if (p.caps[r] > 0)
        out.emplace_back(p, pairs, kept, r,
                         share * static_cast<double>(p.budget) / static_cast<double>(p.caps[r]));
  return out;
}

// Of the head: the closer bound is worked out only where the rough one reaches `reached`.
double ceiling(const Problem& p, const std::vector<int>& pair) {
  return p.head_ceiling ? p.head_ceiling(pair) : p.head_bound(pair);
}

std::vector<LeadingPair> leading(const Problem& p, const Pairs& pairs, const Kept& kept,
                                 double reached) {
  std::vector<LeadingPair> out;
  if (kept.size() < 2 || p.head < 2) return out;
  const auto bounds = bounds_of(p, pairs, kept);
  for (const int a : kept[0])
    for (const int b : kept[1]) {
      if (!pairs.go_together(0, a, 1, b)) continue;
      double least = 1e300;
      for (const PairBound& bound : bounds) least = std::min(least, bound.of(a, b));
      if (least < -1e200) continue;
      out.push_back({a, b, least + ceiling(p, {a, b})});
      if (out.back().bound < reached - 0.5) out.pop_back();
    }
  return out;
}

// By a bound that is known to be close.
void leave_what_falls_behind(const Problem& p, double reached, std::vector<LeadingPair>& pairs) {
  if (reached < -1e200) return;
  std::erase_if(pairs, [&](LeadingPair& pair) {
    const std::vector<int> head{pair.first, pair.second};
    return pair.bound - ceiling(p, head) + p.head_bound(head) < reached - 0.5;
  });
}

}  // namespace

namespace {

Smaller taken(const Problem& original, const HeadClasses& classes, Kept kept,
              const std::vector<ForbiddenPairs>& forbidden) {
  Smaller out{.problem = original, .classes = classes, .kept = std::move(kept)};
  Problem& p = out.problem;
  const auto back = std::make_shared<const Kept>(out.kept);
  const auto original_of = [back](std::span<const int> choice) {
    std::vector<int> there(choice.begin(), choice.end());
    for (std::size_t s = 0; s < there.size(); ++s)
      if (there[s] >= 0) there[s] = (*back)[s][static_cast<std::size_t>(there[s])];
    return there;
  };
  for (std::size_t s = 0; s < p.slots.size(); ++s) {
    p.slots[s].options.clear();
    for (const int o : out.kept[s])
      p.slots[s].options.push_back(original.slots[s].options[static_cast<std::size_t>(o)]);
  }
  p.tables.clear();
  for (const ForbiddenPairs& pairs : forbidden) {
    const auto& rows = out.kept[static_cast<std::size_t>(pairs.first)];
    const auto& columns = out.kept[static_cast<std::size_t>(pairs.second)];
    PairTable table =
        PairTable::all_allowed(pairs.first, pairs.second, static_cast<int>(rows.size()),
                               static_cast<int>(columns.size()), "pairs");
    for (std::size_t i = 0; i < rows.size(); ++i)
      for (std::size_t j = 0; j < columns.size(); ++j)
        if (pairs.forbids(rows[i], columns[j]))
          table.forbid(static_cast<int>(i), static_cast<int>(j));
    p.tables.push_back(std::move(table));
  }
  p.checks.clear();
  for (const Check& check : original.checks) {
    if (check.scope.size() == 2) continue;  // among the pairs
    Check& less = p.checks.emplace_back(check);
    less.holds = [&check, original_of](std::span<const int> choice) {
      return check.holds(original_of(choice));
    };
    if (check.class_of)
      less.class_of = [&check, kept = out.kept](int slot, int option) {
        return check.class_of(
            slot, kept[static_cast<std::size_t>(slot)][static_cast<std::size_t>(option)]);
      };
  }
  p.next_bound = {};
  if (original.head_ceiling)
    p.head_ceiling = [&original, original_of](std::span<const int> head) {
      return original.head_ceiling(original_of(head));
    };
  p.head_value = [&original, original_of](std::span<const int> head) {
    return original.head_value(original_of(head));
  };
  p.head_bound = [&original, original_of](std::span<const int> head) {
    return original.head_bound(original_of(head));
  };
  p.group_slots = 0;
  for (std::size_t s = 0; s < out.classes.of_option.size(); ++s) {  // numbered anew, without gaps
    const auto old = std::exchange(out.classes.of_option[s], {});
    std::map<int, int> numbers;
    for (const int o : out.kept[s])
      out.classes.of_option[s].push_back(
          numbers.try_emplace(old[static_cast<std::size_t>(o)], static_cast<int>(numbers.size()))
              .first->second);
  }
  if (classes.joint) {
    const auto numbers = std::make_shared<std::map<int, int>>();
    out.classes.joint = [joint = classes.joint, original_of, numbers](std::span<const int> head) {
      return numbers->try_emplace(joint(original_of(head)), static_cast<int>(numbers->size()))
          .first->second;
    };
  }
  return out;
}

}  // namespace

Smaller only(const Problem& original, const HeadClasses& classes, Kept kept) {
  return taken(original, classes, std::move(kept), forbidden_pairs(original, {}));
}

void each_leading_pair(const Problem& problem,
                       const std::function<bool(const LeadingPair&)>& visit) {
  struct Waiting {
    LeadingPair pair;
    bool close = false;
    bool operator<(const Waiting& other) const { return pair.bound < other.pair.bound; }
  };
  std::priority_queue<Waiting> waiting;
  for (const LeadingPair& pair :
       leading(problem, Pairs(problem, forbidden_pairs(problem, {})), not_refused(problem), -1e300))
    waiting.push({pair});
  while (!waiting.empty()) {
    Waiting next = waiting.top();
    waiting.pop();
    if (next.close) {
      if (!visit(next.pair)) return;
      continue;
    }
    const std::vector<int> head{next.pair.first, next.pair.second};
    next.pair.bound += problem.head_bound(head) - ceiling(problem, head);
    next.close = true;
    waiting.push(next);
  }
}

Smaller strengthened(const Problem& original, const HeadClasses& classes, double reached) {
  const auto forbidden = forbidden_pairs(original, {});
  const Pairs pairs(original, forbidden);
  Kept kept = not_refused(original);
  std::set<std::pair<int, int>> leaders;
  for (std::size_t before = 0, now = 1; before != now;) {
    before = 0;
    for (const auto& of_slot : kept) before += of_slot.size();
    while (strike_lonely(original, pairs, kept)) {
    }
    for (std::size_t s = 0; s < kept.size(); ++s)
      kept[s] = Dominance(original, classes, pairs, kept).left_of(s);
    if (original.head >= 2) {
      leaders.clear();
      std::set<int> firsts;
      std::set<int> seconds;
      auto all_leading = leading(original, pairs, kept, reached);
      leave_what_falls_behind(original, reached, all_leading);
      for (const LeadingPair& pair : all_leading) {
        leaders.insert({pair.first, pair.second});
        firsts.insert(pair.first);
        seconds.insert(pair.second);
      }
      std::erase_if(kept[0], [&](int a) { return !firsts.contains(a); });
      std::erase_if(kept[1], [&](int b) { return !seconds.contains(b); });
    }
    now = 0;
    for (const auto& of_slot : kept) now += of_slot.size();
  }
  Smaller out = taken(original, classes, kept, forbidden);
  if (original.head < 2) return out;
  PairTable table = PairTable::all_allowed(0, 1, static_cast<int>(kept[0].size()),
                                           static_cast<int>(kept[1].size()), "bound");
  for (std::size_t a = 0; a < kept[0].size(); ++a)
    for (std::size_t b = 0; b < kept[1].size(); ++b)
      if (!leaders.contains({kept[0][a], kept[1][b]}))
        table.forbid(static_cast<int>(a), static_cast<int>(b));
  out.problem.tables.push_back(std::move(table));
  return out;
}

}  // namespace rigproof::plan
