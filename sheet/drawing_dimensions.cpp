// Dimension lines outside the outline (ISO 129-1): short ones next to it, longer ones farther out,
// on the side where no line of one crosses a line of another. What finds no such place goes to the
// key in words.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/text.hpp"
#include "sheet/drawing_layout.hpp"

namespace rigproof::sheet {
namespace {

constexpr double arrow_mm = 2.0;
constexpr double same_mm = 0.05;  // of paper

// One dimension, in the direction it runs along (u) and away from the outline.
struct Line {
  std::size_t index = 0;
  double low_mm = 0.0, high_mm = 0.0;     ///< u of the two ends
  double begins_mm = 0.0, ends_mm = 0.0;  ///< u of all that is drawn: arrows outside, text
  double text_mm = 0.0;                   ///< its width
  bool text_beside = false, arrows_outside = false;
  std::string words;
  int level = 0;
  bool far_side = false;  ///< bottom or right; else top or left
};

bool inside(double u, const Line& line) {
  return u > line.begins_mm - same_mm && u < line.ends_mm + same_mm &&
         std::abs(u - line.low_mm) > same_mm && std::abs(u - line.high_mm) > same_mm;
}

bool fits(const Line& line, const std::vector<Line>& placed) {
  return std::ranges::none_of(placed, [&](const Line& other) {
    if (other.far_side != line.far_side) return false;
    if (other.level == line.level)
      return line.begins_mm < other.ends_mm + 1.0 && other.begins_mm < line.ends_mm + 1.0;
    // The extension lines of the outer one pass the inner one.
    const Line& outer = other.level > line.level ? other : line;
    const Line& inner = other.level > line.level ? line : other;
    return inside(outer.low_mm, inner) || inside(outer.high_mm, inner);
  });
}

struct Frame {  ///< turns (u, v) into points: u along the dimension, v across it
  bool across;
  [[nodiscard]] Point at(double u, double v) const { return across ? Point{u, v} : Point{v, u}; }
};

Line line_of(const fit::Scene& scene, const ViewPlan& plan, std::size_t index, bool across) {
  const fit::Dimension& dimension = scene.dimensions[index];
  const Projection& to = plan.flat.projection;
  const auto u = [&](double mm) { return across ? to.across_mm(mm) : to.down_mm(mm); };
  Line line{.index = index, .words = dimension_words(dimension)};
  const double a = u(dimension.from_mm), b = u(dimension.to_mm);
  line.low_mm = std::min(a, b);
  line.high_mm = std::max(a, b);
  line.text_mm = text_width_mm(line.words, plan.em_mm);
  const double length = line.high_mm - line.low_mm;
  line.arrows_outside = length < 3.5 * arrow_mm;
  line.text_beside = length < line.text_mm + 1.0;
  const double tail = line.arrows_outside ? 2.5 * arrow_mm : 0.0;
  line.begins_mm = line.low_mm - tail;
  line.ends_mm = line.high_mm + tail;
  if (line.text_beside) {
    // The text stands on the drawn-out line, on the side where the paper has more room.
    const double low = across ? plan.field.left_mm : plan.field.top_mm;
    const double high = across ? plan.field.right_mm : plan.field.bottom_mm;
    const double out = line.text_mm + (line.arrows_outside ? 0.0 : 1.0) + 1.0;
    if (high - line.ends_mm >= line.begins_mm - low)
      line.ends_mm += out;
    else
      line.begins_mm -= out;
  }
  return line;
}

// Where the extension lines begin: at the thing, on the side that looks to the dimension line.
double starts_at(const fit::Scene& scene, const ViewPlan& plan, const Line& line, bool across) {
  const fit::Dimension& d = scene.dimensions[line.index];
  const Point at = plan.flat.projection.point(d.at_mm);
  double v = across ? at.y_mm : at.x_mm;
  for (const FlatBox& box : plan.flat.boxes) {
    const double low = across ? box.at.left_mm : box.at.top_mm;
    const double high = across ? box.at.right_mm : box.at.bottom_mm;
    const double near = across ? box.at.top_mm : box.at.left_mm;
    const double far = across ? box.at.bottom_mm : box.at.right_mm;
    if (std::abs(low - line.low_mm) < same_mm && std::abs(high - line.high_mm) < same_mm &&
        near <= v + same_mm && v <= far + same_mm)
      v = line.far_side ? far : near;
  }
  return v;
}

void draw(const fit::Scene& scene, const ViewPlan& plan, const Line& line, bool across,
          Placer& placer, Picture& picture) {
  const Frame frame{across};
  const Rect& o = plan.outline;
  const double sign = line.far_side ? 1.0 : -1.0;
  const double edge =
      across ? (line.far_side ? o.bottom_mm : o.top_mm) : (line.far_side ? o.right_mm : o.left_mm);
  const double v = edge + sign * (line.level + 1) * dimension_step_mm(plan.em_mm);
  const double from = starts_at(scene, plan, line, across) + sign * 0.8;
  for (const double u : {line.low_mm, line.high_mm}) {
    const Segment extension{frame.at(u, from), frame.at(u, v + sign * 1.2)};
    picture.marks.push_back({extension, Stroke::thin});
    placer.keep_off(extension);
    // Outside the outline nothing may run over it either.
    placer.keep_clear(Segment{frame.at(u, edge + sign * 0.8), frame.at(u, v + sign * 1.2)});
  }
  const Segment body{frame.at(line.begins_mm, v), frame.at(line.ends_mm, v)};
  picture.marks.push_back({body, Stroke::thin});
  placer.keep_clear(body);
  const double out = line.arrows_outside ? 1.0 : -1.0;
  picture.tips.push_back({frame.at(line.low_mm, v), frame.at(out, 0.0)});
  picture.tips.push_back({frame.at(line.high_mm, v), frame.at(-out, 0.0)});
  double u = (line.low_mm + line.high_mm - line.text_mm) / 2;
  if (line.text_beside)
    u = line.ends_mm - line.high_mm > line.low_mm - line.begins_mm ? line.ends_mm - line.text_mm
                                                                   : line.begins_mm;
  // Above the line, or to the left of an upright one: read from the bottom or from the right.
  const double height = plan.em_mm;
  const Point a = frame.at(u, v - height - 0.4), b = frame.at(u + line.text_mm, v - 0.4);
  picture.words.push_back({.text = line.words,
                           .room = {a.x_mm, a.y_mm, b.x_mm, b.y_mm},
                           .em_mm = plan.em_mm,
                           .upright = !across,
                           .centered = true});
  // A name beside the number on the same line would be read as the dimension's.
  const Point low = frame.at(line.begins_mm, v - height - 0.4);
  const Point high = frame.at(line.ends_mm, v + 0.8);
  placer.keep_clear(Rect{low.x_mm, low.y_mm, high.x_mm, high.y_mm});
}

int levels_on(const ViewPlan& plan, bool across, bool far_side) {
  const Rect &o = plan.outline, &f = plan.field;
  const double room = across ? (far_side ? f.bottom_mm - o.bottom_mm : o.top_mm - f.top_mm)
                             : (far_side ? f.right_mm - o.right_mm : o.left_mm - f.left_mm);
  return std::min(across ? 6 : 4, static_cast<int>((room - 1.3) / dimension_step_mm(plan.em_mm)));
}

}  // namespace

double dimension_step_mm(double em_mm) { return 2.0 * em_mm; }

std::string dimension_words(const fit::Dimension& dimension) {
  std::string out = short_text(dimension.text, 24);
  if (!out.empty()) out += ' ';
  out += readable(std::abs(dimension.to_mm - dimension.from_mm), 4);
  if (dimension.plus_minus_mm > 0.0)
    out += " \xC2\xB1" + readable(dimension.plus_minus_mm);  // plus-minus sign
  return out;
}

void put_dimensions(const fit::Scene& scene, const ViewPlan& plan, const Told& told, Placer& placer,
                    Picture& picture) {
  const ViewAxes& axes = plan.flat.projection.axes;
  std::vector<std::string> left_over;
  for (const bool across : {true, false}) {
    std::vector<Line> todo, placed;
    for (const std::size_t index : told.dimensions)
      if ((scene.dimensions[index].axis == axes.across) == across)
        todo.push_back(line_of(scene, plan, index, across));
    std::ranges::stable_sort(todo, {}, [](const Line& l) { return l.high_mm - l.low_mm; });
    const double field_low = across ? plan.field.left_mm : plan.field.top_mm;
    const double field_high = across ? plan.field.right_mm : plan.field.bottom_mm;
    for (Line& line : todo) {
      const Point at = plan.flat.projection.point(scene.dimensions[line.index].at_mm);
      const Point middle = plan.outline.middle();
      const bool prefers_far = across ? at.y_mm >= middle.y_mm : at.x_mm >= middle.x_mm;
      bool done = line.begins_mm < field_low || line.ends_mm > field_high;
      const bool out_of_paper = done;
      for (const bool far_side : {prefers_far, !prefers_far})
        for (int level = 0; !done && level < levels_on(plan, across, far_side); ++level) {
          line.level = level;
          line.far_side = far_side;
          if (!fits(line, placed)) continue;
          placed.push_back(line);
          done = true;
        }
      if (!done || out_of_paper) left_over.push_back(line.words);
    }
    for (const Line& line : placed) draw(scene, plan, line, across, placer, picture);
  }
  if (left_over.empty()) return;
  std::string words = "Also: ";
  for (std::size_t i = 0; i < left_over.size(); ++i) words += (i == 0 ? "" : "; ") + left_over[i];
  picture.key.push_back(words);
}

}  // namespace rigproof::sheet
