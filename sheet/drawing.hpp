// Drawings of a build in its case as SVG, in the line kinds of technical drawing (ISO 128, ISO
// 129-1): thick line a thing, thin line a dimension, dashed what is hidden or of unknown place,
// hatching the gaps to watch. One view for a page, or three views on a framed sheet.
//
// Lengths in the SVG are millimetres of paper. The same scene gives the same bytes. Every text is
// cleaned and escaped. Inside our pages the lines take the page's colors (style/sheet.css, class
// `dr`); a file of its own carries its style with light, dark and print in it.
#pragma once

#include <string>

#include "analysis/fit/scene.hpp"

namespace rigproof::sheet {

enum class View {
  side,  ///< section along the tray, side panel off: rear at the left
  top,   ///< from above: rear at the left, side panel at the bottom
  front  ///< from the front: side panel at the left
};

struct DrawingForm {
  double width_mm = 180.0;         ///< of paper, > 40
  double text_mm = 3.2;            ///< em of all text, > 0
  bool standalone = false;         ///< a file of its own, with style and paper
  std::string id_prefix = "draw";  ///< of the ids of title and description; a plain word
};

/// For an A4 page: 180 mm, text of 3.2 mm.
[[nodiscard]] DrawingForm page_form();
/// For a phone's column: shown 340 px wide, its text is 11.9 px.
[[nodiscard]] DrawingForm narrow_form();

/// In: every number of the scene is finite.
[[nodiscard]] std::string side_section_svg(const fit::Scene& scene, const DrawingForm& form);
[[nodiscard]] std::string top_view_svg(const fit::Scene& scene, const DrawingForm& form);
[[nodiscard]] std::string front_view_svg(const fit::Scene& scene, const DrawingForm& form);

/// Three views in third angle projection on A3 with frame (ISO 5457) and title block (ISO 7200), as
/// a file of its own. Each number stands once.
[[nodiscard]] std::string drawing_sheet_svg(const fit::Scene& scene);

/// The scene with those gaps only that a reader looks for: all that do not hold, all with at most a
/// quarter of their limit left, and the three nearest to failing in any case.
[[nodiscard]] fit::Scene with_near_gaps(fit::Scene scene);

/// `1:5`: the largest scale of ISO 5455 (and 1:2.5), down from 1:1, at which this fits.
struct DrawingScale {
  double paper_per_mm = 1.0;
  std::string words = "1:1";
};
[[nodiscard]] DrawingScale drawing_scale(double needed_ratio);

}  // namespace rigproof::sheet
