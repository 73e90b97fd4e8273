// Pieces that the answers printed for people share: parts, prices, conflicts, notes.
#pragma once

#include <string>
#include <vector>

#include "sheet/model.hpp"
#include "sheet/text_layout.hpp"

namespace rigproof::sheet {

/// Where the entries under a heading begin, in columns.
inline constexpr int entry_at = 2;

/// `2 x Orrin Drive`, its id in brackets, `kept`.
[[nodiscard]] std::string part_words(const PartLine& part);
/// `1,349.00 EUR in IE; 1,180.00 GBP in GB`.
[[nodiscard]] std::string prices_line(const PlannedBuild& build);
/// Each conflict by its requirements, with line, easing, and the rules they meet in.
void put_conflicts(TextPage& page, const std::vector<Conflict>& conflicts);
/// Under a heading of their own; nothing when there are none.
void put_notes(TextPage& page, const std::vector<std::string>& notes);

}  // namespace rigproof::sheet
