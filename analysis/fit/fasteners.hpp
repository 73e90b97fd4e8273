// Every screw and standoff that putting a build together takes, as a list to count out beforehand.
//
// (S6) of README.md. Few of these numbers stand in a document: how each is known stands beside it,
// and what nobody can say from the tables (a cooler's own mounting set) is a line without a count.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/fit/standards.hpp"
#include "claims/facts.hpp"

namespace rigproof::fit {

/// Pieces: `low` are needed in any case (a board: one of full size), `high` is what to have at
/// hand.
struct Count {
  int low = 0;
  int high = 0;
  friend bool operator==(const Count&, const Count&) = default;
};

struct FastenerLine {
  std::string what_for;            ///< "standoffs of the board", "drive Alpha 1"
  std::string part_id;             ///< of the part that is fastened
  std::optional<Count> count;      ///< nothing: not known
  std::string kind;                ///< "6-32 UNC", "M3"; empty: not known
  Known known = Known::not_known;  ///< the weaker of what is known of count and kind
  std::string note;                ///< what may change the number; empty: nothing does
};

/// In: any build, complete or not. Out: lines in the order of work: board, cooler, radiator,
/// supply, drives, added fans, cards. The fans a case is sold with are mounted. A part that needs
/// none (a processor, memory) has no line.
[[nodiscard]] std::vector<FastenerLine> fasteners(const Facts& facts);

/// Sum of the lines of one kind; lines without a count add nothing and clear `complete`.
struct Total {
  std::string kind;
  Count count;
};
struct Totals {
  std::vector<Total> of_kind;  ///< in the order of first use
  bool complete = true;
};
[[nodiscard]] Totals totals(const std::vector<FastenerLine>& lines);

}  // namespace rigproof::fit
