// What the sheet's pictures of air and power show of a build.
#pragma once

#include <optional>

#include "app/workshop.hpp"
#include "sheet/physics.hpp"

namespace rigproof::app {

/// Under the load of the brief's limit on noise, else with everything at work. What is not known is
/// left out; nothing at all: no picture can be drawn.
[[nodiscard]] std::optional<sheet::Physics> physics_of_build(const Catalog& catalog,
                                                             const Brief& brief, const Build& build,
                                                             const Setup* setup);

}  // namespace rigproof::app
