// Plane geometry by the book, and a search over few, fixed candidates.
#include "sheet/drawing_plane.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "sheet/utf8.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

constexpr double clearance_mm = 0.55;  // ours: paper between a text and the next line

double side_of(const Segment& line, Point p) {
  return (line.to.x_mm - line.from.x_mm) * (p.y_mm - line.from.y_mm) -
         (line.to.y_mm - line.from.y_mm) * (p.x_mm - line.from.x_mm);
}

Rect bounds(const Segment& line) {
  return {std::min(line.from.x_mm, line.to.x_mm), std::min(line.from.y_mm, line.to.y_mm),
          std::max(line.from.x_mm, line.to.x_mm), std::max(line.from.y_mm, line.to.y_mm)};
}

// Shares of the em, no less than the widest of the common sans-serif faces.
double width_em(char32_t c) {
  if (c >= 0x1100) return c >= 0x2010 && c <= 0x2027 ? 0.75 : 1.3;
  if (c >= 0x80) return c == 0xB1 || c == 0xD7 ? 0.84 : 1.1;
  const char letter = static_cast<char>(c);
  if (std::string_view("ijl|'!,.:;").find(letter) != std::string_view::npos) return 0.34;
  if (std::string_view(" ()[]/\\ft-r").find(letter) != std::string_view::npos) return 0.43;
  if (std::string_view("mwMW@%&").find(letter) != std::string_view::npos) return 1.0;
  if ((letter >= 'A' && letter <= 'Z') ||
      std::string_view("+<=>#~_").find(letter) != std::string_view::npos)
    return 0.8;
  return 0.645;
}

}  // namespace

Rect grown(const Rect& r, double by_mm) {
  return {r.left_mm - by_mm, r.top_mm - by_mm, r.right_mm + by_mm, r.bottom_mm + by_mm};
}

bool overlap(const Rect& a, const Rect& b) {
  return a.left_mm < b.right_mm && b.left_mm < a.right_mm && a.top_mm < b.bottom_mm &&
         b.top_mm < a.bottom_mm;
}

bool contains(const Rect& outer, const Rect& inner) {
  return outer.left_mm <= inner.left_mm && outer.top_mm <= inner.top_mm &&
         outer.right_mm >= inner.right_mm && outer.bottom_mm >= inner.bottom_mm;
}

bool crosses(const Segment& line, const Rect& rect) {
  const Rect box = bounds(line);
  if (box.left_mm >= rect.right_mm || box.right_mm <= rect.left_mm ||
      box.top_mm >= rect.bottom_mm || box.bottom_mm <= rect.top_mm)
    return false;
  double enters = 0.0, leaves = 1.0;
  const auto clip = [&](double run, double to_low, double to_high) {
    if (run == 0.0) return;  // parallel: the test of the bounds has settled it
    const double a = to_low / run, b = to_high / run;
    enters = std::max(enters, std::min(a, b));
    leaves = std::min(leaves, std::max(a, b));
  };
  clip(line.to.x_mm - line.from.x_mm, rect.left_mm - line.from.x_mm,
       rect.right_mm - line.from.x_mm);
  clip(line.to.y_mm - line.from.y_mm, rect.top_mm - line.from.y_mm,
       rect.bottom_mm - line.from.y_mm);
  return enters < leaves;
}

bool crosses(const Segment& a, const Segment& b) {
  if (!overlap(grown(bounds(a), 1e-9), grown(bounds(b), 1e-9))) return false;
  return side_of(a, b.from) * side_of(a, b.to) <= 0.0 &&
         side_of(b, a.from) * side_of(b, a.to) <= 0.0;
}

Rect around(const Rect& a, const Rect& b) {
  return {std::min(a.left_mm, b.left_mm), std::min(a.top_mm, b.top_mm),
          std::max(a.right_mm, b.right_mm), std::max(a.bottom_mm, b.bottom_mm)};
}

std::vector<Segment> hatching(const Rect& r, double step_mm, bool falling) {
  std::vector<Segment> out;
  const double width = r.width_mm(), height = r.height_mm();
  if (!(width > 0.0 && height > 0.0) || (width + height) / step_mm > 2000.0) return out;
  // A line of the family meets u + v = c, u from the left (or right) edge, v from the top.
  for (int i = 0; (i + 0.5) * step_mm < width + height; ++i) {
    const double c = (i + 0.5) * step_mm;
    const double u0 = std::max(0.0, c - height), u1 = std::min(width, c);
    const auto x = [&](double u) { return falling ? r.right_mm - u : r.left_mm + u; };
    out.push_back({{x(u0), r.top_mm + c - u0}, {x(u1), r.top_mm + c - u1}});
  }
  return out;
}

double text_width_mm(std::string_view text, double em_mm) {
  double em = 0.0;
  while (!text.empty()) {
    const CodePoint next = next_code_point(text);
    em += width_em(next.value);
    text.remove_prefix(next.bytes);
  }
  return em * em_mm;
}

std::string short_text(std::string_view text, std::size_t most) {
  const std::string clean = clean_text(text);
  std::string_view rest = clean;
  std::string out;
  for (std::size_t count = 0; !rest.empty(); ++count) {
    if (count + 1 >= most) {
      const CodePoint last = next_code_point(rest);
      if (last.bytes < rest.size()) return out + "\xE2\x80\xA6";
    }
    const CodePoint next = next_code_point(rest);
    out += rest.substr(0, next.bytes);
    rest.remove_prefix(next.bytes);
  }
  return out;
}

