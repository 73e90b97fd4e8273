// How long a build takes to be warm under a load and at rest after it, for `rigproof air`.
#pragma once

#include <vector>

#include "analysis/power/load_cases.hpp"
#include "coupled/air/air_warming.hpp"
#include "sheet/air_answer.hpp"

namespace rigproof::app {

/// Empty where it is not known.
[[nodiscard]] std::vector<sheet::AirWarm> warm_lines(const Facts& facts,
                                                     const coupled::Running& running,
                                                     power::Load load);

}  // namespace rigproof::app
