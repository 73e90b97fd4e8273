#include "app/titles.hpp"

#include <fmt/format.h>

#include "analysis/forecast/speeds.hpp"
#include "catalog/title_name.hpp"
#include "claims/rule.hpp"

namespace rigproof::app {
namespace {

std::string why_unknown(const Facts& facts, const Measure& measure) {
  if (!facts.build.has(Kind::gpu))
    return "no card: the rates of a processor's own graphics are not modelled";
  if (measure.missing_count == 0) return "not known well enough";
  const MissingCell& cell = measure.missing.front();
  if (cell.row == no_row) return "a part of the build is missing";
  const bool range_end = cell.column == column("titles", "megapixels_low") ||
                         cell.column == column("titles", "megapixels_high");
  if (range_end && !facts.catalog.absent(cell.column, cell.row))
    return "the picture lies outside the megapixels this title is stated for";
  return fmt::format("not known: {}.csv, {}, {}", spec(cell.column.table).name,
                     facts.catalog.row_key(cell.column.table, cell.row), spec(cell.column).name);
}

sheet::TitleLine title_line(const Facts& facts, const TitleGoal& goal) {
  sheet::TitleLine line;
  line.id = goal.title;
  line.resolution = fmt::format("{}x{}", goal.width_px, goal.height_px);
  line.render_scale = goal.render_scale;
  line.generated_per_rendered = goal.generated_per_rendered;
  line.target_fps = goal.target_fps;
  line.floor_fps = goal.floor_fps;
  line.weight = goal.weight;
  line.name = title_name(facts.catalog, goal.title);
  Measure measure;
  const forecast::TitleForecast forecast = forecast::title_forecast(facts, goal, measure);
  if (forecast.rendered_ms.is_absent()) {
    line.why_unknown = why_unknown(facts, measure);
    return line;
  }
  const Draws rendered = forecast::rate_fps(forecast.rendered_ms);
  line.frame_time_ms = quantity(forecast.rendered_ms, "ms");
  line.p99_frame_time_ms = quantity(forecast.p99_ms, "ms");
  line.rendered_fps = quantity(rendered, "fps");
  line.displayed_fps = quantity(rendered * (1.0 + goal.generated_per_rendered), "fps");
  line.p99_frame_time_fps = quantity(forecast::rate_fps(forecast.p99_ms), "fps");
  return line;
}

}  // namespace

std::vector<sheet::TitleLine> title_lines(const Catalog& catalog, const Brief& brief,
                                          const Build& build, CellDraws& draws) {
  const Facts facts{.catalog = catalog,
                    .brief = brief,
                    .prices = nullptr,
                    .build = build,
                    .draws = draws,
                    .setup = nullptr};
  std::vector<sheet::TitleLine> lines;
  lines.reserve(brief.titles.size());
  for (const TitleGoal& goal : brief.titles) lines.push_back(title_line(facts, goal));
  return lines;
}

}  // namespace rigproof::app
