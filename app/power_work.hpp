// The working of `rigproof power --show-work`: the engine's equations with this build's numbers in,
// so that each can be followed by hand.
#pragma once

#include <string>
#include <vector>

#include "claims/facts.hpp"

namespace rigproof::app {

/// Lines in the order of the equations, at stated values (the middle of a class range where a cell
/// is absent).
[[nodiscard]] std::vector<std::string> power_work(const Facts& facts);

}  // namespace rigproof::app
