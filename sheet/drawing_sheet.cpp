// Three views on A3: frame and zones by ISO 5457, third angle projection (the view from above over
// the side section, the view from the front right of it, edges in line), title block by ISO 7200.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "sheet/drawing.hpp"
#include "sheet/drawing_layout.hpp"

namespace rigproof::sheet {
namespace {

constexpr double paper_width_mm = 420.0, paper_height_mm = 297.0;
constexpr Rect frame{20.0, 10.0, 410.0, 287.0};    // ISO 5457: 20 mm for filing, else 10
constexpr Rect block{230.0, 259.0, 410.0, 287.0};  // ISO 7200: 180 mm wide
constexpr double em_mm = 3.5;

void put_line(Picture& out, Point from, Point to, Stroke stroke = Stroke::thin) {
  out.marks.push_back({{from, to}, stroke});
}

void put_rect(Picture& out, const Rect& r, Stroke stroke) {
  put_line(out, {r.left_mm, r.top_mm}, {r.right_mm, r.top_mm}, stroke);
  put_line(out, {r.right_mm, r.top_mm}, {r.right_mm, r.bottom_mm}, stroke);
  put_line(out, {r.left_mm, r.bottom_mm}, {r.right_mm, r.bottom_mm}, stroke);
  put_line(out, {r.left_mm, r.top_mm}, {r.left_mm, r.bottom_mm}, stroke);
}

void put_middle(Picture& out, Point middle, const std::string& text) {
  const double half = text_width_mm(text, em_mm) / 2;
  Words words = words_at({middle.x_mm - half, middle.y_mm - em_mm / 2}, text, em_mm, Tone::soft);
  words.centered = true;
  out.words.push_back(words);
}

// Fields of 50 mm, counted from the middle of the paper; letters down, numbers across.
void put_frame(Picture& out) {
  constexpr double border = 5.0, field = 50.0;
  put_rect(out, frame, Stroke::thick);
  put_rect(out, grown(frame, border), Stroke::thin);
  const Point middle{paper_width_mm / 2, paper_height_mm / 2};
  const std::array<double, 2> rows = {frame.top_mm - border / 2, frame.bottom_mm + border / 2};
  const std::array<double, 2> columns = {frame.left_mm - border / 2, frame.right_mm + border / 2};
  for (int i = -3; i <= 3; ++i)
    for (const double y : rows)
      put_line(out, {middle.x_mm + i * field, y - border / 2},
               {middle.x_mm + i * field, y + border / 2}, i == 0 ? Stroke::thick : Stroke::thin);
  for (int i = -2; i <= 2; ++i)
    for (const double x : columns)
      put_line(out, {x - border / 2, middle.y_mm + i * field},
               {x + border / 2, middle.y_mm + i * field}, i == 0 ? Stroke::thick : Stroke::thin);
  for (int i = 0; i < 8; ++i)
    for (const double y : rows) {
      const double low = std::max(frame.left_mm, middle.x_mm + (i - 4) * field);
      const double high = std::min(frame.right_mm, middle.x_mm + (i - 3) * field);
      put_middle(out, {(low + high) / 2, y}, std::to_string(i + 1));
    }
  for (int i = 0; i < 6; ++i)
    for (const double x : columns) {
      const double low = std::max(frame.top_mm, middle.y_mm + (i - 3) * field);
      const double high = std::min(frame.bottom_mm, middle.y_mm + (i - 2) * field);
      put_middle(out, {x, (low + high) / 2}, std::string(1, static_cast<char>('A' + i)));
    }
}

void put_cell(Picture& out, const Rect& cell, const std::string& label, const std::string& value) {
  put_rect(out, cell, Stroke::thin);
  out.words.push_back(words_at({cell.left_mm + 1.5, cell.top_mm + 1.2}, label, 2.8, Tone::soft));
  std::string fits = value;
  for (std::size_t most = 60; text_width_mm(fits, 4.2) > cell.width_mm() - 3.0 && most > 2; --most)
    fits = short_text(value, most);
  out.words.push_back(words_at({cell.left_mm + 1.5, cell.top_mm + 6.4}, fits, 4.2, Tone::strong));
}

void put_title_block(Picture& out, const std::string& title, const std::string& scale) {
  const double x = block.left_mm, y = block.top_mm, row = block.height_mm() / 2;
  put_cell(out, {x, y, x + 110, y + row}, "Title", short_text(title, 60));
  put_cell(out, {x + 110, y, x + 145, y + row}, "Scale", scale);
  put_cell(out, {x + 145, y, x + 180, y + row}, "Sheet", "1/1, A3");
  put_cell(out, {x, y + row, x + 110, y + 2 * row}, "Views", "side section, top, front");
  put_cell(out, {x + 110, y + row, x + 145, y + 2 * row}, "Unit", "mm");
  put_cell(out, {x + 145, y + row, x + 180, y + 2 * row}, "Projection", "third angle");
  put_rect(out, block, Stroke::thick);
}

void append(Picture& to, const Picture& from) {
  to.marks.insert(to.marks.end(), from.marks.begin(), from.marks.end());
  to.tips.insert(to.tips.end(), from.tips.begin(), from.tips.end());
  to.spots.insert(to.spots.end(), from.spots.begin(), from.spots.end());
  to.words.insert(to.words.end(), from.words.begin(), from.words.end());
  to.key.insert(to.key.end(), from.key.begin(), from.key.end());
}

// Each number once: lengths along x and z in the side section, the rest where y lies.
Told told_in(const fit::Scene& scene, View view) {
  Told out;
  const auto home = [](fit::Axis axis, View of_y) {
    return axis == fit::Axis::y ? of_y : View::side;
  };
  for (std::size_t i = 0; i < scene.gaps.size(); ++i)
    if (home(scene.gaps[i].axis, View::front) == view) out.gaps.push_back(i);
  for (std::size_t i = 0; i < scene.dimensions.size(); ++i)
    if (home(scene.dimensions[i].axis, View::top) == view) out.dimensions.push_back(i);
  return out;
}

// Notes in columns left of the title block; what finds no line there is counted.
void put_notes(Picture& out, const fit::Scene& scene) {
  std::vector<std::string> lines;
  constexpr double em = 3.2, width = 200.0;
  const auto add = [&](const std::string& text) {
    for (std::string& line : wrapped(text, em, width)) lines.push_back(std::move(line));
  };
  add("Thick: parts. Thin: dimensions. Dashed: hidden, or with ? of unknown place. Dash and two "
      "dots: room for a plug. Hatched: gaps to watch; crossed: two things in one place.");
  for (const std::string& line : out.key) add(line);
  for (const std::string& note : scene.notes) add("? " + short_text(note, 160));
  constexpr std::size_t most = 7;
  const double top =
      frame.bottom_mm - 2.0 - 1.25 * em * static_cast<double>(std::min(lines.size(), most));
  for (std::size_t i = 0; i < std::min(lines.size(), most); ++i) {
    const bool last = i + 1 == most && lines.size() > most;
    const std::string text =
        last ? fmt::format("and {} more lines, in the scene's file", lines.size() - most + 1)
             : lines[i];
    out.words.push_back(words_at({frame.left_mm + 3.0, top + 1.25 * em * static_cast<double>(i)},
                                 text, em, Tone::soft));
  }
}

}  // namespace

std::string drawing_sheet_svg(const fit::Scene& scene) {
  const Rect side = scene_extent(scene, View::side), front = scene_extent(scene, View::front),
             top = scene_extent(scene, View::top);
  constexpr double aside_mm = 32.0, between_mm = 24.0;
  const Rect area{frame.left_mm + 2.0, frame.top_mm + 2.0, frame.right_mm - 2.0,
                  block.top_mm - 4.0};
  const double wide = side.width_mm() + front.width_mm(), high = top.height_mm() + side.height_mm();
  const DrawingScale scale =
      drawing_scale(std::min((area.width_mm() - 3 * aside_mm) / std::max(wide, 1e-6),
                             (area.height_mm() - 3 * between_mm) / std::max(high, 1e-6)));
  const double s = scale.paper_per_mm;
  // What is left over is shared by the three strips of paper between and beside the views.
  const double gap_x = (area.width_mm() - wide * s) / 3, gap_y = (area.height_mm() - high * s) / 3;
  const double column = area.left_mm + gap_x, row = area.top_mm + gap_y;
  const double split_x = column + side.width_mm() * s + gap_x / 2;
  const double split_y = row + top.height_mm() * s + gap_y / 2;

  Picture sheet;
  put_frame(sheet);
  put_title_block(sheet, scene.title, scale.words);
  struct Place {
    View view;
    const char* name;
    Rect extent;
    Point corner;  ///< upper left of the view
    Rect field;
  };
  const double right_column = split_x + gap_x / 2, lower_row = split_y + gap_y / 2;
  for (const Place& place : {Place{View::top,
                                   "Top view",
                                   top,
                                   {column, row},
                                   {area.left_mm, area.top_mm, split_x, split_y}},
                             Place{View::side,
                                   "Side section",
                                   side,
                                   {column, lower_row},
                                   {area.left_mm, split_y, split_x, area.bottom_mm}},
                             Place{View::front,
                                   "Front view",
                                   front,
                                   {right_column, lower_row},
                                   {split_x, split_y, area.right_mm, area.bottom_mm}}}) {
    Projection to{.axes = axes_of(place.view), .paper_per_mm = s, .at = {}};
    const double left = to.axes.across_flipped ? -place.extent.right_mm : place.extent.left_mm;
    const double up = to.axes.up_flipped ? place.extent.top_mm : -place.extent.bottom_mm;
    to.at = {place.corner.x_mm - left * s, place.corner.y_mm - up * s};
    const Words name = words_at({place.field.left_mm + 2.0, place.field.top_mm + 1.0}, place.name,
                                em_mm, Tone::strong);
    ViewPlan plan{.flat = flatten(scene, to),
                  .outline = {place.corner.x_mm, place.corner.y_mm,
                              place.corner.x_mm + place.extent.width_mm() * s,
                              place.corner.y_mm + place.extent.height_mm() * s},
                  .field = place.field,
                  .em_mm = em_mm};
    plan.field.top_mm += 1.8 * em_mm;  // the view's name stands there
    sheet.words.push_back(name);
    append(sheet, lay_out(scene, plan, told_in(scene, place.view)));
  }
  put_notes(sheet, scene);
  return svg_head({.width_mm = paper_width_mm,
                   .height_mm = paper_height_mm,
                   .em_mm = em_mm,
                   .standalone = true,
                   .id = "sheet",
                   .title = short_text(scene.title, 120) + ": side section, top view, front view",
                   .description = drawing_in_words(scene)}) +
         svg_of(sheet, {}) + "</svg>\n";
}

}  // namespace rigproof::sheet
