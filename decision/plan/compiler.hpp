// From a catalog, a brief and the rules to the Problem of the search core, and back.
//
// Slots and prices become options and costs; rules over two kinds become pair tables where few
// cases tell all, all others checks; sums against a capacity also become resources. Owns what the
// problem's functions look at: it must outlive the search.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "decision/plan/mps.hpp"
#include "decision/plan/options.hpp"
#include "decision/plan/planner.hpp"
#include "decision/plan/roles.hpp"
#include "decision/plan/search.hpp"
#include "decision/plan/stage_worths.hpp"

namespace rigproof::plan {

class Compiler {
 public:
  Compiler(const PlanInput& input, const PlanOptions& options);
  Compiler(const Compiler&) = delete;
  Compiler& operator=(const Compiler&) = delete;
  ~Compiler() = default;

  [[nodiscard]] const Problem& problem() const { return problem_; }
  /// Options left out before the search, by reason.
  [[nodiscard]] const std::vector<Pruned>& left_out() const { return left_out_; }
  /// What became of each rule that is asked: for the bench that shows it.
  struct Use {
    std::string_view rule;
    Role role = Role::check;
    std::size_t cases = 0;      ///< pairs of classes in its tables, each asked beforehand
    std::size_t forbidden = 0;  ///< pairs of options its tables forbid
    std::size_t pairs = 0;      ///< pairs of options in its tables
  };
  [[nodiscard]] const std::vector<Use>& uses() const { return uses_; }
  [[nodiscard]] PlannedChoice translate(const Solution& solution) const;

  // compiler_export.cpp: what an integer program of problem() needs beside it.
  /// The head value by memory class: (cpu, effective memory, card).
  [[nodiscard]] HeadClasses head_classes() const;
  /// Part ids, with counts; "none".
  [[nodiscard]] std::string option_name(int slot, int index) const;
  /// Budgets by market, then sums by rule.
  [[nodiscard]] std::vector<std::string> cap_names() const;

 private:
  [[nodiscard]] const SlotOption& option(int slot, int index) const {
    return slots_[static_cast<std::size_t>(slot)].options[static_cast<std::size_t>(index)];
  }
  [[nodiscard]] Kind kind_of(int slot) const { return slots_[static_cast<std::size_t>(slot)].kind; }
  [[nodiscard]] Row row_of(int slot, int index) const;
  [[nodiscard]] bool asked(const Rule& rule) const {
    return rule.grade == Grade::must && rule.id != without_rule_ &&
           (rule.concerns == nullptr || rule.concerns(in_.brief));
  }
  [[nodiscard]] std::vector<int> scope_of(const Rule& rule) const;
  /// Group of an option as a rule sees it: asked for once, when it is wanted.
  [[nodiscard]] std::uint32_t group(std::size_t rule, int slot, int option);
  [[nodiscard]] bool admits(std::size_t rule, std::span<const int> scope,
                            std::span<const int> choice,
                            Verdicts::Ask ask = Verdicts::Ask::admitted);
  void count_left_out();
  void add_slots_and_caps(const PlanOptions& options);

  // compiler_rules.cpp
  struct Classes {
    std::vector<int> of_option;
    std::vector<int> some;  // an option of each class
  };
  [[nodiscard]] std::optional<Classes> classes_of(std::size_t rule, int slot, std::size_t most);
  void add_rules();
  [[nodiscard]] Use& use_of(std::size_t rule);
  void add_check(std::size_t rule, const std::vector<int>& scope);
  bool add_pairs(std::size_t rule, const std::vector<int>& scope,
                 Verdicts::Ask ask = Verdicts::Ask::admitted);
  void add_foretelling(std::size_t rule, const std::vector<int>& scope);
  bool add_early(std::size_t rule, const std::vector<int>& scope);
  void add_shadows(std::size_t rule, const std::vector<int>& scope);
  [[nodiscard]] bool may_ask_early() const;
  [[nodiscard]] Verdicts::Ask early_question() const;
  struct Together {
    std::vector<std::size_t> rules;
    std::vector<int> scope;
    int when = 0;  // the slot in which it is asked: the scope's last or a later one
    Verdicts::Ask ask = Verdicts::Ask::admitted;
  };
  void ask_together(std::size_t rule, const std::vector<int>& scope, int when,
                    Verdicts::Ask ask = Verdicts::Ask::admitted);
  void add_check_of_all(const Together& of);
  struct Pair {
    std::size_t rule;
    int first;
    int second;
    std::size_t each = 1;  // verdicts that a case may take
  };
  bool add_table(const Pair& pair, const std::function<bool(int, int)>& allowed);

  // compiler_sums.cpp
  void add_sums();
  void add_sum(std::size_t rule, int holder);
  void add_part_sums(std::size_t rule, int holder, const std::vector<double>& least_terms);
  void add_part_sum(std::size_t rule, const std::vector<int>& scope, double rest);
  [[nodiscard]] bool part_sum_admits(const Rule& rule, std::span<const int> scope,
                                     std::span<const int> choice, double rest);
  [[nodiscard]] Measure measure_alone(const Rule& rule, const SlotOption& holder, Kind kind,
                                      const SlotOption* added);

  // compiler_score.cpp
  void add_score(bool feasibility);
  void add_groups();
  [[nodiscard]] int memory_class_of(std::span<const int> head) const;
  void add_stage_worths();
  [[nodiscard]] bool any_title_counts() const;
  [[nodiscard]] double fastest_with(int cpu, int kit) const;
  [[nodiscard]] double frame_bound(std::span<const int> head);
  [[nodiscard]] double frame_value(std::span<const int> head);
  [[nodiscard]] double best_with_card(int cpu, double worth, std::int64_t most_cost) const;
  [[nodiscard]] std::int64_t price_of_card(int gpu) const;

  PlanInput in_;
  std::string_view without_rule_;
  std::size_t most_asked_beforehand_;
  std::vector<KindSlot> slots_;
  std::array<int, kind_count> slot_of_{};
  std::vector<std::vector<std::vector<std::uint32_t>>> groups_;  // [rule][slot][option], ~0 unknown
  std::vector<double> fastest_;  // per cpu option: no memory of the catalog is faster on it
  StageWorths cpu_worths_;       // with that memory
  StageWorths gpu_worths_;
  std::vector<int> foremost_cards_;  // cheapest first
  Problem problem_;
  std::vector<std::string_view> sums_;  // rules of the resources behind the budgets
  std::vector<Pruned> left_out_;
  std::vector<Use> uses_;
  std::vector<Together> together_;  // rules with burdens, by scope
};

}  // namespace rigproof::plan
