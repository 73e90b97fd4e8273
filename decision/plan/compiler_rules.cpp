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
  const bool early = may_ask_early();
  for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r) {
    const Rule& rule = *in_.verdicts.rules()[r];
    const auto scope = scope_of(rule);
    if (!asked(rule) || rule.burdens.empty() || scope.size() < 3) continue;
    const bool asked_before = early && add_early(r, scope);
    ask_together(r, scope, asked_before ? static_cast<int>(slots_.size()) - 1 : scope.back());
  }
  for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r) {
    const Rule& rule = *in_.verdicts.rules()[r];
    const auto scope = scope_of(rule);
    if (!asked(rule) || scope.empty()) continue;
    if (rule.foretells) {
      add_foretelling(r, scope);
      continue;
    }
    (void)use_of(r);
    if (scope.size() == 2) {
      if (!add_pairs(r, scope)) use_of(r).role = Role::check;
      continue;
    }
    if (!rule.burdens.empty() && scope.size() > 2) {
      for (const Together& each : together_)
        if (each.rules.front() == r) add_check_of_all(each);
      continue;
    }
    if (role_of(rule) == Role::shadowed) add_shadows(r, scope);
    add_check(r, scope);
  }
}

// (P12): what fails for certain with these parts fails with all that come to them, or is unknown.
void Compiler::add_foretelling(std::size_t rule, const std::vector<int>& scope) {
  constexpr Verdicts::Ask ask = Verdicts::Ask::not_failing;
  if (admitted(*in_.verdicts.rules()[rule], Verdict::unknown, in_.brief)) return;
  if (scope.size() == 2 && add_pairs(rule, scope, ask)) return;
  add_check_of_all({.rules = {rule}, .scope = scope, .when = scope.back(), .ask = ask});
}

// Not where one of the rules with burdens is left out: the others may have been chosen by what it
// says.
bool Compiler::may_ask_early() const {
  return std::ranges::none_of(in_.verdicts.rules(), [&](const Rule* rule) {
    return !rule->burdens.empty() && rule->id == without_rule_;
  });
}

// Where an unknown is admitted, what is doubtful becomes unknown when a part comes whose cell is
// absent, and so admitted: then only what fails for certain may be forbidden early.
Verdicts::Ask Compiler::early_question() const {
  const bool unknown_admitted = std::ranges::any_of(in_.verdicts.rules(), [&](const Rule* rule) {
    return !rule->burdens.empty() && admitted(*rule, Verdict::unknown, in_.brief);
  });
  return unknown_admitted ? Verdicts::Ask::not_failing : Verdicts::Ask::admitted;
}

// Rules of a family over one scope are one check: most often all hold, and the search asks often.
void Compiler::ask_together(std::size_t rule, const std::vector<int>& scope, int when,
                            Verdicts::Ask ask) {
  const auto& rules = in_.verdicts.rules();
  const std::string_view family = rules[rule]->family;
  const auto same = std::ranges::find_if(together_, [&](const Together& known) {
    return !family.empty() && rules[known.rules.front()]->family == family &&
           known.scope == scope && known.when == when && known.ask == ask;
  });
  if (same == together_.end())
    together_.push_back({.rules = {rule}, .scope = scope, .when = when, .ask = ask});
  else if (std::ranges::find(same->rules, rule) == same->rules.end())
    same->rules.push_back(rule);
}

void Compiler::add_check_of_all(const Together& of) {
  const std::size_t first = of.rules.front();
  const Rule& rule = *in_.verdicts.rules()[first];
  std::vector<int> scope = of.scope;
  if (of.when > scope.back()) scope.push_back(of.when);
  const auto known = std::make_shared<KnownVerdicts>();
  problem_.checks.push_back({.scope = std::move(scope),
                             .why = std::string(of.rules.size() > 1 ? rule.family : rule.id),
                             .holds =
                                 [this, of, first, known](std::span<const int> choice) {
                                   auto key = Verdicts::no_groups();
                                   for (const int slot : of.scope)
                                     key[static_cast<std::size_t>(kind_of(slot))] =
                                         group(first, slot, choice[static_cast<std::size_t>(slot)]);
                                   if (const auto before = known->find(key)) return *before != 0;
                                   const bool all =
                                       std::ranges::all_of(of.rules, [&](std::size_t each) {
                                         return admits(each, of.scope, choice, of.ask);
                                       });
                                   known->add(key, all ? 1 : 0);
                                   return all;
                                 },
                             .class_of =
                                 [this, of, first](int slot, int option) {
                                   const bool matters =
                                       std::ranges::find(of.scope, slot) != of.scope.end();
                                   return matters ? group(first, slot, option) : 0U;
                                 }});
}

Compiler::Use& Compiler::use_of(std::size_t rule) {
  const Rule& of = *in_.verdicts.rules()[rule];
  const auto known = std::ranges::find(uses_, of.id, &Use::rule);
  if (known != uses_.end()) return *known;
  uses_.push_back(
      {.rule = of.id, .role = scope_of(of).size() == 2 ? Role::pair_table : role_of(of)});
  return uses_.back();
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
bool Compiler::add_pairs(std::size_t rule, const std::vector<int>& scope, Verdicts::Ask ask) {
  std::vector<int> choice(slots_.size(), -1);
  const bool filled =
      add_table({.rule = rule, .first = scope[0], .second = scope[1]}, [&](int first, int second) {
        choice[static_cast<std::size_t>(scope[0])] = first;
        choice[static_cast<std::size_t>(scope[1])] = second;
        return admits(rule, scope, choice, ask);
      });
  if (filled) return true;
  if (in_.verdicts.rules()[rule]->foretells) return false;
  if (in_.verdicts.rules()[rule]->burdens.empty())
    add_check(rule, scope);
  else
    ask_together(rule, scope, scope.back(), ask);
  return false;
}

// (P7): a rule asked before the kinds that only make it worse are chosen: without all of them, then
// with one more at a time, in the order in which it names them. Of the forms that come to be asked
// in the same slot the narrowest is taken: it meets the fewest cases. True: one is asked in the
// slot in which the rule itself would be, which can then wait for the last one.
bool Compiler::add_early(std::size_t rule, const std::vector<int>& scope) {
  const Rule& of = *in_.verdicts.rules()[rule];
  std::vector<int> form;
  for (const int slot : scope)
    if (std::ranges::find(of.burdens, kind_of(slot)) == of.burdens.end()) form.push_back(slot);
  int asked_in = -1;
  const Verdicts::Ask ask = early_question();
  const auto add = [&] {
    std::ranges::sort(form);
    if (form.size() == 2 && add_pairs(rule, form, ask)) return;
    if (form.size() < 2 || form.back() == asked_in) return;
    asked_in = form.back();
    if (form.size() > 2) ask_together(rule, form, form.back(), ask);
  };
  add();
  for (const Kind burden : of.burdens)
    for (const int slot : scope) {
      if (kind_of(slot) != burden || form.size() + 1 == scope.size()) continue;
      form.push_back(slot);
      add();
    }
  return asked_in == scope.back();
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
  if (!in_.verdicts.rules()[pair.rule]->foretells) {  // which speaks for another of its id
    Use& use = use_of(pair.rule);
    use.cases += rows->some.size() * columns->some.size();
    use.pairs += rows->of_option.size() * columns->of_option.size();
    use.forbidden += forbidden;
  }
  if (forbidden == 0) return true;
  table.row_class = rows->of_option;
  table.column_class = columns->of_option;
  problem_.tables.push_back(std::move(table));
  return true;
}

}  // namespace rigproof::plan
