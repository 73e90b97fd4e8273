#include "decision/plan/compiler.hpp"

#include <algorithm>
#include <bit>
#include <map>
#include <numeric>
#include <set>

#include "base/contract.hpp"

namespace rigproof::plan {
namespace {

// One option of each group, by group.
std::map<std::uint32_t, int> one_of_each(const std::vector<std::uint32_t>& groups) {
  std::map<std::uint32_t, int> first;
  for (std::size_t o = 0; o < groups.size(); ++o) first.try_emplace(groups[o], static_cast<int>(o));
  return first;
}

// Forbids to all options of the group of `first` those of the refused groups on the other side.
void forbid_groups(PairTable& table, int first, const std::set<std::uint32_t>& refused,
                   const std::vector<std::uint32_t>& rows,
                   const std::vector<std::uint32_t>& columns) {
  if (refused.empty()) return;
  for (std::size_t b = 0; b < columns.size(); ++b)
    if (refused.contains(columns[b])) table.forbid(first, static_cast<int>(b));
  const auto words = static_cast<std::ptrdiff_t>(table.words_per_row);
  const auto from = table.bits.begin() + first * words;
  for (std::size_t row = static_cast<std::size_t>(first) + 1; row < rows.size(); ++row)
    if (rows[row] == rows[static_cast<std::size_t>(first)])
      std::copy(from, from + words, table.bits.begin() + static_cast<std::ptrdiff_t>(row) * words);
}

std::size_t cases_of(std::span<const std::vector<std::uint32_t>> groups) {
  std::size_t cases = 1;
  for (const auto& of_slot : groups) cases *= std::max<std::size_t>(one_of_each(of_slot).size(), 1);
  return cases;
}

}  // namespace

Compiler::Compiler(const PlanInput& input, const PlanOptions& options)
    : in_(input),
      without_rule_(options.without_rule),
      most_asked_beforehand_(options.most_asked_beforehand) {
  in_.verdicts.use(in_.brief, in_.prices);
  Look look;
  if (!options.with_outdone)
    look = [this](Kind kind, Row row) { return in_.verdicts.look(kind, row); };
  slots_ = slot_options(in_.catalog, in_.brief, in_.prices, options.banned, look, options.keep);
  std::erase_if(slots_, [](const KindSlot& slot) {
    return slot.kind == Kind::display && slot.options.size() == 1 &&
           slot.options.front().parts.empty();
  });
  slot_of_.fill(-1);
  for (std::size_t s = 0; s < slots_.size(); ++s)
    slot_of_[static_cast<std::size_t>(slots_[s].kind)] = static_cast<int>(s);
  filter_by_one_kind_rules();
  add_slots_and_caps();
  add_rules();
  add_sums();
  add_score(options.first_only);
  add_groups();
}

PlannedChoice Compiler::translate(const Solution& solution) const {
  PlannedChoice out{.build = {}, .score = solution.score, .prices = solution.costs};
  out.prices.resize(in_.brief.markets.size());  // behind the prices stand the sums of add_sums()
  for (std::size_t s = 0; s < slots_.size(); ++s)
    for (const Chosen& part : option(static_cast<int>(s), solution.choice[s]).parts)
      RP_EXPECT(out.build.add(slots_[s].kind, part.row, part.count));
  return out;
}

Row Compiler::row_of(int slot, int index) const {
  const auto& parts = option(slot, index).parts;
  return parts.empty() ? no_row : parts.front().row;
}

// The slots a rule looks at; kinds that have no slot are absent from every build.
std::vector<int> Compiler::scope_of(const Rule& rule) const {
  std::vector<int> scope;
  for (const Kind kind : rule.kinds)
    if (const int slot = slot_of_[static_cast<std::size_t>(kind)]; slot >= 0) scope.push_back(slot);
  std::ranges::sort(scope);
  return scope;
}

Compiler::Groups Compiler::groups_of(std::size_t rule, std::span<const int> scope) {
  Groups groups;
  for (const int slot : scope) {
    auto& of_slot = groups.emplace_back();
    for (const SlotOption& candidate : slots_[static_cast<std::size_t>(slot)].options)
      of_slot.push_back(in_.verdicts.group(rule, kind_of(slot), candidate));
  }
  return groups;
}

void Compiler::filter_by_one_kind_rules() {
  for (const KindSlot& slot : slots_)
    if (slot.without_offer > 0)
      left_out_.push_back({"no offer: " + std::string(name_of(slot.kind)),
                           static_cast<std::int64_t>(slot.without_offer)});
  for (const KindSlot& slot : slots_)
    if (slot.outdone > 0)
      left_out_.push_back({"outdone by a part that looks the same to every rule: " +
                               std::string(name_of(slot.kind)),
                           static_cast<std::int64_t>(slot.outdone)});
  for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r) {
    const Rule& rule = *in_.verdicts.rules()[r];
    const auto scope = scope_of(rule);
    if (!asked(rule) || scope.size() != 1) continue;
    KindSlot& slot = slots_[static_cast<std::size_t>(scope.front())];
    const std::size_t offered = slot.options.size();
    const auto refused = std::erase_if(slot.options, [&](const SlotOption& candidate) {
      auto groups = Verdicts::no_groups();
      groups[static_cast<std::size_t>(slot.kind)] = in_.verdicts.group(r, slot.kind, candidate);
      const Filling filling{slot.kind, &candidate};
      return !in_.verdicts.admits(r, groups, {&filling, 1});
    });
    uses_.push_back({.rule = rule.id,
                     .role = Role::option_filter,
                     .cases = offered,
                     .forbidden = refused,
                     .pairs = 0});
    if (refused > 0)
      left_out_.push_back({std::string(rule.id), static_cast<std::int64_t>(refused)});
  }
}

