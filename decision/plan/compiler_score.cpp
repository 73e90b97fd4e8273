// The score (P1) of a build as the search sees it: the frame term of the head (cpu, gpu, memory,
// board), bounded from the rates of its stages alone, and the money that is left.
#include <algorithm>

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

double Compiler::fastest_memory(Row cpu) const {
  double best = 0.0;
  for (const SlotOption& kit : slots_[memory_slot].options)
    best = std::max(best, in_.frames.fastest_mt_s(cpu, kit.parts.front()));
  return best;
}

// Utility is bounded for the processor alone, for the pair, and once the memory is known.
double Compiler::frame_bound(std::span<const int> head) const {
  const Row cpu = row_of(cpu_slot, head[cpu_slot]);
  const double mt_s =
      head.size() > memory_slot
          ? in_.frames.fastest_mt_s(cpu, option(memory_slot, head[memory_slot]).parts.front())
          : fastest_[static_cast<std::size_t>(head[cpu_slot])];
  if (head.size() > gpu_slot)
    return in_.frames.utility_bound(cpu, mt_s, row_of(gpu_slot, head[gpu_slot]));
  double best = 0.0;
  for (std::size_t g = 0; g < slots_[gpu_slot].options.size(); ++g)
    best =
        std::max(best, in_.frames.utility_bound(cpu, mt_s, row_of(gpu_slot, static_cast<int>(g))));
  return best;
}

bool Compiler::any_title_counts() const {
  for (std::size_t c = 0; c < slots_[cpu_slot].options.size(); ++c) {
    const int cpu = static_cast<int>(c);
    if (frame_bound({&cpu, 1}) > 0.0) return true;
  }
  return false;
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
  problem_.head = head_slots;
  const auto worth = static_cast<double>(first.budget.minor);
  for (std::size_t c = 0; c < slots_[cpu_slot].options.size(); ++c)
    fastest_.push_back(fastest_memory(row_of(cpu_slot, static_cast<int>(c))));
  if (!any_title_counts()) {  // all rates unknown: a score of money alone needs no triples
    problem_.head = 2;
    return;
  }
  problem_.head_bound = [this, worth](std::span<const int> head) {
    return worth * frame_bound(head);
  };
  problem_.head_value = [this, worth](std::span<const int> head) {
    return worth * in_.frames.utility(row_of(cpu_slot, head[cpu_slot]), memory_class_of(head),
                                      row_of(gpu_slot, head[gpu_slot]));
  };
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
