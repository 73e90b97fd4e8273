// Rules as the search understands them: tables of pairs where few cases tell all, else checks that
// are asked for what the search comes to. Their shadows (P6) and early forms (P7).
#include <algorithm>
#include <memory>
#include <unordered_map>

#include "decision/plan/compiler.hpp"

namespace rigproof::plan {

// The options of a slot in classes that are alike to a rule; nothing when there are more than
// `most`.
std::optional<Compiler::Classes> Compiler::classes_of(std::size_t rule, int slot,
                                                      std::size_t most) {
  Classes classes;
  std::unordered_map<std::uint32_t, int> numbers;
  const auto count = static_cast<int>(slots_[static_cast<std::size_t>(slot)].options.size());
  classes.of_option.reserve(static_cast<std::size_t>(count));
  for (int o = 0; o < count; ++o) {
    const auto [at, fresh] =
        numbers.try_emplace(group(rule, slot, o), static_cast<int>(classes.some.size()));
    if (fresh && classes.some.size() == most) return {};
    if (fresh) classes.some.push_back(o);
    classes.of_option.push_back(at->second);
  }
  return classes;
}

void Compiler::add_rules() {
  for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r) {
    const Rule& rule = *in_.verdicts.rules()[r];
    const auto scope = scope_of(rule);
    if (!asked(rule) || scope.empty()) continue;
    uses_.push_back(
        {.rule = rule.id, .role = scope.size() == 2 ? Role::pair_table : role_of(rule)});
    if (scope.size() == 2) {
      if (!add_pairs(r, scope)) uses_.back().role = Role::check;
      continue;
    }
    if (!rule.burdens.empty()) add_early(r, scope);
    if (role_of(rule) == Role::shadowed) add_shadows(r, scope);
    add_check(r, scope);
  }
}

void Compiler::add_check(std::size_t rule, const std::vector<int>& scope) {
  problem_.checks.push_back(
      {.scope = scope,
       .why = std::string(in_.verdicts.rules()[rule]->id),
       .holds = [this, rule,
                 scope](std::span<const int> choice) { return admits(rule, scope, choice); },
       .class_of = [this, rule](int slot, int option) { return group(rule, slot, option); }});
}

// A table when both slots have few classes, else a check over two slots. True: a table.
bool Compiler::add_pairs(std::size_t rule, const std::vector<int>& scope) {
  std::vector<int> choice(slots_.size(), -1);
  const bool filled =
      add_table({.rule = rule, .first = scope[0], .second = scope[1]}, [&](int first, int second) {
        choice[static_cast<std::size_t>(scope[0])] = first;
        choice[static_cast<std::size_t>(scope[1])] = second;
        return admits(rule, scope, choice);
      });
  if (!filled) add_check(rule, scope);
  return filled;
}

// (P7): a rule asked before the kinds that only make it worse are chosen: without all of them, then
// with one more at a time, in the order of the search.
void Compiler::add_early(std::size_t rule, const std::vector<int>& scope) {
  const Rule& of = *in_.verdicts.rules()[rule];
  std::vector<int> firm;
  std::vector<int> burdens;
  for (const int slot : scope)
    (std::ranges::find(of.burdens, kind_of(slot)) == of.burdens.end() ? firm : burdens)
        .push_back(slot);
  for (std::size_t with = 0; with < burdens.size(); ++with) {
    std::vector<int> part = firm;
    part.insert(part.end(), burdens.begin(), burdens.begin() + static_cast<std::ptrdiff_t>(with));
    std::ranges::sort(part);
    if (part.size() == 2)
      (void)add_pairs(rule, part);
    else if (part.size() > 2)
      add_check(rule, part);
  }
}

// (P6): what a rule over three kinds says of each two of them: a pair that no option of the third
// makes good is forbidden. Necessary for the rule, which stays a check.
void Compiler::add_shadows(std::size_t rule, const std::vector<int>& scope) {
  // A pair that nothing makes good asks them all.
  constexpr std::size_t most_thirds = 64;
  for (const auto& [a, b, third] : {std::array<std::size_t, 3>{0, 1, 2}, {0, 2, 1}, {1, 2, 0}}) {
    const int first = scope[a];
    const int second = scope[b];
    const auto thirds = classes_of(rule, scope[third], most_thirds);
    if (!thirds) continue;
    const std::function<bool(int, int)> allowed = [this, rule, scope, first, second,
                                                   left = scope[third],
                                                   some = thirds->some](int one, int two) {
      std::vector<int> choice(slots_.size(), -1);
      choice[static_cast<std::size_t>(first)] = one;
      choice[static_cast<std::size_t>(second)] = two;
      return std::ranges::any_of(some, [&](int each) {
        choice[static_cast<std::size_t>(left)] = each;
        return admits(rule, scope, choice);
      });
    };
    if (add_table({.rule = rule, .first = first, .second = second, .each = thirds->some.size()},
                  allowed))
      continue;
    const auto known = std::make_shared<std::unordered_map<std::uint64_t, bool>>();
    problem_.checks.push_back(
        {.scope = {first, second},
         .why = std::string(in_.verdicts.rules()[rule]->id),
         .holds =
             [this, rule, first, second, allowed, known](std::span<const int> choice) {
               const int one = choice[static_cast<std::size_t>(first)];
               const int two = choice[static_cast<std::size_t>(second)];
               const std::uint64_t key =
                   std::uint64_t{group(rule, first, one)} << 32U | group(rule, second, two);
               const auto [at, fresh] = known->try_emplace(key, true);
               if (fresh) at->second = allowed(one, two);
               return at->second;
             },
         .class_of = [this, rule](int slot, int option) { return group(rule, slot, option); }});
  }
}

// False when the slots have too many classes for a table.
bool Compiler::add_table(const Pair& pair, const std::function<bool(int, int)>& allowed) {
  const std::size_t most = most_asked_beforehand_ / std::max<std::size_t>(pair.each, 1);
  const auto rows = classes_of(pair.rule, pair.first, most);
  if (!rows) return false;
  const auto columns =
      classes_of(pair.rule, pair.second, most / std::max<std::size_t>(rows->some.size(), 1));
  if (!columns) return false;
  PairTable table = PairTable::all_allowed(
      pair.first, pair.second, static_cast<int>(rows->some.size()),
      static_cast<int>(columns->some.size()), std::string(in_.verdicts.rules()[pair.rule]->id));
  const auto sizes = [](const Classes& classes) {
    std::vector<std::size_t> count(classes.some.size(), 0);
    for (const int each : classes.of_option) ++count[static_cast<std::size_t>(each)];
    return count;
  };
  const auto tall = sizes(*rows);
  const auto wide = sizes(*columns);
  std::size_t forbidden = 0;
  for (std::size_t i = 0; i < rows->some.size(); ++i)
    for (std::size_t j = 0; j < columns->some.size(); ++j)
      if (!allowed(rows->some[i], columns->some[j])) {
        table.forbid(static_cast<int>(i), static_cast<int>(j));
        forbidden += tall[i] * wide[j];
      }
  uses_.back().cases += rows->some.size() * columns->some.size();
  uses_.back().pairs += rows->of_option.size() * columns->of_option.size();
  uses_.back().forbidden += forbidden;
  if (forbidden == 0) return true;
  table.row_class = rows->of_option;
  table.column_class = columns->of_option;
  problem_.tables.push_back(std::move(table));
  return true;
}

}  // namespace rigproof::plan
