// The quietest speeds of the case's fans and of the cooler's, each its own: equation (B21) of
// README.md. What the two may save beside the common speed that claims are judged at.
#pragma once

#include <optional>

#include "coupled/air/air_answer.hpp"

namespace rigproof::coupled {

/// Keeps all that the common speed of `answer` has to keep, in every draw. None where no setting
/// was sought, no speed keeps the limits, no level of a fan is stated, or nothing is quieter.
[[nodiscard]] std::optional<FanSpeeds> quietest_apart(const Facts& facts, const AirCase& of,
                                                      power::Load load, const AirAnswer& answer);

}  // namespace rigproof::coupled
