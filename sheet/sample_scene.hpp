// Invented builds in their cases, for tests and to be looked at.
#pragma once

#include "analysis/fit/scene.hpp"

namespace rigproof::sheet {

/// A midi tower: a radiator behind the front, a long card that ends just before it, a tower cooler
/// that nearly touches the side panel, a supply whose place in its chamber is not known.
[[nodiscard]] fit::Scene tower_scene();
/// A case of 11 litres in which nearly everything is tight and one thing does not fit.
[[nodiscard]] fit::Scene small_scene();
/// `count` boxes, gaps and dimensions in rows, for tests of what does not fit on paper.
[[nodiscard]] fit::Scene crowded_scene(int count);
/// Every text hostile (see hostile.hpp).
[[nodiscard]] fit::Scene hostile_scene();

}  // namespace rigproof::sheet
