// Sums against a capacity (Rule::capacity), such as all powers against the supply's rating: what
// they allow before every slot is filled. The rule itself stays the judge; what is added here only
// has to be necessary for it (P4, P5 in README.md).
#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <unordered_map>

#include "decision/plan/compiler.hpp"

namespace rigproof::plan {
namespace {

constexpr double thousandths =
    1000.0;  // resources are whole numbers: thousandths of the rule's unit

bool speaks_of(const Rule& rule, Kind kind) {
  return std::ranges::find(rule.kinds, kind) != rule.kinds.end();
}

}  // namespace

void Compiler::add_sums() {
  for (std::size_t r = 0; r < in_.verdicts.rules().size(); ++r) {
    const Rule& rule = *in_.verdicts.rules()[r];
    if (!rule.capacity || !asked(rule)) continue;
    const int holder = slot_of_[static_cast<std::size_t>(*rule.capacity)];
    if (holder >= 0 && !slots_[static_cast<std::size_t>(holder)].options.empty())
      add_sum(r, holder);
  }
}

// What the rule reads of one part that states the capacity, and of one other option beside it.
Measure Compiler::measure_alone(const Rule& rule, const SlotOption& holder, Kind kind,
                                const SlotOption* added) {
  Build build;
  const Kind capacity = rule.capacity.value_or(kind);  // always set here: add_sums() looked
  for (const Chosen& part : holder.parts) build.add(capacity, part.row, part.count);
  if (added != nullptr)
    for (const Chosen& part : added->parts) build.add(kind, part.row, part.count);
  const Facts facts{.catalog = in_.catalog,
                    .brief = in_.brief,
                    .prices = &in_.prices,
                    .build = build,
                    .draws = in_.verdicts.draws(),
                    .setup = nullptr};
  Measure measure;
  if (rule.places(facts) > 0) rule.measure(facts, 0, measure);
  return measure;
}

// (P4): a resource of the search. Terms at their least, capacities at their most.
void Compiler::add_sum(std::size_t r, int holder) {
  const Rule& rule = *in_.verdicts.rules()[r];
  const auto& holders = slots_[static_cast<std::size_t>(holder)].options;
  std::vector<double> capacities;
  for (const SlotOption& candidate : holders) {
    const Measure measure = measure_alone(rule, candidate, kind_of(holder), nullptr);
    if (measure.limit.is_absent()) return;  // a capacity nobody knows bounds nothing
    capacities.push_back(std::max(0.0, measure.limit.high()));
  }
  const double most = *std::ranges::max_element(capacities);
  problem_.caps.push_back(std::llround(std::ceil(most * thousandths)));
  sums_.push_back(rule.id);
  std::vector<double> least_terms(slots_.size(), 0.0);
  for (std::size_t s = 0; s < slots_.size(); ++s) {
    double least = slots_[s].options.empty() ? 0.0 : std::numeric_limits<double>::infinity();
    for (std::size_t o = 0; o < slots_[s].options.size(); ++o) {
      double cost = 0.0;
      if (static_cast<int>(s) == holder) {
        cost = most - capacities[o];
      } else if (speaks_of(rule, slots_[s].kind)) {
        const Measure measure =
            measure_alone(rule, holders.front(), slots_[s].kind, &slots_[s].options[o]);
        if (!measure.value.is_absent()) cost = std::max(0.0, measure.value.low());
      }
      problem_.slots[s].options[o].costs.push_back(std::llround(std::floor(cost * thousandths)));
      least = std::min(least, cost);
    }
    least_terms[s] = least;
  }
  add_part_sums(r, holder, least_terms);
}

// (P5): the rule on the parts chosen so far and the capacity, with the least that the others can
// add.
void Compiler::add_part_sums(std::size_t r, int holder, const std::vector<double>& least_terms) {
  std::vector<int> scope;
  for (int s = 0; s < holder; ++s) {
    if (!speaks_of(*in_.verdicts.rules()[r], kind_of(s))) continue;
    scope.push_back(s);
    if (scope.size() < 2) continue;
    double rest = 0.0;
    for (int other = s + 1; other < static_cast<int>(slots_.size()); ++other)
      if (other != holder) rest += least_terms[static_cast<std::size_t>(other)];
    auto with_holder = scope;
    with_holder.push_back(holder);
    add_part_sum(r, with_holder, rest);
  }
}

void Compiler::add_part_sum(std::size_t r, const std::vector<int>& scope, double rest) {
  const Rule& rule = *in_.verdicts.rules()[r];
  const auto known = std::make_shared<std::unordered_map<std::string, bool>>();
  problem_.checks.push_back(
      {.scope = scope,
       .why = std::string(rule.id),
       .holds =
           [this, r, &rule, scope, rest, known](std::span<const int> choice) {
             std::string key;
             for (const int slot : scope) {
               const std::uint32_t seen = group(r, slot, choice[static_cast<std::size_t>(slot)]);
               key.append(reinterpret_cast<const char*>(&seen), sizeof seen);
             }
             const auto [at, fresh] = known->try_emplace(std::move(key), true);
             if (fresh) at->second = part_sum_admits(rule, scope, choice, rest);
             return at->second;
           },
       .class_of = [this, r](int slot, int option) { return group(r, slot, option); }});
}

bool Compiler::part_sum_admits(const Rule& rule, std::span<const int> scope,
                               std::span<const int> choice, double rest) {
  Build build;
  for (const int slot : scope)
    for (const Chosen& part : option(slot, choice[static_cast<std::size_t>(slot)]).parts)
      build.add(kind_of(slot), part.row, part.count);
  const Facts facts{.catalog = in_.catalog,
                    .brief = in_.brief,
                    .prices = &in_.prices,
                    .build = build,
                    .draws = in_.verdicts.draws(),
                    .setup = nullptr};
  Measure measure;
  measure.deciding = true;
  rule.measure(facts, 0, measure);
  // The rule adds its terms in an order of its own: what differs by rounding alone must not be
  // given up.
  constexpr double rounding = 1e-12;
  measure.value += rest - rounding * (measure.value.high() + rest);
  // Where unknown is accepted, a part not yet chosen may make the whole unknown: then only a sum
  // that is too much in every case may be given up.
  if (admitted(rule, Verdict::unknown, in_.brief))
    return measure.value.low() <= measure.limit.high();
  return admitted(rule, judge(rule, measure).verdict, in_.brief);
}

}  // namespace rigproof::plan
