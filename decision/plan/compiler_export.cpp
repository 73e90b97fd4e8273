// What an integer program of a brief's problem needs beside the problem: classes of the head, and
// names that a reader knows again.
#include <fmt/format.h>

#include <map>
#include <memory>
#include <utility>

#include "decision/plan/compiler.hpp"

namespace rigproof::plan {
namespace {

// Numbers for keys, in the order they come.
template <class Key>
int numbered(std::map<Key, int>& numbers, const Key& key) {
  return numbers.try_emplace(key, static_cast<int>(numbers.size())).first->second;
}

}  // namespace

// With titles, rates depend on a build through (cpu, memory class, card), and the memory class on
// cpu, board and kit: these three are joined. Without titles every head is worth the same.
HeadClasses Compiler::head_classes() const {
  HeadClasses out;
  const bool rated = problem_.head > 2;
  for (int slot = 0; slot < problem_.head; ++slot) {
    auto& classes = out.of_option.emplace_back();
    std::map<std::pair<int, int>, int> numbers;
    const auto count = problem_.slots[static_cast<std::size_t>(slot)].options.size();
    for (int o = 0; o < static_cast<int>(count); ++o) {
      const auto& parts = option(slot, o).parts;
      std::pair<int, int> look{-1, 0};  // no card
      if (rated && !parts.empty())
        look = {in_.frames.look(kind_of(slot), parts.front().row), parts.front().count};
      classes.push_back(numbered(numbers, look));
    }
  }
  if (!rated) return out;
  for (int slot = 0; slot < problem_.head; ++slot)
    if (kind_of(slot) != Kind::gpu) out.joined.push_back(slot);
  const int cpu = slot_of_[static_cast<std::size_t>(Kind::cpu)];
  out.joint = [this, cpus = out.of_option[static_cast<std::size_t>(cpu)], cpu,
               numbers = std::make_shared<std::map<std::pair<int, int>, int>>()](
                  std::span<const int> head) {
    const int of_cpu = cpus[static_cast<std::size_t>(head[static_cast<std::size_t>(cpu)])];
    return numbered(*numbers, {of_cpu, memory_class_of(head)});
  };
  return out;
}

std::string Compiler::option_name(int slot, int index) const {
  std::string name;
  for (const Chosen& part : option(slot, index).parts) {
    if (!name.empty()) name += '+';
    name += in_.catalog.id({kind_of(slot), part.row});
    if (part.count != 1) name += fmt::format(".x{}", part.count);
  }
  return name.empty() ? "none" : name;
}

std::vector<std::string> Compiler::cap_names() const {
  std::vector<std::string> names;
  names.reserve(in_.brief.markets.size() + sums_.size());
  for (const MarketGoal& market : in_.brief.markets) names.push_back("budget_" + market.market);
  for (const std::string_view rule : sums_) names.push_back(fmt::format("sum_{}", rule));
  return names;
}

}  // namespace rigproof::plan
