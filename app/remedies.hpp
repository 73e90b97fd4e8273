// Remedies found by trying: for every must claim that may not enter a plan, another way to put the
// same parts together or to set their fans, else the smallest single change of the build, that
// makes it hold and makes no other must claim worse.
#pragma once

#include <functional>
#include <vector>

#include "catalog/brief.hpp"
#include "catalog/build.hpp"
#include "catalog/catalog.hpp"
#include "catalog/price_book.hpp"
#include "claims/claim.hpp"
#include "claims/facts.hpp"

namespace rigproof::app {

/// A build under a brief (an empty one when it is judged alone), as its claims were made.
struct JudgedBuild {
  const Catalog& catalog;
  const Brief& brief;
  const PriceBook* prices;  ///< null: without prices; the change of price is then not counted
  const Build& build;
  const Setup* setup;
};

/// Sets `adjustment` or `swap` and puts it in words before `remedy` of each such claim; where
/// nothing heals it, all stay as they are. Adjustments are tried first; of what stands in plans for
/// itself (Grade::tells) the air's are tried too. Then, in order of its size (R1): every other part
/// of the kinds that the rule looks at, one more fan or small part, one part less where there are
/// several. Kept and forced parts are never touched. `stop` ends the search; what was found stays.
void add_swaps(const JudgedBuild& judged, std::vector<Claim>& claims,
               const std::function<bool()>& stop = {});

/// The build with the change made; the build itself where an id is not in it.
[[nodiscard]] Build with_swap(const Catalog& catalog, const Build& build, const Swap& swap);

}  // namespace rigproof::app
