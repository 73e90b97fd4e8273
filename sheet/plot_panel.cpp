#include "sheet/plot_panel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>

#include "base/text.hpp"

namespace rigproof::sheet {
namespace {

constexpr double lane_px = 20.0;
constexpr std::array<std::string_view, 4> hatches = {"ha", "hc", "he", "hg"};

struct Label {
  double value_px = 0.0;
  std::string text;
  bool over = false;
};

bool is_over(const PanelCurve& curve) {
  return curve.limit && curve.told && *curve.told > *curve.limit;
}

// Contract of the two: it has a limit.
double limit_of(const PanelCurve& curve) { return curve.limit.value_or(0.0); }
double room_of(const PanelCurve& curve) { return std::abs(limit_of(curve) - curve.middle.back()); }

// Curves with a limit, nearest to it first.
std::vector<const PanelCurve*> limited(const Panel& panel) {
  std::vector<const PanelCurve*> out;
  for (const PanelCurve& curve : panel.curves)
    if (panel.ends && curve.limit) out.push_back(&curve);
  std::ranges::stable_sort(out, {}, [](const PanelCurve* curve) { return room_of(*curve); });
  return out;
}

PlotAxis y_axis(const Panel& panel, double top_px, double bottom_px) {
  double low = 1e300, high = -1e300;
  const auto take = [&](double value) {
    low = std::min(low, value);
    high = std::max(high, value);
  };
  for (const PanelCurve& curve : panel.curves) {
    for (const auto* series : {&curve.middle, &curve.low, &curve.high})
      std::ranges::for_each(*series, take);
    if (curve.limit) take(*curve.limit);
  }
  return axis_over(low, high, bottom_px, top_px, 26.0);
}

void put_grid(PlotPaper& paper, const PlotAxis& x, const PlotAxis& y, const PanelColumns& columns) {
  std::string grid;
  for (const double tick : x.ticks())
    grid += "M" + plot_point({x.px(tick), y.from_px}) + "L" + plot_point({x.px(tick), y.to_px});
  for (const double tick : y.ticks())
    grid += "M" + plot_point({columns.left_px, y.px(tick)}) + "L" +
            plot_point({columns.right_px, y.px(tick)});
  paper.path("gr", grid);
  for (const double tick : y.ticks())
    paper.text(
        {.at = {columns.left_px - 6.0, y.px(tick) + paper.drop_px()}, .anchor = TextEnd::end},
        y.label(tick));
  paper.line("ax", {columns.left_px, y.from_px}, {columns.left_px, y.to_px});
  paper.line("ax", {columns.left_px, y.from_px}, {columns.right_px, y.from_px});
}

void put_interval(PlotPaper& paper, const PanelCurve& curve, std::span<const double> xs,
                  const PlotAxis& x, const PlotAxis& y, std::size_t index) {
  if (curve.low.empty()) return;
  std::vector<PlotPoint> points = curve_points(xs, curve.low, x, y);
  const std::vector<PlotPoint> high = curve_points(xs, curve.high, x, y);
  points.insert(points.end(), high.rbegin(), high.rend());
  paper.outline(hatches.at(index % hatches.size()), points, true);
}

// A limit stands like a wall: strokes on the side where nothing may be.
void put_wall(PlotPaper& paper, const PlotAxis& y, const PanelColumns& columns, double limit,
              bool over) {
  const double at_px = y.px(limit);
  std::string strokes;
  for (double left = columns.left_px + 3.0; left + 4.0 <= columns.right_px; left += 9.0)
    strokes += "M" + plot_point({left, at_px}) + "L" + plot_point({left + 4.0, at_px - 4.0});
  paper.path(over ? "wl tt" : "wl", strokes);
  paper.line(over ? "lim tt" : "lim", {columns.left_px, at_px}, {columns.right_px, at_px});
}

std::map<double, std::vector<const PanelCurve*>> walls(const Panel& panel) {
  std::map<double, std::vector<const PanelCurve*>> out;
  for (const PanelCurve& curve : panel.curves)
    if (curve.limit) out[*curve.limit].push_back(&curve);
  return out;
}

std::string curve_label(const PanelCurve& curve, bool with_value, const PlotForm& form,
                        double width_px) {
  std::string out = curve.letter;
  if (with_value) out += (out.empty() ? "" : " ") + readable(curve.middle.back());
  if (!form.names || curve.name.empty()) return out;
  const std::string name =
      fitting(curve.name, form.text_px, width_px - plot_text_width(out + " ", form.text_px));
  return name.empty() ? out : out + " " + name;
}

std::string wall_label(double limit, const std::vector<const PanelCurve*>& whose,
                       const PlotForm& form) {
  std::string letters;
  for (const PanelCurve* curve : whose)
    letters += (letters.empty() || curve->letter.empty() ? "" : ", ") + curve->letter;
  if (!form.names || letters.empty()) return "limit " + readable(limit);
  return fmt::format("limit {} ({})", readable(limit), letters);
}

std::vector<Label> labels_of(const Panel& panel, const PlotAxis& y, const PlotForm& form,
                             double width_px) {
  std::vector<Label> out;
  for (const PanelCurve& curve : panel.curves) {
    const std::string says = curve_label(curve, panel.ends, form, width_px);
    if (!says.empty()) out.push_back({y.px(curve.middle.back()), says, is_over(curve)});
  }
  for (const auto& [limit, whose] : walls(panel))
    out.push_back({y.px(limit), fitting(wall_label(limit, whose, form), form.text_px, width_px),
                   std::ranges::any_of(whose, [](const PanelCurve* c) { return is_over(*c); })});
  std::ranges::stable_sort(out, {}, &Label::value_px);
  return out;
}

// Names at the right, each led to its line's end.
void put_labels(PlotPaper& paper, const Panel& panel, const PlotAxis& y,
                const PanelColumns& columns) {
  const PlotForm& form = paper.form();
  const double half = 0.6 * form.text_px;
  const std::vector<Label> labels =
      labels_of(panel, y, form, form.width_px - columns.names_px - 1.0);
  std::vector<double> wanted, sizes(labels.size(), 2 * half);
  for (const Label& label : labels) wanted.push_back(label.value_px - half);
  const std::vector<double> tops = spread_out(wanted, sizes, 0.0, y.to_px - half, y.from_px + half);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const double middle = tops[i] + half;
    const std::array leader = {PlotPoint{columns.right_px, labels[i].value_px},
                               PlotPoint{columns.names_px - 12.0, labels[i].value_px},
                               PlotPoint{columns.names_px - 3.0, middle}};
    paper.outline("dl", leader);
    paper.text(
        {.at = {columns.names_px, middle + paper.drop_px()}, .kind = labels[i].over ? "tx" : "lm"},
        labels[i].text);
  }
}

// The room between a curve's end and its limit as a dimension, the nearest ones.
void put_lanes(PlotPaper& paper, const Panel& panel, const PlotAxis& y,
               const PanelColumns& columns) {
  const double text_px = paper.form().text_px;
  double at_px = columns.right_px + 0.75 * lane_px;
  std::vector<const PanelCurve*> curves = limited(panel);
  if (curves.size() > columns.lanes) curves.resize(columns.lanes);
  for (const PanelCurve* curve : curves) {
    const double end_px = y.px(curve->middle.back()), limit_px = y.px(limit_of(*curve));
    const std::string room = readable(room_of(*curve), 2);
    paper.dimension(is_over(*curve) ? "tt" : "", {at_px, end_px}, {at_px, limit_px});
    if (std::abs(end_px - limit_px) > plot_text_width(room, text_px) + 16.0)
      paper.text({.at = {at_px - 3.0, (end_px + limit_px) / 2},
                  .anchor = TextEnd::middle,
                  .kind = is_over(*curve) ? "tx" : "lm",
                  .upright = true},
                 room);
    at_px += lane_px;
  }
}

}  // namespace

