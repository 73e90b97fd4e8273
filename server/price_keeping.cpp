#include "server/price_keeping.hpp"

#include <algorithm>
#include <iterator>

#include "app/seen_offers.hpp"

namespace rigproof::server {
namespace {

constexpr std::size_t offers_at_a_time = 1000;  // others may use the store in between

}  // namespace

Result<void> keep_prices(Desk& desk) {
  const auto edition = desk.library.edition();
  const std::scoped_lock lock(desk.pricing);
  if (desk.prices_of == edition->revision) return {};
  store::PriceBatch all = app::seen_offers(edition->workshop.catalog, "offers.csv", desk.now());
  store::PriceBatch some{.origin = all.origin, .appended_at = all.appended_at, .offers = {}};
  for (std::size_t from = 0; from < all.offers.size(); from += offers_at_a_time) {
    const auto begin = all.offers.begin() + static_cast<std::ptrdiff_t>(from);
    const auto count = std::min(offers_at_a_time, all.offers.size() - from);
    some.offers.assign(std::make_move_iterator(begin),
                       std::make_move_iterator(begin + static_cast<std::ptrdiff_t>(count)));
    const auto added =
        desk.memory.with([&](store::Store& store) { return store.append_prices(some); });
    if (!added) return tl::unexpected(added.error());
  }
  desk.prices_of = edition->revision;
  return {};
}

}  // namespace rigproof::server
