// Price series over HTTP: what was seen of a part, from the offers of today's catalog and from all
// that were kept.
#include <fmt/format.h>

#include "server/price_keeping.hpp"
#include "server/route.hpp"
#include "server/schemas.hpp"

namespace rigproof::server {
namespace {

Json point_json(const store::PricePoint& point) {
  const store::SeenOffer& offer = point.offer;
  Json out = {{"seen", to_string(offer.seen)},
              {"seller", offer.seller},
              {"market", offer.market},
              {"condition", store::word(offer.condition)},
              {"price", {{"currency", offer.price.currency.view()}, {"minor", offer.price.minor}}},
              {"tax_included", offer.tax_included},
              {"origin", point.origin}};
  if (offer.stock) out["stock"] = *offer.stock;
  return out;
}

Response series(Desk& desk, const Request& /*request*/, const PathParts& path) {
  const auto kind = find_kind(path.at("kind"));
  if (!kind)
    return error_response(
        {.code = ErrorCode::not_found, .message = "expected a kind of part, then an id"});
  if (const auto kept = keep_prices(desk); !kept) return error_response(kept.error());
  const auto found = desk.memory.with([&](store::Store& store) {
    return store.price_series({.kind = *kind, .id = path.at("id")});
  });
  if (!found) return error_response(found.error());
  Json points = Json::array();
  for (const store::PricePoint& point : *found) points.push_back(point_json(point));
  return json_response({{"points", points}});
}

}  // namespace

std::vector<Route> price_routes() {
  return {{.method = "GET",
           .pattern = "/api/prices/{kind}/{id}",
           .about = "Every offer of a part that was ever seen here, the oldest first.",
           .answer = object_schema({{"points", list_schema({{"type", "object"}})}}),
           .handle = series}};
}

}  // namespace rigproof::server
