// Gaps and dimensions of a scene. Internal to the layout.
#pragma once

#include <span>

#include "analysis/fit/layout_frame.hpp"

namespace rigproof::fit {

/// One gap for every claim of this engine that speaks of a length between two edges in the scene,
/// nearest to failing first (smallest margin in per cent of its limit; then in the claims' order).
void add_gaps(const CaseFrame& frame, std::span<const Claim> claims, Scene& scene);

/// The case's outside, and the lengths of what the gaps speak of.
void add_dimensions(Scene& scene);

}  // namespace rigproof::fit
