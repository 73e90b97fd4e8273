// The pieces of the HTML sheet, one source file each; html.cpp puts them together.
#pragma once

#include "sheet/html_writer.hpp"

namespace rigproof::sheet {

/// One framed sheet of the set, with zone marks; the title block closes it.
struct FrameOf {
  int number = 1, of = 3;
  std::string_view name;  ///< "Build and claims"
  bool with_key = false;  ///< the key of the drawings beside the title block
};
void begin_frame(HtmlPage& page, const FrameOf& frame);
void end_frame(HtmlPage& page, const Sheet& sheet, const FrameOf& frame);

void put_wrong(HtmlPage& page, const Sheet& sheet);        ///< html_plain.cpp
void put_against(HtmlPage& page, const Sheet& sheet);      ///< html_plain.cpp
void put_cautions(HtmlPage& page, const Sheet& sheet);     ///< html_plain.cpp
void put_disclosures(HtmlPage& page, const Sheet& sheet);  ///< html_plain.cpp
void put_claims(HtmlPage& page, const Sheet& sheet);       ///< html_claims.cpp
void put_working(HtmlPage& page, const Claim& claim);      ///< html_working.cpp
void put_parts(HtmlPage& page, const Sheet& sheet);        ///< html_parts.cpp
void put_drawing(HtmlPage& page, const Sheet& sheet);      ///< html_drawing.cpp
void put_titles(HtmlPage& page, const Sheet& sheet);       ///< html_titles.cpp
void put_physics(HtmlPage& page, const Sheet& sheet);      ///< html_physics.cpp
void put_prices(HtmlPage& page, const Sheet& sheet);       ///< html_prices.cpp
void put_proof(HtmlPage& page, const Sheet& sheet);        ///< html_grounds.cpp
void put_look_up(HtmlPage& page, const Sheet& sheet);      ///< html_grounds.cpp
void put_notes(HtmlPage& page, const Sheet& sheet);        ///< html_grounds.cpp
void put_sources(HtmlPage& page, const Sheet& sheet);      ///< html_grounds.cpp

}  // namespace rigproof::sheet
