// Parts that no best build needs: others look the same to every rule and never cost more.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "catalog/catalog.hpp"
#include "catalog/price_book.hpp"

namespace rigproof::plan {

/// Equal numbers: the same to every rule and to the score, but for the price (Verdicts::look).
using Look = std::function<std::uint32_t(Kind, Row)>;

struct Outdoing {
  const Catalog& catalog;
  const PriceBook& prices;
  Look look;
  int others = 1;       ///< how many must outdo a part before it is left out
  int most_pieces = 1;  ///< of one part in one build
  /// Stay in any case and outdo none: the same to every rule, they are not the same to the reader.
  std::vector<Row> spared = {};
};

/// Of `rows` (parts of `kind` that can be had, ascending) those that fewer than `others` outdo, in
/// the same order. A part outdoes another of its look if for every number of pieces and in every
/// market in which the other can be had it can be had for no more, and is cheaper in the first
/// market or, at equal price there, has the smaller id. (P8): with one of them in its place a build
/// scores no less, costs no more and stands before it. Kept and spared parts neither outdo nor are
/// outdone.
[[nodiscard]] std::vector<Row> not_outdone(const Outdoing& how, Kind kind,
                                           const std::vector<Row>& rows);

}  // namespace rigproof::plan
