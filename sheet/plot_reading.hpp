// For tests: a plot's SVG read back from what is written: its paths by class, its texts with their
// places, and its axes from the labels of their ticks.
#pragma once

#include <string>
#include <vector>

namespace rigproof::sheet {

struct ReadPoint {
  double x = 0.0, y = 0.0;
};
struct ReadPath {
  std::string kind;
  std::vector<ReadPoint> points;  ///< control points too
};
struct ReadWords {
  std::string text, kind;
  ReadPoint at;
  std::string anchor;
  bool upright = false;
};

struct ReadPlot {
  double width = 0.0, height = 0.0, em = 0.0;
  std::vector<ReadPath> paths;
  std::vector<ReadWords> words;

  explicit ReadPlot(const std::string& svg);
  [[nodiscard]] std::vector<ReadPath> of(const std::string& kind) const;
  [[nodiscard]] const ReadWords* says(const std::string& start) const;
  [[nodiscard]] double wide(const ReadWords& each) const;
  [[nodiscard]] double left(const ReadWords& each) const;

  /// Slope and start of an axis, from the first and the last of its ticks; ticks at the left are
  /// those that end at one x, ticks below those that stand in the middle of one y.
  struct Line {
    double at_zero = 0.0, per_unit = 0.0;
    std::vector<double> ticks;
    [[nodiscard]] double px(double value) const { return at_zero + per_unit * value; }
  };
  [[nodiscard]] Line y_axis(double top, double bottom) const;
  [[nodiscard]] Line x_axis() const;

 private:
  void read_paths(const std::string& svg);
  void read_words(const std::string& svg);
};

/// Well formed, every coordinate a number on the paper, every text on it too: a letter of the
/// page's narrow face takes two fifths of an em, on the small side so that only real faults show.
void expect_sound(const std::string& svg, const std::string& what);
/// No level text lies on another, letters taken as above.
void expect_texts_apart(const std::string& svg, const std::string& what);

}  // namespace rigproof::sheet
