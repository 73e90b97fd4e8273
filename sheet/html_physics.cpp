// The section of air and power: each picture in two forms, of which the page's style shows one, and
// its numbers as a table under it. A picture that cannot be drawn is a sentence.
#include <fmt/format.h>

#include "sheet/html_pieces.hpp"
#include "sheet/physics_words.hpp"
#include "sheet/plots.hpp"

namespace rigproof::sheet {
namespace {

// The hatchings of the four intervals that may lie over one another.
void put_hatches(HtmlPage& page) {
  page.out += "<svg class=\"defs\" aria-hidden=\"true\" focusable=\"false\"><defs>";
  const auto hatch = [&](char name, int degrees) {
    page.out += fmt::format(
        "<pattern id=\"plot-{}\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" "
        "patternTransform=\"rotate({})\"><path d=\"M0 0V5\" stroke=\"var(--soft)\" "
        "stroke-width=\"1.1\"/></pattern>",
        name, degrees);
  };
  hatch('a', 45), hatch('c', -45), hatch('e', 0), hatch('g', 90);
  page.out += "</defs></svg>\n";
}

// A number and its unit stay on one line; its interval may stand under it.
std::string unbroken(std::string text) {
  for (std::size_t at = text.find(' '); at < text.find('('); at = text.find(' ', at + 2))
    if (text.substr(at + 1, 1) != "(") text.replace(at, 1, "\u00A0");
  return text;
}

void put_table(HtmlPage& page, const PlotTable& table, std::string_view name) {
  std::string& out = page.out;
  out +=
      fmt::format("<table class=\"numbers\"><caption class=\"away\">{}</caption><thead><tr>", name);
  for (const std::string& cell : table.head)
    out += cell.empty() ? std::string("<td></td>")
                        : fmt::format("<th scope=\"col\">{}</th>", isolated(cell));
  out += "</tr></thead><tbody>\n";
  for (const auto& row : table.rows) {
    out += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i)
      out += fmt::format("{}{}{}", i == 0 ? "<th scope=\"row\">" : "<td>",
                         isolated(i == 0 || table.words ? row[i] : unbroken(row[i])),
                         i == 0 ? "</th>" : "</td>");
    out += "</tr>\n";
  }
  out += "</tbody></table>\n";
}

/// One picture with all that belongs to it.
struct Shown {
  std::string_view id, name;
  std::string note;   ///< what it holds for
  std::string words;  ///< said aloud by the picture; stands as text where there is none
  PlotTable table;
  bool folded = false;  ///< the table is long, and the picture says the same
  const std::vector<std::string>* notes = nullptr;
};

template <class Draw>
void put_shown(HtmlPage& page, const Shown& shown, const Draw& draw) {
  std::string& out = page.out;
  out += fmt::format("<figure class=\"plot\"><figcaption><h3>{}</h3>", shown.name);
  if (!shown.note.empty()) out += fmt::format("<p class=\"small\">{}</p>", isolated(shown.note));
  out += "</figcaption>\n";
  PlotForm wide = wide_plot(), slim = slim_plot();
  wide.id_prefix = fmt::format("{}-wide", shown.id);
  slim.id_prefix = fmt::format("{}-slim", shown.id);
  const Plot plot = draw(wide);
  if (!plot.why_not.empty()) {
    out += fmt::format("<p>No picture: {}</p>\n<p class=\"said\">{}</p>\n", plot.why_not,
                       isolated(shown.words));
  } else {
    out += fmt::format("<div class=\"pic wide\">{}</div>\n<div class=\"pic slim\">{}</div>\n",
                       plot.svg, draw(slim).svg);
  }
  if (shown.folded) out += "<details><summary>All flows as a table</summary>\n";
  if (!shown.table.rows.empty()) put_table(page, shown.table, shown.name);
  if (shown.folded) out += "</details>\n";
  if (shown.notes != nullptr)
    for (const std::string& note : *shown.notes)
      out += fmt::format("<p class=\"small said\">{}</p>\n", isolated(note));
  out += "</figure>\n";
}

std::string of_load(const std::string& load) {
  return load.empty() ? std::string{} : "load: " + load;
}

void put_heat_path(HtmlPage& page, const HeatPath& path) {
  const std::string conditions = conditions_words(path);
  put_shown(page,
            {.id = "heat-path",
             .name = "Where the heat goes",
             .note = path.load.empty() ? conditions : of_load(path.load) + "; " + conditions,
             .words = heat_path_words(path),
             .table = heat_path_table(path),
             .folded = true},
            [&](const PlotForm& form) { return heat_path_plot(path, form); });
}

void put_warming(HtmlPage& page, const Warming& warming) {
  put_shown(page,
            {.id = "warming",
             .name = "How it warms up",
             .note = of_load(warming.load),
             .words = warming_words(warming),
             .table = warming_table(warming),
             .notes = &warming.notes},
            [&](const PlotForm& form) { return warming_plot(warming, form); });
}

void put_speed(HtmlPage& page, const SpeedSweep& sweep) {
  const std::string load = of_load(sweep.load);
  put_shown(page,
            {.id = "speed",
             .name = "What the fans' speed buys",
             .note = load + (load.empty() ? "" : "; ") + "hatched: 90 % interval",
             .words = speed_words(sweep),
             .table = speed_table(sweep),
             .notes = &sweep.notes},
            [&](const PlotForm& form) { return speed_plot(sweep, form); });
}

void put_windows(HtmlPage& page, const SupplyWindows& supply) {
  put_shown(page,
            {.id = "windows",
             .name = "Load against the supply's limits",
             .note = supply.supply + (supply.supply.empty() ? "" : "; ") +
                     "hatched: 90 % interval; upright: what the supply allows",
             .words = windows_words(supply),
             .table = windows_table(supply)},
            [&](const PlotForm& form) { return windows_plot(supply, form); });
}

}  // namespace

void put_physics(HtmlPage& page, const Sheet& sheet) {
  if (!sheet.physics) return;
  const Physics& physics = *sheet.physics;
  if (!physics.heat_path && !physics.warming && !physics.speed_sweep && !physics.supply_windows)
    return;
  begin_section(page, "physics", "Air and power", "computed, not measured");
  put_hatches(page);
  page.out += "<div class=\"plots\">\n";
  if (physics.heat_path) put_heat_path(page, *physics.heat_path);
  if (physics.warming) put_warming(page, *physics.warming);
  if (physics.speed_sweep) put_speed(page, *physics.speed_sweep);
  if (physics.supply_windows) put_windows(page, *physics.supply_windows);
  page.out += "</div>\n";
  end_section(page);
}

}  // namespace rigproof::sheet
