// Rules of the engine match: do the interfaces of a build meet, and can it be bought?
//
// Each rule is one constant record of claims/rule.hpp; README.md says what each compares, numbered.
// Rules read the catalog, the brief and the price book, never each other.
#pragma once

#include <span>
#include <string>

#include "catalog/why_no_price.hpp"
#include "claims/rule.hpp"

namespace rigproof {

/// Everything about interfaces, and the musts of the brief, in the order in which they are shown.
[[nodiscard]] std::span<const Rule* const> match_rules();

/// Offers, budgets and the age of prices, a claim for every market of the brief. Not judged (no
/// places) when Facts::prices is null.
[[nodiscard]] std::span<const Rule* const> market_rules();

/// Can `count` pieces of a part be had in a market: kept, or one admissible offer with enough
/// stock? For planners, which filter their options by price before any rule is asked.
[[nodiscard]] bool market_offer_known(const PriceBook& prices, PartRef part, int market, int count);

/// Why a part has no price in a market, in words: `no offer in IE is known`.
[[nodiscard]] std::string no_price_words(const Brief& brief, const MarketGoal& market,
                                         const NoPrice& reason);

}  // namespace rigproof
