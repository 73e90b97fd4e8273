#include "app/claims_of_build.hpp"

#include <optional>

#include "app/remedies.hpp"

namespace rigproof::app {

Result<std::vector<Claim>> claims_of_build(const Catalog& catalog, const Brief* brief,
                                           const BuildFile& build,
                                           const std::function<bool()>& stop,
                                           std::string_view engine) {
  const Brief nothing_asked;
  const Brief& asked = brief != nullptr ? *brief : nothing_asked;
  std::optional<PriceBook> prices;
  if (brief != nullptr) {
    auto book = PriceBook::make(catalog, asked);
    if (!book) return tl::unexpected(book.error());
    prices = std::move(*book);
  }
  const PriceBook* const book = prices ? &*prices : nullptr;
  auto claims = claims_of(catalog, asked, book, build.build, &build.setup);
  std::erase_if(claims, [&](const Claim& claim) { return !claim.id.starts_with(engine); });
  add_swaps({.catalog = catalog,
             .brief = asked,
             .prices = book,
             .build = build.build,
             .setup = &build.setup},
            claims, stop);
  return claims;
}

}  // namespace rigproof::app
