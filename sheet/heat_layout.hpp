// Where the places and flows of a heat path lie on paper: columns from the sources to the outside,
// bands as wide as their watts by one scale. Pure geometry, in pixels; drawn by plot_heat_path.cpp.
#pragma once

#include <string>
#include <vector>

#include "sheet/plot_axes.hpp"

namespace rigproof::sheet {

/// A place on paper, or a point where a flow that spans several columns passes one.
struct HeatNode {
  std::size_t place = 0;  ///< index into the path; of a passing point that of where it comes from
  bool passing = false;
  std::size_t column = 0;
  double in_w = 0.0, out_w = 0.0;
  double left_px = 0.0, top_px = 0.0;  ///< of its bar
  double label_px = 0.0;               ///< room over the bar for its label
  std::vector<std::string> label;      ///< lines
  [[nodiscard]] double through_w() const { return in_w > out_w ? in_w : out_w; }
};

/// A flow, or its piece from one column to the next.
struct HeatBand {
  std::size_t flow = 0;          ///< index into the path
  std::size_t from = 0, to = 0;  ///< nodes
  double watts = 0.0;
  double from_px = 0.0, to_px = 0.0;  ///< its upper edge at both ends
};

struct HeatLayout {
  std::string why_not;  ///< a sentence when it cannot be laid out; then nothing else is set
  std::vector<HeatNode> nodes;
  std::vector<HeatBand> bands;
  std::size_t columns = 0;
  double pitch_px = 0.0;  ///< from column to column
  double px_per_w = 1.0;
  double height_px = 0.0;
};

inline constexpr double heat_bar_px = 11.0;  ///< width of a place's bar

[[nodiscard]] HeatLayout heat_layout(const HeatPath& path, const PlotForm& form);

/// Watts a body or a room takes up but does not give off, or the other way round; 0 within half a
/// per cent, and of sources and the outside.
[[nodiscard]] double unaccounted_w(const HeatPlace& place, const HeatNode& node);

}  // namespace rigproof::sheet
