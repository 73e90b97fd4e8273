// Offers of the catalog put into the price series, so that they stay when the table moves on.
#pragma once

#include "server/desk.hpp"

namespace rigproof::server {

/// Appends the offers of the library's edition, once for each edition. Errors: those of the store.
[[nodiscard]] Result<void> keep_prices(Desk& desk);

}  // namespace rigproof::server
