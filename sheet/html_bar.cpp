#include "sheet/html_bar.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"
#include "sheet/margin_bar.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

// Geometry of a bar, in drawing units: a band for the marks and the scale line under it.
constexpr double left = 8.0;
constexpr double right = 312.0;
constexpr double band_middle = 14.0;
constexpr double band_half = 7.0;
constexpr double line_at = 29.0;
constexpr double tick = 4.0;

std::string f(double value) { return shortest(std::round(value * 10.0) / 10.0); }

std::string path(std::string_view kind, const std::string& d) {
  return fmt::format("<path class=\"{}\" d=\"{}\"/>", kind, d);
}

double margin_x(double frac) {
  const double inside = std::clamp(frac, bar_low_frac, bar_high_frac);
  return left + (inside - bar_low_frac) / (bar_high_frac - bar_low_frac) * (right - left);
}

std::string hatched(double from, double to, bool tight) {
  const double width = std::max(to - from, 1.5);
  return fmt::format("<rect class=\"{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
                     tight ? "hb tt" : "hb", f(from), f(band_middle - band_half), f(width),
                     f(2 * band_half));
}

std::string upright(double x, std::string_view kind, double from, double to) {
  return path(kind, fmt::format("M{} {}V{}", f(x), f(from), f(to)));
}

std::string ring(double x) {
  std::string out;
  for (const auto* kind : {"halo", "ring"})  // the halo keeps it apart from what lies under it
    out += fmt::format("<circle class=\"{}\" cx=\"{}\" cy=\"{}\" r=\"6.5\"/>", kind, f(x),
                       f(band_middle));
  return out;
}

std::string ticks() {
  std::string d = fmt::format("M{} {}H{}", f(left), f(line_at), f(right));
  for (int percent = -20; percent <= 40; percent += 10)
    d += fmt::format("M{} {}v{}", f(margin_x(percent / 100.0)), f(line_at), f(tick));
  return path("hl", d);
}

bool is_tight(Verdict verdict) {
  return verdict == Verdict::thin || verdict == Verdict::doubtful || verdict == Verdict::fails;
}

// Outside the scale: an arrow head at its end, and the number on the side where the band is free.
std::string clipped(double frac, bool tight) {
  const bool over = frac < bar_low_frac;
  const double x = over ? left : right;
  const double back = over ? 9.0 : -9.0;
  std::string out = fmt::format("<path class=\"{}\" d=\"M{} {}l{} -5.5v11z\"/>",
                                tight ? "ah tt" : "ah", f(x), f(band_middle), f(back));
  // The room line runs from the limit to the arrow; the number stands clear of it on paper of its
  // own.
  const double text_x = over ? margin_x(0.0) - 10.0 : right - 20.0;
  const double width = 46.0;
  out += fmt::format("<rect class=\"paper\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"18\"/>",
                     f(text_x - width), f(band_middle - 9.0), f(width + (over ? 9.0 : 4.0)));
  out += fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\" text-anchor=\"end\">{}</text>",
                     tight ? "tx" : "", f(text_x), f(band_middle + 4.5), percent_words(frac, 2));
  return out;
}

std::string description_of(const Claim& claim, const MarginBar& bar) {
  if (bar.unknown) {
    std::string out = "Unknown.";
    for (const Missing& cell : claim.missing) out += fmt::format(" Absent: {}.", cell_words(cell));
    return out;
  }
  std::string out = fmt::format("{}; {}.", room_words(claim), share_words(claim));
  if (bar.spread)
    out += fmt::format(" 90 % interval from {} to {}.", percent_words(bar.spread->low, 2),
                       percent_words(bar.spread->high, 2));
  if (claim.measured) out += " " + measured_words(claim) + ".";
  return out;
}

void put_unknown_marks(std::string& out, double question_x) {
  out += path("un", fmt::format("M{} {}H{}M{} {}H{}", f(left), f(band_middle), f(question_x - 14.0),
                                f(question_x + 14.0), f(band_middle), f(right)));
  out += fmt::format("<text class=\"qm\" x=\"{}\" y=\"{}\" text-anchor=\"middle\">?</text>",
                     f(question_x), f(band_middle + 6.0));
}

