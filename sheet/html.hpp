// The sheet as one HTML file that needs nothing else: style, type, drawings and working inside.
#pragma once

#include <string>
#include <string_view>

#include "sheet/model.hpp"

namespace rigproof::sheet {

/// A drawing sheet: frame with zone marks, claims nearest to failing first with margin bars, parts
/// by where they are mounted, frame time, prices, cautions, sources, title block. No script, no
/// request to anywhere. Every text of the model is cleaned and escaped; the same sheet gives the
/// same bytes.
[[nodiscard]] std::string sheet_html(const Sheet& sheet);

/// The same for a frame of a page whose reader chose `light` or `dark`, whatever their system
/// prefers. In: what sheet_html gave, as it was given.
[[nodiscard]] std::string on_paper(std::string html, std::string_view paper);

}  // namespace rigproof::sheet
