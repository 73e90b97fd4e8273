// Lines that the answers to questions about a plan share: parts out and in, rates, whole builds.
#pragma once

#include <string>
#include <vector>

#include "sheet/answers.hpp"
#include "sheet/text_layout.hpp"

namespace rigproof::sheet {

/// The brief by name, day and file, as every answer begins.
void put_asked(TextPage& page, const Asked& asked);
/// `Orrin 6`, its id in brackets, `289.00 EUR`; a part without a price says why.
[[nodiscard]] std::string moved_words(const MovedPart& part);
/// One line a slot: what goes out, what comes in.
void put_slots(TextPage& page, int indent, const std::vector<SlotChange>& slots);
/// `Slow Tide 41 to 45 fps; Gravel Nine 52 to 55 fps`; empty when no rate changes.
[[nodiscard]] std::string title_changes_words(const std::vector<TitleChange>& titles);
/// Score and prices of a build, and how they differ where that is known; frame rates; claims whose
/// verdict turns or that move near their limit, the rest counted. Parts are left to put_slots.
void put_sums_beside(TextPage& page, const PlannedBuild& build, const Differences* differences);
void put_title_changes(TextPage& page, const std::vector<TitleChange>& titles);
void put_claim_changes(TextPage& page, const std::vector<ClaimChange>& changes);
/// Parts of a build, a line each, by where they are mounted.
void put_part_lines(TextPage& page, int indent, const std::vector<PartLine>& parts);

}  // namespace rigproof::sheet
