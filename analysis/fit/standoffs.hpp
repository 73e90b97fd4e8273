// Which positions of a case get a standoff and a screw under a given board, and which must stay
// empty: a metal standoff under a board where it has no hole touches its tracks, a short circuit.
//
// (S5) of README.md. From the holes of standards.hpp alone, for a board of full size: what a case
// has fixed in its tray, and how much smaller a board is than its form factor allows, no table
// says.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/fit/standards.hpp"

namespace rigproof::fit {

/// Positions by letter, in alphabetical order.
struct StandoffPlan {
  bool known = false;    ///< false: the board's pattern is not known, and every list is empty
  std::string why_not;   ///< then
  std::string used;      ///< a standoff and a screw
  std::string if_holed;  ///< of the form factor, but a board may leave them out: a standoff only
                         ///< where the board in the hand has a hole, else it must stay empty
  std::string must_be_empty;  ///< of other form factors the case takes, and under this board
  std::string beyond_board;   ///< of others as well, but nothing of this board is above them
  std::string shared;         ///< of this board (used or if_holed) and of another the case takes
  std::string doubtful;       ///< of all these, the ones whose place is doubtful
  bool others_known = true;   ///< false: the case also takes a form factor we have no holes of
  bool case_takes_it = true;  ///< false: the case does not list the board's form factor
  std::vector<std::string> notes;  ///< whole sentences, for a builder
};

/// In: the words of board.form_factor and case.form_factors; an empty word or list is one the
/// catalog does not know.
[[nodiscard]] StandoffPlan standoff_plan(std::string_view board_form_factor,
                                         std::span<const std::string_view> case_form_factors);

/// (S5) Does anything of a board of this form factor lie above the position? A doubtful position
/// counts as under it.
[[nodiscard]] bool is_under(FormFactor board, const Hole& hole);

}  // namespace rigproof::fit
