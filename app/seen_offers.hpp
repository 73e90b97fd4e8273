// The offers of a catalog as the price series of the workshop's memory takes them.
#pragma once

#include <filesystem>
#include <string>

#include "catalog/catalog.hpp"
#include "store/store.hpp"

namespace rigproof::app {

/// Every row of offers.csv. In: `origin` says where they come from, one line.
[[nodiscard]] store::PriceBatch seen_offers(const Catalog& catalog, const std::string& origin,
                                            store::Instant now);

/// Appends them to a store, as they stand in a catalog folder now. Errors: those of reading the
/// folder and of the store.
[[nodiscard]] Result<store::Appended> keep_offers(store::Store& store,
                                                  const std::filesystem::path& folder,
                                                  store::Instant now);

}  // namespace rigproof::app
