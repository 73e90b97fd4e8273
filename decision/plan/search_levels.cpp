// Forward checking over bit sets.
#include "decision/plan/search_levels.hpp"

#include <algorithm>
#include <bit>
#include <numeric>

namespace rigproof::plan::internal {

namespace {

std::size_t z(int i) { return static_cast<std::size_t>(i); }

bool bit(const std::vector<std::uint64_t>& words, const SlotIndex& slot, int place) {
  return (words[slot.first_word + z(place / word_bits)] >> (place % word_bits) & 1U) != 0;
}

void clear_bit(std::vector<std::uint64_t>& words, const SlotIndex& slot, int place) {
  words[slot.first_word + z(place / word_bits)] &= ~(std::uint64_t{1} << (place % word_bits));
}

void set_bit(std::vector<std::uint64_t>& words, const SlotIndex& slot, int place) {
  words[slot.first_word + z(place / word_bits)] |= std::uint64_t{1} << (place % word_bits);
}

/// Calls `visit(slot)` for the set bits, ascending, while it returns true.
template <class Visit>
bool each_slot(std::uint64_t slots, Visit visit) {
  for (; slots != 0; slots &= slots - 1)
    if (!visit(std::countr_zero(slots))) return false;
  return true;
}

}  // namespace

Levels::Levels(const Index& index, std::vector<std::int64_t>& pruned)
    : index_(index),
      pruned_(pruned),
      levels_(z(index.slots) + 1),
      choice_(z(index.slots), -1),
      place_(z(index.slots), 0) {
  for (const auto& checks : index.checks) {
    ask_first_.emplace_back(checks.size());
    std::iota(ask_first_.back().begin(), ask_first_.back().end(), 0);
  }
  for (Level& level : levels_) {
    level.cost.assign(z(index.resources), 0);
    level.least_after.assign(z(index.resources), 0);
    level.allowed.assign(index.words, 0);
    level.verified.assign(index.words, 0);
    level.top.assign(z(index.slots), 0);
    level.culprits.assign(z(index.slots), 0);
    level.cheapest.assign(z(index.slots) * z(index.resources), 0);
  }
}

bool Levels::start() {
  Level& root = at(0);
  bool open = true;
  for (int s = 0; s < index_.slots; ++s) {
    for (int place = 0; place < slot(s).places; ++place) set_bit(root.allowed, slot(s), place);
    open = open && slot(s).places > 0;
  }
  if (!open) {
    ++pruned_[by_no_option];
    return false;
  }
  for (int s = 0; s < index_.slots; ++s) strike_refused(root, s);
  while (strike_unsupported(root)) {
  }
  for (int s = 0; s < index_.slots; ++s)
    if (!refresh(root, s)) {
      ++pruned_[by_no_option];
      return false;
    }
  root.untested = index_.ready_by[0];
  sum_up(0);
  return true;
}

// What checks over the slot alone refuse, where asking for every option costs little: tables then
// know that it is gone.
void Levels::strike_refused(Level& root, int s) {
  constexpr int most_asked = 512;
  if (slot(s).places > most_asked) return;
  for (const CheckIndex& check : index_.checks[z(s)]) {
    if (check.check->scope.size() != 1) continue;
    for (int place = 0; place < slot(s).places; ++place) {
      if (!bit(root.allowed, slot(s), place)) continue;
      choice_[z(s)] = slot(s).option[z(place)];
      if (check.check->holds(choice_)) continue;
      clear_bit(root.allowed, slot(s), place);
      ++pruned_[check.reason];
    }
  }
  choice_[z(s)] = -1;
}

// One pass over the tables: strikes options without any partner left on the other side. True: some
// were, and another pass may strike more ([mackworth-1977], arc consistency).
bool Levels::strike_unsupported(Level& root) {
  bool any = false;
  for (int s = 0; s < index_.slots; ++s)
    for (const TableIndex& table : index_.tables[z(s)])
      any = strike_unsupported(root, s, table) || any;
  return any;
}

bool Levels::strike_unsupported(Level& root, int s, const TableIndex& table) {
  const SlotIndex& first = slot(s);
  const SlotIndex& second = slot(table.second);
  std::uint64_t* const theirs = root.allowed.data() + second.first_word;
  std::vector<std::uint64_t> partners(z(second.words), 0);
  enum : char { unseen, meets, lonely_row };
  std::vector<char> known(table.rows.size() / std::max<std::size_t>(z(second.words), 1) + 1,
                          unseen);
  bool any = false;
  for (int place = 0; place < first.places; ++place) {
    if (!bit(root.allowed, first, place)) continue;
    char& of_row = known[z(table.row_of_place[z(place)])];
    if (of_row == unseen) {
      of_row = lonely_row;
      const std::uint64_t* const row = index_.row(table, place);
      for (int w = 0; w < second.words; ++w) {
        partners[z(w)] |= row[w];
        if ((row[w] & theirs[w]) != 0) of_row = meets;
      }
    }
    if (of_row == meets) continue;
    clear_bit(root.allowed, first, place);
    ++pruned_[table.reason];
    any = true;
  }
  for (int w = 0; w < second.words; ++w) {
    const std::uint64_t lonely = theirs[w] & ~partners[z(w)];
    if (lonely == 0) continue;
    theirs[w] &= ~lonely;
    pruned_[table.reason] += std::popcount(lonely);
    any = true;
  }
  return any;
}

bool Levels::strike_row(Level& next, int first, const TableIndex& table, int place, bool count,
                        std::uint64_t& changed) {
  const SlotIndex& second = slot(table.second);
  const std::uint64_t* row = index_.row(table, place);
  std::uint64_t* words = next.allowed.data() + second.first_word;
  int struck = 0;
  std::uint64_t left = 0;
  for (int w = 0; w < second.words; ++w) {
    struck += std::popcount(words[w] & ~row[w]);
    words[w] &= row[w];
    left |= words[w];
  }
  if (struck == 0) return true;
  changed |= std::uint64_t{1} << table.second;
  next.culprits[z(table.second)] |= std::uint64_t{1} << first;
  if (count) pruned_[table.reason] += struck;
  if (left == 0 && count) ++pruned_[by_no_option];
  if (left == 0) conflict_ = next.culprits[z(table.second)];
  return left != 0;
}

void Levels::choose(int level, int place) { choice_[z(level)] = slot(level).option[z(place)]; }

bool Levels::enter(int level, int place, bool count) {
  const Level& now = at(level);
  Level& next = at(level + 1);
  const SlotIndex& own = slot(level);
  choice_[z(level)] = own.option[z(place)];
  place_[z(level)] = place;
  const auto open = static_cast<std::ptrdiff_t>(own.first_word) + own.words;
  std::copy(now.allowed.begin() + open, now.allowed.end(), next.allowed.begin() + open);
  std::copy(now.verified.begin() + open, now.verified.end(), next.verified.begin() + open);
  std::copy(now.top.begin() + level + 1, now.top.end(), next.top.begin() + level + 1);
  std::copy(now.culprits.begin() + level + 1, now.culprits.end(),
            next.culprits.begin() + level + 1);
  const std::ptrdiff_t costs = static_cast<std::ptrdiff_t>(level + 1) * index_.resources;
  std::copy(now.cheapest.begin() + costs, now.cheapest.end(), next.cheapest.begin() + costs);
  next.terms = now.terms + own.term[z(place)];
  for (int r = 0; r < index_.resources; ++r)
    next.cost[z(r)] = now.cost[z(r)] + own.cost[z(place) * z(index_.resources) + z(r)];

  std::uint64_t changed = 0;
  for (const TableIndex& table : index_.tables[z(level)])
    if (!strike_row(next, level, table, place, count, changed)) return false;
  each_slot(changed, [&](int s) { return refresh(next, s); });
  const std::uint64_t fresh = index_.ready_at[z(level) + 1];
  each_slot(fresh, [&](int s) {
    const auto begin = next.verified.begin() + static_cast<std::ptrdiff_t>(slot(s).first_word);
    std::fill(begin, begin + slot(s).words, 0);
    return true;
  });
  const std::uint64_t still_open = level + 1 < word_bits ? ~std::uint64_t{0} << (level + 1) : 0;
  next.untested = (now.untested | changed | fresh) & index_.ready_by[z(level) + 1] & still_open;
  sum_up(level + 1);
  return true;
}

bool Levels::refresh(Level& level, int s) const {
  const SlotIndex& own = slot(s);
  int w = level.top[z(s)] / word_bits;
  while (w < own.words && level.allowed[own.first_word + z(w)] == 0) ++w;
  if (w == own.words) return false;
  level.top[z(s)] = w * word_bits + std::countr_zero(level.allowed[own.first_word + z(w)]);
  for (int r = 0; r < index_.resources; ++r) {
    int& position = level.cheapest[z(s) * z(index_.resources) + z(r)];
    while (!bit(level.allowed, own, own.by_cost[z(r)][z(position)])) ++position;
  }
  return true;
}

void Levels::sum_up(int level) {
  Level& l = at(level);
  const std::size_t width = z(index_.resources);
  l.most_after = 0.0;
  std::ranges::fill(l.least_after, 0);
  for (int s = level + 1; s < index_.slots; ++s) {
    const SlotIndex& own = slot(s);
    l.most_after += own.term[z(l.top[z(s)])];
    for (std::size_t r = 0; r < width; ++r)
      l.least_after[r] += own.cost[z(own.by_cost[r][z(l.cheapest[z(s) * width + r])]) * width + r];
  }
}

bool Levels::satisfies(int level, int s, int place) {
  Level& l = at(level);
  if (bit(l.verified, slot(s), place)) return true;
  const int before = choice_[z(s)];
  choice_[z(s)] = slot(s).option[z(place)];
  bool holds = true;
  auto& order = ask_first_[z(s)];
  for (std::size_t i = 0; i < order.size(); ++i) {
    const CheckIndex& check = index_.checks[z(s)][z(order[i])];
    if (check.ready_level > level) continue;
    if (check.check->holds(choice_)) continue;
    ++pruned_[check.reason];
    holds = false;
    std::rotate(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(i),
                order.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    refused_by_ = 0;
    for (const int of : check.check->scope) refused_by_ |= std::uint64_t{1} << of;
    if (check.check->scope.size() == 1) for_good_.emplace_back(s, place);
    break;
  }
  choice_[z(s)] = before;
  if (holds) set_bit(l.verified, slot(s), place);
  return holds;
}

void Levels::strike_for_good() {
  // Never what the bounds of level 0 rest on: tighten(0) asked those.
  for (const auto& [s, place] : for_good_) clear_bit(at(0).allowed, slot(s), place);
  for_good_.clear();
}

bool Levels::last_holds(int level) {
  const bool holds = satisfies(level, level, place_[z(level)]);
  if (!holds) conflict_ = refused_by_;
  return holds;
}

int Levels::failing_support(int level, int s) {
  const Level& l = at(level);
  if (!satisfies(level, s, l.top[z(s)])) return l.top[z(s)];
  for (int r = 0; r < index_.resources; ++r) {
    const int position = l.cheapest[z(s) * z(index_.resources) + z(r)];
    const int place = slot(s).by_cost[z(r)][z(position)];
    if (!satisfies(level, s, place)) return place;
  }
  return -1;
}

bool Levels::tighten_slot(int level, int s, double least_terms) {
  const std::int64_t others_cost = least_cost(level, 0) - least_cost_of(level, s, 0);
  const double others_terms = most_terms(level) - most_term_of(level, s);
  for (int place = failing_support(level, s); place >= 0; place = failing_support(level, s)) {
    if (give_up_ && give_up_()) return true;  // less is struck out; bounds stay true
    clear_bit(at(level).allowed, slot(s), place);
    std::uint64_t& culprits = at(level).culprits[z(s)];
    culprits |= refused_by_ & ~(std::uint64_t{1} << s);
    if (!refresh(at(level), s)) {
      ++pruned_[by_no_option];
      conflict_ = culprits;
      return false;
    }
    conflict_ = decided(level);  // costs and terms are those of all
    if (others_cost + least_cost_of(level, s, 0) > index_.problem.caps[0]) {
      ++pruned_[by_caps];
      return false;
    }
    if (others_terms + most_term_of(level, s) < least_terms) {
      ++pruned_[by_bound];
      return false;
    }
  }
  return true;
}

bool Levels::tighten(int level, double least_terms) {
  if (at(level).untested == 0) return true;
  if (!each_slot(at(level).untested, [&](int s) { return tighten_slot(level, s, least_terms); }))
    return false;
  at(level).untested = 0;
  sum_up(level);
  return true;
}

bool Levels::allowed(int level, int s, int place) const {
  return bit(at(level).allowed, slot(s), place);
}

int Levels::next_place(int level, int place) const {
  const SlotIndex& own = slot(level);
  if (place >= own.places) return -1;
  int w = place / word_bits;
  std::uint64_t word = at(level).allowed[own.first_word + z(w)];
  word &= ~std::uint64_t{0} << (place % word_bits);
  while (word == 0) {
    if (++w == own.words) return -1;
    word = at(level).allowed[own.first_word + z(w)];
  }
  return w * word_bits + std::countr_zero(word);
}

int Levels::allowed_from(int level, int place) const {
  const SlotIndex& own = slot(level);
  if (place >= own.places) return 0;
  int w = place / word_bits;
  const auto word = [&](int i) { return at(level).allowed[own.first_word + z(i)]; };
  int count = std::popcount(word(w) & (~std::uint64_t{0} << (place % word_bits)));
  for (++w; w < own.words; ++w) count += std::popcount(word(w));
  return count;
}

double Levels::most_terms(int level) const {
  return level == index_.slots ? at(level).terms : most_terms_with(level, at(level).top[z(level)]);
}

double Levels::most_terms_beside(int level) const { return at(level).terms + at(level).most_after; }

double Levels::most_term_of(int level, int s) const { return slot(s).term[z(at(level).top[z(s)])]; }

std::int64_t Levels::least_cost_of(int level, int s, int resource) const {
  const int position = at(level).cheapest[z(s) * z(index_.resources) + z(resource)];
  return slot(s)
      .cost[z(slot(s).by_cost[z(resource)][z(position)]) * z(index_.resources) + z(resource)];
}

double Levels::most_terms_with(int level, int place) const {
  return at(level).terms + slot(level).term[z(place)] + at(level).most_after;
}

std::int64_t Levels::least_cost(int level, int resource) const {
  const Level& l = at(level);
  if (level == index_.slots) return l.cost[z(resource)];
  const int position = l.cheapest[z(level) * z(index_.resources) + z(resource)];
  return least_cost_with(level, slot(level).by_cost[z(resource)][z(position)], resource);
}

std::int64_t Levels::least_cost_with(int level, int place, int resource) const {
  const Level& l = at(level);
  return l.cost[z(resource)] + slot(level).cost[z(place) * z(index_.resources) + z(resource)] +
         l.least_after[z(resource)];
}

bool Levels::within_caps(int level) const {
  for (int r = 0; r < index_.resources; ++r)
    if (least_cost(level, r) > index_.problem.caps[z(r)]) return false;
  return true;
}

bool Levels::within_caps_with(int level, int place) const {
  for (int r = 0; r < index_.resources; ++r)
    if (least_cost_with(level, place, r) > index_.problem.caps[z(r)]) return false;
  return true;
}

bool Levels::over_cap_from(int level, int place) const {
  const Level& l = at(level);
  return l.cost[0] + slot(level).least_cost_from[z(place)] + l.least_after[0] >
         index_.problem.caps[0];
}

bool Levels::may_rank_before(int level, const std::vector<int>& ranks) const {
  for (std::size_t i = 0; i < ranks.size(); ++i) {
    const int s = index_.rank_order[i];
    int least = 0;
    if (s < level) {
      least = slot(s).rank[z(place_[z(s)])];
    } else {
      std::size_t position = 0;
      while (!allowed(level, s, slot(s).by_rank[position])) ++position;
      least = slot(s).rank[z(slot(s).by_rank[position])];
    }
    if (least != ranks[i]) return least < ranks[i];
  }
  return false;
}

std::vector<int> Levels::ranks() const {
  std::vector<int> result;
  result.reserve(index_.rank_order.size());
  for (const int s : index_.rank_order) result.push_back(slot(s).rank[z(place_[z(s)])]);
  return result;
}

std::vector<std::int64_t> Levels::costs() const { return at(index_.slots).cost; }

}  // namespace rigproof::plan::internal