void Compiler::add_slots_and_caps() {
  for (const MarketGoal& market : in_.brief.markets) problem_.caps.push_back(market.budget.minor);
  for (const KindSlot& slot : slots_) {
    std::vector<std::size_t> order(slot.options.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::vector<std::string> keys;
    keys.reserve(slot.options.size());
    for (const SlotOption& candidate : slot.options)
      keys.push_back(tie_key(in_.catalog, slot.kind, candidate));
    std::ranges::sort(order, {}, [&](std::size_t i) -> const std::string& { return keys[i]; });
    std::vector<int> rank(slot.options.size());
    for (std::size_t i = 0; i < order.size(); ++i) rank[order[i]] = static_cast<int>(i);
    Slot out{.name = std::string(name_of(slot.kind)), .options = {}};
    for (std::size_t o = 0; o < slot.options.size(); ++o)
      out.options.push_back({.costs = slot.options[o].prices, .value = 0.0, .rank = rank[o]});
    problem_.slots.push_back(std::move(out));
  }
  // Ties are compared in the order of the kinds, whatever the order of the search.
  problem_.rank_order.resize(slots_.size());
  std::iota(problem_.rank_order.begin(), problem_.rank_order.end(), 0);
  std::ranges::sort(problem_.rank_order, {}, [&](int slot) { return kind_of(slot); });
}

bool Compiler::admits(std::size_t rule, std::span<const int> scope, const Groups& groups,
                      std::span<const int> choice) {
  auto key = Verdicts::no_groups();
  std::array<Filling, kind_count> fillings{};
  for (std::size_t i = 0; i < scope.size(); ++i) {
    const int chosen = choice[static_cast<std::size_t>(scope[i])];
    const Kind kind = kind_of(scope[i]);
    key[static_cast<std::size_t>(kind)] = groups[i][static_cast<std::size_t>(chosen)];
    fillings[i] = {kind, &option(scope[i], chosen)};
  }
  return in_.verdicts.admits(rule, key, {fillings.data(), scope.size()});
}

void Compiler::add_rules() {
  for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r) {
    const Rule& rule = *in_.verdicts.rules()[r];
    const auto scope = scope_of(rule);
    if (!asked(rule) || scope.size() < 2) continue;
    const Groups groups = groups_of(r, scope);
    uses_.push_back({.rule = rule.id,
                     .role = scope.size() == 2 ? Role::pair_table : role_of(rule),
                     .cases = cases_of(groups),
                     .forbidden = 0,
                     .pairs = 0});
    if (scope.size() == 2) {
      add_table(r, scope, groups);
      continue;
    }
    if (!rule.burdens.empty()) add_early(r, scope, groups);
    if (role_of(rule) == Role::shadowed) add_shadows(r, scope, groups);
    add_check(r, scope, groups);
  }
}

void Compiler::add_check(std::size_t rule, const std::vector<int>& scope, const Groups& groups) {
  problem_.checks.push_back(
      {.scope = scope,
       .why = std::string(in_.verdicts.rules()[rule]->id),
       .holds = [this, rule, scope, groups](
                    std::span<const int> choice) { return admits(rule, scope, groups, choice); },
       .classes = groups});
}

void Compiler::add_table(std::size_t rule, const std::vector<int>& scope, const Groups& groups) {
  add_pairs({.why = in_.verdicts.rules()[rule]->id,
             .first = scope[0],
             .second = scope[1],
             .rows = groups[0],
             .columns = groups[1],
             .cases = cases_of(groups),
             .allowed = [this, rule, scope, groups, choice = std::vector<int>(slots_.size(), 0)](
                            int row, int column) mutable {
               choice[static_cast<std::size_t>(scope[0])] = row;
               choice[static_cast<std::size_t>(scope[1])] = column;
               return admits(rule, scope, groups, choice);
             }});
}

