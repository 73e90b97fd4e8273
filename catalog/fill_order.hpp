// Which memory slots of a board its modules fill: the board's own order, read from its cell.
#pragma once

#include <array>
#include <span>

#include "catalog/catalog.hpp"

namespace rigproof {

/// Slots in the order in which they are filled, numbered from the processor outwards.
struct FillOrder {
  static constexpr int most_slots = 8;  ///< as many as the schema's column can name
  std::array<int, most_slots> slots{};
  int count = 0;  ///< 0: the board does not say

  /// Where the first n modules go; all that are listed when n is more.
  [[nodiscard]] std::span<const int> first(int n) const {
    return {slots.data(), static_cast<std::size_t>(n < 0 ? 0 : n < count ? n : count)};
  }
};

/// board.memory_fill_order as the catalog has it: slots 1 to 8, each at most once.
[[nodiscard]] FillOrder fill_order(const Catalog& catalog, Row board);

}  // namespace rigproof
