# sheet_assets(OUT): style/sheet.css, style/drawing.css, style/plots.css and the woff2 files of font/ as bytes, in one source
# file; see assets.hpp. Made again at configure time when one of them changes.
function(sheet_bytes FILE OUT)
  file(READ ${FILE} hex HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${hex}")
  string(REGEX REPLACE "(................................................................................)" "\\1\n  " bytes "${bytes}")
  set(${OUT} "${bytes}" PARENT_SCOPE)
endfunction()

function(sheet_assets OUT)
  set(style ${CMAKE_CURRENT_SOURCE_DIR}/style/sheet.css)
  set(drawing ${CMAKE_CURRENT_SOURCE_DIR}/style/drawing.css)
  set(plots ${CMAKE_CURRENT_SOURCE_DIR}/style/plots.css)
  set(regular ${CMAKE_CURRENT_SOURCE_DIR}/font/narrow-400.woff2)
  set(strong ${CMAKE_CURRENT_SOURCE_DIR}/font/narrow-600.woff2)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${style} ${drawing} ${plots} ${regular} ${strong})
  sheet_bytes(${style} style_bytes)
  sheet_bytes(${drawing} drawing_bytes)
  sheet_bytes(${plots} plots_bytes)
  sheet_bytes(${regular} regular_bytes)
  sheet_bytes(${strong} strong_bytes)
  file(CONFIGURE OUTPUT ${OUT} @ONLY CONTENT [[
#include "sheet/assets.hpp"

namespace rigproof::sheet {
namespace {

constexpr unsigned char style_bytes[] = {
  @style_bytes@
};
constexpr unsigned char drawing_bytes[] = {
  @drawing_bytes@
};
constexpr unsigned char plots_bytes[] = {
  @plots_bytes@
};
constexpr unsigned char regular_bytes[] = {
  @regular_bytes@
};
constexpr unsigned char strong_bytes[] = {
  @strong_bytes@
};

}  // namespace

std::span<const unsigned char> style_asset() { return style_bytes; }
std::span<const unsigned char> drawing_style_asset() { return drawing_bytes; }
std::span<const unsigned char> plots_style_asset() { return plots_bytes; }
std::span<const unsigned char> regular_font_asset() { return regular_bytes; }
std::span<const unsigned char> strong_font_asset() { return strong_bytes; }

}  // namespace rigproof::sheet
]])
endfunction()
