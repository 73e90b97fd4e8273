#include <fmt/format.h>

#include "base/text.hpp"
#include "sheet/html_bar.hpp"
#include "sheet/html_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

std::string time_words(const TitleLine& title) {
  if (!title.frame_time_ms) return "unknown: " + isolated(title.why_unknown);
  std::string out = html_escape(words(*title.frame_time_ms));
  if (title.target_fps > 0.0)
    out += fmt::format(" against {} ms", readable(1000.0 / title.target_fps));
  if (title.p99_frame_time_ms)
    out += fmt::format("; one in a hundred over {}", html_escape(words(*title.p99_frame_time_ms)));
  return out;
}

std::string rate_words(const TitleLine& title) {
  std::string out;
  if (title.rendered_fps) out = "rendered " + words(*title.rendered_fps);
  if (title.displayed_fps && title.generated_per_rendered > 0)
    out += fmt::format("{}displayed {}", out.empty() ? "" : ", ", words(*title.displayed_fps));
  if (title.p99_frame_time_fps)
    out += fmt::format("{}at the slowest in a hundred {}", out.empty() ? "" : ", ",
                       words(*title.p99_frame_time_fps));
  return html_escape(out);
}

void put_title(HtmlPage& page, const TitleLine& title, const TimeScale& scale) {
  const bool tight = title.frame_time_ms && title.target_fps > 0.0 &&
                     title.frame_time_ms->value > 1000.0 / title.target_fps;
  page.out += fmt::format("<li class=\"row plain\"><div class=\"say\"><h3>{}</h3><p{}>{}</p>",
                          isolated(title.name), tight ? " class=\"tight\"" : "", time_words(title));
  if (const std::string rates = rate_words(title); !rates.empty())
    page.out += fmt::format("<p class=\"small\">{}</p>", rates);
  page.out +=
      fmt::format("<p class=\"small\">{}; asked: {}; weight {}</p></div>\n<span class=\"draw\">",
                  isolated(setting_words(title)), goal_words(title), readable(title.weight));
  put_time_bar(page, title, scale);
  page.out += "</span></li>\n";
}

}  // namespace

void put_titles(HtmlPage& page, const Sheet& sheet) {
  if (sheet.build.titles.empty()) return;
  begin_section(page, "titles", "Frame time", "milliseconds a rendered frame, against the target");
  const TimeScale scale = time_scale(sheet.build.titles);
  page.out += "<div class=\"rows\">\n<div class=\"scale plain\">";
  put_time_scale(page, scale);
  page.out += "</div>\n<ol>\n";
  for (const TitleLine& title : sheet.build.titles) put_title(page, title, scale);
  page.out += "</ol>\n</div>\n";
  end_section(page);
}

}  // namespace rigproof::sheet
