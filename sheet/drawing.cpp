// One view for a page: scale, place on the paper, heading above, key below, cut to what is used.
#include "sheet/drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.hpp"
#include "sheet/drawing_layout.hpp"

namespace rigproof::sheet {
namespace {

struct ViewName {
  std::string_view id, name, stands;
};

ViewName name_of(View view) {
  switch (view) {
    case View::top:
      return {"top", "Top view", "rear left, side panel below"};
    case View::front:
      return {"front", "Front view", "side panel left"};
    case View::side:
      break;
  }
  return {"side", "Side section", "rear left"};
}

// How many upright dimension lines want to stand left and right of the outline.
std::array<int, 2> upright_lines(const fit::Scene& scene, const Told& told, View view,
                                 const Rect& extent) {
  const ViewAxes axes = axes_of(view);
  std::array<int, 2> out{};
  for (const std::size_t i : told.dimensions) {
    const fit::Dimension& each = scene.dimensions[i];
    if (each.axis != axes.up) continue;
    const double at = each.at_mm.at(static_cast<std::size_t>(axes.across));
    ++out[(at >= extent.middle().x_mm) != axes.across_flipped ? 1 : 0];
  }
  return out;
}

Rect laid(const Rect& extent, const Projection& to) {
  const double a = to.across_mm(extent.left_mm), b = to.across_mm(extent.right_mm);
  const double c = to.down_mm(extent.top_mm), d = to.down_mm(extent.bottom_mm);
  return {std::min(a, b), std::min(c, d), std::max(a, b), std::max(c, d)};
}

Picture empty_picture(double em_mm) {
  Picture out;
  out.words.push_back(words_at({2.0, 0.0}, "Nothing to draw.", em_mm));
  return out;
}

std::string view_svg(const fit::Scene& scene, View view, const DrawingForm& form) {
  RP_EXPECT(form.width_mm > 40.0 && form.text_mm > 0.0);
  const double em = form.text_mm, width = form.width_mm;
  const Rect extent = scene_extent(scene, view);
  const Told told = all_of(scene, view);
  const std::array<int, 2> lines = upright_lines(scene, told, view, extent);
  const auto reserve = [&](int count) {
    return std::min(count, 3) * dimension_step_mm(em) + (count > 0 ? 1.8 : em);
  };
  const double left = reserve(lines[0]), right = reserve(lines[1]);
  const DrawingScale scale =
      drawing_scale(std::min((width - left - right) / std::max(extent.width_mm(), 1e-6),
                             1.5 * width / std::max(extent.height_mm(), 1e-6)));
  Projection to{.axes = axes_of(view), .paper_per_mm = scale.paper_per_mm, .at = {}};
  const Rect raw = laid(extent, to);
  to.at = {left + (width - left - right - raw.width_mm()) / 2 - raw.left_mm, -raw.top_mm};
  ViewPlan plan{.flat = flatten(scene, to), .outline = laid(extent, to), .field = {}, .em_mm = em};
  plan.field = {0.5, plan.outline.top_mm - 22.0 * em, width - 0.5,
                plan.outline.bottom_mm + 22.0 * em};
  const bool is_empty = scene.boxes.empty() && told.gaps.empty() && told.dimensions.empty();
  Picture picture = is_empty ? empty_picture(em) : lay_out(scene, plan, told);

  const ViewName name = name_of(view);
  Rect used = bounds_of(picture, plan.outline);
  const std::string heading = fmt::format("{}, {}", name.name, name.stands);
  const std::string says = is_empty ? "" : scale.words + ", mm";
  const double scale_width = text_width_mm(says, em);
  double top = used.top_mm - 1.2 * em;
  std::vector<std::string> head = wrapped(heading, em, width - scale_width - 3.0);
  top -= 1.3 * em * static_cast<double>(head.size());
  for (std::size_t i = 0; i < head.size(); ++i)
    picture.words.push_back(
        words_at({0.5, top + 1.3 * em * static_cast<double>(i)}, head[i], em, Tone::strong));
  if (!says.empty())
    picture.words.push_back(words_at({width - 0.5 - scale_width, top}, says, em, Tone::soft));
  double bottom = used.bottom_mm + 1.0 * em;
  const auto put_lines = [&](const std::string& text, Tone tone) {
    for (const std::string& line : wrapped(text, em, width - 1.0)) {
      picture.words.push_back(words_at({0.5, bottom}, line, em, tone));
      bottom += 1.3 * em;
    }
  };
  for (const std::string& text : picture.key) put_lines(text, Tone::ink);
  for (const std::string& note : scene.notes) put_lines("? " + short_text(note, 200), Tone::soft);

  const std::string id = fmt::format("{}-{}", form.id_prefix, name.id);
  return svg_head({.width_mm = width,
                   .height_mm = bottom - top + 0.5 * em,
                   .em_mm = em,
                   .standalone = form.standalone,
                   .id = id,
                   .title = fmt::format("{}: {}", short_text(scene.title, 120), name.name),
                   .description = drawing_in_words(scene)}) +
         svg_of(picture, {0.0, -top + 0.2 * em}) + "</svg>\n";
}

}  // namespace

DrawingForm page_form() { return {}; }
DrawingForm narrow_form() { return {.width_mm = 120.0, .text_mm = 4.2}; }

DrawingScale drawing_scale(double needed_ratio) {
  // Preferred steps, then their tenths: a scene in kilometres is a mistake, but not ours to judge.
  DrawingScale out;
  for (double decade = 1.0; decade < 1e12; decade *= 10.0)
    for (const double step : {1.0, 2.0, 2.5, 5.0}) {
      out = {1.0 / (decade * step), fmt::format("1:{:g}", decade * step)};
      if (decade > 1.0) out.words = fmt::format("1:{:.0f}", decade * step);
      if (out.paper_per_mm <= needed_ratio) return out;
    }
  return out;
}

Told all_of(const fit::Scene& scene, View view) {
  Told out;
  for (std::size_t i = 0; i < scene.gaps.size(); ++i)
    if (lies_in(scene.gaps[i].axis, view)) out.gaps.push_back(i);
  for (std::size_t i = 0; i < scene.dimensions.size(); ++i)
    if (lies_in(scene.dimensions[i].axis, view)) out.dimensions.push_back(i);
  return out;
}

Picture lay_out(const fit::Scene& scene, const ViewPlan& plan, const Told& told) {
  Picture picture;
  Placer placer(plan.field);
  put_edges(scene, plan, placer, picture);
  put_gaps(scene, plan, placer, picture);
  put_dimensions(scene, plan, told, placer, picture);
  put_labels(scene, plan, told, placer, picture);
  return picture;
}

Rect bounds_of(const Picture& picture, const Rect& empty) {
  Rect out = empty;
  for (const Mark& mark : picture.marks)
    out = around(out, {std::min(mark.line.from.x_mm, mark.line.to.x_mm),
                       std::min(mark.line.from.y_mm, mark.line.to.y_mm),
                       std::max(mark.line.from.x_mm, mark.line.to.x_mm),
                       std::max(mark.line.from.y_mm, mark.line.to.y_mm)});
  for (const Words& words : picture.words) out = around(out, words.room);
  return out;
}

std::string drawing_in_words(const fit::Scene& scene) {
  std::string tight, unsure, room;
  const auto add = [](std::string& to, const fit::Gap& gap) {
    to += fmt::format("{}{}, {}", to.empty() ? "" : "; ", short_text(gap_name(gap), 80),
                      gap_words(gap));
  };
  for (const fit::Gap& gap : scene.gaps)
    add(is_tight(gap) ? tight : gap.verdict == Verdict::unknown ? unsure : room, gap);
  std::string out = tight.empty() ? "No gap is tight." : "Tight: " + tight + ".";
  if (!unsure.empty()) out += " Not known for sure: " + unsure + ".";
  if (!room.empty()) out += " Room enough: " + room + ".";
  for (const std::string& note : scene.notes) out += " Not known: " + short_text(note, 200);
  return out;
}

std::string side_section_svg(const fit::Scene& scene, const DrawingForm& form) {
  return view_svg(scene, View::side, form);
}
std::string top_view_svg(const fit::Scene& scene, const DrawingForm& form) {
  return view_svg(scene, View::top, form);
}
std::string front_view_svg(const fit::Scene& scene, const DrawingForm& form) {
  return view_svg(scene, View::front, form);
}

}  // namespace rigproof::sheet
