// Validates a problem and puts it in the order of the search.
#include "decision/plan/search_index.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "base/contract.hpp"

namespace rigproof::plan::internal {

namespace {

constexpr int most_slots = 64;
constexpr std::int64_t most_cost = 1'000'000'000'000'000;
constexpr std::int64_t most_budget = most_slots * most_cost;
constexpr double most_value = 1e15;
constexpr double most_money_weight = 16.0;

void validate_slot(const Slot& slot, std::size_t resources) {
  std::vector<int> ranks;
  ranks.reserve(slot.options.size());
  for (const Option& option : slot.options) {
    RP_EXPECT(option.costs.size() == resources);
    for (const std::int64_t cost : option.costs) RP_EXPECT(cost >= 0 && cost <= most_cost);
    RP_EXPECT(std::fabs(option.value) <= most_value);  // false for NaN
    ranks.push_back(option.rank);
  }
  std::ranges::sort(ranks);
  RP_EXPECT(std::ranges::adjacent_find(ranks) == ranks.end());
}

std::vector<int> counted(int size) {
  std::vector<int> all(static_cast<std::size_t>(size));
  std::iota(all.begin(), all.end(), 0);
  return all;
}

/// How much of the caps an option takes, over all resources.
double share_of_caps(const Option& option, const std::vector<std::int64_t>& caps) {
  double share = 0.0;
  for (std::size_t r = 0; r < caps.size(); ++r)
    share += static_cast<double>(option.costs[r]) /
             static_cast<double>(std::max<std::int64_t>(caps[r], 1));
  return share;
}

/// How many classes the options of a slot are put into: each its own when none are named.
int classes_of(const std::vector<int>& classes, int places) {
  if (classes.empty()) return places;
  RP_EXPECT(classes.size() == static_cast<std::size_t>(places));
  int count = 0;
  for (const int each : classes) {
    RP_EXPECT(each >= 0 && each < places);
    count = std::max(count, each + 1);
  }
  return count;
}

}  // namespace

Index::Index(const Problem& p, const SearchOptions& options)
    : problem(p),
      slots(static_cast<int>(p.slots.size())),
      resources(static_cast<int>(p.caps.size())),
      rank_order(p.rank_order),
      reasons{"bound", "caps", "no option left"} {
  RP_EXPECT(options.keep >= 1 && options.ask_every >= 1);
  validate();
  if (rank_order.empty()) rank_order = counted(slots);
  const auto count = p.slots.size();
  tables.resize(count);
  checks.resize(count);
  ready_at.assign(count + 1, 0);
  ready_by.assign(count + 1, 0);
  magnitude = p.money_weight * std::fabs(static_cast<double>(p.budget));
  for (std::size_t s = 0; s < count; ++s)
    add_slot(p.slots[s], static_cast<int>(s) < p.head, options.first_only);
  for (const PairTable& table : p.tables) add_table(table);
  for (const Check& check : p.checks) add_check(check);
  ready_by[0] = ready_at[0];
  for (std::size_t level = 1; level <= count; ++level)
    ready_by[level] = ready_by[level - 1] | ready_at[level];
}

void Index::validate() const {
  RP_EXPECT(slots >= 1 && slots <= most_slots);
  RP_EXPECT(resources >= 1);
  RP_EXPECT(problem.head >= 0 && problem.head <= slots);
  RP_EXPECT(problem.head == 0 || (problem.head_bound && problem.head_value));
  RP_EXPECT(problem.money_weight >= 0.0 && problem.money_weight <= most_money_weight);
  RP_EXPECT(problem.budget >= -most_budget && problem.budget <= most_budget);
  RP_EXPECT(problem.group_slots >= 0 && problem.group_slots <= problem.head);
  RP_EXPECT((problem.group_slots > 0) == static_cast<bool>(problem.group));
  for (const Slot& s : problem.slots) validate_slot(s, problem.caps.size());
  if (problem.rank_order.empty()) return;
  std::vector<int> sorted = problem.rank_order;
  std::ranges::sort(sorted);
  RP_EXPECT(sorted == counted(slots));
}

void Index::add_slot(const Slot& from, bool in_head, bool cheapest_first) {
  SlotIndex to;
  to.places = static_cast<int>(from.options.size());
  to.words = (to.places + word_bits - 1) / word_bits;
  to.first_word = words;
  words += static_cast<std::size_t>(to.words);

  std::vector<double> term_of;
  std::vector<double> share_of;
  double largest = 0.0;
  for (const Option& option : from.options) {
    const double value = in_head ? 0.0 : option.value;
    const double paid = problem.money_weight * static_cast<double>(option.costs[0]);
    term_of.push_back(value - paid);
    share_of.push_back(cheapest_first ? share_of_caps(option, problem.caps) : 0.0);
    largest = std::max(largest, std::fabs(value) + paid);
  }
  magnitude += largest;

  to.option = counted(to.places);
  std::ranges::sort(to.option, [&](int left, int right) {
    const auto a = static_cast<std::size_t>(left);
    const auto b = static_cast<std::size_t>(right);
    if (share_of[a] != share_of[b]) return share_of[a] < share_of[b];
    if (term_of[a] != term_of[b]) return term_of[a] > term_of[b];
    if (from.options[a].costs[0] != from.options[b].costs[0])
      return from.options[a].costs[0] < from.options[b].costs[0];
    return from.options[a].rank < from.options[b].rank;
  });
  for (const int index : to.option) {
    const Option& option = from.options[static_cast<std::size_t>(index)];
    to.term.push_back(term_of[static_cast<std::size_t>(index)]);
    to.rank.push_back(option.rank);
    to.cost.insert(to.cost.end(), option.costs.begin(), option.costs.end());
  }
  const auto width = static_cast<std::size_t>(resources);
  to.least_cost_from.assign(to.option.size(), 0);
  for (std::size_t place = to.option.size(); place-- > 0;) {
    const std::int64_t own = to.cost[place * width];
    to.least_cost_from[place] =
        place + 1 == to.option.size() ? own : std::min(own, to.least_cost_from[place + 1]);
  }
  for (std::size_t r = 0; r < width; ++r) {
    std::vector<int> order = counted(to.places);
    const auto cost_then_place = [&](int place) {
      return std::pair(to.cost[static_cast<std::size_t>(place) * width + r], place);
    };
    std::ranges::sort(order, {}, cost_then_place);
    to.by_cost.push_back(std::move(order));
  }
  to.by_rank = counted(to.places);
  std::ranges::sort(to.by_rank, {},
                    [&](int place) { return to.rank[static_cast<std::size_t>(place)]; });
  slot.push_back(std::move(to));
}

void Index::add_table(const PairTable& from) {
  RP_EXPECT(from.first >= 0 && from.first < from.second && from.second < slots);
  const SlotIndex& first = slot[static_cast<std::size_t>(from.first)];
  const SlotIndex& second = slot[static_cast<std::size_t>(from.second)];
  const int row_classes = classes_of(from.row_class, first.places);
  const int column_classes = classes_of(from.column_class, second.places);
  const int from_words = (column_classes + word_bits - 1) / word_bits;
  RP_EXPECT(from.words_per_row == from_words);
  RP_EXPECT(from.bits.size() ==
            static_cast<std::size_t>(row_classes) * static_cast<std::size_t>(from_words));
  TableIndex to{.second = from.second, .reason = reason_of(from.why)};
  for (const int option : first.option)
    to.row_of_place.push_back(
        from.row_class.empty() ? option : from.row_class[static_cast<std::size_t>(option)]);
  const auto width = static_cast<std::size_t>(second.words);
  to.rows.assign(static_cast<std::size_t>(row_classes) * width, 0);
  std::vector<int> column_of_place;
  column_of_place.reserve(second.option.size());
  for (const int option : second.option)
    column_of_place.push_back(
        from.column_class.empty() ? option : from.column_class[static_cast<std::size_t>(option)]);
  for (int row = 0; row < row_classes; ++row) {
    std::uint64_t* words_of_row = to.rows.data() + static_cast<std::size_t>(row) * width;
    for (int place = 0; place < second.places; ++place)
      if (from.allows(row, column_of_place[static_cast<std::size_t>(place)]))
        words_of_row[place / word_bits] |= std::uint64_t{1} << (place % word_bits);
  }
  tables[static_cast<std::size_t>(from.first)].push_back(std::move(to));
}

void Index::add_check(const Check& from) {
  RP_EXPECT(!from.scope.empty() && from.holds);
  RP_EXPECT(std::ranges::adjacent_find(from.scope, std::ranges::greater_equal{}) ==
            from.scope.end());
  RP_EXPECT(from.scope.front() >= 0 && from.scope.back() < slots);
  const int last = from.scope.back();
  const int ready_level = from.scope.size() == 1 ? 0 : from.scope[from.scope.size() - 2] + 1;
  checks[static_cast<std::size_t>(last)].push_back(
      {.check = &from, .ready_level = ready_level, .reason = reason_of(from.why)});
  ready_at[static_cast<std::size_t>(ready_level)] |= std::uint64_t{1} << last;
}

std::size_t Index::reason_of(const std::string& why) {
  const auto found = std::ranges::find(reasons, why);
  if (found != reasons.end()) return static_cast<std::size_t>(found - reasons.begin());
  reasons.push_back(why);
  return reasons.size() - 1;
}

}  // namespace rigproof::plan::internal
