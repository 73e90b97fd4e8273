// The files that are compiled into the page: made by assets.cmake from style/ and font/.
#pragma once

#include <span>

namespace rigproof::sheet {

[[nodiscard]] std::span<const unsigned char> style_asset();
/// The line kinds of drawings, class `dr`: in the page, and in drawings that are files of their
/// own.
[[nodiscard]] std::span<const unsigned char> drawing_style_asset();
/// The line kinds of the plots of air and power, class `pl`, and their place on the page.
[[nodiscard]] std::span<const unsigned char> plots_style_asset();
/// woff2, weights 400 and 600 of one narrow face, its Latin subset; licence in font/OFL.txt.
[[nodiscard]] std::span<const unsigned char> regular_font_asset();
[[nodiscard]] std::span<const unsigned char> strong_font_asset();

}  // namespace rigproof::sheet
