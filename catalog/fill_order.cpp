#include "catalog/fill_order.hpp"

namespace rigproof {

FillOrder fill_order(const Catalog& catalog, Row board) {
  FillOrder order;
  for (const char c : catalog.word(column("board", "memory_fill_order"), board)) {
    if (c == '|') continue;  // the schema lets only single digits stand between the bars
    if (order.count == FillOrder::most_slots) break;  // each once: the load sees to it
    order.slots[static_cast<std::size_t>(order.count++)] = c - '0';
  }
  return order;
}

}  // namespace rigproof
