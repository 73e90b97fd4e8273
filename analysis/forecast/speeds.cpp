#include "analysis/forecast/speeds.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <initializer_list>

namespace rigproof::forecast {
namespace {

constexpr double slow_share = 0.99;

// A cell, and how to take one of its draws.
struct Cell {
  ColumnId column;
  const Draws* draws;
  [[nodiscard]] double operator[](int draw) const {
    return std::clamp((*draws)[draw], spec(column).min, spec(column).max);
  }
  [[nodiscard]] bool may_be_more_than_0() const { return draws->high() > 0.0; }
};

Cell read(const Facts& facts, Measure& measure, ColumnId column_id, Row row) {
  return {column_id, &measure.read(facts, column_id, row)};
}

// f(draw) in every draw; once when all inputs are certain. A speed has no class range; should one
// come, it is not known well enough for a rate.
template <class F>
Draws by_draw(std::initializer_list<const Draws*> inputs, F f) {
  bool certain = true;
  for (const Draws* input : inputs) {
    if (input->is_absent() || input->spans()) return Draws::absent();
    certain = certain && input->is_certain();
  }
  if (certain) return f(0);
  std::array<double, draw_count> samples;
  for (int draw = 0; draw < draw_count; ++draw) samples[static_cast<std::size_t>(draw)] = f(draw);
  return Draws::of(samples);
}

void copy_to(const Draws& draws, std::array<double, draw_count>& out) {
  for (int draw = 0; draw < draw_count; ++draw) out[static_cast<std::size_t>(draw)] = draws[draw];
}

FrameTime frame_time_at(const TitleSpread& spread, int draw) {
  return FrameTime({.cpu_log_sd = spread.cpu_log_sd[draw],
                    .gpu_log_sd = spread.gpu_log_sd[draw],
                    .correlation = spread.correlation[draw],
                    .cap_fps = spread.cap_fps[draw]});
}

bool is_certain(const TitleSpread& spread) {
  return spread.cpu_log_sd.is_certain() && spread.gpu_log_sd.is_certain() &&
         spread.correlation.is_certain() && spread.cap_fps.is_certain();
}

// one(frame_time, cpu, gpu) for single values, all(frame_time, cpus, gpus, out) for whole batches.
template <class One, class All>
Draws frame_ms(const Draws& cpu_ms, const Draws& gpu_ms, const TitleSpread& spread, One one,
               All all) {
  const auto at = [&](int draw) {
    return one(frame_time_at(spread, draw), cpu_ms[draw], gpu_ms[draw]);
  };
  const bool stages_certain = cpu_ms.is_certain() && gpu_ms.is_certain();
  const bool absent = cpu_ms.is_absent() || gpu_ms.is_absent();
  if (absent || stages_certain || !is_certain(spread))
    return by_draw({&cpu_ms, &gpu_ms, &spread.cpu_log_sd, &spread.gpu_log_sd, &spread.correlation,
                    &spread.cap_fps},
                   at);
  std::array<double, draw_count> cpu;
  std::array<double, draw_count> gpu;
  std::array<double, draw_count> out;
  copy_to(cpu_ms, cpu);
  copy_to(gpu_ms, gpu);
  all(frame_time_at(spread, 0), cpu, gpu, out);
  return Draws::of(out);
}

using Samples = std::array<double, draw_count>;

}  // namespace

Row title_row(const Facts& facts, const TitleGoal& goal) {
  return facts.catalog.find_row(table("titles"), goal.title).value_or(no_row);
}

Picture picture_of(const TitleGoal& goal) {
  return {.output_mpix = 1e-6 * goal.width_px * goal.height_px,
          .render_scale = goal.render_scale,
          .generated_per_rendered = goal.generated_per_rendered};
}

bool range_covers(const Facts& facts, const TitleGoal& goal, Measure& measure) {
  constexpr double rounding = 1e-9;  // of a resolution multiplied out against one typed in
  const Row title = title_row(facts, goal);
  if (title == no_row) {
    measure.unknown = true;
    return false;
  }
  const double mpix = picture_of(goal).rendered_mpix();
  const ColumnId low = column("titles", "megapixels_low");
  const ColumnId high = column("titles", "megapixels_high");
  const bool below = mpix < facts.catalog.number(low, title) * (1.0 - rounding);
  const bool above = mpix > facts.catalog.number(high, title) * (1.0 + rounding);
  if (below || above) measure.note_missing({below ? low : high, title, {}}, false);
  return !below && !above;
}

MemoryPath memory_path(const Build& build) {
  return {
      .cpu = build.one(Kind::cpu), .board = build.one(Kind::board), .kits = build.of(Kind::memory)};
}

namespace {

// A cell that most catalogs lack: what is usual stands in for it, and no claim waits for it.
Draws read_or(const Facts& facts, Measure& measure, ColumnId column, Row row, const Draws& usual) {
  if (!facts.catalog.absent(column, row)) return measure.read(facts, column, row);
  measure.note_seen(column, row);
  return usual;
}

}  // namespace

// (F8)
Draws effective_mt_s(const Facts& facts, const MemoryPath& path, Measure& measure) {
  if (path.cpu == no_row || path.board == no_row || path.kits.empty()) return Draws::absent();
  Draws rate = measure.read(facts, column("cpu", "memory_max_mt_s"), path.cpu);
  const Draws few = measure.read(facts, column("board", "memory_max_mt_s"), path.board);
  Draws modules = 0.0;
  for (const Chosen& kit : path.kits) {
    rate = Draws::smaller(rate, measure.read(facts, column("memory", "speed_mt_s"), kit.row));
    modules += measure.read(facts, column("memory", "modules"), kit.row) * kit.count;
  }
  const Draws channels = read_or(facts, measure, column("cpu", "memory_channels"), path.cpu,
                                 Draws(usual_memory_channels));
  const Draws slots =
      read_or(facts, measure, column("board", "memory_slots"), path.board, Draws(0.0));
  const Draws many = read_or(facts, measure, column("board", "memory_full_mt_s"), path.board, few);
  return by_draw({&rate, &few, &modules, &channels, &slots, &many}, [&](int draw) {
    const bool twice = slots[draw] > channels[draw] && modules[draw] >= slots[draw];
    return std::min(rate[draw], twice ? many[draw] : few[draw]) *
           std::min(modules[draw], channels[draw]) / usual_memory_channels;
  });
}

namespace {

constexpr std::uint64_t cpu_stage_tag = 0x666300;  // "fc", then which
constexpr std::uint64_t gpu_stage_tag = 0x666301;

// A plan asks for the same stages again and again: known ones are kept beside the cells' draws.
// Absent ones are made anew each time, so that every claim notes what is missing.
template <class Make>
Draws remembered(const Facts& facts, const CellDraws::Key& key, Make make) {
  if (const Draws* known = facts.draws.kept(key)) return *known;
  Draws draws = make();
  if (!draws.is_absent()) facts.draws.keep(key, draws);
  return draws;
}

Draws fresh_cpu_stage_ms(const Facts& facts, const TitleGoal& goal, Row cpu,
                         const Draws& effective_mt_s, Measure& measure) {
  const Row title = title_row(facts, goal);
  if (title == no_row || cpu == no_row) return Draws::absent();
  const Cell demand = read(facts, measure, column("titles", "cpu_ms"), title);
  const Cell share = read(facts, measure, column("titles", "memory_share_frac"), title);
  const Cell speed = read(facts, measure, column("cpu", "frame_speed"), cpu);
  const bool follows = share.may_be_more_than_0();
  const Draws no_matter = reference_mt_s;
  const Draws& rate = follows ? effective_mt_s : no_matter;
  return by_draw({demand.draws, share.draws, speed.draws, &rate}, [&](int draw) {
    return cpu_stage_ms({.cpu_ms = demand[draw], .memory_sensitivity = share[draw]},
                        {.cpu_speed = speed[draw],
                         .effective_mt_s = std::max(rate[draw], 1.0),
                         .reference_mt_s = reference_mt_s});
  });
}

Draws fresh_gpu_stage_ms(const Facts& facts, const TitleGoal& goal, Row gpu, Measure& measure) {
  const Row title = title_row(facts, goal);
  if (title == no_row || gpu == no_row) return Draws::absent();
  const auto asked = [&](ColumnId cell) { return read(facts, measure, cell, title); };
  const Picture picture = picture_of(goal);
  const Draws none = 0.0;
  const Cell no_cost{column("titles", "upscale_ms_per_mpix"), &none};
  const Cell no_speed{column("gpu", "slot_power_w"), &none};  // a column whose range has 0
  const Cell raster = asked(column("titles", "raster_ms"));
  const Cell raster_slope = asked(column("titles", "raster_ms_per_mpix"));
  const Cell ray = asked(column("titles", "ray_ms"));
  const Cell ray_slope = asked(column("titles", "ray_ms_per_mpix"));
  const Cell traffic = asked(column("titles", "traffic_gb"));
  const Cell traffic_slope = asked(column("titles", "traffic_gb_per_mpix"));
  const Cell upscale =
      picture.render_scale != 1.0 ? asked(column("titles", "upscale_ms_per_mpix")) : no_cost;
  const Cell generate =
      picture.generated_per_rendered > 0 ? asked(column("titles", "generate_ms")) : no_cost;
  // What a title does not ask for, a card need not state.
  const bool rays = ray.may_be_more_than_0() || ray_slope.may_be_more_than_0();
  const bool moves = traffic.may_be_more_than_0() || traffic_slope.may_be_more_than_0();
  const Cell shading = read(facts, measure, column("gpu", "raster_speed"), gpu);
  const Cell ray_speed = rays ? read(facts, measure, column("gpu", "ray_speed"), gpu) : no_speed;
  const Cell bandwidth =
      moves ? read(facts, measure, column("gpu", "bandwidth_gb_s"), gpu) : no_speed;
  return by_draw({raster.draws, raster_slope.draws, ray.draws, ray_slope.draws, traffic.draws,
                  traffic_slope.draws, upscale.draws, generate.draws, shading.draws,
                  ray_speed.draws, bandwidth.draws},
                 [&](int draw) {
                   return gpu_stage_ms(
                       {.raster_ms = {raster[draw], raster_slope[draw]},
                        .ray_ms = {ray[draw], ray_slope[draw]},
                        .traffic_gb = {traffic[draw], traffic_slope[draw]},
                        .upscale_ms_per_mpix = upscale[draw],
                        .generated_frame_ms = generate[draw] / shading[draw]},  // (F9)
                       {.raster_speed = shading[draw],
                        .ray_speed = ray_speed[draw],
                        .bandwidth_gb_s = bandwidth[draw]},
                       picture);
                 });
}

}  // namespace

Draws cpu_stage_ms(const Facts& facts, const TitleGoal& goal, Row cpu, const Draws& effective_mt_s,
                   Measure& measure) {
  if (effective_mt_s.is_absent() || !effective_mt_s.is_certain())
    return fresh_cpu_stage_ms(facts, goal, cpu, effective_mt_s, measure);
  const CellDraws::Key key = {cpu_stage_tag,
                              title_row(facts, goal),
                              cpu,
                              std::bit_cast<std::uint64_t>(effective_mt_s[0]),
                              0,
                              0};
  return remembered(facts, key,
                    [&] { return fresh_cpu_stage_ms(facts, goal, cpu, effective_mt_s, measure); });
}

Draws cpu_stage_ms(const Facts& facts, const TitleGoal& goal, Measure& measure) {
  const Row title = title_row(facts, goal);
  if (title == no_row) return Draws::absent();
  const bool follows = facts.draws.of(column("titles", "memory_share_frac"), title).high() > 0.0;
  const Draws rate =
      follows ? effective_mt_s(facts, memory_path(facts.build), measure) : Draws(reference_mt_s);
  return cpu_stage_ms(facts, goal, facts.build.one(Kind::cpu), rate, measure);
}

Draws gpu_stage_ms(const Facts& facts, const TitleGoal& goal, Row gpu, Measure& measure) {
  const CellDraws::Key key = {
      gpu_stage_tag,
      title_row(facts, goal),
      gpu,
      static_cast<std::uint64_t>(goal.width_px) << 32U | static_cast<std::uint64_t>(goal.height_px),
      std::bit_cast<std::uint64_t>(goal.render_scale),
      static_cast<std::uint64_t>(goal.generated_per_rendered)};
  return remembered(facts, key, [&] { return fresh_gpu_stage_ms(facts, goal, gpu, measure); });
}

TitleSpread title_spread(const Facts& facts, const TitleGoal& goal, Measure& measure) {
  const Row title = title_row(facts, goal);
  if (title == no_row) return {Draws::absent(), Draws::absent(), Draws::absent()};
  const auto take = [&](ColumnId column_id) {
    const Cell cell = read(facts, measure, column_id, title);
    return by_draw({cell.draws}, [&](int draw) { return cell[draw]; });
  };
  const ColumnId cap = column("titles", "cap_fps");  // empty: none known, so none is taken
  return {.cpu_log_sd = take(column("titles", "cpu_log_sd")),
          .gpu_log_sd = take(column("titles", "gpu_log_sd")),
          .correlation = take(column("titles", "stage_correlation")),
          .cap_fps = facts.catalog.absent(cap, title) ? Draws(no_cap_fps) : take(cap)};
}

Draws mean_frame_ms(const Draws& cpu_ms, const Draws& gpu_ms, const TitleSpread& spread) {
  return frame_ms(
      cpu_ms, gpu_ms, spread,
      [](const FrameTime& frames, double cpu, double gpu) { return frames.mean_ms(cpu, gpu); },
      [](const FrameTime& frames, const Samples& cpu, const Samples& gpu, Samples& out) {
        frames.mean_ms(cpu, gpu, out);
      });
}

Draws p99_frame_ms(const Draws& cpu_ms, const Draws& gpu_ms, const TitleSpread& spread) {
  return frame_ms(
      cpu_ms, gpu_ms, spread,
      [](const FrameTime& frames, double cpu, double gpu) {
        return frames.quantile_ms(cpu, gpu, slow_share);
      },
      [](const FrameTime& frames, const Samples& cpu, const Samples& gpu, Samples& out) {
        frames.quantile_ms(cpu, gpu, slow_share, out);
      });
}

Draws p99_frame_side_ms(const Draws& cpu_ms, const Draws& gpu_ms, const TitleSpread& spread,
                        double limit_ms) {
  return frame_ms(
      cpu_ms, gpu_ms, spread,
      [&](const FrameTime& frames, double cpu, double gpu) {
        double out = 0.0;
        frames.quantile_side_ms({&cpu, 1}, {&gpu, 1}, slow_share, limit_ms, {&out, 1});
        return out;
      },
      [&](const FrameTime& frames, const Samples& cpu, const Samples& gpu, Samples& out) {
        frames.quantile_side_ms(cpu, gpu, slow_share, limit_ms, out);
      });
}

Draws rate_fps(const Draws& frame_ms) {
  return by_draw({&frame_ms}, [&](int draw) { return 1000.0 / frame_ms[draw]; });
}

TitleForecast title_forecast(const Facts& facts, const TitleGoal& goal, Measure& measure) {
  if (!range_covers(facts, goal, measure)) return {};
  const Draws cpu_ms = cpu_stage_ms(facts, goal, measure);
  const Draws gpu_ms = gpu_stage_ms(facts, goal, facts.build.one(Kind::gpu), measure);
  const TitleSpread spread = title_spread(facts, goal, measure);
  return {.rendered_ms = mean_frame_ms(cpu_ms, gpu_ms, spread),
          .p99_ms = p99_frame_ms(cpu_ms, gpu_ms, spread)};
}

}  // namespace rigproof::forecast
