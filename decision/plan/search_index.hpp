// A problem made ready for the search: validated, options in the order they are tried, tables as
// rows of bits in that order, checks filed by the slot that completes them. Internal to the search.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "decision/plan/search.hpp"

namespace rigproof::plan::internal {

inline constexpr int word_bits = 64;

/// One slot. "Place" is the position of an option in the order it is tried; place 0 has the largest
/// term (in a feasibility search: is the cheapest).
struct SlotIndex {
  int places = 0;
  int words = 0;
  std::size_t first_word = 0;                 ///< of this slot in a level's flat bit set
  std::vector<int> option;                    ///< [place] index into Slot::options
  std::vector<double> term;                   ///< [place] value (tail only) - money_weight x cost 0
  std::vector<std::int64_t> cost;             ///< [place x resources + resource]
  std::vector<std::int64_t> least_cost_from;  ///< [place] of cost 0, of it and all places after it
  std::vector<int> rank;                      ///< [place]
  std::vector<std::vector<int>> by_cost;      ///< [resource] places, cheapest first
  std::vector<int> by_rank;                   ///< places, smallest rank first
};

struct TableIndex {
  int second = 0;
  std::size_t reason = 0;
  std::vector<int> row_of_place = {};    ///< [place of first]: places that are alike share a row
  std::vector<std::uint64_t> rows = {};  ///< [row x words of second]
};

struct CheckIndex {
  const Check* check = nullptr;
  int ready_level = 0;  ///< from this many decided slots on only the last slot of the scope is open
  std::size_t reason = 0;
};

/// Reasons that every search has, in front of those of tables and checks.
enum Reason : std::size_t { by_bound, by_caps, by_no_option, first_named_reason };

struct Index {
  Index(const Problem& problem, const SearchOptions& options);

  /// The row of a place of a table's first slot.
  [[nodiscard]] const std::uint64_t* row(const TableIndex& table, int place) const {
    return table.rows.data() +
           static_cast<std::size_t>(table.row_of_place[static_cast<std::size_t>(place)]) *
               static_cast<std::size_t>(slot[static_cast<std::size_t>(table.second)].words);
  }

  const Problem& problem;
  int slots = 0;
  int resources = 0;
  std::size_t words = 0;  ///< of all slots
  std::vector<SlotIndex> slot;
  std::vector<std::vector<TableIndex>> tables;  ///< [first slot]
  std::vector<std::vector<CheckIndex>> checks;  ///< [last slot of the scope], in file order
  std::vector<std::uint64_t> ready_at;          ///< [level] slots that get a ready check there
  std::vector<std::uint64_t> ready_by;          ///< [level] slots that have one by then
  std::vector<int> rank_order;
  std::vector<std::string> reasons;
  double magnitude = 0.0;  ///< no sum of terms, budget included, is larger in absolute value

 private:
  void validate() const;
  void add_slot(const Slot& from, bool in_head, bool cheapest_first);
  void add_table(const PairTable& from);
  void add_check(const Check& from);
  std::size_t reason_of(const std::string& why);
};

}  // namespace rigproof::plan::internal
