// What every part costs in every market of a brief: its cheapest admissible offer.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "base/result.hpp"
#include "catalog/brief.hpp"
#include "catalog/catalog.hpp"

namespace rigproof {

struct Price {
  std::int64_t minor = 0;  ///< what a private buyer pays for one, tax included, without shipping
  Row offer = no_row;      ///< row of offers.csv; no_row for a kept part
};

/// What is done with an admissible offer that cannot be priced under the brief.
enum class Faulty {
  refuse,  ///< an error: the brief or the table is to be mended
  skip,    ///< as if it were not there: for what-if questions beside a brief that is in order
};

/// Admissible: right market, condition accepted, seen on or before as_of and not older than the
/// brief allows, stock unknown or >= 1 (who needs several says so: `count`). Tax is added per line,
/// half up, when the offer excludes it. Where the brief asks it, a part that one seller alone
/// offers in a market must have been seen there within its days for lone offers. The cheapest wins;
/// ties go to the later date, then to the earlier row. Kept parts cost 0 and need no offer.
class PriceBook {
 public:
  /// Errors: bad_input when a market's admissible offers exclude tax and the brief states no
  /// sales_tax (file, line of the market), or an admissible offer's currency differs from the
  /// market's. Offers that do not count (stale, wrong condition, other markets) may be in any
  /// currency.
  [[nodiscard]] static Result<PriceBook> make(const Catalog& catalog, const Brief& brief,
                                              Faulty faulty = Faulty::refuse);
  [[nodiscard]] int markets() const { return static_cast<int>(books_.size()); }
  /// Price of `count` pieces of one part from one offer with stock for all; nullopt: cannot be
  /// bought.
  [[nodiscard]] std::optional<Price> price(PartRef part, int market, int count = 1) const;
  [[nodiscard]] bool kept(PartRef part) const;
  /// Is there a price in that market which one seller alone gives? (Why there is none at all:
  /// why_no_price.hpp.)
  [[nodiscard]] bool of_one_seller(PartRef part, int market) const;

 private:
  struct Line {
    std::int64_t minor;
    Row offer;
    double stock;  // +inf when unknown
    Row seller;
  };
  [[nodiscard]] std::size_t flat(PartRef part) const;
  std::vector<std::vector<std::vector<Line>>>
      books_;  // market -> flat part index -> admissible lines, cheapest first
  std::array<Row, kind_count + 1> first_{};  // flat index of a kind's row 0
  std::vector<PartRef> kept_;
};

}  // namespace rigproof
