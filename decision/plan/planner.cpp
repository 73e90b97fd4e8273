#include "decision/plan/planner.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <memory>
#include <numeric>
#include <unordered_map>

#include "base/contract.hpp"

namespace rigproof::plan {
namespace {

constexpr double thousandths = 1000.0;
constexpr int head_slots = 4;  // cpu, gpu, memory, board: what the frame term depends on

// The Problem of the search core, and what its numbers mean. Owns what the closures look at.
class Compiler {
 public:
  Compiler(const PlanInput& input, const PlanOptions& options) : in_(input) {
    in_.verdicts.use(in_.brief, in_.prices);
    slots_ = slot_options(in_.catalog, in_.brief, in_.prices, options.banned);
    std::erase_if(slots_, [](const KindSlot& slot) { return slot.kind == Kind::display && only_empty(slot); });
    slot_of_.fill(-1);
    for (std::size_t s = 0; s < slots_.size(); ++s) slot_of_[static_cast<std::size_t>(slots_[s].kind)] = static_cast<int>(s);
    filter_by_one_kind_rules();
    add_slots_and_caps();
    add_rules();
    add_sums();
    add_score(options.first_only);
    add_groups();
  }

  [[nodiscard]] const Problem& problem() const { return problem_; }
  [[nodiscard]] const std::vector<Pruned>& left_out() const { return left_out_; }

  [[nodiscard]] PlannedChoice translate(const Solution& solution) const {
    PlannedChoice out{.build = {}, .score = solution.score, .prices = solution.costs};
    out.prices.resize(in_.brief.markets.size());  // behind the prices stand the sums of add_sums()
    for (std::size_t s = 0; s < slots_.size(); ++s) {
      const SlotOption& option = slots_[s].options[static_cast<std::size_t>(solution.choice[s])];
      for (const Chosen& part : option.parts) RP_EXPECT(out.build.add(slots_[s].kind, part.row, part.count));
    }
    return out;
  }

 private:
  static bool only_empty(const KindSlot& slot) {
    return slot.options.size() == 1 && slot.options.front().parts.empty();
  }
  const SlotOption& option(int slot, int index) const {
    return slots_[static_cast<std::size_t>(slot)].options[static_cast<std::size_t>(index)];
  }
  Row row_of(int slot, int index) const {
    const auto& parts = option(slot, index).parts;
    return parts.empty() ? no_row : parts.front().row;
  }

  // The slots a rule looks at; kinds that have no slot are absent from every build.
  std::vector<int> scope_of(const Rule& rule) const {
    std::vector<int> scope;
    for (const Kind kind : rule.kinds)
      if (const int slot = slot_of_[static_cast<std::size_t>(kind)]; slot >= 0) scope.push_back(slot);
    std::ranges::sort(scope);
    return scope;
  }

  void filter_by_one_kind_rules() {
    for (KindSlot& slot : slots_)
      if (slot.without_offer > 0)
        left_out_.push_back({"no offer: " + std::string(name_of(slot.kind)), static_cast<std::int64_t>(slot.without_offer)});
    for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r) {
      const Rule& rule = *in_.verdicts.rules()[r];
      const auto scope = scope_of(rule);
      if (rule.grade == Grade::tells || scope.size() != 1) continue;
      KindSlot& slot = slots_[static_cast<std::size_t>(scope.front())];
      const auto refused = std::erase_if(slot.options, [&](const SlotOption& candidate) {
        auto groups = Verdicts::no_groups();
        groups[static_cast<std::size_t>(slot.kind)] = in_.verdicts.group(r, slot.kind, candidate);
        const Filling filling{slot.kind, &candidate};
        return !in_.verdicts.admits(r, groups, {&filling, 1});
      });
      if (refused > 0) left_out_.push_back({std::string(rule.id), static_cast<std::int64_t>(refused)});
    }
  }

