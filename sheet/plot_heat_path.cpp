// The heat path drawn to scale: every band as wide as its watts, the scale stated as a bar.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

#include "base/text.hpp"
#include "sheet/heat_layout.hpp"
#include "sheet/physics_words.hpp"

namespace rigproof::sheet {
namespace {

std::string curve(PlotPoint from, PlotPoint to) {
  const double middle = (from.x_px + to.x_px) / 2;
  return "C" + plot_point({middle, from.y_px}) + " " + plot_point({middle, to.y_px}) + " " +
         plot_point(to);
}

// One edge of a flow through all its pieces, `below` its upper one.
std::vector<PlotPoint> edge_of(const HeatLayout& layout, std::span<const HeatBand> pieces,
                               double below_px) {
  std::vector<PlotPoint> out;
  for (const HeatBand& piece : pieces) {
    const HeatNode& from = layout.nodes[piece.from];
    out.push_back({from.left_px + heat_bar_px, piece.from_px + below_px});
    out.push_back({layout.nodes[piece.to].left_px, piece.to_px + below_px});
  }
  return out;
}

// Curves from column to column, straight past the bars.
std::string data_of(std::span<const PlotPoint> edge) {
  std::string out;
  for (std::size_t i = 1; i < edge.size(); ++i)
    out += i % 2 == 1 ? curve(edge[i - 1], edge[i]) : "L" + plot_point(edge[i]);
  return out;
}

// Width is measured upright everywhere: both edges are the same line, one moved down.
void put_band(PlotPaper& paper, const HeatLayout& layout, std::span<const HeatBand> pieces) {
  const double width = pieces.front().watts * layout.px_per_w;
  const std::vector<PlotPoint> upper = edge_of(layout, pieces, 0.0);
  std::vector<PlotPoint> lower = edge_of(layout, pieces, width);
  const std::string above = "M" + plot_point(upper.front()) + data_of(upper);
  const std::string below = "M" + plot_point(lower.front()) + data_of(lower);
  std::ranges::reverse(lower);
  paper.path("fb", above + "L" + plot_point(lower.front()) + data_of(lower) + "Z");
  paper.path("fe", above + below);
}

void put_bar(PlotPaper& paper, const HeatPlace& place, const HeatNode& node, double px_per_w) {
  const double right = node.left_px + heat_bar_px;
  const double bottom = node.top_px + node.through_w() * px_per_w;
  const PlotBox bar{node.left_px, node.top_px, right, bottom};
  switch (place.kind) {
    case HeatPlace::Kind::source:
      return paper.box("fs", bar);
    case HeatPlace::Kind::body:
      return paper.box("fo", bar);
    case HeatPlace::Kind::room:
      return paper.box("fr", bar);
    case HeatPlace::Kind::outside: {
      const std::array tip = {PlotPoint{node.left_px, bar.top_px}, PlotPoint{node.left_px, bottom},
                              PlotPoint{right + 8.0, (bar.top_px + bottom) / 2}};
      return paper.outline("fo", tip, true);
    }
  }
}

// What does not add up is hatched at the foot of the bar.
void put_rest(PlotPaper& paper, const HeatPlace& place, const HeatNode& node, double px_per_w) {
  const double rest = unaccounted_w(place, node) * px_per_w;
  if (rest <= 0.0) return;
  const double bottom = node.top_px + node.through_w() * px_per_w;
  paper.box("hb tt", {node.left_px, bottom - rest, node.left_px + heat_bar_px, bottom});
}

void put_label(PlotPaper& paper, const HeatNode& node) {
  const double text_px = paper.form().text_px;
  double base = node.top_px - node.label_px + text_px;
  for (std::size_t i = 0; i < node.label.size(); ++i) {
    const bool number = i + 1 == node.label.size();
    paper.text({.at = {node.left_px, base}, .kind = number ? "st" : "lm"}, node.label[i]);
    base += 1.2 * text_px;
  }
}

double scale_watts(double px_per_w) { return round_step(26.0 / px_per_w); }

// The scale: an upright dimension as long as a band of so many watts is wide.
double put_scale(PlotPaper& paper, double px_per_w, double top_px) {
  const double watts = scale_watts(px_per_w), length = watts * px_per_w;
  const double text_px = paper.form().text_px;
  for (const double y : {top_px, top_px + length}) paper.line("dl", {0.0, y}, {14.0, y});
  paper.dimension("", {7.0, top_px}, {7.0, top_px + length});
  paper.text({.at = {20.0, top_px + length / 2 + paper.drop_px()}, .kind = "lm"},
             fmt::format("{} W; all bands to this scale", readable(watts)));
  return top_px + std::max(length, text_px) + 2.0;
}

std::string rest_words(const HeatPath& path, const HeatLayout& layout) {
  double rest = 0.0;
  for (const HeatNode& node : layout.nodes) rest += unaccounted_w(path.places[node.place], node);
  return rest > 0.0 ? fmt::format("hatched: {} W do not add up", readable(rest)) : std::string{};
}

}  // namespace

Plot heat_path_plot(const HeatPath& path, const PlotForm& form) {
  const HeatLayout layout = heat_layout(path, form);
  if (!layout.why_not.empty()) return {{}, layout.why_not};
  PlotPaper paper(form);
  const std::span<const HeatBand> bands = layout.bands;
  for (std::size_t i = 0; i < bands.size();) {  // the pieces of a flow follow one another
    std::size_t end = i + 1;
    while (end < bands.size() && bands[end].flow == bands[i].flow) ++end;
    put_band(paper, layout, bands.subspan(i, end - i));
    i = end;
  }
  for (const HeatNode& node : layout.nodes) {
    if (node.passing || node.column >= layout.columns) continue;
    put_bar(paper, path.places[node.place], node, layout.px_per_w);
    put_rest(paper, path.places[node.place], node, layout.px_per_w);
    put_label(paper, node);
  }
  double bottom = put_scale(paper, layout.px_per_w, layout.height_px + 16.0);
  std::string says = heat_path_words(path);
  if (const std::string rest = rest_words(path, layout); !rest.empty()) {
    paper.text({.at = {0.0, bottom + form.text_px}, .kind = "tx"}, rest);
    bottom += 1.5 * form.text_px;
    says += " In the picture " + rest + ".";
  }
  return {paper.svg(bottom + 2.0, "Where the heat goes", says), {}};
}

}  // namespace rigproof::sheet