std::vector<std::string> wrapped(std::string_view text, double em_mm, double width_mm) {
  std::vector<std::string> out;
  std::string line;
  while (!text.empty()) {
    const std::size_t space = text.find(' ');
    std::string word{text.substr(0, space)};
    text.remove_prefix(space == std::string_view::npos ? text.size() : space + 1);
    if (word.empty()) continue;
    for (std::size_t most = 60; text_width_mm(word, em_mm) > width_mm && most > 1; most /= 2)
      word = short_text(word, most);
    std::string longer = line;
    if (!line.empty()) longer += ' ';
    longer += word;
    if (!line.empty() && text_width_mm(longer, em_mm) > width_mm) {
      out.push_back(line);
      line = word;
    } else {
      line = longer;
    }
  }
  if (!line.empty()) out.push_back(line);
  return out;
}

void Placer::keep_clear(const Segment& line) {
  lines_.push_back(line);
  barriers_.push_back(line);
}

bool Placer::is_free(const Rect& rect) const {
  const Rect wide = grown(rect, clearance_mm);
  return contains(field_, rect) &&
         std::ranges::none_of(texts_, [&](const Rect& text) { return overlap(wide, text); }) &&
         std::ranges::none_of(lines_, [&](const Segment& line) { return crosses(line, wide); });
}

bool Placer::inside(const Rect& box, const std::vector<Rect>& not_in, Point size, Rect& out) const {
  const double span_x = box.width_mm() - size.x_mm - 2 * clearance_mm;
  const double span_y = box.height_mm() - size.y_mm - 2 * clearance_mm;
  if (span_x < 0.0 || span_y < 0.0) return false;
  constexpr int steps = 14;
  const int nx = std::min(steps, static_cast<int>(span_x / 0.7) + 1);
  const int ny = std::min(steps, static_cast<int>(span_y / 0.7) + 1);
  double best = 1e300;
  for (int iy = 0; iy <= ny; ++iy)
    for (int ix = 0; ix <= nx; ++ix) {
      const double from_left = span_x * ix / nx, from_top = span_y * iy / ny;
      // A narrow box wants its text in the middle, a wide one near the corner but not in it.
      const double cost = std::abs(from_left - std::min(span_x / 2, 1.2)) +
                          std::abs(from_top - std::min(span_y / 2, 1.0));
      if (cost >= best) continue;
      const double left = box.left_mm + clearance_mm + from_left;
      const double top = box.top_mm + clearance_mm + from_top;
      const Rect here{left, top, left + size.x_mm, top + size.y_mm};
      const auto taken = [&](const Rect& other) { return overlap(here, other); };
      if (std::ranges::any_of(not_in, taken) || !is_free(here)) continue;
      best = cost;
      out = here;
    }
  return best < 1e300;
}

bool Placer::is_free(const Leader& leader) const {
  Rect stands = leader.text;
  stands.bottom_mm = leader.shelf.from.y_mm + 0.3;  // nor may the shelf seem to be an edge's double
  if (!is_free(stands)) return false;
  const auto free_line = [&](const Segment& line) {
    return std::ranges::none_of(
               texts_,
               [&](const Rect& text) { return crosses(line, grown(text, clearance_mm / 2)); }) &&
           std::ranges::none_of(barriers_,
                                [&](const Segment& other) { return crosses(line, other); });
  };
  return free_line(leader.line) && free_line(leader.shelf);
}

bool Placer::beside(Point anchor, Point size, double reach_mm, Leader& out) const {
  // Oblique, so that a leader is never taken for an outline or a dimension line.
  constexpr std::array angles_deg = {-60.0, 60.0,  -45.0, 45.0,  -30.0, 30.0,  -75.0, 75.0,  -52.0,
                                     52.0,  -68.0, 68.0,  -37.0, 37.0,  -20.0, 20.0,  -83.0, 83.0};
  for (double length = 3.0; length <= reach_mm; length += 1.0)
    for (const double angle : angles_deg) {
      const double along = angle * std::numbers::pi / 180.0;
      for (const bool right : {true, false}) {
        const Point elbow{anchor.x_mm + (right ? length : -length) * std::cos(along),
                          anchor.y_mm + length * std::sin(along)};
        // The shelf leads on; from a steep one it may turn back, when the text stands
        // over the leader and not under it.
        for (const bool turns : {false, true}) {
          if (turns && angle > -60.0) continue;
          const bool to_right = right != turns;
          const double left = to_right ? elbow.x_mm : elbow.x_mm - size.x_mm;
          Leader here{{anchor, elbow},
                      {elbow, {to_right ? left + size.x_mm : left, elbow.y_mm}},
                      {left, elbow.y_mm - size.y_mm, left + size.x_mm, elbow.y_mm - 0.25}};
          if (!is_free(here)) continue;
          out = here;
          return true;
        }
      }
    }
  return false;
}

void Placer::take(const Leader& leader) {
  keep_clear(leader.line);
  keep_clear(leader.shelf);
  keep_clear(leader.text);
}

}  // namespace rigproof::sheet
