// The score (P1) of a build as the search sees it: the frame term of the head (cpu, gpu, memory,
// board), bounded from the rates of its stages alone, and the money that is left.
#include <algorithm>
#include <limits>
#include <map>
#include <numeric>

#include "decision/plan/compiler.hpp"

namespace rigproof::plan {
namespace {

// Places of the head in the order of slot_options().
constexpr int cpu_slot = 0;
constexpr int gpu_slot = 1;
constexpr int memory_slot = 2;
constexpr int board_slot = 3;
constexpr int head_slots = 4;

}  // namespace

int Compiler::memory_class_of(std::span<const int> head) const {
  return in_.frames.memory_class(row_of(cpu_slot, head[cpu_slot]),
                                 row_of(board_slot, head[board_slot]),
                                 option(memory_slot, head[memory_slot]).parts.front());
}

// (P11) What the stages alone come to, and which cards are worth a look at a price: no card left
// out is better in every title than one that costs no more.
void Compiler::add_stage_worths() {
  std::map<int, Chosen> kits;
  for (const SlotOption& kit : slots_[memory_slot].options)
    kits.try_emplace(in_.frames.memory_kind(kit.parts.front()), kit.parts.front());
  const auto& cpus = slots_[cpu_slot].options;
  for (std::size_t c = 0; c < cpus.size(); ++c) {
    const Row cpu = row_of(cpu_slot, static_cast<int>(c));
    double fastest = 0.0;
    for (const auto& [kind, kit] : kits)
      fastest = std::max(fastest, in_.frames.fastest_mt_s(cpu, kit));
    fastest_.push_back(fastest);
    cpu_worths_.add(in_.frames.cpu_worths(cpu, fastest));
  }
  const auto& gpus = slots_[gpu_slot].options;
  for (std::size_t g = 0; g < gpus.size(); ++g)
    gpu_worths_.add(in_.frames.gpu_worths(row_of(gpu_slot, static_cast<int>(g))));
  std::vector<int> by_price(gpus.size());
  std::iota(by_price.begin(), by_price.end(), 0);
  std::ranges::stable_sort(by_price, {}, [&](int g) { return price_of_card(g); });
  for (const int g : by_price)
    if (std::ranges::none_of(foremost_cards_,
                             [&](int other) { return gpu_worths_.at_least(other, g); }))
      foremost_cards_.push_back(g);
}

std::int64_t Compiler::price_of_card(int gpu) const { return option(gpu_slot, gpu).prices.front(); }

bool Compiler::any_title_counts() const {
  for (std::size_t c = 0; c < slots_[cpu_slot].options.size(); ++c)
    for (const int g : foremost_cards_)
      if (cpu_worths_.together(static_cast<int>(c), gpu_worths_, g) > 0.0) return true;
  return false;
}

// Utility of the head or its beginning: of the processor alone by its stage, else with the fastest
// memory that is left to it.
double Compiler::frame_bound(std::span<const int> head) {
  const int cpu = head[cpu_slot];
  if (head.size() == 1) return cpu_worths_.sum(cpu);
  if (head.size() == head_slots) return frame_value(head);
  const double mt_s = head.size() > memory_slot ? fastest_with(cpu, head[memory_slot])
                                                : fastest_[static_cast<std::size_t>(cpu)];
  return in_.frames.utility_at(row_of(cpu_slot, cpu), mt_s, row_of(gpu_slot, head[gpu_slot]));
}

double Compiler::frame_value(std::span<const int> head) {
  return in_.frames.utility(row_of(cpu_slot, head[cpu_slot]), memory_class_of(head),
                            row_of(gpu_slot, head[gpu_slot]));
}

double Compiler::fastest_with(int cpu, int kit) const {
  return in_.frames.fastest_mt_s(row_of(cpu_slot, cpu), option(memory_slot, kit).parts.front());
}

// Whether there is any build at all does not depend on the score: a feasibility plan has none.
void Compiler::add_score(bool feasibility) {
  problem_.head = 2;  // best K need the pair (cpu, chip) to head the search
  problem_.head_bound = [](std::span<const int>) { return 0.0; };
  problem_.head_value = [](std::span<const int>) { return 0.0; };
  if (feasibility) return;
  const MarketGoal& first = in_.brief.markets.front();
  problem_.budget = first.budget.minor;
  problem_.money_weight = in_.brief.saved_frac;
  if (!in_.frames.has_titles) return;
  add_stage_worths();
  if (!any_title_counts()) return;  // all rates unknown: a score of money alone needs no triples
  problem_.head = head_slots;
  const auto worth = static_cast<double>(first.budget.minor);
  problem_.head_bound = [this, worth](std::span<const int> head) {
    return worth * frame_bound(head);
  };
  problem_.head_ceiling = [this, worth](std::span<const int> head) {
    return worth * (head.size() == 2
                        ? cpu_worths_.together(head[cpu_slot], gpu_worths_, head[gpu_slot])
                        : frame_bound(head.first(std::min<std::size_t>(head.size(), 3))));
  };
  problem_.next_bound = [this, worth](std::span<const int> head, std::int64_t most_cost) {
    return head.size() == 1 ? best_with_card(head[cpu_slot], worth, most_cost)
                            : std::numeric_limits<double>::infinity();
  };
  problem_.head_value = [this, worth](std::span<const int> head) {
    return worth * frame_value(head);
  };
}

// (P11)
double Compiler::best_with_card(int cpu, double worth, std::int64_t most_cost) const {
  double best = -std::numeric_limits<double>::infinity();
  for (const int g : foremost_cards_) {
    const std::int64_t price = price_of_card(g);
    if (price > most_cost) break;  // dearer ones follow
    best = std::max(best, worth * cpu_worths_.together(cpu, gpu_worths_, g) -
                              problem_.money_weight * static_cast<double>(price));
  }
  return best;
}

// Best K are the best per (cpu, chip), so that they differ.
void Compiler::add_groups() {
  problem_.group_slots = 2;
  problem_.group = [this](std::span<const int> first_options) {
    const Row gpu = row_of(gpu_slot, first_options[gpu_slot]);
    const int chip = gpu == no_row ? 0 : 1 + in_.frames.chip(gpu);
    const int chips = static_cast<int>(in_.catalog.rows(table("gpu"))) + 1;
    return first_options[cpu_slot] * chips + chip;
  };
}

}  // namespace rigproof::plan
