// What two slots of a problem forbid each other, all tables over them taken together, as rows (M4).
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "decision/plan/linear_model.hpp"
#include "decision/plan/search.hpp"

namespace rigproof::plan {

using Bits = std::vector<std::uint64_t>;

[[nodiscard]] inline bool bit(const Bits& bits, std::size_t at) {
  return (bits[at / 64] >> (at % 64) & 1U) != 0;
}
inline void set_bit(Bits& bits, std::size_t at) { bits[at / 64] |= std::uint64_t{1} << (at % 64); }

struct ForbiddenPairs {
  int first = 0;
  int second = 0;
  std::size_t columns = 0;      ///< options of `second`
  std::vector<Bits> rows = {};  ///< by option of `first`: what it forbids; padding is 0
  [[nodiscard]] bool forbids(int row, int column) const {
    return bit(rows[static_cast<std::size_t>(row)], static_cast<std::size_t>(column));
  }
};

/// One for each two slots that have a table or a check over just them, by first, then second slot.
/// Empty when stopped.
[[nodiscard]] std::vector<ForbiddenPairs> forbidden_pairs(const Problem& problem,
                                                          const std::function<bool()>& stop);

/// (M4), grouped by what is forbidden on that side which needs fewer rows.
void add_pair_rows(const ForbiddenPairs& pairs, const std::string& name, int first_column,
                   int second_column, LinearModel& model);

}  // namespace rigproof::plan
