#include "tests/plan/score_oracle.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace rigproof::test_plan {
namespace {

double normal(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

// E[max] of two correlated lognormals with these means. Engine caps here are so low that no frame
// is slower than the cap's: then the cap is the frame time (caps in reach: frame_time_test.cpp).
double expected_ms(double cpu, double gpu, double sc, double sg, double r, double cap_ms) {
  const double s = std::sqrt(sc * sc + sg * sg - 2.0 * r * sc * sg);
  const double x = std::log(cpu / gpu);
  const double uncapped = cpu * normal(x / s + s / 2) + gpu * normal(-x / s + s / 2);
  if (cap_ms <= 0.0) return uncapped;
  if (cap_ms < 2.5 * uncapped)
    throw std::logic_error("the oracle knows caps far out of reach only");
  return cap_ms;
}

}  // namespace

std::int64_t Scorer::score(const Build& build, std::int64_t price) const {
  const auto worth = static_cast<double>(brief_.markets.front().budget.minor);
  double frames = 0.0;
  double weights = 0.0;
  for (const TitleGoal& goal : brief_.titles) {
    weights += goal.weight;
    frames += goal.weight * remembered(build, goal);
  }
  if (weights > 0.0) frames /= weights;
  return std::llround(worth * frames + brief_.saved_frac * (worth - static_cast<double>(price)));
}

Scorer::UtilityDraws Scorer::score_draws(const Build& build, std::int64_t price) const {
  const auto worth = static_cast<double>(brief_.markets.front().budget.minor);
  double weights = 0.0;
  for (const TitleGoal& goal : brief_.titles) weights += goal.weight;
  UtilityDraws out{};
  for (const TitleGoal& goal : brief_.titles) {
    const UtilityDraws of_title = utility_draws(build, goal);
    for (std::size_t i = 0; i < out.size(); ++i)
      out[i] += worth * goal.weight / weights * of_title[i];
  }
  for (double& draw : out) draw += brief_.saved_frac * (worth - static_cast<double>(price));
  return out;
}

double Scorer::remembered(const Build& build, const TitleGoal& goal) const {
  const Chosen kit = build.of(Kind::memory).front();
  const std::tuple key{&goal,     build.one(Kind::cpu), build.one(Kind::board), kit.row,
                       kit.count, build.one(Kind::gpu)};
  const auto [at, fresh] = known_.try_emplace(key, 0.0);
  if (fresh) at->second = mean_utility(build, goal);
  return at->second;
}

double Scorer::mean_utility(const Build& build, const TitleGoal& goal) const {
  double sum = 0.0;
  for (const double draw : utility_draws(build, goal)) sum += draw;
  return sum / draw_count;
}

Scorer::UtilityDraws Scorer::utility_draws(const Build& build, const TitleGoal& goal) const {
  UtilityDraws out{};
  const Row gpu = build.one(Kind::gpu);
  const Row title = *catalog_.find_row(table("titles"), goal.title);
  if (gpu == no_row) return out;
  const auto of_title = [&](ColumnId id) { return catalog_.number(id, title); };
  const Row cpu = build.one(Kind::cpu);
  const Chosen kit = build.of(Kind::memory).front();
  const double share = of_title(column("titles", "memory_share_frac"));
  const Row board = build.one(Kind::board);
  const double modules = catalog_.number(column("memory", "modules"), kit.row) * kit.count;
  double channels = catalog_.number(column("cpu", "memory_channels"), cpu);
  if (std::isnan(channels)) channels = 2.0;
  double listed = catalog_.number(column("board", "memory_max_mt_s"), board);
  // Two modules in a channel, every slot filled: the board may list less.
  const double slots = catalog_.number(column("board", "memory_slots"), board);
  const double full = catalog_.number(column("board", "memory_full_mt_s"), board);
  if (modules >= slots && channels < slots && !std::isnan(listed) && !std::isnan(full))
    listed = full;
  const double limits[] = {catalog_.number(column("cpu", "memory_max_mt_s"), cpu), listed,
                           catalog_.number(column("memory", "speed_mt_s"), kit.row)};
  double speed = 1e9;
  for (const double limit : limits) {
    if (std::isnan(limit) && share > 0.0) return out;
    speed = std::min(speed, limit);
  }
  speed *= std::min(channels, modules) / 2.0;
  const Draws cpu_speed = catalog_.cell(column("cpu", "frame_speed"), cpu);
  const Draws raster = catalog_.cell(column("gpu", "raster_speed"), gpu);
  const Draws ray = catalog_.cell(column("gpu", "ray_speed"), gpu);
  const Draws bandwidth = catalog_.cell(column("gpu", "bandwidth_gb_s"), gpu);
  if (cpu_speed.is_absent() || raster.is_absent()) return out;
  const double mpix = goal.width_px * goal.height_px / 1e6 * goal.render_scale * goal.render_scale;
  const bool upscaled = goal.render_scale != 1.0;
  // These catalogs state no cost of upscaling: then the rate of an upscaled picture is unknown.
  if (upscaled && std::isnan(of_title(column("titles", "upscale_ms_per_mpix")))) return out;
  const double cap = of_title(column("titles", "cap_fps"));
  for (int i = 0; i < draw_count; ++i) {
    const double tc = of_title(column("titles", "cpu_ms")) / cpu_speed[i] *
                      (share > 0.0 ? 1.0 + share * (5600.0 / speed - 1.0) : 1.0);
    const double rays =
        of_title(column("titles", "ray_ms")) + of_title(column("titles", "ray_ms_per_mpix")) * mpix;
    const double tg = (of_title(column("titles", "raster_ms")) +
                       of_title(column("titles", "raster_ms_per_mpix")) * mpix) /
                          raster[i] +
                      (rays > 0.0 ? rays / ray[i] : 0.0) +
                      1000.0 *
                          (of_title(column("titles", "traffic_gb")) +
                           of_title(column("titles", "traffic_gb_per_mpix")) * mpix) /
                          bandwidth[i];
    const double ms = expected_ms(
        tc, tg, of_title(column("titles", "cpu_log_sd")), of_title(column("titles", "gpu_log_sd")),
        of_title(column("titles", "stage_correlation")), std::isnan(cap) ? 0.0 : 1000.0 / cap);
    const double reached = 1000.0 / ms / goal.target_fps;
    out[static_cast<std::size_t>(i)] = reached <= 1.0 ? reached : 1.0 + 0.25 * std::log(reached);
  }
  return out;
}

}  // namespace rigproof::test_plan
