#include "decision/plan/stock.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <unordered_map>
#include <utility>

namespace rigproof::plan {

Stock::Stock(std::vector<KindSlot> slots, PriceBook prices, Verdicts& verdicts)
    : slots_(std::move(slots)), prices_(std::move(prices)), verdicts_(verdicts) {
  std::erase_if(slots_, [](const KindSlot& slot) {
    return slot.options.size() == 1 && slot.options.front().parts.empty();
  });
  const auto rules = verdicts_.rules();
  scopes_.resize(rules.size());
  for (std::size_t r = 0; r < rules.size(); ++r)
    for (std::size_t s = 0; s < slots_.size(); ++s)
      if (std::ranges::find(rules[r]->kinds, slots_[s].kind) != rules[r]->kinds.end())
        scopes_[r].push_back(static_cast<int>(s));
  groups_.resize(rules.size());
  for (auto& of_rule : groups_) of_rule.resize(slots_.size());
}

std::uint32_t Stock::group(std::size_t rule, int slot, int option) {
  const KindSlot& of = slots_[static_cast<std::size_t>(slot)];
  auto& known = groups_[rule][static_cast<std::size_t>(slot)];
  if (known.empty()) known.assign(of.options.size(), ~0U);
  std::uint32_t& of_option = known[static_cast<std::size_t>(option)];
  if (of_option == ~0U)
    of_option = verdicts_.group(rule, of.kind, of.options[static_cast<std::size_t>(option)]);
  return of_option;
}

bool Stock::admits(std::size_t rule, std::span<const int> scope, std::span<const int> choice,
                   Verdicts::Ask ask) {
  auto key = Verdicts::no_groups();
  for (const int slot : scope)
    key[static_cast<std::size_t>(slots_[static_cast<std::size_t>(slot)].kind)] =
        group(rule, slot, choice[static_cast<std::size_t>(slot)]);
  if (const auto known = verdicts_.known(rule, key, ask)) return *known;
  std::array<Filling, kind_count> fillings{};
  for (std::size_t i = 0; i < scope.size(); ++i) {
    const KindSlot& of = slots_[static_cast<std::size_t>(scope[i])];
    const auto option = static_cast<std::size_t>(choice[static_cast<std::size_t>(scope[i])]);
    fillings[i] = {of.kind, &of.options[option]};
  }
  return verdicts_.admits(rule, key, {fillings.data(), scope.size()}, ask);
}

Stock::Classes Stock::classes(std::size_t rule, int slot) {
  Classes out;
  std::unordered_map<std::uint32_t, int> numbers;
  const auto count = static_cast<int>(slots_[static_cast<std::size_t>(slot)].options.size());
  for (int o = 0; o < count; ++o) {
    const auto [at, fresh] =
        numbers.try_emplace(group(rule, slot, o), static_cast<int>(out.some.size()));
    if (fresh) out.some.push_back(o);
    out.of_option.push_back(at->second);
  }
  return out;
}

std::vector<KindSlot> together(std::vector<KindSlot> slots, const std::vector<KindSlot>& more) {
  using Words = std::vector<std::pair<Row, int>>;
  const auto words = [](const SlotOption& option) {
    Words out;
    for (const Chosen& part : option.parts) out.emplace_back(part.row, part.count);
    std::ranges::sort(out);
    return out;
  };
  for (std::size_t s = 0; s < slots.size(); ++s) {
    std::set<Words> known;
    for (const SlotOption& option : slots[s].options) known.insert(words(option));
    for (const SlotOption& option : more[s].options)
      if (known.insert(words(option)).second) slots[s].options.push_back(option);
  }
  return slots;
}

}  // namespace rigproof::plan
