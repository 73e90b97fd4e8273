// Temperatures and noise against the fans' speed, intervals hatched, the chosen speed marked.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "sheet/drawing_plane.hpp"
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

void add(Panel& panel, const SpreadCurve& curve, std::size_t points, double bound,
         PanelCurve named) {
  if (!drawable(curve.middle, points, bound)) return;
  named.middle = curve.middle;
  if (has_interval(curve, bound)) named.low = curve.low, named.high = curve.high;
  panel.curves.push_back(std::move(named));
}

Panel temperatures(const SpeedSweep& sweep) {
  Panel out{.caption =
                "temperature, \xC2\xB0"
                "C",
            .curves = {},
            .height_px = 210.0};
  for (std::size_t i = 0; i < sweep.temperatures.size(); ++i) {
    const SweepCurve& curve = sweep.temperatures[i];
    add(out, curve.temp_c, sweep.speed_percent.size(), most_temp_c,
        {.letter = letter_of(i),
         .name = curve.name,
         .middle = {},
         .low = {},
         .high = {},
         .limit = within(curve.limit_c, most_temp_c)});
  }
  return out;
}

Panel noise(const SpeedSweep& sweep) {
  Panel out{.caption = "noise, dB(A)", .curves = {}, .height_px = 96.0};
  add(out, sweep.noise_dba, sweep.speed_percent.size(), most_noise_dba,
      {.letter = {},
       .name = {},
       .middle = {},
       .low = {},
       .high = {},
       .limit = within(sweep.noise_limit_dba, most_noise_dba)});
  return out;
}

std::optional<double> chosen_in(const SpeedSweep& sweep) {
  const auto chosen = within(sweep.chosen_percent, most_speed_percent);
  if (!chosen || *chosen < sweep.speed_percent.front() || *chosen > sweep.speed_percent.back())
    return {};
  return chosen;
}

void put_chosen(PlotPaper& paper, const PlotAxis& x, double percent, double top_px,
                double bottom_px) {
  const double text_px = paper.form().text_px, x_px = x.px(percent);
  const std::string says = fmt::format("chosen {} %", readable(percent));
  const double half = text_width_mm(says, text_px) / 2;
  const double middle = std::clamp(x_px, x.from_px + half, std::max(x.to_px, x.from_px + half));
  paper.line("md", {x_px, top_px}, {x_px, bottom_px});
  paper.text({.at = {middle, top_px - 5.0}, .anchor = TextEnd::middle, .kind = "st"}, says);
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
  double bottom = chosen ? 1.4 * form.text_px : 0.0;
  double top = 0.0;
  for (const Panel& panel : panels) {
    const PanelSpan span = put_panel(paper, panel, columns, sweep.speed_percent, x, bottom);
    if (top == 0.0) top = span.top_px;
    bottom = span.bottom_px + 6.0;
  }
  bottom -= 6.0;
  if (chosen) put_chosen(paper, x, *chosen, top, bottom);
  bottom += put_axis_below(paper, x, bottom, "% of the fans' full speed");
  return {paper.svg(bottom, "Temperatures and noise against fan speed", speed_words(sweep)), {}};
}

}  // namespace rigproof::sheet
