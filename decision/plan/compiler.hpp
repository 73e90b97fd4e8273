// From a catalog, a brief and the rules to the Problem of the search core, and back.
//
// Slots and prices become options and costs; rules over one kind leave options out, over two become
// pair tables, over more become checks; sums against a capacity also become resources.
// Owns what the problem's functions look at: it must outlive the search.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "decision/plan/mps.hpp"
#include "decision/plan/options.hpp"
#include "decision/plan/planner.hpp"
#include "decision/plan/roles.hpp"
#include "decision/plan/search.hpp"

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
    std::size_t cases = 0;      ///< combinations of groups in its scope, or options of one kind
    std::size_t forbidden = 0;  ///< pairs of options its tables forbid, or options left out
    std::size_t pairs = 0;      ///< pairs in these tables
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
  // Of each option of the slots of a scope, its group as a rule sees it.
  using Groups = std::vector<std::vector<std::uint32_t>>;

  [[nodiscard]] const SlotOption& option(int slot, int index) const {
    return slots_[static_cast<std::size_t>(slot)].options[static_cast<std::size_t>(index)];
  }
  [[nodiscard]] Kind kind_of(int slot) const { return slots_[static_cast<std::size_t>(slot)].kind; }
  [[nodiscard]] Row row_of(int slot, int index) const;
  [[nodiscard]] bool asked(const Rule& rule) const {
    return rule.grade == Grade::must && rule.id != without_rule_;
  }
  [[nodiscard]] std::vector<int> scope_of(const Rule& rule) const;
  [[nodiscard]] Groups groups_of(std::size_t rule, std::span<const int> scope);

  void filter_by_one_kind_rules();
  void add_slots_and_caps();

  void add_rules();
  void add_check(std::size_t rule, const std::vector<int>& scope, const Groups& groups);
  void add_table(std::size_t rule, const std::vector<int>& scope, const Groups& groups);
  void add_table(PairTable table);
  void add_early(std::size_t rule, const std::vector<int>& scope, const Groups& groups);
  void add_shadows(std::size_t rule, const std::vector<int>& scope, const Groups& groups);
  // What two slots allow each other, by their groups; `cases` is how many verdicts it rests on.
  struct Pairs {
    std::string_view why;
    int first;
    int second;
    const std::vector<std::uint32_t>& rows;
    const std::vector<std::uint32_t>& columns;
    std::size_t cases;
    std::function<bool(int row, int column)> allowed;
  };
  void add_pairs(Pairs pairs);
  [[nodiscard]] bool admits(std::size_t rule, std::span<const int> scope, const Groups& groups,
                            std::span<const int> choice);

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
  [[nodiscard]] double fastest_memory(Row cpu) const;
  [[nodiscard]] bool any_title_counts() const;
  [[nodiscard]] double frame_bound(std::span<const int> head) const;

  PlanInput in_;
  std::string_view without_rule_;
  std::size_t most_asked_beforehand_;
  std::vector<KindSlot> slots_;
  std::array<int, kind_count> slot_of_{};
  std::vector<double> fastest_;  // per cpu option: no memory of the catalog is faster on it
  Problem problem_;
  std::vector<std::string_view> sums_;  // rules of the resources behind the budgets
  std::vector<Pruned> left_out_;
  std::vector<Use> uses_;
};

}  // namespace rigproof::plan