PanelColumns panel_columns(const PlotForm& form, std::span<const Panel> panels) {
  PanelColumns out;
  double names_px = 0.0;
  for (const Panel& panel : panels) {
    out.lanes =
        std::max(out.lanes, std::min<std::size_t>(limited(panel).size(), form.names ? 3 : 2));
    for (const PanelCurve& curve : panel.curves)
      names_px = std::max(
          names_px,
          plot_text_width(curve_label(curve, panel.ends, form, 0.3 * form.width_px), form.text_px));
    for (const auto& [limit, whose] : walls(panel))
      names_px = std::max(names_px, plot_text_width(wall_label(limit, whose, form), form.text_px));
  }
  names_px = std::min(names_px, (form.names ? 0.3 : 0.24) * form.width_px);
  out.names_px = form.width_px - names_px - 2.0;
  out.right_px = out.names_px - 14.0 - lane_px * static_cast<double>(out.lanes);
  return out;
}

PanelSpan put_panel(PlotPaper& paper, const Panel& panel, const PanelColumns& columns,
                    std::span<const double> xs, const PlotAxis& x, double top_px) {
  const double text_px = paper.form().text_px;
  paper.text({.at = {0.0, top_px + text_px}, .kind = "lm"}, panel.caption);
  const double field_top = top_px + 1.9 * text_px;
  const std::size_t labels = panel.curves.size() + walls(panel).size();
  const double height = std::max(panel.height_px, 1.2 * text_px * static_cast<double>(labels));
  const PlotAxis y = y_axis(panel, field_top, field_top + height);
  put_grid(paper, x, y, columns);
  for (std::size_t i = 0; i < panel.curves.size(); ++i)
    put_interval(paper, panel.curves[i], xs, x, y, i);
  for (const auto& [limit, whose] : walls(panel))
    put_wall(paper, y, columns, limit,
             std::ranges::any_of(whose, [](const PanelCurve* c) { return is_over(*c); }));
  for (const PanelCurve& curve : panel.curves)
    paper.outline(is_over(curve) ? "cv tt" : "cv", curve_points(xs, curve.middle, x, y));
  put_labels(paper, panel, y, columns);
  put_lanes(paper, panel, y, columns);
  return {field_top, field_top + height, y};
}

double put_axis_below(PlotPaper& paper, const PlotAxis& x, double top_px, std::string_view unit) {
  const double text_px = paper.form().text_px, base = top_px + 6.0 + text_px;
  for (const double tick : x.ticks()) {
    paper.line("ax", {x.px(tick), top_px}, {x.px(tick), top_px + 4.0});
    paper.text({.at = {x.px(tick), base}, .anchor = TextEnd::middle}, x.label(tick));
  }
  paper.text({.at = {x.to_px, base + 1.3 * text_px}, .anchor = TextEnd::end, .kind = "lm"}, unit);
  return 6.0 + 2.7 * text_px;
}

}  // namespace rigproof::sheet
