// What the commands print for people: plain lines, 80 to 100 columns, nearest to failing first.
#pragma once

#include <string>
#include <vector>

#include "sheet/model.hpp"

namespace rigproof::sheet {

struct TextStyle {
  bool color = false;  ///< one accent for what is tight, one for what was measured; never alone
  int width = 100;     ///< columns; 60 to 120 are used
};

/// The best build whole, the others by what differs from it; or the conflicts, as sentences with
/// the brief's lines.
[[nodiscard]] std::string plan_text(const Plan& plan, const TextStyle& style);

/// Every claim of a build. In: `build` names it.
[[nodiscard]] std::string claims_text(const std::string& build, const std::vector<Claim>& claims,
                                      const TextStyle& style);

/// A margin bar of `columns` characters on the shared scale. `|` is the limit, `=` the room from it
/// to the middle `#`, `/` the 90 % interval, `o` what was measured, `<` and `>` what lies outside
/// the scale; an unknown is `- - ? - -`. In: columns in [12, 80].
[[nodiscard]] std::string margin_bar_text(const Claim& claim, int columns);

}  // namespace rigproof::sheet
