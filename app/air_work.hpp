// The working of `rigproof air`: what the middle draw does under one load, as sums that can be
// added again, by the equations of coupled/air/README.md.
#pragma once

#include <string>
#include <vector>

#include "coupled/air/air_answer.hpp"
#include "sheet/air_answer.hpp"

namespace rigproof::app {

/// `line`: the load as it is printed, with its sources and speed.
[[nodiscard]] std::vector<std::string> air_work(const Facts& facts, const coupled::AirCase& of,
                                                power::Load load, const coupled::AirAnswer& answer,
                                                const sheet::AirLoad& line);

}  // namespace rigproof::app
