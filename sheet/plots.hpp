// Pictures of air and power as inline SVG: heat drawn to scale, temperatures over time,
// temperatures and noise against the fans' speed, and load against what the supply allows.
//
// Lengths in the SVG are pixels of the page. The same numbers give the same bytes. Every text is
// cleaned and escaped. Colors are those of the page (style/plots.css, class `pl`): ink for what is,
// hatching for what is uncertain, the accent for what is over its limit, which the words say too.
#pragma once

#include <string>

#include "sheet/physics.hpp"

namespace rigproof::sheet {

struct PlotForm {
  double width_px = 600.0;  ///< of the view box, >= 280
  double text_px = 13.5;
  bool names = true;  ///< names stand beside the lines; else only their letters do
  std::string id_prefix = "plot";
};
/// For a column of 500 px and more.
[[nodiscard]] PlotForm wide_plot();
/// For a phone's column: shown 316 px wide, its text is 12.8 px.
[[nodiscard]] PlotForm slim_plot();

/// Exactly one of both is empty.
struct Plot {
  std::string svg;
  std::string why_not;  ///< a sentence: what keeps the picture from being drawn
};

/// Bands as wide as their watts, all by one scale, which the scale bar states; sources at the left,
/// what leaves the case at the right. What a place gives off more or less than it takes up is
/// hatched and said.
[[nodiscard]] Plot heat_path_plot(const HeatPath& path, const PlotForm& form);
/// Temperatures, the times at which they settle, and noise, over one axis of time.
[[nodiscard]] Plot warming_plot(const Warming& warming, const PlotForm& form);
/// Temperatures and noise over one axis of speed; intervals hatched, the chosen speed marked.
[[nodiscard]] Plot speed_plot(const SpeedSweep& sweep, const PlotForm& form);
/// One row for each window: load, its interval hatched, and what is allowed.
[[nodiscard]] Plot windows_plot(const SupplyWindows& supply, const PlotForm& form);

}  // namespace rigproof::sheet