  void add_slots_and_caps() {
    for (const MarketGoal& market : in_.brief.markets) problem_.caps.push_back(market.budget.minor);
    for (std::size_t s = 0; s < slots_.size(); ++s) {
      const KindSlot& slot = slots_[s];
      std::vector<std::size_t> order(slot.options.size());
      std::iota(order.begin(), order.end(), std::size_t{0});
      std::vector<std::string> keys;
      for (const SlotOption& candidate : slot.options) keys.push_back(tie_key(in_.catalog, slot.kind, candidate));
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
    std::ranges::sort(problem_.rank_order, {}, [&](int s) { return slots_[static_cast<std::size_t>(s)].kind; });
  }

  // Group of every option of a slot, as the rule sees it.
  std::vector<std::uint32_t> groups_of(std::size_t rule, int slot) {
    const KindSlot& kind_slot = slots_[static_cast<std::size_t>(slot)];
    std::vector<std::uint32_t> groups;
    for (const SlotOption& candidate : kind_slot.options) groups.push_back(in_.verdicts.group(rule, kind_slot.kind, candidate));
    return groups;
  }

  bool admits(std::size_t rule, std::span<const int> scope, const std::vector<std::vector<std::uint32_t>>& groups,
              std::span<const int> choice) {
    auto key = Verdicts::no_groups();
    std::array<Filling, kind_count> fillings{};
    for (std::size_t i = 0; i < scope.size(); ++i) {
      const auto slot = static_cast<std::size_t>(scope[i]);
      const auto chosen = static_cast<std::size_t>(choice[slot]);
      key[static_cast<std::size_t>(slots_[slot].kind)] = groups[i][chosen];
      fillings[i] = {slots_[slot].kind, &slots_[slot].options[chosen]};
    }
    return in_.verdicts.admits(rule, key, {fillings.data(), scope.size()});
  }

  void add_rules() {
    for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r) {
      const Rule& rule = *in_.verdicts.rules()[r];
      if (rule.grade == Grade::tells) continue;
      const auto scope = scope_of(rule);
      if (scope.size() < 2) continue;
      std::vector<std::vector<std::uint32_t>> groups;
      for (const int slot : scope) groups.push_back(groups_of(r, slot));
      if (scope.size() == 2)
        add_table(r, scope, groups);
      else
        problem_.checks.push_back({.scope = scope, .why = std::string(rule.id),
                                   .holds = [this, r, scope, groups](std::span<const int> choice) {
                                     return admits(r, scope, groups, choice);
                                   }});
    }
  }

  void add_table(std::size_t rule, const std::vector<int>& scope, const std::vector<std::vector<std::uint32_t>>& groups) {
    const int rows = static_cast<int>(groups[0].size());
    const int columns = static_cast<int>(groups[1].size());
    PairTable table = PairTable::all_allowed(scope[0], scope[1], rows, columns, std::string(in_.verdicts.rules()[rule]->id));
    std::vector<int> choice(slots_.size(), 0);
    std::map<std::pair<std::uint32_t, std::uint32_t>, bool> known;
    bool forbids = false;
    for (int a = 0; a < rows; ++a)
      for (int b = 0; b < columns; ++b) {
        const std::pair key{groups[0][static_cast<std::size_t>(a)], groups[1][static_cast<std::size_t>(b)]};
        auto found = known.find(key);
        if (found == known.end()) {
          choice[static_cast<std::size_t>(scope[0])] = a;
          choice[static_cast<std::size_t>(scope[1])] = b;
          found = known.emplace(key, admits(rule, scope, groups, choice)).first;
        }
        if (!found->second) {
          table.forbid(a, b);
          forbids = true;
        }
      }
    if (forbids) problem_.tables.push_back(std::move(table));
  }

  // A sum against a capacity also becomes a resource of the search, in thousandths of its unit: terms
  // at their least, the capacity at its most. That is necessary for the rule and adds up along a
  // branch, so hopeless supplies fall early; the rule itself stays the judge (its check).
  void add_sums() {
    for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r) {
      const Rule& rule = *in_.verdicts.rules()[r];
      if (!rule.capacity || rule.grade == Grade::tells) continue;
      const int holder = slot_of_[static_cast<std::size_t>(*rule.capacity)];
      if (holder >= 0 && !slots_[static_cast<std::size_t>(holder)].options.empty()) add_sum(r, holder);
    }
  }

