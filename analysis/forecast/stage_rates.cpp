#include "analysis/forecast/stage_rates.hpp"

#include <algorithm>

#include "analysis/forecast/frame_time.hpp"
#include "analysis/forecast/speeds.hpp"

namespace rigproof::forecast {
namespace {

using Samples = std::array<double, draw_count>;

// Frames a second of each draw, summed in order.
template <class Rate>
StageRate over_draws(Rate rate) {
  StageRate out;
  double sum = 0.0;
  for (std::size_t i = 0; i < draw_count; ++i) {
    const double fps = rate(i);
    sum += fps;
    out.most_fps = std::max(out.most_fps, fps);
  }
  out.mean_fps = sum / draw_count;
  return out;
}

bool any(const Samples& samples) {
  return std::ranges::any_of(samples, [](double sample) { return sample > 0.0; });
}

}  // namespace

// Not kept beside the other cells' draws: a market has many parts, and most are looked at once.
std::optional<Samples> StageRates::cell(ColumnId column, Row row) const {
  const Draws draws = facts_.catalog.cell(column, row, facts_.draws.seed());
  if (draws.is_absent() || draws.spans()) return {};
  const ColumnSpec& range = spec(column);
  Samples out;
  for (int i = 0; i < draw_count; ++i)
    out[static_cast<std::size_t>(i)] = std::clamp(draws[i], range.min, range.max);
  return out;
}

std::optional<StageRates::Asked> StageRates::asked_of_gpu(const TitleGoal& goal) const {
  Measure scratch;
  if (!range_covers(facts_, goal, scratch)) return {};
  const Row title = title_row(facts_, goal);
  const Picture picture = picture_of(goal);
  const double mpix = picture.rendered_mpix();
  const auto take = [&](ColumnId of_title) { return cell(of_title, title); };
  const auto raster = take(column("titles", "raster_ms"));
  const auto raster_slope = take(column("titles", "raster_ms_per_mpix"));
  const auto ray = take(column("titles", "ray_ms"));
  const auto ray_slope = take(column("titles", "ray_ms_per_mpix"));
  const auto traffic = take(column("titles", "traffic_gb"));
  const auto traffic_slope = take(column("titles", "traffic_gb_per_mpix"));
  const auto upscale = picture.render_scale != 1.0 ? take(column("titles", "upscale_ms_per_mpix"))
                                                   : std::optional(Samples{});
  const auto generate = picture.generated_per_rendered > 0 ? take(column("titles", "generate_ms"))
                                                           : std::optional(Samples{});
  if (!raster || !raster_slope || !ray || !ray_slope || !traffic || !traffic_slope || !upscale ||
      !generate)
    return {};
  Asked out;
  for (std::size_t i = 0; i < draw_count; ++i) {
    out.shading[i] = (*raster)[i] + (*raster_slope)[i] * mpix +
                     (*upscale)[i] * picture.output_mpix +
                     picture.generated_per_rendered * (*generate)[i];
    out.ray[i] = (*ray)[i] + (*ray_slope)[i] * mpix;
    out.traffic[i] = 1000.0 * ((*traffic)[i] + (*traffic_slope)[i] * mpix);
  }
  out.rays = any(out.ray);
  out.moves = any(out.traffic);
  return out;
}

std::vector<StageRate> StageRates::gpu(Row gpu) {
  if (of_gpu_.empty())
    for (const TitleGoal& goal : facts_.brief.titles) of_gpu_.push_back(asked_of_gpu(goal));
  std::vector<StageRate> out(of_gpu_.size());
  // What a title does not ask for, a card need not state.
  const bool rays = std::ranges::any_of(of_gpu_, [](const auto& it) { return it && it->rays; });
  const bool moves = std::ranges::any_of(of_gpu_, [](const auto& it) { return it && it->moves; });
  const auto slowness = [&](ColumnId speed_column, bool wanted) -> std::optional<Samples> {
    if (!wanted) return {};
    auto speed = cell(speed_column, gpu);
    if (speed)
      for (double& each : *speed) each = 1.0 / each;
    return speed;
  };
  const auto shading = slowness(column("gpu", "raster_speed"), true);
  if (!shading) return out;
  const auto ray = slowness(column("gpu", "ray_speed"), rays);
  const auto traffic = slowness(column("gpu", "bandwidth_gb_s"), moves);
  const Samples none{};  // for what no title asks for
  const Samples per_ray = ray.value_or(none);
  const Samples per_gb = traffic.value_or(none);
  for (std::size_t t = 0; t < out.size(); ++t) {
    const std::optional<Asked>& asked = of_gpu_[t];
    if (!asked || (asked->rays && !ray) || (asked->moves && !traffic)) continue;
    out[t] = over_draws([&](std::size_t i) {
      return 1000.0 / (asked->shading[i] * (*shading)[i] + asked->ray[i] * per_ray[i] +
                       asked->traffic[i] * per_gb[i]);
    });
  }
  return out;
}

const std::optional<Samples>& StageRates::rates_at_speed_1(std::size_t title, double mt_s) {
  const auto [at, fresh] = of_cpu_.try_emplace({title, mt_s});
  if (!fresh) return at->second;
  const Row row = title_row(facts_, facts_.brief.titles[title]);
  if (row == no_row) return at->second;
  const auto demand = cell(column("titles", "cpu_ms"), row);
  const auto share = cell(column("titles", "memory_share_frac"), row);
  if (!demand || !share) return at->second;
  const bool follows =
      facts_.catalog.cell(column("titles", "memory_share_frac"), row, facts_.draws.seed()).high() >
      0.0;
  Samples& out = at->second.emplace();
  for (std::size_t i = 0; i < draw_count; ++i)
    out[i] =
        1000.0 / cpu_stage_ms({.cpu_ms = (*demand)[i], .memory_sensitivity = (*share)[i]},
                              {.cpu_speed = 1.0,
                               .effective_mt_s = follows ? std::max(mt_s, 1.0) : reference_mt_s,
                               .reference_mt_s = reference_mt_s});
  return at->second;
}

std::vector<StageRate> StageRates::cpu(Row cpu, double mt_s) {
  std::vector<StageRate> out(facts_.brief.titles.size());
  const auto speed = cell(column("cpu", "frame_speed"), cpu);
  if (!speed) return out;
  for (std::size_t t = 0; t < out.size(); ++t)
    if (const auto& rates = rates_at_speed_1(t, mt_s))
      out[t] = over_draws([&](std::size_t i) { return (*rates)[i] * (*speed)[i]; });
  return out;
}

}  // namespace rigproof::forecast
