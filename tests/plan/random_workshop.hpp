// Small random catalogs and briefs for the differential test of whole plans: ties, holes, tight
// budgets, forced and kept parts, one or two markets. Everything is invented by the seed.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "catalog/brief.hpp"
#include "catalog/catalog.hpp"

namespace rigproof::test_plan {

/// An offer as the generator made it: the oracle prices parts from these, not from the catalog.
struct MadeOffer {
  std::string part, market, currency;
  std::int64_t minor = 0;
  bool tax_included = true;
  int age_days = 0;
  int stock = -1;  ///< -1: not stated
  std::string condition = "new";
};

struct RandomWorkshop {
  Catalog catalog;
  Brief brief;
  std::vector<MadeOffer> offers;
};

[[nodiscard]] std::unique_ptr<RandomWorkshop> random_workshop(std::uint64_t seed);

}  // namespace rigproof::test_plan
