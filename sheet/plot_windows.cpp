// Load against what the supply allows, one row for each length of window.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "sheet/physics_words.hpp"
#include "sheet/plot_axes.hpp"
#include "sheet/plot_bounds.hpp"

namespace rigproof::sheet {
namespace {

constexpr std::size_t most_windows = 24;
constexpr double side_px = 8.0, band_px = 16.0;

// As far as it can be drawn: a load is an interval, its ends in order.
SupplyWindow known(const SupplyWindow& window) {
  SupplyWindow out = window;
  for (auto* watts : {&out.low_w, &out.high_w, &out.allowed_w})
    if (*watts && !(**watts >= 0.0 && **watts <= most_power_w)) watts->reset();
  if (!out.low_w || !out.high_w || *out.low_w > *out.high_w) out.low_w = out.high_w = {};
  return out;
}

bool is_over(const SupplyWindow& window) {
  return window.high_w && window.allowed_w && *window.high_w > *window.allowed_w;
}

void put_unknown(PlotPaper& paper, const PlotAxis& x, double middle_px) {
  const double at = (x.from_px + x.to_px) / 2;
  paper.line("un", {x.from_px, middle_px}, {at - 14.0, middle_px});
  paper.line("un", {at + 14.0, middle_px}, {x.to_px, middle_px});
  paper.text({.at = {at, middle_px + 6.0}, .anchor = TextEnd::middle, .kind = "qm"}, "?");
}

void put_load(PlotPaper& paper, const PlotAxis& x, const SupplyWindow& window, double middle_px) {
  const bool over = is_over(window);
  if (!window.low_w || !window.high_w) return;
  const double low = x.px(*window.low_w), high = std::max(x.px(*window.high_w), low + 1.5);
  paper.line(over ? "rm tt" : "rm", {x.from_px, middle_px}, {low, middle_px});
  paper.box(over ? "hb tt" : "hb", {low, middle_px - band_px / 2, high, middle_px + band_px / 2});
}

void put_room(PlotPaper& paper, const PlotAxis& x, const SupplyWindow& window, double middle_px) {
  if (!window.allowed_w) return;
  const double allowed = x.px(*window.allowed_w);
  if (window.high_w)
    paper.dimension(is_over(window) ? "tt" : "", {x.px(*window.high_w), middle_px},
                    {allowed, middle_px});
  paper.line("lim", {allowed, middle_px - band_px / 2 - 4.0},
             {allowed, middle_px + band_px / 2 + 4.0});
}

// Name and words over the band.
void put_head(PlotPaper& paper, const SupplyWindow& window, double base_px) {
  const PlotForm& form = paper.form();
  const std::string says = window_words(window);
  const double says_px = plot_text_width(says, form.text_px);
  paper.text({.at = {side_px, base_px}, .kind = "st"},
             fitting(window.name, form.text_px, form.width_px - 2 * side_px - says_px - 10.0));
  paper.text({.at = {form.width_px - side_px, base_px},
              .anchor = TextEnd::end,
              .kind = is_over(window) ? "tx" : "lm"},
             says);
}

void put_grid(PlotPaper& paper, const PlotAxis& x, double top_px, double bottom_px) {
  std::string grid;
  for (const double tick : x.ticks())
    grid += "M" + plot_point({x.px(tick), top_px}) + "L" + plot_point({x.px(tick), bottom_px});
  paper.path("gr", grid);
  paper.line("ax", {x.from_px, bottom_px}, {x.to_px, bottom_px});
}

void put_rated(PlotPaper& paper, const PlotAxis& x, double rated_w, double top_px,
               double bottom_px) {
  const double text_px = paper.form().text_px, x_px = x.px(rated_w);
  const std::string says = fmt::format("rated {} W", readable(rated_w));
  const double half = plot_text_width(says, text_px) / 2;
  const double right = paper.form().width_px - half - 1.0;
  paper.line("ch", {x_px, top_px}, {x_px, bottom_px});
  paper.text({.at = {std::clamp(x_px, half + 1.0, std::max(right, half + 1.0)), top_px - 5.0},
              .anchor = TextEnd::middle,
              .kind = "lm"},
             says);
}

}  // namespace

Plot windows_plot(const SupplyWindows& supply, const PlotForm& form) {
  std::vector<SupplyWindow> rows;
  std::ranges::transform(supply.windows, std::back_inserter(rows), known);
  if (rows.size() > most_windows) return {{}, "There are more windows than a picture can hold."};
  const bool rated = supply.rated_w > 0.0 && supply.rated_w <= most_power_w;
  double most_w = rated ? supply.rated_w : 0.0;
  bool any = false;
  for (const SupplyWindow& row : rows)
    for (const auto& watts : {row.high_w, row.allowed_w})
      if (watts) most_w = std::max(most_w, *watts), any = true;
  if (!any || !(most_w > 0.0))
    return {{}, "Neither the load nor what the supply allows is known for any window."};
  const PlotAxis x = axis_over(0.0, most_w, side_px + 4.0, form.width_px - side_px - 8.0, 52.0);
  const double top = rated ? 1.6 * form.text_px : 2.0;
  const double row_px = 1.5 * form.text_px + band_px + 14.0;
  const double bottom = top + row_px * static_cast<double>(rows.size());
  PlotPaper paper(form);
  put_grid(paper, x, top, bottom);
  if (rated) put_rated(paper, x, supply.rated_w, top, bottom);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double row_top = top + row_px * static_cast<double>(i);
    const double middle = row_top + 1.5 * form.text_px + 2.0 + band_px / 2;
    put_head(paper, rows[i], row_top + 1.2 * form.text_px);
    if (rows[i].high_w)
      put_load(paper, x, rows[i], middle);
    else
      put_unknown(paper, x, middle);
    put_room(paper, x, rows[i], middle);
  }
  const double base = bottom + 6.0 + form.text_px;
  for (const double tick : x.ticks()) {
    paper.line("ax", {x.px(tick), bottom}, {x.px(tick), bottom + 4.0});
    paper.text({.at = {x.px(tick), base}, .anchor = TextEnd::middle}, x.label(tick));
  }
  paper.text({.at = {x.to_px, base + 1.3 * form.text_px}, .anchor = TextEnd::end, .kind = "lm"},
             "watts, highest mean over the window");
  return {paper.svg(bottom + 6.0 + 2.7 * form.text_px, "Load against the supply's limits",
                    windows_words(supply)),
          {}};
}

}  // namespace rigproof::sheet
