// Small catalogs of processors and cards that are nearly alike, in speed and in price, where all
// goes with all: so that many a build is the best one in some draws. Everything is invented by the
// seed.
#pragma once

#include <cstdint>
#include <memory>

#include "tests/plan/random_workshop.hpp"

namespace rigproof::test_plan {

[[nodiscard]] std::unique_ptr<RandomWorkshop> alike_workshop(std::uint64_t seed);

}  // namespace rigproof::test_plan
