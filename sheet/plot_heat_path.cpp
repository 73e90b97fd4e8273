// The heat path drawn to scale: every band as wide as its watts, the scale stated as a bar.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "sheet/heat_layout.hpp"
#include "sheet/physics_words.hpp"

namespace rigproof::sheet {
namespace {

// Width is measured upright everywhere, so both edges are the same curve, one moved down.
void put_band(PlotPaper& paper, const HeatLayout& layout, const HeatBand& band) {
  const HeatNode& from = layout.nodes[band.from];
  const HeatNode& to = layout.nodes[band.to];
  const double left = from.left_px + (from.passing ? 0.0 : heat_bar_px), right = to.left_px;
  const double middle = (left + right) / 2, width = band.watts * layout.px_per_w;
  const auto curve = [](PlotPoint a, PlotPoint b, PlotPoint c) {
    return "C" + plot_point(a) + " " + plot_point(b) + " " + plot_point(c);
  };
  const std::string upper =
      "M" + plot_point({left, band.from_px}) +
      curve({middle, band.from_px}, {middle, band.to_px}, {right, band.to_px});
  const double from_low = band.from_px + width, to_low = band.to_px + width;
  paper.path("fb", upper + "L" + plot_point({right, to_low}) +
                       curve({middle, to_low}, {middle, from_low}, {left, from_low}) + "Z");
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

void put_label(PlotPaper& paper, const HeatNode& node, const HeatLayout& layout) {
  const double text_px = paper.form().text_px;
  TextEnd anchor = TextEnd::middle;
  double x = node.left_px + heat_bar_px / 2;
  if (node.column == 0) anchor = TextEnd::start, x = node.left_px;
  if (node.column + 1 == layout.columns) anchor = TextEnd::end, x = paper.form().width_px - 1.0;
  double base = node.top_px - node.label_px + text_px;
  for (std::size_t i = 0; i < node.label.size(); ++i) {
    const bool number = i + 1 == node.label.size();
    paper.text({.at = {x, base}, .anchor = anchor, .kind = number ? "st" : "lm"}, node.label[i]);
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
  for (const HeatBand& band : layout.bands) put_band(paper, layout, band);
  for (const HeatNode& node : layout.nodes) {
    if (node.passing || node.column >= layout.columns) continue;
    put_bar(paper, path.places[node.place], node, layout.px_per_w);
    put_rest(paper, path.places[node.place], node, layout.px_per_w);
    put_label(paper, node, layout);
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
