// A random brief for a random catalog: tight budgets, floors, musts, kept and forced parts.
#pragma once

#include <string>
#include <vector>

#include "catalog/brief.hpp"
#include "tests/plan/random_numbers.hpp"

namespace rigproof::test_plan {

/// What the brief has to know of the catalog it is made for.
struct RandomShop {
  Date as_of;
  bool dear = false;  ///< parts cost much more
  bool two_markets = false;
  int titles = 0;                       ///< title-a, title-b...
  std::vector<std::string> small_ones;  ///< others that are in a build only when forced
};

[[nodiscard]] Brief random_brief(RandomNumbers& random, const RandomShop& shop);

}  // namespace rigproof::test_plan
