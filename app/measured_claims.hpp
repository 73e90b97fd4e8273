// Puts what was measured beside the claims whose own number it is: a card's length where the claim
// is about that length, not where the length is one of the terms.
#pragma once

#include <vector>

#include "catalog/brief.hpp"
#include "catalog/build.hpp"
#include "catalog/catalog.hpp"
#include "catalog/measured.hpp"
#include "claims/claim.hpp"

namespace rigproof::app {

/// Sets `measured` of such claims. In: `claims` were made with `cells` in place of those of
/// `before`, under `brief` (null: alone). It settles against the claim as the catalog alone makes
/// it: refuted where the middles lie on different sides of the limit, else off where the two 90 %
/// intervals do not meet, else confirmed; empty where the catalog states no such number.
void settle_measured(std::vector<Claim>& claims, const Catalog& before, const Brief* brief,
                     const BuildFile& build, const std::vector<MeasuredCell>& cells);

}  // namespace rigproof::app
