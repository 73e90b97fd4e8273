// From parts and where they are mounted to the scene: where each box stands, as far as tables and
// standards say. What they do not say is drawn at a usual place and marked as not placed.
#pragma once

#include <span>
#include <string_view>

#include "analysis/fit/scene.hpp"
#include "claims/facts.hpp"

namespace rigproof::fit {

/// `claims` are those of this build; the gaps are made of the fit engine's among them, so that a
/// drawing can never show another number than the claim. A build without a case has no scene: it
/// is empty but for its notes.
[[nodiscard]] Scene scene_of(const Facts& facts, std::span<const Claim> claims,
                             std::string_view title);

}  // namespace rigproof::fit
