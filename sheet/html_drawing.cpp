// The side section on the sheet: twice, since a phone's column needs larger letters beside the same
// lines; the page's style shows one of them.
#include <fmt/format.h>

#include "sheet/drawing.hpp"
#include "sheet/html_pieces.hpp"

namespace rigproof::sheet {

void put_drawing(HtmlPage& page, const Sheet& sheet) {
  if (!sheet.scene || sheet.scene->boxes.empty()) return;
  begin_section(page, "section", "Side section", "dashed: its place or size is in no table");
  const fit::Scene scene = with_near_gaps(*sheet.scene);
  DrawingForm wide = page_form();
  wide.id_prefix = "side";
  DrawingForm slim = narrow_form();
  slim.id_prefix = "side-slim";
  page.out +=
      fmt::format("<figure class=\"drawing wide\">{}</figure>\n", side_section_svg(scene, wide));
  page.out +=
      fmt::format("<figure class=\"drawing slim\">{}</figure>\n", side_section_svg(scene, slim));
  end_section(page);
}

}  // namespace rigproof::sheet
