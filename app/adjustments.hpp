// Other ways to put the same parts together or to set their fans: what may heal a claim without
// buying anything. Tried by app/remedies.
#pragma once

#include <string>
#include <vector>

#include "app/remedies.hpp"

namespace rigproof::app {

/// What could be changed, and the whole setup with it changed.
struct AdjustedSetup {
  Adjustment what;
  Setup setup;
};

/// Every other mount of the radiator, of the fans, and of both; then fans at the quietest common
/// speed and at the quietest pair of speeds, for each load that the brief limits. A mount is
/// offered as the case's table names it, fit or not: whoever tries it judges it.
[[nodiscard]] std::vector<AdjustedSetup> adjustments(const JudgedBuild& judged);

/// "mount the radiator at the top", "set the case's fans to 60 % and the cooler's to 40 %".
[[nodiscard]] std::string words_of(const Adjustment& adjustment);

/// The setup with the change made.
[[nodiscard]] Setup with_adjustment(const Setup& setup, const Adjustment& adjustment);

}  // namespace rigproof::app
