// A scene seen from one side: its boxes flat on paper, with the visible and the hidden part of
// every edge.
#pragma once

#include "analysis/fit/scene.hpp"
#include "sheet/drawing.hpp"
#include "sheet/drawing_plane.hpp"

namespace rigproof::sheet {

/// Which axes lie on the paper and how. Each is a true view, none a mirror image: since the scene's
/// y runs towards the viewer of the side section, y runs down in the view from above and to the
/// left in the view from the front.
struct ViewAxes {
  fit::Axis across, up;
  bool across_flipped, up_flipped;
  fit::Axis depth;
  bool viewer_at_high;  ///< what lies higher on the depth axis hides what lies lower
};
[[nodiscard]] ViewAxes axes_of(View view);

/// From the scene to the paper.
struct Projection {
  ViewAxes axes;
  double paper_per_mm = 1.0;
  Point at;  ///< where across = up = 0 lies
  [[nodiscard]] double across_mm(double scene_mm) const;
  [[nodiscard]] double down_mm(double scene_mm) const;
  [[nodiscard]] Point point(const std::array<double, 3>& scene_mm) const;
  [[nodiscard]] Rect rect(const fit::Box& box) const;
};

struct FlatBox {
  Rect at;
  bool known = true;    ///< place and size on the paper's two axes
  bool hides = false;   ///< a body, not an outline and not room
  std::size_t box = 0;  ///< index into the scene
};

struct EdgePiece {
  Segment line;
  std::size_t box = 0;
  bool hidden = false;
};

struct Flat {
  Projection projection;
  std::vector<FlatBox> boxes;
  std::vector<EdgePiece> edges;
  Rect extent;  ///< of all that is to be drawn in true size
};

/// What the view spans in millimetres of the scene (across, up), gaps and dimensions included;
/// all zero when there is nothing.
[[nodiscard]] Rect scene_extent(const fit::Scene& scene, View view);

[[nodiscard]] Flat flatten(const fit::Scene& scene, const Projection& projection);

/// The rectangle of a gap on the paper. Its breadth is what the two things it lies between share;
/// where no box ends at the gap, a strip of `strip_mm`.
[[nodiscard]] Rect gap_rect(const fit::Scene& scene, const fit::Gap& gap,
                            const Projection& projection, double strip_mm);

[[nodiscard]] bool lies_in(fit::Axis axis, View view);

}  // namespace rigproof::sheet
