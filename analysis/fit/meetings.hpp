// Boxes of a scene against one another: how far apart two are, and which pairs meet as they are
// drawn although no claim judges them.
#pragma once

#include "analysis/fit/scene.hpp"

namespace rigproof::fit {

/// Shortest distance between two boxes, mm; 0 where they touch or overlap. Takes the places as they
/// are drawn.
[[nodiscard]] double apart_mm(const Box& a, const Box& b);

/// How deep they lie in one another: the shortest way along an axis that takes them apart, mm; 0
/// where they only touch or are apart.
[[nodiscard]] double overlap_mm(const Box& a, const Box& b);

/// Adds a note for each pair that overlaps as drawn and that no rule compares: what hangs on two
/// mounts that share a corner, a supply and what lies beside it.
void add_meetings(Scene& scene);

}  // namespace rigproof::fit
