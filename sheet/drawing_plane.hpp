// The paper a drawing is made on: points, lines and rectangles in millimetres of paper (y runs
// down), the room a text takes, and a placer that finds room for labels.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rigproof::sheet {

struct Point {
  double x_mm = 0.0, y_mm = 0.0;
};

struct Rect {
  double left_mm = 0.0, top_mm = 0.0, right_mm = 0.0, bottom_mm = 0.0;
  [[nodiscard]] double width_mm() const { return right_mm - left_mm; }
  [[nodiscard]] double height_mm() const { return bottom_mm - top_mm; }
  [[nodiscard]] Point middle() const {
    return {(left_mm + right_mm) / 2, (top_mm + bottom_mm) / 2};
  }
};

struct Segment {
  Point from, to;
};

[[nodiscard]] Rect grown(const Rect& rect, double by_mm);
/// Share a point other than one on the border.
[[nodiscard]] bool overlap(const Rect& a, const Rect& b);
[[nodiscard]] bool contains(const Rect& outer, const Rect& inner);
/// The line has a point inside the rectangle (Liang and Barsky's clipping, 1984).
[[nodiscard]] bool crosses(const Segment& line, const Rect& rect);
[[nodiscard]] bool crosses(const Segment& a, const Segment& b);
/// The smallest rectangle around both.
[[nodiscard]] Rect around(const Rect& a, const Rect& b);

/// Lines under 45 degrees inside a rectangle, `step_mm` apart; `falling`: the other diagonal.
[[nodiscard]] std::vector<Segment> hatching(const Rect& rect, double step_mm, bool falling);

/// Width of a text set at `em_mm`, on the safe side for any sans-serif face: nobody can know which
/// face the reader's machine has.
[[nodiscard]] double text_width_mm(std::string_view text, double em_mm);
/// Cleaned for people (see clean_text) and cut to `most` code points, with an ellipsis when cut.
[[nodiscard]] std::string short_text(std::string_view text, std::size_t most);
/// The words in lines no wider than `width_mm`; a word that is wider is cut.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, double em_mm,
                                               double width_mm);

/// A label that hangs on a leader: an oblique line from the thing, then a shelf under the text
/// (ISO 128, leader and reference line).
struct Leader {
  Segment line;
  Segment shelf;
  Rect text;  ///< what stands on the shelf
};

/// Remembers what lies on the paper and finds room between it. The order of the calls decides who
/// gets the better place; nothing is random.
class Placer {
 public:
  explicit Placer(const Rect& field) : field_(field) {}

  /// A line no text may touch. Leaders may cross it.
  void keep_off(const Segment& line) { lines_.push_back(line); }
  /// A line that neither text nor leader may touch: a dimension line, another leader.
  void keep_clear(const Segment& line);
  /// A text, or a mark that must stay readable.
  void keep_clear(const Rect& text) { texts_.push_back(text); }

  [[nodiscard]] bool is_free(const Rect& rect) const;
  /// Room for a text of this size inside `box` but in none of `not_in`: the free place nearest to
  /// its upper left corner. True and `out` set when there is one.
  [[nodiscard]] bool inside(const Rect& box, const std::vector<Rect>& not_in, Point size,
                            Rect& out) const;
  /// Room for a text of this size on a leader from `anchor`, the shortest leader first.
  [[nodiscard]] bool beside(Point anchor, Point size, double reach_mm, Leader& out) const;
  /// Enters a leader and its text, so that what comes later keeps off it.
  void take(const Leader& leader);

 private:
  [[nodiscard]] bool is_free(const Leader& leader) const;

  Rect field_;
  std::vector<Segment> lines_;
  std::vector<Segment> barriers_;
  std::vector<Rect> texts_;
};

}  // namespace rigproof::sheet
