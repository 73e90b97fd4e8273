// Partial choices as a stack of levels with forward checking. Internal to the search.
//
// Level l stands for "the first l slots have an option". It knows, for every open slot, which
// options are still allowed (a bit set), the largest term and the smallest cost among them, and so
// an upper bound of the terms and a lower bound of the costs of every completion.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <utility>
#include <vector>

#include "decision/plan/search_index.hpp"

namespace rigproof::plan::internal {

class Levels {
 public:
  /// `pruned` counts by reason and outlives this.
  Levels(const Index& index, std::vector<std::int64_t>& pruned);

  /// Asked after every option that a check refused, as a check may take long: true ends tighten()
  /// with fewer options struck out.
  void give_up_when(std::function<bool()> asked_to_end) { give_up_ = std::move(asked_to_end); }

  /// Makes level 0, without the options that no option of another slot goes with (by the tables,
  /// until nothing changes). False: a slot has no option left.
  [[nodiscard]] bool start();

  /// Strikes from level 0 what checks over one slot alone have refused since; other levels are to
  /// be made again.
  void strike_for_good();

  /// Makes level `level + 1`: level `level` plus the option at `place` of slot `level`. Tables
  /// only. False: a later slot has no option left. `count` is off when a prefix is made again.
  bool enter(int level, int place, bool count);
  /// Says only which option stands in slot `level`, for functions of the choice; leave() undoes it.
  void choose(int level, int place);
  /// Opens slot `level` again.
  void leave(int level) { choice_[static_cast<std::size_t>(level)] = -1; }

  /// The decided slots that the last failure of enter(), last_holds() or tighten() rests on: with
  /// the same options in them it fails again, whatever stands in the others ([prosser-1993]).
  [[nodiscard]] std::uint64_t conflict() const { return conflict_; }
  /// All slots that are decided at a level.
  [[nodiscard]] static std::uint64_t decided(int level) {
    return level >= word_bits ? ~std::uint64_t{0} : (std::uint64_t{1} << level) - 1;
  }
  /// Those that struck options out of a slot.
  [[nodiscard]] std::uint64_t culprits(int level, int slot) const {
    return at(level).culprits[static_cast<std::size_t>(slot)];
  }

  /// Asks the checks of slot `level` that are complete with the option entered last in it.
  bool last_holds(int level);

  /// Asks the checks that are one slot short of their scope, until at every such slot the option of
  /// the largest term and those of the smallest costs satisfy them; strikes out those that do not.
  /// False: a slot has no option left, none within the first cap, or none by which the terms of
  /// every slot together come to `least_terms`.
  bool tighten(int level, double least_terms);

  /// First allowed place of slot `level` from `place` on, or -1.
  [[nodiscard]] int next_place(int level, int place) const;
  [[nodiscard]] int allowed_from(int level, int place) const;  ///< how many from `place` on

  /// Bounds over every completion of a level, and with one more option.
  [[nodiscard]] double most_terms(int level) const;
  [[nodiscard]] double most_terms_with(int level, int place) const;
  [[nodiscard]] double most_terms_beside(int level) const;  ///< slot `level` itself left out
  /// Of one open slot alone.
  [[nodiscard]] double most_term_of(int level, int slot) const;
  [[nodiscard]] std::int64_t least_cost_of(int level, int slot, int resource) const;
  [[nodiscard]] std::int64_t least_cost(int level, int resource) const;
  [[nodiscard]] std::int64_t least_cost_with(int level, int place, int resource) const;
  [[nodiscard]] bool within_caps(int level) const;
  [[nodiscard]] bool within_caps_with(int level, int place) const;
  /// No option of slot `level` from `place` on is within the first cap.
  [[nodiscard]] bool over_cap_from(int level, int place) const;
  /// Whether some completion may have a rank vector smaller than `ranks`.
  [[nodiscard]] bool may_rank_before(int level, const std::vector<int>& ranks) const;

  [[nodiscard]] std::span<const int> choice() const { return choice_; }
  [[nodiscard]] std::vector<int> ranks() const;           ///< of a complete choice
  [[nodiscard]] std::vector<std::int64_t> costs() const;  ///< of a complete choice

 private:
  struct Level {
    double terms = 0.0;              ///< of the decided slots
    double most_after = 0.0;         ///< sum of the largest terms of slots after slot `level`
    std::vector<std::int64_t> cost;  ///< [resource] of the decided slots
    std::vector<std::int64_t> least_after;  ///< [resource] sums of the smallest costs after it
    std::vector<std::uint64_t> allowed;     ///< flat, Index::words
    std::vector<std::uint64_t> verified;    ///< allowed and satisfies every ready check
    std::vector<int> top;                   ///< [slot] first allowed place
    std::vector<int> cheapest;              ///< [slot x resources + r] position in by_cost[r]
    std::vector<std::uint64_t> culprits;    ///< [slot] decided slots that struck options out of it
    std::uint64_t untested = 0;             ///< slots whose top or cheapest may fail a ready check
  };

  [[nodiscard]] Level& at(int level) { return levels_[static_cast<std::size_t>(level)]; }
  [[nodiscard]] const Level& at(int level) const {
    return levels_[static_cast<std::size_t>(level)];
  }
  [[nodiscard]] const SlotIndex& slot(int s) const {
    return index_.slot[static_cast<std::size_t>(s)];
  }
  [[nodiscard]] bool allowed(int level, int slot, int place) const;
  void strike_refused(Level& root, int s);
  [[nodiscard]] bool strike_unsupported(Level& root);
  [[nodiscard]] bool strike_unsupported(Level& root, int s, const TableIndex& table);
  [[nodiscard]] bool strike_row(Level& next, int first, const TableIndex& table, int place,
                                bool count, std::uint64_t& changed);
  [[nodiscard]] bool refresh(Level& level, int s) const;
  void sum_up(int level);
  [[nodiscard]] bool satisfies(int level, int s, int place);
  [[nodiscard]] bool tighten_slot(int level, int s, double least_terms);
  [[nodiscard]] int failing_support(int level, int s);

  const Index& index_;
  std::vector<std::int64_t>& pruned_;
  std::vector<Level> levels_;
  std::uint64_t conflict_ = 0;
  std::uint64_t refused_by_ = 0;               ///< scope of the check that failed last
  std::vector<std::pair<int, int>> for_good_;  ///< slot and place
  std::vector<std::vector<int>> ask_first_;    ///< [slot] its checks, those that failed last first
  std::vector<int> choice_;                    ///< option index per slot, -1 open
  std::vector<int> place_;                     ///< place per decided slot
  std::function<bool()> give_up_;
};

}  // namespace rigproof::plan::internal
