#include "decision/plan/outlook_judge.hpp"

#include <algorithm>
#include <utility>

#include "base/contract.hpp"

namespace rigproof::plan::internal {
namespace {

// A table of more cases is not made: the rule is then asked along the way.
constexpr std::size_t most_cases = 4000;
// A model over so many slots meets a new case at every leaf.
constexpr std::size_t slots_of_costly = 5;

bool concerned(const Rule& rule, const Brief& brief) {
  return rule.grade == Grade::must && !rule.foretells &&
         (rule.concerns == nullptr || rule.concerns(brief));
}

}  // namespace

Judge::Judge(Stock& stock, Verdicts& verdicts, std::vector<const Brief*> briefs, Models models,
             const Judge* before)
    : stock_(stock), verdicts_(verdicts), briefs_(std::move(briefs)) {
  RP_EXPECT(!briefs_.empty() && briefs_.size() <= most_briefs);
  use(0);
  for (const KindSlot& slot : stock_.slots()) open_.emplace_back(slot.options.size(), true);
  asked_at_.resize(stock_.slots().size());
  changed_by_.assign(verdicts_.rules().size(), 0);
  table_of_.assign(verdicts_.rules().size(), not_made);
  for (std::size_t r = 0; r < verdicts_.rules().size(); ++r) {
    const Rule& rule = *verdicts_.rules()[r];
    const std::vector<int>& scope = stock_.scope(r);
    if (!asked(r, *briefs_.front()) || scope.empty()) continue;
    for (std::size_t k = 1; k < briefs_.size(); ++k)
      if (!verdicts_.reads_alike(r, *briefs_.front(), *briefs_[k]))
        changed_by_[r] |= Standing{1} << k;
    if (scope.size() == 1) {
      add_filter(r, scope.front());
    } else if (scope.size() == 2 && add_table(r, scope[0], scope[1], before)) {
      continue;
    } else if (rule.basis == Basis::model && scope.size() >= slots_of_costly) {
      costly_.push_back({.rule = r, .scope = scope});
    } else {
      const bool last = rule.basis == Basis::model && models == Models::last;
      const auto when = last ? asked_at_.size() - 1 : static_cast<std::size_t>(scope.back());
      asked_at_[when].push_back({.rule = r, .scope = scope});
    }
  }
  add_early();
  for (auto& questions : asked_at_)
    std::ranges::stable_sort(questions, {}, [&](const Question& q) {
      return std::pair(verdicts_.rules()[q.rule]->basis == Basis::model, q.scope.size());
    });
}

// (P7): what fails without the kinds that only make it worse fails with them. That holds of all
// such rules together, so not where some brief changes one of them.
void Judge::add_early() {
  const auto rules = verdicts_.rules();
  Verdicts::Ask ask = Verdicts::Ask::admitted;
  for (std::size_t r = 0; r < rules.size(); ++r) {
    if (rules[r]->burdens.empty()) continue;
    if (changed_by_[r] != 0) return;
    if (admitted(*rules[r], Verdict::unknown, *briefs_.front())) ask = Verdicts::Ask::not_failing;
  }
  for (std::size_t r = 0; r < rules.size(); ++r) {
    if (rules[r]->burdens.empty() || !asked(r, *briefs_.front())) continue;
    std::vector<int> form;
    for (const int slot : stock_.scope(r)) {
      const Kind kind = stock_.slots()[static_cast<std::size_t>(slot)].kind;
      if (std::ranges::find(rules[r]->burdens, kind) == rules[r]->burdens.end())
        form.push_back(slot);
    }
    if (form.size() >= 2 && form.back() < stock_.scope(r).back())
      asked_at_[static_cast<std::size_t>(form.back())].push_back(
          {.rule = r, .scope = form, .ask = ask});
  }
}

bool Judge::asked(std::size_t rule, const Brief& brief) const {
  return concerned(*verdicts_.rules()[rule], brief);
}

void Judge::use(std::size_t k) { verdicts_.use(*briefs_[k], stock_.prices()); }

Standing Judge::all() const {
  return briefs_.size() == most_briefs ? ~Standing{0} : (Standing{1} << briefs_.size()) - 1;
}

void Judge::add_filter(std::size_t rule, int slot) {
  const Stock::Classes classes = stock_.classes(rule, slot);
  std::vector<int> choice(stock_.slots().size(), -1);
  std::vector<bool> admitted(classes.some.size());
  for (std::size_t c = 0; c < classes.some.size(); ++c) {
    choice[static_cast<std::size_t>(slot)] = classes.some[c];
    admitted[c] = stock_.admits(rule, choice);
  }
  auto& open = open_[static_cast<std::size_t>(slot)];
  for (std::size_t o = 0; o < open.size(); ++o)
    if (!admitted[static_cast<std::size_t>(classes.of_option[o])]) open[o] = false;
}

bool Judge::add_table(std::size_t rule, int first, int second, const Judge* before) {
  if (before != nullptr && before->table_of_[rule] != not_made &&
      verdicts_.reads_alike(rule, first_brief(), before->first_brief())) {
    const int known = before->table_of_[rule];
    table_of_[rule] = known < 0 ? known : static_cast<int>(tables_.size());
    if (known >= 0) tables_.push_back(before->tables_[static_cast<std::size_t>(known)]);
    return true;
  }
  Stock::Classes rows = stock_.classes(rule, first);
  Stock::Classes columns = stock_.classes(rule, second);
  if (rows.some.size() * columns.some.size() > most_cases) return false;
  PairTable table = PairTable::all_allowed(first, second, static_cast<int>(rows.some.size()),
                                           static_cast<int>(columns.some.size()), {});
  std::vector<int> choice(stock_.slots().size(), -1);
  bool forbids = false;
  for (std::size_t i = 0; i < rows.some.size(); ++i)
    for (std::size_t j = 0; j < columns.some.size(); ++j) {
      choice[static_cast<std::size_t>(first)] = rows.some[i];
      choice[static_cast<std::size_t>(second)] = columns.some[j];
      if (stock_.admits(rule, choice)) continue;
      table.forbid(static_cast<int>(i), static_cast<int>(j));
      forbids = true;
    }
  table.row_class = std::move(rows.of_option);
  table.column_class = std::move(columns.of_option);
  table_of_[rule] = forbids ? static_cast<int>(tables_.size()) : forbids_nothing;
  if (forbids) tables_.push_back(std::move(table));
  return true;
}

std::vector<GroundSlot> Judge::ground(const Favors& favors) const {
  std::vector<GroundSlot> out;
  for (std::size_t s = 0; s < open_.size(); ++s) {
    GroundSlot slot{.costs = {}, .open = open_[s], .favor = {}};
    if (!favors.empty()) slot.favor = favors[s];
    for (const SlotOption& option : stock_.slots()[s].options)
      slot.costs.emplace_back(option.prices);
    out.push_back(std::move(slot));
  }
  return out;
}

void Judge::put(const Question& question, std::span<const int> choice, Judged& judged) {
  if (stock_.admits(question.rule, question.scope, choice, question.ask)) return;
  judged.standing &= changed_by_[question.rule];
  if (judged.standing != 0) {
    judged.broken.push_back(question.rule);
    return;
  }
  judged.refused_by = question.rule;
  judged.refused_over = question.scope;
}

void Judge::ask_at(int slot, std::span<const int> choice, Judged& judged) {
  for (const Question& question : asked_at_[static_cast<std::size_t>(slot)]) {
    if (judged.standing == 0) return;
    put(question, choice, judged);
  }
}

void Judge::ask_costly(Judged& judged) {
  for (const Question& question : costly_) {
    if (judged.standing == 0) return;
    put(question, judged.choice, judged);
  }
}

bool Judge::takes(std::size_t k, const Judged& judged) {
  return std::ranges::all_of(judged.broken, [&](std::size_t rule) {
    return !asked(rule, *briefs_[k]) || stock_.admits(rule, judged.choice);
  });
}

bool alike_in_pairs(const Stock& stock, const Verdicts& verdicts, const Brief& a, const Brief& b) {
  for (std::size_t r = 0; r < verdicts.rules().size(); ++r)
    if (concerned(*verdicts.rules()[r], a) && stock.scope(r).size() <= 2 &&
        !stock.scope(r).empty() && !verdicts.reads_alike(r, a, b))
      return false;
  return true;
}

}  // namespace rigproof::plan::internal
