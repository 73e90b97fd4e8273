// What may stand in each slot of a build under a brief: parts that can be bought in every market,
// kept and forced parts, pairs of drives, sets of fans.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/brief.hpp"
#include "catalog/build.hpp"
#include "catalog/catalog.hpp"
#include "catalog/price_book.hpp"
#include "decision/plan/outdone.hpp"

namespace rigproof::plan {

/// One way to fill a slot: at most three different parts of its kind; none for an optional slot.
struct SlotOption {
  std::vector<Chosen> parts;
  std::vector<std::int64_t> prices;  ///< per market of the brief, minor units, tax included
};

struct KindSlot {
  Kind kind;
  std::vector<SlotOption> options;  ///< in file order of the parts: single parts, then pairs
  std::size_t outdone = 0;          ///< parts left out because parts like them cost less
  std::size_t without_offer = 0;    ///< parts left out because some market has no admissible offer
};

/// A part that may not be used (for runner-ups), besides what the brief says.
using Banned = std::optional<PartRef>;

/// The slots in the order the search decides them: cpu, gpu, memory, board (the head), then case,
/// cooler, storage, other, fan, psu, and a display where one is kept or forced.
/// No or one card; one or two drives; no fans or one to three of one model; of `other` at most two
/// beside a kept or forced one, each for another purpose, and only what a rule or the brief can ask
/// for: mounting sets, hubs, cable sets; a radio where the brief asks for one; an adapter where it
/// accepts one.
/// With `look`, parts that others outdo are left out (outdone.hpp), but for `keep` of each
/// look of processors and cards, so that the best K (cpu, chip) stay what they are.
[[nodiscard]] std::vector<KindSlot> slot_options(const Catalog& catalog, const Brief& brief,
                                                 const PriceBook& prices, const Banned& banned = {},
                                                 const Look& look = {}, int keep = 1);

/// The ids of an option in a form that orders ties: part ids with counts, in slot order.
[[nodiscard]] std::string tie_key(const Catalog& catalog, Kind kind, const SlotOption& option);

}  // namespace rigproof::plan
