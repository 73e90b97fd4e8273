// What may stand in each slot of a build under a brief: parts that can be bought in every market,
// kept and forced parts, pairs of drives, sets of fans.
#pragma once

#include <cstdint>
#include <span>
#include <string>
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

/// What is asked of the parts of a plan besides what the brief says.
struct PartsAsked {
  std::span<const PartRef> without = {};   ///< may not be used
  std::span<const PartRef> insisted = {};  ///< must be used, and are paid for
  const Build* stay_near = nullptr;        ///< the build whose swaps are counted (swaps())
};

/// The slots in the order the search decides them: cpu, gpu, memory, board (the head), then case,
/// fan, cooler, other, psu, storage, and a display where one is kept or forced.
/// No or one card; one or two drives; no fans or one to three of one model; of `other` at most two
/// beside a kept or forced one, each for another purpose, and only what a rule or the brief can ask
/// for: mounting sets, hubs, cable sets; a radio where the brief asks for one; an adapter where it
/// accepts one.
/// A part that is insisted on stands in every option of its kind, as a forced one does; of `other`
/// several may, at most four parts together. Two of a kind that takes one: no option.
/// Of a build to stay near, the filling of every slot is an option, if its parts can be had, also
/// one that is never planned otherwise (three drives, two models of fan, a tin of paste); such a
/// filling is one also with one of its parts left out or exchanged for another in the same number,
/// of `other` for one of the same purpose.
/// With `look`, parts that others outdo are left out (outdone.hpp), but for `keep` of each
/// look of processors and cards, so that the best K (cpu, chip) stay what they are; parts of a
/// build to stay near never are.
[[nodiscard]] std::vector<KindSlot> slot_options(const Catalog& catalog, const Brief& brief,
                                                 const PriceBook& prices,
                                                 const PartsAsked& asked = {},
                                                 const Look& look = {}, int keep = 1);

/// How many parts are changed where `from` is filled with `to`: the parts of which fewer stand in
/// it, or, if there are more of these, the parts of which more do. A part is a row of the catalog:
/// two drives for two others are two swaps, three fans for three of another model are one, a drive
/// more or less is one.
[[nodiscard]] int swaps(std::span<const Chosen> from, std::span<const Chosen> to);

/// The ids of an option in a form that orders ties: part ids with counts, in slot order.
[[nodiscard]] std::string tie_key(const Catalog& catalog, Kind kind, const SlotOption& option);

}  // namespace rigproof::plan
