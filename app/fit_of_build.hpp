// Use case `fit`: where everything of a build sits, in detail, and its drawings.
#pragma once

#include <functional>

#include "app/workshop.hpp"
#include "sheet/fit_answer.hpp"

namespace rigproof::app {

/// Judged alone, without a brief. `stop` ends the trying of remedies; may be empty.
[[nodiscard]] sheet::Fit fit_of_build(const Workshop& workshop, const BuildFile& build,
                                      const std::function<bool()>& stop);

}  // namespace rigproof::app
