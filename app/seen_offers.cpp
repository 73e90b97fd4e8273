#include "app/seen_offers.hpp"

#include <cmath>

#include "app/workshop.hpp"

namespace rigproof::app {
namespace {

// Not known where the cell is empty.
std::optional<int> whole(const Catalog& catalog, ColumnId column, Row row) {
  const double number = catalog.number(column, row);
  if (std::isnan(number)) return {};
  return static_cast<int>(number);
}

}  // namespace

store::PriceBatch seen_offers(const Catalog& catalog, const std::string& origin,
                              store::Instant now) {
  store::PriceBatch out{.origin = origin, .appended_at = now, .offers = {}};
  constexpr int offers = table("offers");
  out.offers.reserve(catalog.rows(offers));
  for (Row row = 0; row < catalog.rows(offers); ++row) {
    const PartRef part = catalog.part(column("offers", "part"), row);
    const auto seen = catalog.date(column("offers", "seen"), row);
    const auto minor = catalog.minor(column("offers", "price"), row);
    const auto currency = parse_currency(catalog.word(column("offers", "currency"), row));
    const auto condition =
        store::find_word<store::Condition>(catalog.word(column("offers", "condition"), row));
    if (part.row == no_row || !seen || !minor || !currency || !condition) continue;
    out.offers.push_back(
        {.part = {.kind = part.kind, .id = std::string(catalog.id(part))},
         .seller = catalog.text(column("offers", "seller"), row),
         .market = std::string(catalog.word(column("offers", "market"), row)),
         .seen = *seen,
         .condition = *condition,
         .price = {*currency, *minor},
         .tax_included = catalog.flag(column("offers", "tax_included"), row).value_or(false),
         .stock = whole(catalog, column("offers", "stock"), row),
         .delivery_days = whole(catalog, column("offers", "delivery_days"), row),
         .warranty_months = whole(catalog, column("offers", "warranty_months"), row),
         .link_kind =
             store::find_word<store::LinkKind>(catalog.word(column("offers", "link_kind"), row))});
  }
  return out;
}

Result<store::Appended> keep_offers(store::Store& store, const std::filesystem::path& folder,
                                    store::Instant now) {
  const auto workshop = open_workshop(folder);
  if (!workshop) return tl::unexpected(workshop.error());
  return store.append_prices(seen_offers(workshop->catalog, "offers.csv", now));
}

}  // namespace rigproof::app
