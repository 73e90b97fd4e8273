// Use case `fit`: where everything of a build sits, in detail, and its drawings.
#pragma once

#include <filesystem>
#include <vector>

#include "app/workshop.hpp"
#include "sheet/fit_answer.hpp"

namespace rigproof::app {

/// Judged alone, without a brief.
[[nodiscard]] sheet::Fit fit_of_build(const Workshop& workshop, const BuildFile& build);

}  // namespace rigproof::app
