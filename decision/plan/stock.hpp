// Under one way to buy: what may stand in each slot, at which prices, and how each rule groups it.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "decision/plan/options.hpp"
#include "decision/plan/probe_ground.hpp"
#include "decision/plan/verdicts.hpp"

namespace rigproof::plan {

/// Slots whose only filling is none are left out. Not for several threads.
class Stock {
 public:
  Stock(std::vector<KindSlot> slots, PriceBook prices, Verdicts& verdicts);

  [[nodiscard]] const std::vector<KindSlot>& slots() const { return slots_; }
  [[nodiscard]] const PriceBook& prices() const { return prices_; }
  /// The slots a rule looks at, ascending.
  [[nodiscard]] const std::vector<int>& scope(std::size_t rule) const { return scopes_[rule]; }
  /// Does the rule admit what is chosen in its scope, or in some slots of it, under the brief in
  /// use?
  [[nodiscard]] bool admits(std::size_t rule, std::span<const int> choice) {
    return admits(rule, scopes_[rule], choice, Verdicts::Ask::admitted);
  }
  [[nodiscard]] bool admits(std::size_t rule, std::span<const int> scope,
                            std::span<const int> choice, Verdicts::Ask ask);
  /// Options alike to a rule: the class of each, and one of each class.
  struct Classes {
    std::vector<int> of_option;
    std::vector<int> some;
  };
  [[nodiscard]] Classes classes(std::size_t rule, int slot);

 private:
  [[nodiscard]] std::uint32_t group(std::size_t rule, int slot, int option);

  std::vector<KindSlot> slots_;
  PriceBook prices_;
  Verdicts& verdicts_;
  std::vector<std::vector<int>> scopes_;                         // [rule]
  std::vector<std::vector<std::vector<std::uint32_t>>> groups_;  // [rule][slot][option], ~0 unknown
};

/// The slots of one, each with the options of the other that it lacks.
[[nodiscard]] std::vector<KindSlot> together(std::vector<KindSlot> slots,
                                             const std::vector<KindSlot>& more);

}  // namespace rigproof::plan
