// A panel of curves over a shared axis: grid, curves with their intervals, limits as walls, and at
// the right the dimension from each curve's end to its limit and the names. Used by the plots of
// warming and of speed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/plot_axes.hpp"

namespace rigproof::sheet {

struct PanelCurve {
  std::string letter, name;  ///< both may be empty
  std::vector<double> middle;
  std::vector<double> low, high;  ///< both empty, or one for each point
  std::optional<double> limit;
  std::optional<double> told;  ///< the value that counts against the limit
};

struct Panel {
  std::string caption;  ///< what and in which unit
  std::vector<PanelCurve> curves;
  double height_px = 200.0;  ///< of the field; grows where the labels need more
  bool ends = true;          ///< the ends are what counts: named with their value and their room
};

/// How the width is shared: tick labels, field, lanes of dimensions, names.
struct PanelColumns {
  double left_px = 36.0, right_px = 0.0;  ///< of the field
  std::size_t lanes = 0;                  ///< between field and names
  double names_px = 0.0;                  ///< where names begin
};
[[nodiscard]] PanelColumns panel_columns(const PlotForm& form, std::span<const Panel> panels);

/// Draws it below `top_px`; the bottom of its field.
struct PanelSpan {
  double top_px = 0.0, bottom_px = 0.0;  ///< of the field
  PlotAxis y;
};
[[nodiscard]] PanelSpan put_panel(PlotPaper& paper, const Panel& panel, const PanelColumns& columns,
                                  std::span<const double> xs, const PlotAxis& x, double top_px);

/// The numbers under the shared axis and its unit; the room they take.
double put_axis_below(PlotPaper& paper, const PlotAxis& x, double top_px, std::string_view unit);

inline constexpr std::size_t most_curves = 8;  ///< more make no picture

}  // namespace rigproof::sheet
