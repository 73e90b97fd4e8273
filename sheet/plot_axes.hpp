// The ground the plots stand on: axes with ticks at round numbers, the paper they are drawn on, and
// room for labels beside lines. Lengths are pixels of the view box; y runs down.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/plots.hpp"

namespace rigproof::sheet {

struct PlotPoint {
  double x_px = 0.0, y_px = 0.0;
};
struct PlotBox {
  double left_px = 0.0, top_px = 0.0, right_px = 0.0, bottom_px = 0.0;
};

/// The smallest of 1, 2, 5 times a power of ten that is at least this. In: > 0, finite.
[[nodiscard]] double round_step(double at_least);

struct PlotAxis {
  double from = 0.0, to = 1.0;        ///< values at its ends, from < to
  double from_px = 0.0, to_px = 1.0;  ///< where they lie; to_px may be the smaller one
  double step = 1.0;                  ///< between ticks, a round number
  [[nodiscard]] double px(double value) const;
  /// The multiples of the step from end to end.
  [[nodiscard]] std::vector<double> ticks() const;
  /// `20`, `0.5`, `-5`: with the decimals the step needs.
  [[nodiscard]] std::string label(double tick) const;
};
/// An axis that covers both values, from a tick to a tick about `tick_px` apart or more; where both
/// are the same, something around them. In: low <= high, finite.
[[nodiscard]] PlotAxis axis_over(double low, double high, double from_px, double to_px,
                                 double tick_px);
/// The same from value to value, ticks where they fall.
[[nodiscard]] PlotAxis axis_within(double low, double high, double from_px, double to_px,
                                   double tick_px);

/// As many numbers as there are points, each finite and within the bound either way.
[[nodiscard]] bool drawable(std::span<const double> values, std::size_t points, double bound);
/// The same, and each greater than the one before; two or more.
[[nodiscard]] bool drawable_axis(std::span<const double> values, double bound);

/// The line through the points of two axes, thinned to what pixels can show: of each half pixel
/// across the first, the least, the greatest and the last. In: both drawable.
[[nodiscard]] std::vector<PlotPoint> curve_points(std::span<const double> xs,
                                                  std::span<const double> ys, const PlotAxis& x,
                                                  const PlotAxis& y);

/// Starts of blocks of these sizes, in the order given, as near to where they want to be as can be
/// with `gap` between them and all between low and high (least squares). In: what is wanted rises.
[[nodiscard]] std::vector<double> spread_out(std::span<const double> wanted,
                                             std::span<const double> sizes, double gap, double low,
                                             double high);

/// Width of a text in the page's own narrow face, which comes with the page; on the safe side.
[[nodiscard]] double plot_text_width(std::string_view text, double text_px);
/// Cleaned, and cut with an ellipsis to what fits; empty when not even a letter does.
[[nodiscard]] std::string fitting(std::string_view text, double text_px, double width_px);

enum class TextEnd { start, middle, end };
struct PlotText {
  PlotPoint at;  ///< on the base line
  TextEnd anchor = TextEnd::start;
  std::string_view kind = {};  ///< class
  bool upright = false;        ///< turned to be read from the right
};

/// What is drawn so far. Kinds are classes of style/plots.css.
class PlotPaper {
 public:
  explicit PlotPaper(const PlotForm& form) : form_(form) {}

  void line(std::string_view kind, PlotPoint from, PlotPoint to);
  void outline(std::string_view kind, std::span<const PlotPoint> points, bool closed = false);
  void box(std::string_view kind, const PlotBox& box);
  void text(const PlotText& how, std::string_view text);
  /// As SVG path data: absolute commands only.
  void path(std::string_view kind, std::string_view data);
  /// A dimension line (ISO 129-1): arrowheads at both ends; from outside when it is too short.
  void dimension(std::string_view kind, PlotPoint from, PlotPoint to);
  /// An arrowhead at a point; `along`: unit vector in which it points.
  void tip(std::string_view kind, PlotPoint at, PlotPoint along);

  /// The picture with its title and description.
  [[nodiscard]] std::string svg(double height_px, std::string_view title,
                                std::string_view description) const;
  [[nodiscard]] const PlotForm& form() const { return form_; }
  /// From a line's middle to the base line of text beside it.
  [[nodiscard]] double drop_px() const { return 0.35 * form_.text_px; }

 private:
  PlotForm form_;
  std::string out_;
};

/// `12 34.5`: a point as it is written.
[[nodiscard]] std::string plot_point(PlotPoint at);

}  // namespace rigproof::sheet
