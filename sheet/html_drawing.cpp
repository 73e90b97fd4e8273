// The side section on the sheet, and the top view where that shows the tightest gap: each twice,
// since a narrow column needs larger letters beside the same lines; the page's style shows one.
#include <fmt/format.h>

#include <string>

#include "sheet/drawing.hpp"
#include "sheet/html_pieces.hpp"

namespace rigproof::sheet {

namespace {

using Draw = std::string (*)(const fit::Scene&, const DrawingForm&);

void put_view(HtmlPage& page, const fit::Scene& scene, Draw draw, const std::string& name) {
  DrawingForm wide = page_form();
  wide.id_prefix = name;
  DrawingForm slim = narrow_form();
  slim.id_prefix = name + "-slim";
  page.out += fmt::format("<figure class=\"drawing wide\">{}</figure>\n", draw(scene, wide));
  page.out += fmt::format("<figure class=\"drawing slim\">{}</figure>\n", draw(scene, slim));
}

}  // namespace

void put_drawing(HtmlPage& page, const Sheet& sheet) {
  if (!sheet.scene || sheet.scene->boxes.empty()) return;
  begin_section(page, "section", "Side section", "dashed: its place or size is in no table");
  fit::Scene scene = with_near_gaps(*sheet.scene);
  put_view(page, scene, side_section_svg, "side");
  // What is nearest to failing must be seen: across the board it is not, from the side.
  if (!scene.gaps.empty() && scene.gaps.front().axis == fit::Axis::y) {
    scene.notes.clear();  // they stand under the first
    put_view(page, scene, top_view_svg, "top");
  }
  end_section(page);
}

}  // namespace rigproof::sheet
