// Use case `claims`: every claim of a given build, with the remedies that were found by trying.
#pragma once

#include <functional>
#include <string_view>
#include <vector>

#include "app/workshop.hpp"

namespace rigproof::app {

/// In: `brief` null where the build is judged alone. `stop` ends the trying of remedies; what was
/// found stays. `engine`: only claims whose ids begin so (`fit.`); empty: all. Errors: bad_input
/// when the brief's offers cannot be priced.
[[nodiscard]] Result<std::vector<Claim>> claims_of_build(const Catalog& catalog, const Brief* brief,
                                                         const BuildFile& build,
                                                         const std::function<bool()>& stop,
                                                         std::string_view engine = {});

}  // namespace rigproof::app
