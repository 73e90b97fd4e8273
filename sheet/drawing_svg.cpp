// Writes pictures as SVG: lines of one kind in one path, coordinates in hundredths of a millimetre.
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/text.hpp"
#include "sheet/assets.hpp"
#include "sheet/drawing_layout.hpp"
#include "sheet/html_writer.hpp"

namespace rigproof::sheet {
namespace {

constexpr std::array<std::string_view, 8> stroke_classes = {"k", "n", "e", "u", "b", "h", "g", "q"};

std::string_view class_of(Tone tone) {
  constexpr std::array<std::string_view, 4> classes = {"", "so", "tx", "st"};
  return classes.at(static_cast<std::size_t>(tone));
}

std::string at(Point p, Point shift) {
  return coordinate(p.x_mm + shift.x_mm) + " " + coordinate(p.y_mm + shift.y_mm);
}

void put_marks(std::string& out, const Picture& picture, Point shift) {
  // Fine lines first: thick ones lie on top of them.
  constexpr std::array order = {Stroke::hatch, Stroke::hidden,   Stroke::thin, Stroke::room,
                                Stroke::thick, Stroke::unplaced, Stroke::gap,  Stroke::unsure};
  for (const Stroke stroke : order)
    for (const bool tight : {false, true}) {
      std::string d;
      for (const Mark& mark : picture.marks)
        if (mark.stroke == stroke && mark.tight == tight)
          d += "M" + at(mark.line.from, shift) + "L" + at(mark.line.to, shift);
      if (!d.empty())
        out +=
            fmt::format("<path class=\"{}{}\" d=\"{}\"/>\n",
                        stroke_classes.at(static_cast<std::size_t>(stroke)), tight ? " t" : "", d);
    }
}

void put_tips(std::string& out, const Picture& picture, Point shift) {
  // ISO 129-1: a closed, filled arrowhead of 15 degrees or so.
  constexpr double length_mm = 2.0, half_mm = 0.33, spot_mm = 0.45;
  for (const bool tight : {false, true}) {
    std::string d;
    for (const Tip& tip : picture.tips) {
      if (tip.tight != tight) continue;
      const Point back{tip.at.x_mm - tip.along.x_mm * length_mm,
                       tip.at.y_mm - tip.along.y_mm * length_mm};
      const Point aside{-tip.along.y_mm * half_mm, tip.along.x_mm * half_mm};
      d += "M" + at(tip.at, shift) + "L" +
           at({back.x_mm + aside.x_mm, back.y_mm + aside.y_mm}, shift) + "L" +
           at({back.x_mm - aside.x_mm, back.y_mm - aside.y_mm}, shift) + "Z";
    }
    if (!d.empty()) out += fmt::format("<path class=\"a{}\" d=\"{}\"/>\n", tight ? " t" : "", d);
  }
  for (const Spot& spot : picture.spots)
    out += fmt::format("<circle class=\"a{}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n",
                       spot.tight ? " t" : "", coordinate(spot.at.x_mm + shift.x_mm),
                       coordinate(spot.at.y_mm + shift.y_mm), coordinate(spot_mm));
}

void put_words(std::string& out, const Words& words, Point shift) {
  constexpr double baseline_em = 0.8;
  const Rect& r = words.room;
  const double middle_x = (r.left_mm + r.right_mm) / 2, middle_y = (r.top_mm + r.bottom_mm) / 2;
  Point start{words.centered ? middle_x : r.left_mm, r.top_mm + baseline_em * words.em_mm};
  if (words.upright)
    start = {r.left_mm + baseline_em * words.em_mm, words.centered ? middle_y : r.bottom_mm};
  const std::string x = coordinate(start.x_mm + shift.x_mm),
                    y = coordinate(start.y_mm + shift.y_mm);
  const std::string_view tone = class_of(words.tone);
  out += fmt::format("<text{} x=\"{}\" y=\"{}\" font-size=\"{}\"{}{}>{}</text>\n",
                     tone.empty() ? "" : fmt::format(" class=\"{}\"", tone), x, y,
                     coordinate(words.em_mm), words.centered ? " text-anchor=\"middle\"" : "",
                     words.upright ? fmt::format(" transform=\"rotate(-90 {} {})\"", x, y) : "",
                     html_escape(words.text));
}

constexpr std::string_view colors =
    "svg{color-scheme:light dark;--paper:#f7f6f0;--ink:#191e22;--soft:#545d64;--tight:#a83310}\n"
    "@media(prefers-color-scheme:dark){svg{--paper:#101519;--ink:#e5e7e3;--soft:#a0a9ae;"
    "--tight:#ff9270}}\n"
    "@media print{svg{--paper:#fff;--ink:#000;--soft:#333;--tight:#000}}\n";

}  // namespace

std::string coordinate(double mm) {
  const double rounded = std::round(mm * 100.0) / 100.0;
  return shortest(rounded == 0.0 ? 0.0 : rounded);  // no -0
}

Words words_at(Point at, std::string text, double em_mm, Tone tone) {
  const double width = text_width_mm(text, em_mm);
  return {.text = std::move(text),
          .room = {at.x_mm, at.y_mm, at.x_mm + width, at.y_mm + em_mm},
          .em_mm = em_mm,
          .tone = tone};
}

std::string svg_of(const Picture& picture, Point shift) {
  std::string out;
  put_marks(out, picture, shift);
  put_tips(out, picture, shift);
  for (const Words& words : picture.words) put_words(out, words, shift);
  return out;
}

std::string svg_head(const SvgHead& head) {
  const std::string width = coordinate(head.width_mm), height = coordinate(head.height_mm);
  std::string out = fmt::format(
      "<svg class=\"dr\"{} viewBox=\"0 0 {} {}\" width=\"{}mm\" height=\"{}mm\" font-size=\"{}\" "
      "role=\"img\" aria-labelledby=\"{}-t {}-d\">\n",
      head.standalone ? " xmlns=\"http://www.w3.org/2000/svg\"" : "", width, height, width, height,
      coordinate(head.em_mm), head.id, head.id);
  out += fmt::format("<title id=\"{0}-t\">{1}</title>\n<desc id=\"{0}-d\">{2}</desc>\n", head.id,
                     html_escape(head.title), html_escape(head.description));
  if (!head.standalone) return out;
  const auto style = drawing_style_asset();
  out += "<style>\n";
  out += colors;
  out.append(reinterpret_cast<const char*>(style.data()), style.size());
  out += fmt::format("</style>\n<rect class=\"pp\" x=\"0\" y=\"0\" width=\"{}\" height=\"{}\"/>\n",
                     width, height);
  return out;
}

}  // namespace rigproof::sheet
