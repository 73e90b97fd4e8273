// Projection and hidden lines: the part of an edge that lies inside a nearer body is hidden; for
// boxes that is a difference of intervals and exact.
#include "sheet/drawing_view.hpp"

#include <algorithm>
#include <cmath>

namespace rigproof::sheet {
namespace {

constexpr double same_mm = 0.5;  // of the scene: edges nearer than this are one

const fit::Extent& on(const fit::Box& box, fit::Axis axis) {
  return box.at.at(static_cast<std::size_t>(axis));
}
double on(const std::array<double, 3>& point, fit::Axis axis) {
  return point.at(static_cast<std::size_t>(axis));
}

bool nearer(const fit::Box& a, const fit::Box& b, const ViewAxes& axes) {
  const fit::Extent &u = on(a, axes.depth), &v = on(b, axes.depth);
  const double difference = u.low_mm + u.high_mm - v.low_mm - v.high_mm;
  return axes.viewer_at_high ? difference > 0.0 : difference < 0.0;
}

struct Interval {
  double low_mm, high_mm;
};

// The part of the edge under a rectangle that covers it, as an interval along the edge. An edge on
// the rectangle's own border is seen.
bool covered(const Segment& edge, const Rect& by, Interval& out) {
  const bool level = edge.from.y_mm == edge.to.y_mm;
  const double at = level ? edge.from.y_mm : edge.from.x_mm;
  const double low = level ? by.top_mm : by.left_mm, high = level ? by.bottom_mm : by.right_mm;
  constexpr double border_mm = 0.02;
  if (at <= low + border_mm || at >= high - border_mm) return false;
  const double from = level ? edge.from.x_mm : edge.from.y_mm;
  const double to = level ? edge.to.x_mm : edge.to.y_mm;
  out = {std::max(from, level ? by.left_mm : by.top_mm),
         std::min(to, level ? by.right_mm : by.bottom_mm)};
  return out.high_mm > out.low_mm;
}

void put_pieces(Flat& flat, const Segment& edge, std::size_t owner, std::vector<Interval> hidden) {
  const bool level = edge.from.y_mm == edge.to.y_mm;
  const double end = level ? edge.to.x_mm : edge.to.y_mm;
  double at = level ? edge.from.x_mm : edge.from.y_mm;
  const auto piece = [&](double from, double to, bool is_hidden) {
    if (to - from < 0.05) return;
    const Segment line = level ? Segment{{from, edge.from.y_mm}, {to, edge.from.y_mm}}
                               : Segment{{edge.from.x_mm, from}, {edge.from.x_mm, to}};
    flat.edges.push_back({line, owner, is_hidden});
  };
  std::ranges::sort(hidden, {}, &Interval::low_mm);
  for (const Interval& each : hidden) {
    if (each.low_mm > at) piece(at, each.low_mm, false);
    if (each.high_mm > at) piece(std::max(at, each.low_mm), each.high_mm, true);
    at = std::max(at, each.high_mm);
  }
  piece(at, end, false);
}

Rect span_of(const fit::Box& box, const ViewAxes& axes) {
  return {on(box, axes.across).low_mm, on(box, axes.up).low_mm, on(box, axes.across).high_mm,
          on(box, axes.up).high_mm};
}

}  // namespace

ViewAxes axes_of(View view) {
  using enum fit::Axis;
  switch (view) {
    case View::top:
      return {x, y, false, true, z, true};
    case View::front:
      return {y, z, true, false, x, true};
    case View::side:
      break;
  }
  return {x, z, false, false, y, true};
}

bool lies_in(fit::Axis axis, View view) {
  const ViewAxes axes = axes_of(view);
  return axis == axes.across || axis == axes.up;
}

double Projection::across_mm(double scene_mm) const {
  return at.x_mm + (axes.across_flipped ? -scene_mm : scene_mm) * paper_per_mm;
}
double Projection::down_mm(double scene_mm) const {
  return at.y_mm + (axes.up_flipped ? scene_mm : -scene_mm) * paper_per_mm;
}
Point Projection::point(const std::array<double, 3>& scene_mm) const {
  return {across_mm(on(scene_mm, axes.across)), down_mm(on(scene_mm, axes.up))};
}
Rect Projection::rect(const fit::Box& box) const {
  const Rect span = span_of(box, axes);
  const double a = across_mm(span.left_mm), b = across_mm(span.right_mm);
  const double c = down_mm(span.top_mm), d = down_mm(span.bottom_mm);
  return {std::min(a, b), std::min(c, d), std::max(a, b), std::max(c, d)};
}

Rect scene_extent(const fit::Scene& scene, View view) {
  const ViewAxes axes = axes_of(view);
  Rect out;
  bool any = false;
  const auto take = [&](const Rect& rect) {
    out = any ? around(out, rect) : rect;
    any = true;
  };
  for (const fit::Box& box : scene.boxes) {
    const Rect s = span_of(box, axes);
    take({std::min(s.left_mm, s.right_mm), std::min(s.top_mm, s.bottom_mm),
          std::max(s.left_mm, s.right_mm), std::max(s.top_mm, s.bottom_mm)});
  }
  const auto take_length = [&](fit::Axis axis, double from, double to,
                               const std::array<double, 3>& at) {
    if (!lies_in(axis, view)) return;
    const bool is_across = axis == axes.across;
    const double other = on(at, is_across ? axes.up : axes.across);
    const double low = std::min(from, to), high = std::max(from, to);
    take(is_across ? Rect{low, other, high, other} : Rect{other, low, other, high});
  };
  for (const fit::Gap& gap : scene.gaps) take_length(gap.axis, gap.from_mm, gap.to_mm, gap.at_mm);
  for (const fit::Dimension& each : scene.dimensions)
    take_length(each.axis, each.from_mm, each.to_mm, each.at_mm);
  return out;
}

Flat flatten(const fit::Scene& scene, const Projection& projection) {
  const ViewAxes& axes = projection.axes;
  Flat flat{.projection = projection, .boxes = {}, .edges = {}, .extent = {}};
  for (std::size_t i = 0; i < scene.boxes.size(); ++i) {
    const fit::Box& box = scene.boxes[i];
    const auto known = [&](fit::Axis axis) { return on(box, axis).placed && on(box, axis).sized; };
    const bool flat_known = known(axes.across) && known(axes.up);
    flat.boxes.push_back({.at = projection.rect(box),
                          .known = flat_known,
                          .hides = flat_known && on(box, axes.depth).placed &&
                                   box.use != fit::Use::outline && box.use != fit::Use::bend,
                          .box = i});
    flat.extent = i == 0 ? flat.boxes.back().at : around(flat.extent, flat.boxes.back().at);
  }
  for (const FlatBox& each : flat.boxes) {
    const Rect& r = each.at;
    for (const Segment& edge : {Segment{{r.left_mm, r.top_mm}, {r.right_mm, r.top_mm}},
                                Segment{{r.left_mm, r.bottom_mm}, {r.right_mm, r.bottom_mm}},
                                Segment{{r.left_mm, r.top_mm}, {r.left_mm, r.bottom_mm}},
                                Segment{{r.right_mm, r.top_mm}, {r.right_mm, r.bottom_mm}}}) {
      std::vector<Interval> hidden;
      Interval part{};
      for (const FlatBox& other : flat.boxes)
        if (other.hides && other.box != each.box &&
            nearer(scene.boxes[other.box], scene.boxes[each.box], axes) &&
            covered(edge, other.at, part))
          hidden.push_back(part);
      // What is of unknown place is drawn dashed all along anyway.
      put_pieces(flat, edge, each.box, each.known ? hidden : std::vector<Interval>{});
    }
  }
  return flat;
}

Rect gap_rect(const fit::Scene& scene, const fit::Gap& gap, const Projection& projection,
              double strip_mm) {
  const ViewAxes& axes = projection.axes;
  const bool is_across = gap.axis == axes.across;
  const fit::Axis other = is_across ? axes.up : axes.across;
  const double middle = on(gap.at_mm, other);
  double low = middle - 1e9, high = middle + 1e9;
  bool bounded = false;
  for (const fit::Box& box : scene.boxes) {
    const auto holds_it = [&](fit::Axis axis) {
      return on(box, axis).low_mm - same_mm <= on(gap.at_mm, axis) &&
             on(gap.at_mm, axis) <= on(box, axis).high_mm + same_mm;
    };
    const auto ends_at = [&](double edge_mm) {
      return std::abs(on(box, gap.axis).low_mm - edge_mm) < same_mm ||
             std::abs(on(box, gap.axis).high_mm - edge_mm) < same_mm;
    };
    if (box.use == fit::Use::outline || !holds_it(other)) continue;
    if (!ends_at(gap.from_mm) && !ends_at(gap.to_mm)) continue;
    low = std::max(low, on(box, other).low_mm);
    high = std::min(high, on(box, other).high_mm);
    bounded = true;
  }
  if (!bounded || high - low <= 0.0) {
    low = middle - strip_mm / 2 / projection.paper_per_mm;
    high = middle + strip_mm / 2 / projection.paper_per_mm;
  }
  const auto rect = [&](double a, double b, double c, double d) {
    return Rect{std::min(a, b), std::min(c, d), std::max(a, b), std::max(c, d)};
  };
  if (is_across)
    return rect(projection.across_mm(gap.from_mm), projection.across_mm(gap.to_mm),
                projection.down_mm(low), projection.down_mm(high));
  return rect(projection.across_mm(low), projection.across_mm(high),
              projection.down_mm(gap.from_mm), projection.down_mm(gap.to_mm));
}

}  // namespace rigproof::sheet
