// Which gaps a drawing shows: with all of them it would speak mostly of wide open room.
#include "sheet/drawing.hpp"

namespace rigproof::sheet {

fit::Scene with_near_gaps(fit::Scene scene) {
  constexpr std::size_t always_shown = 3;
  constexpr double near_frac = 0.25;
  std::size_t place = 0;
  std::erase_if(scene.gaps, [&](const fit::Gap& gap) {
    const bool nearest = place++ < always_shown;
    return !nearest && gap.verdict == Verdict::holds && gap.margin_mm > near_frac * gap.limit_mm;
  });
  return scene;
}

}  // namespace rigproof::sheet
