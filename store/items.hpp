// Items: the physical units on the shelf, each with its history.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/date.hpp"
#include "store/id.hpp"
#include "store/instant.hpp"
#include "store/prices.hpp"
#include "store/spelled.hpp"

namespace rigproof::store {

/// How it came: what a disclosure on a sheet is written from.
enum class Came : std::uint8_t {
  bought,
  loaned,
  gifted,
  sponsored,
  owned,
};
template <>
inline constexpr std::array<std::string_view, 5> spelled<Came>{"bought", "loaned", "gifted",
                                                               "sponsored", "owned"};

enum class ItemCondition : std::uint8_t {
  brand_new,
  refurbished,
  used,
  faulty,
};
template <>
inline constexpr std::array<std::string_view, 4> spelled<ItemCondition>{"new", "refurbished",
                                                                        "used", "faulty"};

/// What is known of one unit. Empty texts and absent dates are not known.
struct ItemFields {
  PartName part;
  Came came = Came::bought;
  ItemCondition condition = ItemCondition::brand_new;
  std::string serial{};     ///< one line, or empty
  std::string from_whom{};  ///< one line, or empty: seller, lender, giver
  std::optional<Date> came_on{};
  std::optional<Date> due_back{};  ///< only of what is loaned; not before came_on
  std::optional<Date> warranty_until{};
  std::optional<Date> left_on{};  ///< sold, given back; not before came_on
  std::string done{};             ///< what was done to it: prose, up to `max_prose_bytes`
  friend bool operator==(const ItemFields&, const ItemFields&) = default;
};

struct Item {
  ItemId id;
  std::int64_t revision = 1;
  Instant saved_at;
  ItemFields fields;
  friend bool operator==(const Item&, const Item&) = default;
};

}  // namespace rigproof::store
