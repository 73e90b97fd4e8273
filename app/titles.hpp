// What a build does in each title of a brief, from the forecast engine.
#pragma once

#include <vector>

#include "catalog/brief.hpp"
#include "catalog/build.hpp"
#include "claims/facts.hpp"
#include "sheet/model.hpp"

namespace rigproof::app {

/// One line a title, in the brief's order. A rate that cannot be given says why.
[[nodiscard]] std::vector<sheet::TitleLine> title_lines(const Catalog& catalog, const Brief& brief,
                                                        const Build& build, CellDraws& draws);

}  // namespace rigproof::app
