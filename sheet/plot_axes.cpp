#include "sheet/plot_axes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "sheet/drawing_layout.hpp"
#include "sheet/html_writer.hpp"

namespace rigproof::sheet {
namespace {

int decimals_of(double step) {
  return std::clamp(-static_cast<int>(std::floor(std::log10(step) + 1e-9)), 0, 9);
}

double step_for(double span, double from_px, double to_px, double tick_px) {
  return round_step(span * tick_px / std::max(std::abs(to_px - from_px), 1.0));
}

void widen(double& low, double& high) {
  if (high - low > 1e-9 * std::max({1.0, std::abs(low), std::abs(high)})) return;
  const double around = std::max(1.0, 0.05 * std::abs(high));
  low -= around;
  high += around;
}

}  // namespace

PlotForm wide_plot() { return {}; }

PlotForm slim_plot() {
  return {.width_px = 320.0, .text_px = 13.0, .names = false, .id_prefix = "plot"};
}

double round_step(double at_least) {
  const double power = std::pow(10.0, std::floor(std::log10(at_least)));
  for (const double factor : {1.0, 2.0, 5.0})
    if (factor * power >= at_least * (1.0 - 1e-9)) return factor * power;
  return 10.0 * power;
}

double PlotAxis::px(double value) const {
  return from_px + (value - from) / (to - from) * (to_px - from_px);
}

std::vector<double> PlotAxis::ticks() const {
  std::vector<double> out;
  const double first = std::ceil(from / step - 1e-6), last = std::floor(to / step + 1e-6);
  for (double k = first; k <= last; ++k) out.push_back(k * step);
  return out;
}

std::string PlotAxis::label(double tick) const {
  std::string out = fmt::format("{:.{}f}", tick == 0.0 ? 0.0 : tick, decimals_of(step));
  if (out.starts_with('-')) out.replace(0, 1, "\xE2\x88\x92");
  return out;
}

PlotAxis axis_over(double low, double high, double from_px, double to_px, double tick_px) {
  widen(low, high);
  const double step = step_for(high - low, from_px, to_px, tick_px);
  return {.from = std::floor(low / step + 1e-9) * step,
          .to = std::ceil(high / step - 1e-9) * step,
          .from_px = from_px,
          .to_px = to_px,
          .step = step};
}

PlotAxis axis_within(double low, double high, double from_px, double to_px, double tick_px) {
  widen(low, high);
  return {.from = low,
          .to = high,
          .from_px = from_px,
          .to_px = to_px,
          .step = step_for(high - low, from_px, to_px, tick_px)};
}

bool drawable(std::span<const double> values, std::size_t points, double bound) {
  return values.size() == points && std::ranges::all_of(values, [&](double value) {
           return std::abs(value) <= bound;  // not so of NaN
         });
}

bool drawable_axis(std::span<const double> values, double bound) {
  return values.size() >= 2 && drawable(values, values.size(), bound) &&
         std::ranges::adjacent_find(values, [](double a, double b) { return b <= a; }) ==
             values.end();
}

std::vector<PlotPoint> curve_points(std::span<const double> xs, std::span<const double> ys,
                                    const PlotAxis& x, const PlotAxis& y) {
  std::vector<PlotPoint> out;
  for (std::size_t i = 0; i < xs.size();) {
    const double slot = std::floor(2.0 * x.px(xs[i]));
    std::size_t end = i, least = i, greatest = i;
    for (; end < xs.size() && std::floor(2.0 * x.px(xs[end])) == slot; ++end) {
      if (ys[end] < ys[least]) least = end;
      if (ys[end] > ys[greatest]) greatest = end;
    }
    std::array kept = {i, std::min(least, greatest), std::max(least, greatest), end - 1};
    const auto* const last = std::unique(kept.begin(), kept.end());
    for (const auto* k = kept.begin(); k != last; ++k) out.push_back({x.px(xs[*k]), y.px(ys[*k])});
    i = end;
  }
  return out;
}

// With each start less the room the blocks before it take, starts only have to rise: the nearest
// rising sequence comes from pooling neighbours that do not (isotonic regression).
std::vector<double> spread_out(std::span<const double> wanted, std::span<const double> sizes,
                               double gap, double low, double high) {
  struct Pool {
    double sum;
    std::size_t count;
    [[nodiscard]] double mean() const { return sum / static_cast<double>(count); }
  };
  std::vector<Pool> pools;
  std::vector<double> before(wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (i > 0) before[i] = before[i - 1] + sizes[i - 1] + gap;
    Pool next{wanted[i] - before[i], 1};
    while (!pools.empty() && pools.back().mean() > next.mean()) {
      next = {next.sum + pools.back().sum, next.count + pools.back().count};
      pools.pop_back();
    }
    pools.push_back(next);
  }
  const double room = wanted.empty() ? 0.0 : high - before.back() - sizes.back();
  std::vector<double> out;
  for (const Pool& pool : pools)
    for (std::size_t i = 0; i < pool.count; ++i)
      out.push_back(std::max(low, std::min(pool.mean(), room)) + before[out.size()]);
  return out;
}

double plot_text_width(std::string_view text, double text_px) {
  constexpr double narrow = 0.84;  // of what any sans-serif face may take
  return narrow * text_width_mm(text, text_px);
}

std::string fitting(std::string_view text, double text_px, double width_px) {
  std::string out = short_text(text, 80);
  for (std::size_t most = 79; plot_text_width(out, text_px) > width_px; --most) {
    if (most < 2) return {};
    out = short_text(text, most);
  }
  return out;
}

std::string plot_point(PlotPoint at) { return coordinate(at.x_px) + " " + coordinate(at.y_px); }

void PlotPaper::path(std::string_view kind, std::string_view data) {
  out_ += fmt::format("<path class=\"{}\" d=\"{}\"/>\n", kind, data);
}

void PlotPaper::line(std::string_view kind, PlotPoint from, PlotPoint to) {
  path(kind, "M" + plot_point(from) + "L" + plot_point(to));
}

void PlotPaper::outline(std::string_view kind, std::span<const PlotPoint> points, bool closed) {
  std::string data;
  for (const PlotPoint& at : points) data += (data.empty() ? "M" : "L") + plot_point(at);
  if (!data.empty()) path(kind, closed ? data + "Z" : data);
}

void PlotPaper::box(std::string_view kind, const PlotBox& box) {
  const std::array corners = {
      PlotPoint{box.left_px, box.top_px}, PlotPoint{box.right_px, box.top_px},
      PlotPoint{box.right_px, box.bottom_px}, PlotPoint{box.left_px, box.bottom_px}};
  outline(kind, corners, true);
}

void PlotPaper::text(const PlotText& how, std::string_view text) {
  if (text.empty()) return;
  constexpr std::array<std::string_view, 3> anchors = {"", " text-anchor=\"middle\"",
                                                       " text-anchor=\"end\""};
  const std::string x = coordinate(how.at.x_px), y = coordinate(how.at.y_px);
  out_ += fmt::format("<text{} x=\"{}\" y=\"{}\"{}{}>{}</text>\n",
                      how.kind.empty() ? "" : fmt::format(" class=\"{}\"", how.kind), x, y,
                      anchors.at(static_cast<std::size_t>(how.anchor)),
                      how.upright ? fmt::format(" transform=\"rotate(-90 {} {})\"", x, y) : "",
                      html_escape(text));
}

void PlotPaper::tip(std::string_view kind, PlotPoint at, PlotPoint along) {
  constexpr double length_px = 7.0, half_px = 1.5;
  const PlotPoint back{at.x_px - along.x_px * length_px, at.y_px - along.y_px * length_px};
  const std::array corners = {
      at, PlotPoint{back.x_px - along.y_px * half_px, back.y_px + along.x_px * half_px},
      PlotPoint{back.x_px + along.y_px * half_px, back.y_px - along.x_px * half_px}};
  outline(kind == "tt" ? "ah tt" : "ah", corners, true);
}

void PlotPaper::dimension(std::string_view kind, PlotPoint from, PlotPoint to) {
  const double x = to.x_px - from.x_px, y = to.y_px - from.y_px, length = std::hypot(x, y);
  if (length < 0.5) return;
  const std::string both = "dl " + std::string(kind);
  const PlotPoint along{x / length, y / length}, back{-along.x_px, -along.y_px};
  line(kind.empty() ? "dl" : both, from, to);
  const bool inside = length >= 18.0;
  tip(kind, from, inside ? back : along);
  tip(kind, to, inside ? along : back);
}

std::string PlotPaper::svg(double height_px, std::string_view title,
                           std::string_view description) const {
  const std::string width = coordinate(form_.width_px), height = coordinate(height_px);
  return fmt::format(
      "<svg class=\"pl\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" height=\"{1}\" font-size=\"{2}\" "
      "role=\"img\" aria-labelledby=\"{3}-t {3}-d\">\n<title id=\"{3}-t\">{4}</title>\n"
      "<desc id=\"{3}-d\">{5}</desc>\n{6}</svg>",
      width, height, coordinate(form_.text_px), form_.id_prefix, html_escape(title),
      html_escape(description), out_);
}

}  // namespace rigproof::sheet