// (P7): a rule asked before the kinds that only make it worse are chosen: without all of them, then
// with one more at a time, in the order of the search.
void Compiler::add_early(std::size_t rule, const std::vector<int>& scope, const Groups& groups) {
  const Rule& of = *in_.verdicts.rules()[rule];
  std::vector<std::size_t> firm;
  std::vector<std::size_t> burdens;
  for (std::size_t i = 0; i < scope.size(); ++i)
    (std::ranges::find(of.burdens, kind_of(scope[i])) == of.burdens.end() ? firm : burdens)
        .push_back(i);
  for (std::size_t with = 0; with < burdens.size(); ++with) {
    std::vector<std::size_t> taken = firm;
    taken.insert(taken.end(), burdens.begin(), burdens.begin() + static_cast<std::ptrdiff_t>(with));
    std::ranges::sort(taken);
    std::vector<int> part;
    Groups part_groups;
    for (const std::size_t i : taken) {
      part.push_back(scope[i]);
      part_groups.push_back(groups[i]);
    }
    if (part.size() == 2)
      add_table(rule, part, part_groups);
    else if (part.size() > 2)
      add_check(rule, part, part_groups);
  }
}

// (P6): what a rule over three kinds says of each two of them: a pair that no option of the third
// makes good is forbidden. Necessary for the rule, which stays a check.
void Compiler::add_shadows(std::size_t rule, const std::vector<int>& scope, const Groups& groups) {
  // A pair that nothing makes good asks them all.
  constexpr std::size_t most_thirds = 64;
  const std::size_t cases = cases_of(groups);
  for (const auto& [a, b, third] : {std::array<std::size_t, 3>{0, 1, 2}, {0, 2, 1}, {1, 2, 0}}) {
    std::vector<int> thirds;
    for (const auto& [group, first] : one_of_each(groups[third])) thirds.push_back(first);
    if (cases > most_asked_beforehand_ && thirds.size() > most_thirds) continue;
    add_pairs(
        {.why = in_.verdicts.rules()[rule]->id,
         .first = scope[a],
         .second = scope[b],
         .rows = groups[a],
         .columns = groups[b],
         .cases = cases,
         .allowed = [this, rule, scope, groups, first = scope[a], second = scope[b],
                     left = scope[third], thirds = std::move(thirds),
                     choice = std::vector<int>(slots_.size(), 0)](int row, int column) mutable {
           choice[static_cast<std::size_t>(first)] = row;
           choice[static_cast<std::size_t>(second)] = column;
           return std::ranges::any_of(thirds, [&](int each) {
             choice[static_cast<std::size_t>(left)] = each;
             return admits(rule, scope, groups, choice);
           });
         }});
  }
}

// Filled now, or, where that would ask too often, asked for by the search row by row. Equal groups
// share a row either way.
void Compiler::add_pairs(Pairs pairs) {
  if (pairs.cases > most_asked_beforehand_) {
    PairTable table{.first = pairs.first,
                    .second = pairs.second,
                    .why = std::string(pairs.why),
                    .asked = std::move(pairs.allowed)};
    std::map<std::uint32_t, int> classes;
    for (const std::uint32_t group : pairs.rows)
      table.row_class.push_back(
          classes.try_emplace(group, static_cast<int>(classes.size())).first->second);
    problem_.tables.push_back(std::move(table));
    return;
  }
  PairTable table =
      PairTable::all_allowed(pairs.first, pairs.second, static_cast<int>(pairs.rows.size()),
                             static_cast<int>(pairs.columns.size()), std::string(pairs.why));
  const auto some_columns = one_of_each(pairs.columns);
  for (const auto& [group_a, row] : one_of_each(pairs.rows)) {
    std::set<std::uint32_t> refused;
    for (const auto& [group_b, column] : some_columns)
      if (!pairs.allowed(row, column)) refused.insert(group_b);
    forbid_groups(table, row, refused, pairs.rows, pairs.columns);
  }
  add_table(std::move(table));
}

// Keeps a table that forbids anything.
void Compiler::add_table(PairTable table) {
  const std::size_t rows = problem_.slots[static_cast<std::size_t>(table.first)].options.size();
  const std::size_t columns = problem_.slots[static_cast<std::size_t>(table.second)].options.size();
  std::size_t forbidden = rows * columns;
  for (const std::uint64_t word : table.bits)
    forbidden -= static_cast<std::size_t>(std::popcount(word));
  if (forbidden == 0) return;
  uses_.back().pairs += rows * columns;
  uses_.back().forbidden += forbidden;
  problem_.tables.push_back(std::move(table));
}

}  // namespace rigproof::plan