  Measure measure_alone(const Rule& rule, const SlotOption& holder, Kind kind, const SlotOption* added) {
    Build build;
    for (const Chosen& part : holder.parts) build.add(*rule.capacity, part.row, part.count);
    if (added != nullptr)
      for (const Chosen& part : added->parts) build.add(kind, part.row, part.count);
    const Facts facts{.catalog = in_.catalog, .brief = in_.brief, .prices = &in_.prices, .build = build,
                      .draws = in_.verdicts.draws(), .mounts = nullptr};
    Measure measure;
    if (rule.places(facts) > 0) rule.measure(facts, 0, measure);
    return measure;
  }

  void add_sum(std::size_t r, int holder) {
    const Rule& rule = *in_.verdicts.rules()[r];
    const auto& holders = slots_[static_cast<std::size_t>(holder)].options;
    std::vector<double> capacities;
    for (const SlotOption& candidate : holders) {
      const Measure measure = measure_alone(rule, candidate, *rule.capacity, nullptr);
      if (measure.limit.is_absent()) return;  // a capacity nobody knows bounds nothing
      capacities.push_back(std::max(0.0, measure.limit.high()));
    }
    std::vector<double> least_terms(slots_.size(), 0.0);
    const double most = *std::ranges::max_element(capacities);
    problem_.caps.push_back(std::llround(std::ceil(most * thousandths)));
    for (std::size_t s = 0; s < slots_.size(); ++s) {
      double least = slots_[s].options.empty() ? 0.0 : std::numeric_limits<double>::infinity();
      for (std::size_t o = 0; o < slots_[s].options.size(); ++o) {
        double cost = 0.0;
        if (static_cast<int>(s) == holder) {
          cost = most - capacities[o];
        } else if (std::ranges::find(rule.kinds, slots_[s].kind) != rule.kinds.end()) {
          const Measure measure = measure_alone(rule, holders.front(), slots_[s].kind, &slots_[s].options[o]);
          if (!measure.value.is_absent()) cost = std::max(0.0, measure.value.low());
        }
        problem_.slots[s].options[o].costs.push_back(std::llround(std::floor(cost * thousandths)));
        least = std::min(least, cost);
      }
      least_terms[s] = least;
    }
    add_part_sums(r, holder, least_terms);
  }

  // The rule on the parts chosen so far, with the least that the others can add: it fails no later
  // than the whole does, so a supply is struck out before the choices that do not matter are made.
  void add_part_sums(std::size_t r, int holder, const std::vector<double>& least_terms) {
    const Rule& rule = *in_.verdicts.rules()[r];
    const bool unknown_refused = !admitted(rule, Verdict::unknown, in_.brief);
    std::vector<int> scope;
    for (int s = 0; s < holder; ++s) {
      if (std::ranges::find(rule.kinds, slots_[static_cast<std::size_t>(s)].kind) == rule.kinds.end()) continue;
      scope.push_back(s);
      if (scope.size() < 2) continue;
      double rest = 0.0;
      for (int other = s + 1; other < static_cast<int>(slots_.size()); ++other)
        if (other != holder) rest += least_terms[static_cast<std::size_t>(other)];
      auto with_holder = scope;
      with_holder.push_back(holder);
      std::vector<std::vector<std::uint32_t>> groups;
      for (const int slot : with_holder) groups.push_back(groups_of(r, slot));
      const auto known = std::make_shared<std::unordered_map<std::string, bool>>();
      problem_.checks.push_back({.scope = with_holder, .why = std::string(rule.id),
                                 .holds = [this, &rule, with_holder, groups, rest, unknown_refused, known](std::span<const int> choice) {
        std::string key;
        for (std::size_t i = 0; i < with_holder.size(); ++i)
          key.append(reinterpret_cast<const char*>(&groups[i][static_cast<std::size_t>(choice[static_cast<std::size_t>(with_holder[i])])]), sizeof(std::uint32_t));
        const auto [at, fresh] = known->try_emplace(std::move(key), true);
        if (fresh) at->second = part_sum_admits(rule, with_holder, choice, rest, unknown_refused);
        return at->second;
      }});
    }
  }

