// A build put into the words of the sheet: parts by place of mounting, prices by market.
#pragma once

#include <vector>

#include "app/planning.hpp"
#include "sheet/model.hpp"

namespace rigproof::app {

/// In the order of mounting: the board and what sits on it, slots and cages, case faces, supply
/// chamber, then what stands beside. `brief` says which parts are kept or forced, and why.
[[nodiscard]] std::vector<sheet::PartLine> part_lines(const Catalog& catalog, const Brief& brief,
                                                      const Build& build,
                                                      const Setup* setup = nullptr);

/// One entry a market of the brief; parts without an admissible offer are named in the note.
[[nodiscard]] std::vector<sheet::MarketPrices> market_prices(const Catalog& catalog,
                                                             const Brief& brief,
                                                             const PriceBook& prices,
                                                             const Build& build);

/// Money with the first market's currency.
[[nodiscard]] Money in_first_currency(const Brief& brief, std::int64_t minor);

}  // namespace rigproof::app
