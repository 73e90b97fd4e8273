// Temperatures and noise against the fans' speed, intervals hatched, the chosen speed marked.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <span>

#include "base/text.hpp"
#include "sheet/physics_words.hpp"
#include "sheet/plot_bounds.hpp"
#include "sheet/plot_panel.hpp"

namespace rigproof::sheet {
namespace {

// An interval is drawn where it is whole and lies around its middle.
bool has_interval(const SpreadCurve& curve, double bound) {
  if (!drawable(curve.low, curve.middle.size(), bound) ||
      !drawable(curve.high, curve.middle.size(), bound))
    return false;
  for (std::size_t i = 0; i < curve.middle.size(); ++i)
    if (curve.low[i] > curve.middle[i] || curve.high[i] < curve.middle[i]) return false;
  return true;
}

std::optional<double> chosen_in(const SpeedSweep& sweep) {
  const auto chosen = within(sweep.chosen_percent, most_speed_percent);
  if (!chosen || *chosen < sweep.speed_percent.front() || *chosen > sweep.speed_percent.back())
    return {};
  return chosen;
}

void add(Panel& panel, const SpreadCurve& curve, const SpeedSweep& sweep, double bound,
         PanelCurve named) {
  if (!drawable(curve.middle, sweep.speed_percent.size(), bound)) return;
  if (const auto chosen = chosen_in(sweep))
    named.told = value_at(sweep.speed_percent, curve.middle, *chosen);
  named.middle = curve.middle;
  if (has_interval(curve, bound)) named.low = curve.low, named.high = curve.high;
  panel.curves.push_back(std::move(named));
}

Panel temperatures(const SpeedSweep& sweep) {
  Panel out{.caption = "temperature, \u00B0C", .curves = {}, .height_px = 210.0, .ends = false};
  for (std::size_t i = 0; i < sweep.temperatures.size(); ++i) {
    const SweepCurve& curve = sweep.temperatures[i];
    add(out, curve.temp_c, sweep, most_temp_c,
        {.letter = letter_of(i),
         .name = curve.name,
         .middle = {},
         .low = {},
         .high = {},
         .limit = within(curve.limit_c, most_temp_c),
         .told = {}});
  }
  return out;
}

Panel noise(const SpeedSweep& sweep) {
  Panel out{.caption = "noise, dB(A)", .curves = {}, .height_px = 96.0, .ends = false};
  add(out, sweep.noise_dba, sweep, most_noise_dba,
      {.letter = {},
       .name = {},
       .middle = {},
       .low = {},
       .high = {},
       .limit = within(sweep.noise_limit_dba, most_noise_dba),
       .told = {}});
  return out;
}

// The line runs through all panels, but for captions that stand in its way.
void put_chosen(PlotPaper& paper, std::span<const Panel> panels, std::span<const PanelSpan> spans,
                const PlotAxis& x, double percent) {
  const double text_px = paper.form().text_px, x_px = x.px(percent);
  const std::string says = fmt::format("chosen {} %", readable(percent));
  const double half = plot_text_width(says, text_px) / 2;
  const double middle = std::clamp(x_px, x.from_px + half, std::max(x.to_px, x.from_px + half));
  double from = 1.3 * text_px;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    if (x_px < plot_text_width(panels[i].caption, text_px) + 4.0) from = spans[i].top_px;
    paper.line("md", {x_px, from}, {x_px, spans[i].bottom_px});
    from = spans[i].bottom_px;
  }
  paper.text({.at = {middle, text_px}, .anchor = TextEnd::middle, .kind = "st"}, says);
}

// The values at the chosen speed stand beside its line, on the side that the curve leaves free.
void put_values(PlotPaper& paper, const Panel& panel, const PanelSpan& span, double x_px) {
  struct Told {
    const PanelCurve* curve;
    double value;
  };
  std::vector<Told> curves;
  for (const PanelCurve& curve : panel.curves)
    if (curve.told) curves.push_back({&curve, *curve.told});
  std::ranges::stable_sort(curves, std::greater{}, &Told::value);
  const double text_px = paper.form().text_px;
  std::vector<double> tops;
  const std::vector<double> sizes(curves.size(), text_px);
  for (const Told& told : curves) {
    const bool rises = told.curve->middle.back() > told.value;
    tops.push_back(span.y.px(told.value) + (rises ? 0.35 : -1.1) * text_px);
  }
  tops = spread_out(tops, sizes, 0.0, span.top_px, span.bottom_px);
  for (std::size_t i = 0; i < curves.size(); ++i) {
    const std::optional<double>& limit = curves[i].curve->limit;
    const bool over = limit && curves[i].value > *limit;
    paper.text({.at = {x_px + 5.0, tops[i] + 0.85 * text_px}, .kind = over ? "tx" : "st"},
               readable(curves[i].value));
  }
}

}  // namespace

Plot speed_plot(const SpeedSweep& sweep, const PlotForm& form) {
  if (!drawable_axis(sweep.speed_percent, most_speed_percent))
    return {{}, "There are no two speeds, one above the other, to draw against."};
  if (sweep.temperatures.size() > most_curves)
    return {{}, "There are more curves than a picture can tell apart."};
  std::vector<Panel> panels;
  for (Panel& panel : std::array{temperatures(sweep), noise(sweep)})
    if (!panel.curves.empty()) panels.push_back(std::move(panel));
  if (panels.empty()) return {{}, "Neither a temperature nor noise is known at each speed."};
  const PanelColumns columns = panel_columns(form, panels);
  const PlotAxis x = axis_within(sweep.speed_percent.front(), sweep.speed_percent.back(),
                                 columns.left_px, columns.right_px, 44.0);
  PlotPaper paper(form);
  const auto chosen = chosen_in(sweep);
  double bottom = chosen ? 1.2 * form.text_px : 0.0;
  std::vector<PanelSpan> spans;
  for (const Panel& panel : panels) {
    spans.push_back(put_panel(paper, panel, columns, sweep.speed_percent, x, bottom));
    bottom = spans.back().bottom_px + 10.0;
  }
  bottom -= 10.0;
  if (chosen) {
    put_chosen(paper, panels, spans, x, *chosen);
    for (std::size_t i = 0; i < panels.size(); ++i)
      put_values(paper, panels[i], spans[i], x.px(*chosen));
  }
  bottom += put_axis_below(paper, x, bottom, "% of the fans' full speed");
  return {paper.svg(bottom, "Temperatures and noise against fan speed", speed_words(sweep)), {}};
}

}  // namespace rigproof::sheet
