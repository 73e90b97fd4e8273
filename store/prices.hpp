// Price series: offers as they were seen, appended in batches, never changed.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/money.hpp"
#include "catalog/schema.hpp"
#include "store/instant.hpp"
#include "store/spelled.hpp"

namespace rigproof::store {

/// A part as the catalog names it. It need not be in today's catalog.
struct PartName {
  Kind kind = Kind::cpu;
  std::string id;  ///< slug
  friend auto operator<=>(const PartName&, const PartName&) = default;
};

enum class Condition : std::uint8_t {
  brand_new,
  refurbished,
  used,
};
template <>
inline constexpr std::array<std::string_view, 3> spelled<Condition>{"new", "refurbished", "used"};

enum class LinkKind : std::uint8_t {
  plain,
  commission,  ///< the publisher earns from the link
};
template <>
inline constexpr std::array<std::string_view, 2> spelled<LinkKind>{"plain", "commission"};

/// One row of the catalog's `offers` table: meaning and ranges are that schema's
/// (catalog/schema/market.hpp).
struct SeenOffer {
  PartName part;
  std::string seller;  ///< slug
  std::string market;  ///< ISO 3166-1 alpha-2
  Date seen;
  Condition condition = Condition::brand_new;
  Money price;  ///< minor units, 0 to max_minor
  bool tax_included = false;
  std::optional<int> stock{};            ///< how many can be had; none: not known
  std::optional<int> delivery_days{};    ///< none: not known
  std::optional<int> warranty_months{};  ///< none: not known; 0: stated that there is none
  std::optional<LinkKind> link_kind{};   ///< none: not known
  friend bool operator==(const SeenOffer&, const SeenOffer&) = default;
};

/// What was read in one go: all of it goes in, or nothing.
struct PriceBatch {
  std::string origin;  ///< where it came from, one line: a file, a feed, a page
  Instant appended_at;
  std::vector<SeenOffer> offers;  ///< up to `max_batch_offers`
};

struct Appended {
  std::size_t added = 0;
  std::size_t known = 0;  ///< rows that were there already, in all they say of the offer
};

/// An offer with the batch that brought it first.
struct PricePoint {
  SeenOffer offer;
  std::string origin;
  Instant appended_at;
  friend bool operator==(const PricePoint&, const PricePoint&) = default;
};

}  // namespace rigproof::store