  bool part_sum_admits(const Rule& rule, std::span<const int> scope, std::span<const int> choice, double rest, bool unknown_refused) {
    Build build;
    for (const int slot : scope)
      for (const Chosen& part : option(slot, choice[static_cast<std::size_t>(slot)]).parts)
        build.add(slots_[static_cast<std::size_t>(slot)].kind, part.row, part.count);
    const Facts facts{.catalog = in_.catalog, .brief = in_.brief, .prices = &in_.prices, .build = build,
                      .draws = in_.verdicts.draws(), .mounts = nullptr};
    Measure measure;
    measure.deciding = true;
    rule.measure(facts, 0, measure);
    measure.value += rest;
    if (!unknown_refused) return measure.value.low() <= measure.limit.high();
    return admitted(rule, judge(rule, measure).verdict, in_.brief);
  }

  int memory_class_of(std::span<const int> head) const {
    return in_.frames.memory_class(row_of(0, head[0]), row_of(3, head[3]), option(2, head[2]).parts.front());
  }

  double fastest_memory(Row cpu) const {
    double best = 0.0;
    for (const SlotOption& kit : slots_[2].options) best = std::max(best, in_.frames.fastest_mt_s(cpu, kit.parts.front()));
    return best;
  }

  // Whether there is any build at all does not depend on the score: a feasibility plan has none.
  void add_score(bool feasibility) {
    if (feasibility) return;
    const MarketGoal& first = in_.brief.markets.front();
    problem_.budget = first.budget.minor;
    problem_.money_weight = in_.brief.saved_frac;
    if (!in_.frames.has_titles) return;
    problem_.head = head_slots;
    const auto worth = static_cast<double>(first.budget.minor);
    for (std::size_t c = 0; c < slots_[0].options.size(); ++c)
      fastest_.push_back(fastest_memory(row_of(0, static_cast<int>(c))));
    problem_.head_bound = [this, worth](std::span<const int> head) {
      const Row cpu = row_of(0, head[0]);
      const double mt_s = head.size() >= 3 ? in_.frames.fastest_mt_s(cpu, option(2, head[2]).parts.front())
                                           : fastest_[static_cast<std::size_t>(head[0])];
      if (head.size() >= 2) return worth * in_.frames.utility_bound(cpu, mt_s, row_of(1, head[1]));
      double best = 0.0;
      for (std::size_t g = 0; g < slots_[1].options.size(); ++g)
        best = std::max(best, in_.frames.utility_bound(cpu, mt_s, row_of(1, static_cast<int>(g))));
      return worth * best;
    };
    problem_.head_value = [this, worth](std::span<const int> head) {
      return worth * in_.frames.utility(row_of(0, head[0]), memory_class_of(head), row_of(1, head[1]));
    };
  }

  // Best K are the best per (cpu, chip), so that they differ.
  void add_groups() {
    problem_.group_slots = 2;
    problem_.group = [this](std::span<const int> first_options) {
      const Row gpu = row_of(1, first_options[1]);
      const int chip = gpu == no_row ? 0 : 1 + in_.frames.chip(gpu);
      return first_options[0] * 100'000 + chip;
    };
    if (problem_.head == 0) {  // no titles: the pair still heads the search, with nothing to bound
      problem_.head = 2;
      problem_.head_bound = [](std::span<const int>) { return 0.0; };
      problem_.head_value = [](std::span<const int>) { return 0.0; };
    }
  }

  PlanInput in_;
  std::vector<KindSlot> slots_;
  std::array<int, kind_count> slot_of_{};
  std::vector<double> fastest_;  // per cpu option
  Problem problem_;
  std::vector<Pruned> left_out_;
};

}  // namespace

PlanOutcome plan(const PlanInput& input, const PlanOptions& options) {
  Compiler compiler(input, options);
  const Outcome outcome = search(compiler.problem(), {.keep = options.keep,
                                                      .first_only = options.first_only,
                                                      .stop = options.stop,
                                                      .progress = options.progress});
  PlanOutcome out{.status = outcome.status, .best = {}, .bound = outcome.bound, .nodes = outcome.nodes,
                  .leaves = outcome.leaves, .pruned = compiler.left_out()};
  for (const Solution& solution : outcome.best) out.best.push_back(compiler.translate(solution));
  out.pruned.insert(out.pruned.end(), outcome.pruned.begin(), outcome.pruned.end());
  return out;
}

}  // namespace rigproof::plan
