// Temperatures over the time since a load began, the times at which they settle as dimensions, and
// noise under them, over one axis of time.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "sheet/physics_words.hpp"
#include "sheet/plot_bounds.hpp"
#include "sheet/plot_panel.hpp"

namespace rigproof::sheet {
namespace {

struct TimeUnit {
  double seconds;
  std::string_view name;
};

TimeUnit unit_for(double span_s) {
  if (span_s <= 180.0) return {1.0, "seconds"};
  if (span_s <= 3.0 * 3600.0) return {60.0, "minutes"};
  return {3600.0, "hours"};
}

Panel temperatures(const Warming& warming) {
  Panel out{.caption = "temperature, \u00B0C", .curves = {}, .height_px = 210.0};
  for (std::size_t i = 0; i < warming.curves.size(); ++i) {
    const WarmCurve& curve = warming.curves[i];
    if (!drawable(curve.temp_c, warming.time_s.size(), most_temp_c)) continue;
    out.curves.push_back({.letter = letter_of(i),
                          .name = curve.name,
                          .middle = curve.temp_c,
                          .low = {},
                          .high = {},
                          .limit = within(curve.limit_c, most_temp_c),
                          .told = curve.temp_c.back()});
  }
  return out;
}

Panel noise(const Warming& warming) {
  Panel out{.caption = "noise, dB(A)", .curves = {}, .height_px = 66.0};
  if (drawable(warming.noise_dba, warming.time_s.size(), most_noise_dba))
    out.curves.push_back({.letter = {},
                          .name = {},
                          .middle = warming.noise_dba,
                          .low = {},
                          .high = {},
                          .limit = {},
                          .told = {}});
  return out;
}

struct Settling {
  std::string letter;
  double after_s;
};

std::vector<Settling> settlings(const Warming& warming) {
  std::vector<Settling> out;
  for (std::size_t i = 0; i < warming.curves.size(); ++i) {
    const WarmCurve& curve = warming.curves[i];
    if (curve.settled_s && drawable(curve.temp_c, warming.time_s.size(), most_temp_c) &&
        *curve.settled_s >= warming.time_s.front() && *curve.settled_s <= warming.time_s.back())
      out.push_back({letter_of(i), *curve.settled_s});
  }
  return out;
}

// One dimension a curve, from the beginning to when it has settled; a mark on the curve itself.
double put_settlings(PlotPaper& paper, const Warming& warming, const PlotAxis& x,
                     const PanelSpan& panel, double top_px) {
  const std::vector<Settling> rows = settlings(warming);
  if (rows.empty()) return top_px;
  const double text_px = paper.form().text_px, row_px = 1.35 * text_px;
  const double first = top_px + 1.9 * text_px;
  const auto row_at = [&](std::size_t i) { return first + row_px * static_cast<double>(i); };
  paper.line("ex", {x.from_px, first - 5.0}, {x.from_px, row_at(rows.size() - 1) + 4.0});
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double x_px = x.px(rows[i].after_s);
    paper.line("ex", {x_px, panel.bottom_px}, {x_px, row_at(i) + 4.0});
    paper.dimension("", {x.from_px, row_at(i)}, {x_px, row_at(i)});
  }
  paper.text({.at = {0.0, top_px + text_px}, .kind = "lm"}, "settled after");
  for (std::size_t i = 0; i < rows.size(); ++i)
    paper.text({.at = {x.px(rows[i].after_s) + 12.0, row_at(i) + paper.drop_px()}, .kind = "lm"},
               rows[i].letter + " " + duration_words(rows[i].after_s));
  return row_at(rows.size() - 1) + 0.6 * row_px;
}

void put_settled_marks(PlotPaper& paper, const Warming& warming, const PlotAxis& x,
                       const PlotAxis& y) {
  for (const WarmCurve& curve : warming.curves) {
    if (!curve.settled_s) continue;
    const auto temp_c = value_at(warming.time_s, curve.temp_c, *curve.settled_s);
    if (!temp_c || !drawable(curve.temp_c, warming.time_s.size(), most_temp_c)) continue;
    const double x_px = x.px(*curve.settled_s), y_px = y.px(*temp_c);
    paper.line("md", {x_px, y_px - 6.0}, {x_px, y_px + 6.0});
  }
}

}  // namespace

Plot warming_plot(const Warming& warming, const PlotForm& form) {
  if (!drawable_axis(warming.time_s, most_time_s))
    return {{}, "There are no two times, one after the other, to draw temperatures over."};
  if (warming.curves.size() > most_curves)
    return {{}, "There are more curves than a picture can tell apart."};
  const std::array panels = {temperatures(warming), noise(warming)};
  if (panels[0].curves.empty()) return {{}, "No temperature is known at each of these times."};
  const PanelColumns columns = panel_columns(form, panels);
  const TimeUnit unit = unit_for(warming.time_s.back() - warming.time_s.front());
  std::vector<double> times;
  times.reserve(warming.time_s.size());
  for (const double time_s : warming.time_s) times.push_back(time_s / unit.seconds);
  const PlotAxis x =
      axis_within(times.front(), times.back(), columns.left_px, columns.right_px, 44.0);
  PlotAxis seconds = x;
  seconds.from *= unit.seconds, seconds.to *= unit.seconds;
  PlotPaper paper(form);
  const PanelSpan span = put_panel(paper, panels[0], columns, times, x, 0.0);
  double bottom = span.bottom_px;
  put_settled_marks(paper, warming, seconds, span.y);
  const double after = put_settlings(paper, warming, seconds, span, bottom + 12.0);
  if (after > bottom + 12.0) bottom = after;
  if (!panels[1].curves.empty())
    bottom = put_panel(paper, panels[1], columns, times, x, bottom + 6.0).bottom_px;
  bottom += put_axis_below(paper, x, bottom, fmt::format("{} under load", unit.name));
  return {paper.svg(bottom, "Temperatures over time", warming_words(warming)), {}};
}

}  // namespace rigproof::sheet
