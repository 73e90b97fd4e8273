// The instruments of the sheet as inline SVG: margin bars and frame-time bars, 320 units wide, all
// drawn in the line kinds of the key. Colour repeats what the line says, never says it alone.
#pragma once

#include "sheet/html_writer.hpp"

namespace rigproof::sheet {

inline constexpr int bar_width = 320;
inline constexpr int bar_height = 36;

/// The shared scale above the margin bars, with its per cents.
void put_margin_scale(HtmlPage& page);
/// One margin bar. What lies outside the scale ends in an arrow with its number.
void put_margin_bar(HtmlPage& page, const Claim& claim);

/// The shared scale of frame times: 0 to `span_ms`, a mark every `step_ms`.
struct TimeScale {
  double span_ms = 20.0;
  double step_ms = 5.0;
};
[[nodiscard]] TimeScale time_scale(const std::vector<TitleLine>& titles);
void put_time_scale(HtmlPage& page, const TimeScale& scale);
void put_time_bar(HtmlPage& page, const TitleLine& title, const TimeScale& scale);

/// Patterns and strokes used by all drawings; once a page.
void put_drawing_defs(HtmlPage& page);
/// The key: each mark with its words.
void put_key(HtmlPage& page);

}  // namespace rigproof::sheet
