// Why a part has no price in a market: the first demand at which all its offers there fall out.
#pragma once

#include "catalog/brief.hpp"
#include "catalog/catalog.hpp"

namespace rigproof {

struct NoPrice {
  /// In the order in which offers are looked at; each speaks of those that are left by the ones
  /// before it.
  enum class Why {
    no_offer,         ///< nobody offers it there
    other_condition,  ///< none in a condition that may be bought
    not_yet_seen,     ///< all seen after the day of the brief
    too_old,          ///< all older than offers_not_older_than_days
    out_of_stock,     ///< all state that none is left
    lone_too_old,     ///< of one seller alone, and older than lone_offers_not_older_than_days
    too_few,          ///< none states stock for all pieces
    other_terms,  ///< another currency than the market's, or tax to be added at a rate not stated
    priced,       ///< there is a price
  };
  Why why = Why::no_offer;
  int offers = 0;           ///< how many were left
  int youngest_days = 0;    ///< age of the newest of them
  double most_stock = 0.0;  ///< too_few: pieces of the best stocked one
  friend bool operator==(const NoPrice&, const NoPrice&) = default;
};

/// The rules of PriceBook, one demand after the other; `market` is an index of the brief's markets
/// (contract). Kept parts are priced.
[[nodiscard]] NoPrice why_no_price(const Catalog& catalog, const Brief& brief, PartRef part,
                                   int market, int count = 1);

}  // namespace rigproof