void put_known_marks(std::string& out, const MarginBar& bar, double middle, bool tight) {
  const double limit_x = margin_x(0.0);
  const double middle_x = margin_x(middle);
  const bool outside = middle > bar_high_frac || middle < bar_low_frac;
  if (std::abs(middle_x - limit_x) > 0.5)
    out += path(tight ? "rm tt" : "rm",
                fmt::format("M{} {}H{}", f(limit_x), f(band_middle), f(middle_x)));
  if (bar.spread) out += hatched(margin_x(bar.spread->low), margin_x(bar.spread->high), tight);
  if (outside)
    out += clipped(middle, tight);
  else
    out += upright(middle_x, tight ? "md tt" : "md", band_middle - 9.5, band_middle + 9.5);
}

}  // namespace

void put_margin_scale(HtmlPage& page) {
  constexpr int height = 32;
  page.begin_drawing(
      bar_width, height, "Scale of the margin bars",
      "Per cent of the limit: overshoot to the left, the limit, room left to the right.");
  std::string d = fmt::format("M{} 27H{}", f(left), f(right));
  for (int percent = -20; percent <= 40; percent += 10)
    d += fmt::format("M{} 27v-4", f(margin_x(percent / 100.0)));
  page.out += path("hl", d);
  for (const int percent : {-20, 20, 40})
    page.out += fmt::format("<text x=\"{}\" y=\"16\" text-anchor=\"{}\">{}{} %</text>",
                            f(margin_x(percent / 100.0) + (percent == -20  ? -8
                                                           : percent == 40 ? 8
                                                                           : 0)),
                            percent == -20  ? "start"
                            : percent == 40 ? "end"
                                            : "middle",
                            percent < 0 ? "\xE2\x88\x92" : "", std::abs(percent));
  page.out += fmt::format(
      "<text class=\"lm\" x=\"{}\" y=\"16\" text-anchor=\"middle\">limit</text></svg>\n",
      f(margin_x(0.0)));
}

void put_margin_bar(HtmlPage& page, const Claim& claim) {
  const MarginBar bar = margin_bar(claim);
  page.begin_drawing(bar_width, bar_height,
                     bar.unknown ? "Margin unknown" : "Margin against the limit",
                     description_of(claim, bar));
  std::string& out = page.out;
  out += ticks();
  if (bar.unknown)
    put_unknown_marks(out, margin_x(bar_high_frac / 2));
  else if (bar.middle)
    put_known_marks(out, bar, *bar.middle, is_tight(claim.verdict));
  out += upright(margin_x(0.0), "lim", 1.0, line_at);
  if (bar.measured) out += ring(margin_x(*bar.measured));
  out += "</svg>\n";
}

TimeScale time_scale(const std::vector<TitleLine>& titles) {
  double longest = 1.0;
  for (const TitleLine& title : titles) {
    if (title.target_fps > 0.0) longest = std::max(longest, 1000.0 / title.target_fps);
    for (const auto* time : {&title.frame_time_ms, &title.p99_frame_time_ms})
      if (*time) longest = std::max(longest, std::max((*time)->value, (*time)->high.value_or(0.0)));
  }
  constexpr std::array steps = {0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0};
  const auto enough = [&](double step) { return longest / step <= 6.0; };
  const auto* step = std::ranges::find_if(steps, enough);
  const double step_ms = step == steps.end() ? longest : *step;
  return {.span_ms = std::ceil(longest * 1.02 / step_ms) * step_ms, .step_ms = step_ms};
}

namespace {

double time_x(double ms, const TimeScale& scale) {
  return left + std::clamp(ms / scale.span_ms, 0.0, 1.0) * (right - left);
}

std::string time_ticks(const TimeScale& scale, double y, double length) {
  std::string d = fmt::format("M{} {}H{}", f(left), f(y), f(right));
  for (double at = 0.0; at <= scale.span_ms * 1.0001; at += scale.step_ms)
    d += fmt::format("M{} {}v{}", f(time_x(at, scale)), f(y), f(length));
  return path("hl", d);
}

}  // namespace

