// The offers of a catalog as the price series of the workshop's memory takes them.
#pragma once

#include <string>

#include "catalog/catalog.hpp"
#include "store/prices.hpp"

namespace rigproof::app {

/// Every row of offers.csv. In: `origin` says where they come from, one line.
[[nodiscard]] store::PriceBatch seen_offers(const Catalog& catalog, const std::string& origin,
                                            store::Instant now);

}  // namespace rigproof::app
