// What lies between two builds: parts with their prices, rates title by title, claim by claim.
#pragma once

#include <vector>

#include "app/planning.hpp"
#include "sheet/answers.hpp"

namespace rigproof::app {

/// The parts of a kind, joined: `2 x A + B`; `no gpu` when there are none.
[[nodiscard]] std::string names_in(const Catalog& catalog, const Build& build, Kind kind);

/// A part with its price in the first market, or why it has none in some market.
[[nodiscard]] sheet::MovedPart moved_part(const Catalog& catalog, const Brief& brief,
                                          const PriceBook& prices, PartRef part, int count);

/// The slots that are filled differently, in the order of the sheet's kinds.
[[nodiscard]] std::vector<sheet::SlotChange> slot_changes(const Planning& planning,
                                                          const Build& from, const Build& to);

/// Titles whose rate is known in only one of them, or differs by 0.5 % or more. In: lines of the
/// same brief.
[[nodiscard]] std::vector<sheet::TitleChange> title_changes(
    const std::vector<sheet::TitleLine>& from, const std::vector<sheet::TitleLine>& to);

/// Claims of grade must, matched by id, place and load, whose verdict, margin or odds differ; those
/// of `to` first in its order, then those only `from` has.
[[nodiscard]] std::vector<sheet::ClaimChange> claim_changes(const std::vector<Claim>& from,
                                                            const std::vector<Claim>& to);

/// All of it. `from_view` may be of a build without a price: then its score says nothing.
struct Viewed {
  const Build& build;
  const sheet::PlannedBuild& view;
  bool scored = true;
};
[[nodiscard]] sheet::Differences differences(const Planning& planning, const Viewed& from,
                                             const Viewed& to);

}  // namespace rigproof::app