void put_time_scale(HtmlPage& page, const TimeScale& scale) {
  page.begin_drawing(bar_width, 32, "Scale of the frame times",
                     fmt::format("Milliseconds, 0 to {}.", readable(scale.span_ms)));
  page.out += time_ticks(scale, 27.0, -4.0);
  for (double at = 0.0; at <= scale.span_ms * 1.0001; at += scale.step_ms) {
    const bool first = at == 0.0;
    const bool last = at > scale.span_ms - scale.step_ms / 2;
    page.out += fmt::format("<text x=\"{}\" y=\"16\" text-anchor=\"{}\">{}{}</text>",
                            f(first  ? left - 4.0
                              : last ? right + 8.0
                                     : time_x(at, scale)),
                            first  ? "start"
                            : last ? "end"
                                   : "middle",
                            readable(at), last ? " ms" : "");
  }
  page.out += "</svg>\n";
}

void put_time_bar(HtmlPage& page, const TitleLine& title, const TimeScale& scale) {
  std::string& out = page.out;
  if (!title.frame_time_ms) {
    page.begin_drawing(bar_width, bar_height, "Frame time unknown", title.why_unknown);
    out += time_ticks(scale, line_at, tick);
    const double target_x = title.target_fps > 0.0 ? time_x(1000.0 / title.target_fps, scale) : 0.0;
    put_unknown_marks(out, target_x > 60.0 ? target_x / 2 : (target_x + right) / 2);
  } else {
    const Quantity& time = *title.frame_time_ms;
    std::string says = "Mean frame time " + words(time) + ".";
    if (title.p99_frame_time_ms)
      says += fmt::format(" One frame in a hundred takes longer than {}.",
                          words(*title.p99_frame_time_ms));
    page.begin_drawing(bar_width, bar_height, "Frame time against the target", says);
    out += time_ticks(scale, line_at, tick);
    const bool tight = title.target_fps > 0.0 && time.value > 1000.0 / title.target_fps;
    const double middle_x = time_x(time.value, scale);
    const double box_end = time.high ? time_x(*time.high, scale) : middle_x;
    out += path(tight ? "rm tt" : "rm",
                fmt::format("M{} {}H{}", f(left), f(band_middle), f(middle_x)));
    if (title.p99_frame_time_ms) {
      const double slow_x = time_x(title.p99_frame_time_ms->value, scale);
      if (slow_x > box_end)
        out += path("wh", fmt::format("M{} {}H{}m0 -5v10", f(box_end), f(band_middle), f(slow_x)));
    }
    if (time.low && time.high) out += hatched(time_x(*time.low, scale), box_end, tight);
    out += upright(middle_x, tight ? "md tt" : "md", band_middle - 9.5, band_middle + 9.5);
  }
  if (title.target_fps > 0.0)
    out += upright(time_x(1000.0 / title.target_fps, scale), "lim", 1.0, line_at);
  out += "</svg>\n";
}

void put_drawing_defs(HtmlPage& page) {
  page.out +=
      "<svg class=\"defs\" aria-hidden=\"true\" focusable=\"false\"><defs>"
      "<pattern id=\"hatch\" width=\"4.5\" height=\"4.5\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(45)\">"
      "<path d=\"M0 0V4.5\" stroke=\"var(--ink)\" stroke-width=\"1.5\"/></pattern>"
      "<pattern id=\"hatch-tight\" width=\"4.5\" height=\"4.5\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(45)\">"
      "<path d=\"M0 0V4.5\" stroke=\"var(--tight)\" "
      "stroke-width=\"1.7\"/></pattern></defs></svg>\n";
}

void put_key(HtmlPage& page) {
  const auto entry = [&](const std::string& marks, std::string_view says) {
    page.out += fmt::format(
        "<li><svg viewBox=\"0 0 34 28\" height=\"28\" aria-hidden=\"true\" "
        "focusable=\"false\">{}</svg>{}</li>",
        marks, says);
  };
  page.out += "<div class=\"key\"><h2 class=\"small\">Key</h2><ul>";
  entry(upright(17, "lim", 2, 26), "limit, or target");
  entry(path("rm", "M4 14H26") + upright(26, "md", 4.5, 23.5), "middle, and the room to it");
  entry(hatched(5, 29, false), "90 % interval");
  entry(hatched(5, 29, true), "tight: thin, doubtful or failing");
  entry(ring(17), "measured");
  entry(path("un", "M0 14H10M24 14H34") +
            "<text class=\"qm\" x=\"17\" y=\"20\" text-anchor=\"middle\">?</text>",
        "unknown; the absent cell is named");
  entry(path("wh", "M3 14H28m0 -5v10"), "to the time of the slowest frame in a hundred");
  page.out += "</ul></div>\n";
}

}  // namespace rigproof::sheet
