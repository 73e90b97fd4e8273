#include "server/price_keeping.hpp"

#include "app/seen_offers.hpp"

namespace rigproof::server {

Result<void> keep_prices(Desk& desk) {
  const auto edition = desk.library.edition();
  const std::scoped_lock lock(desk.pricing);
  if (desk.prices_of == edition->revision) return {};
  const auto added = desk.memory.with([&](store::Store& store) {
    return store.append_prices(
        app::seen_offers(edition->workshop.catalog, "offers.csv", desk.now()));
  });
  if (!added) return tl::unexpected(added.error());
  desk.prices_of = edition->revision;
  return {};
}

}  // namespace rigproof::server
