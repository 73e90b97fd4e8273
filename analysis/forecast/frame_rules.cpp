#include "analysis/forecast/frame_rules.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "analysis/forecast/speeds.hpp"
#include "base/contract.hpp"
#include "catalog/title_name.hpp"

namespace rigproof {
namespace {

using namespace forecast;

const TitleGoal& goal_at(const Facts& facts, int index) {
  return facts.brief.titles[static_cast<std::size_t>(index)];
}

// A build without these is no machine yet. One without a card gets its claims, as unknown.
bool is_machine(const Facts& facts) {
  return facts.build.has(Kind::cpu) && facts.build.has(Kind::board) &&
         facts.build.has(Kind::memory);
}

// The goals that ask for something, counted and found again by their place.
template <auto member>
int places_with(const Facts& facts) {
  if (!is_machine(facts)) return 0;
  int count = 0;
  for (const TitleGoal& goal : facts.brief.titles) count += (goal.*member).has_value() ? 1 : 0;
  return count;
}

struct Asked {
  const TitleGoal& goal;
  double fps;
};

template <auto member>
Asked asked_at(const Facts& facts, int place) {
  for (const TitleGoal& goal : facts.brief.titles) {
    const std::optional<double>& fps = goal.*member;
    if (fps && place-- == 0) return {goal, *fps};
  }
  RP_EXPECT(false);  // a place at or beyond places()
  return {facts.brief.titles.front(), 0.0};
}

std::string picture_text(const TitleGoal& goal) {
  std::string text = fmt::format("{}x{}", goal.width_px, goal.height_px);
  if (goal.render_scale != 1.0) text += fmt::format(", render scale {:g}", goal.render_scale);
  return text;
}

// Which stage the mean frame waits for, in the middle of the draws.
std::string faster_what(const Facts& facts, const TitleGoal& goal) {
  Measure scratch;
  if (!range_covers(facts, goal, scratch))
    return fmt::format("a row of titles.csv that covers {:.3g} rendered megapixels",
                       picture_of(goal).rendered_mpix());
  if (!facts.build.has(Kind::gpu)) return "a card";
  const Draws cpu_ms = cpu_stage_ms(facts, goal, scratch);
  const Draws gpu_ms = gpu_stage_ms(facts, goal, facts.build.one(Kind::gpu), scratch);
  if (cpu_ms.is_absent() || gpu_ms.is_absent()) return {};
  if (gpu_ms.median() >= cpu_ms.median()) return "a faster card, or fewer rendered pixels";
  return "a faster processor or memory: frames wait for it longer than for the card";
}

void tell_frames(const Facts& facts, const TitleGoal& goal, const std::string& claimed,
                 Telling& out) {
  for (const Kind kind : {Kind::cpu, Kind::board, Kind::memory, Kind::gpu})
    for (const Chosen& part : facts.build.of(kind)) out.subjects.push_back({kind, part.row});
  out.where = goal.title;
  out.load = "title";
  out.statement = fmt::format("{} at {} {}.", title_name(facts.catalog, goal.title),
                              picture_text(goal), claimed);
  if (!facts.build.has(Kind::gpu))
    out.statement += " No card: rates of a processor's own graphics are not modelled.";
  else if (title_row(facts, goal) == no_row)
    out.statement += " The catalog has no such title.";
  out.remedy = faster_what(facts, goal);
}

enum class Rate { mean, slow };

void measure_rate(const Facts& facts, const TitleGoal& goal, Rate rate, double at_least_fps,
                  Measure& m) {
  m.limit = at_least_fps;
  if (range_covers(facts, goal, m)) {
    const Draws cpu_ms = cpu_stage_ms(facts, goal, m);
    const Draws gpu_ms = gpu_stage_ms(facts, goal, facts.build.one(Kind::gpu), m);
    // Neither the mean nor the slow frame time is ever below the longer stage's mean (F1, F2):
    // where that alone is too slow in every draw, the verdict needs no more.
    const Draws longer_ms = Draws::larger(cpu_ms, gpu_ms);
    if (m.deciding && !longer_ms.is_absent() && 1000.0 / longer_ms.low() < at_least_fps) {
      m.value = rate_fps(longer_ms);
      return;
    }
    const TitleSpread spread = title_spread(facts, goal, m);
    if (rate == Rate::mean)
      m.value = rate_fps(mean_frame_ms(cpu_ms, gpu_ms, spread));
    else if (m.deciding)  // which draws keep the limit is all that a verdict is made of
      m.value = rate_fps(p99_frame_side_ms(cpu_ms, gpu_ms, spread, 1000.0 / at_least_fps));
    else
      m.value = rate_fps(p99_frame_ms(cpu_ms, gpu_ms, spread));
  }
  if (m.value.is_absent()) m.unknown = true;
}

// --- forecast.frame-floor

void measure_floor(const Facts& facts, int place, Measure& m) {
  const auto [goal, fps] = asked_at<&TitleGoal::floor_fps>(facts, place);
  measure_rate(facts, goal, Rate::mean, fps, m);
}

void tell_floor(const Facts& facts, int place, const Measure&, Telling& out) {
  const auto [goal, fps] = asked_at<&TitleGoal::floor_fps>(facts, place);
  tell_frames(facts, goal, fmt::format("renders at least {:g} frames a second on average", fps),
              out);
}

// --- forecast.slow-frames

void measure_slow(const Facts& facts, int place, Measure& m) {
  const auto [goal, fps] = asked_at<&TitleGoal::p99_frame_time_fps>(facts, place);
  measure_rate(facts, goal, Rate::slow, fps, m);
}

void tell_slow(const Facts& facts, int place, const Measure&, Telling& out) {
  const auto [goal, fps] = asked_at<&TitleGoal::p99_frame_time_fps>(facts, place);
  const std::string claimed =
      fmt::format("renders 99 % of its frames within {:.3g} ms ({:g} a second)", 1000.0 / fps, fps);
  tell_frames(facts, goal, claimed, out);
}

// --- forecast.frame-target

int all_titles(const Facts& facts) {
  return is_machine(facts) ? static_cast<int>(facts.brief.titles.size()) : 0;
}

void measure_target(const Facts& facts, int place, Measure& m) {
  const TitleGoal& goal = goal_at(facts, place);
  measure_rate(facts, goal, Rate::mean, goal.target_fps, m);
}

void tell_target(const Facts& facts, int place, const Measure& m, Telling& out) {
  const TitleGoal& goal = goal_at(facts, place);
  std::string claimed =
      fmt::format("reaches its target of {:g} rendered frames a second", goal.target_fps);
  if (goal.generated_per_rendered > 0 && !m.value.is_absent())
    claimed += fmt::format("; with {} generated for each, {:.0f} are displayed",
                           goal.generated_per_rendered,
                           m.value.median() * (1 + goal.generated_per_rendered));
  tell_frames(facts, goal, claimed, out);
}

constexpr std::array frame_kinds = {Kind::cpu, Kind::board, Kind::memory, Kind::gpu};
constexpr std::array frame_cells = {column("cpu", "frame_speed"),
                                    column("cpu", "memory_max_mt_s"),
                                    column("cpu", "memory_channels"),
                                    column("board", "memory_slots"),
                                    column("board", "memory_max_mt_s"),
                                    column("board", "memory_full_mt_s"),
                                    column("memory", "speed_mt_s"),
                                    column("memory", "modules"),
                                    column("gpu", "raster_speed"),
                                    column("gpu", "ray_speed"),
                                    column("gpu", "bandwidth_gb_s"),
                                    column("titles", "cpu_ms"),
                                    column("titles", "memory_share_frac"),
                                    column("titles", "cpu_log_sd"),
                                    column("titles", "raster_ms"),
                                    column("titles", "raster_ms_per_mpix"),
                                    column("titles", "ray_ms"),
                                    column("titles", "ray_ms_per_mpix"),
                                    column("titles", "traffic_gb"),
                                    column("titles", "traffic_gb_per_mpix"),
                                    column("titles", "gpu_log_sd"),
                                    column("titles", "stage_correlation"),
                                    column("titles", "upscale_ms_per_mpix"),
                                    column("titles", "generate_ms"),
                                    column("titles", "cap_fps"),
                                    column("titles", "megapixels_low"),
                                    column("titles", "megapixels_high")};
constexpr std::array<std::string_view, 1> floor_keys = {"titles.*.floor_fps"};
constexpr std::array<std::string_view, 1> slow_keys = {"titles.*.p99_frame_time_fps"};
constexpr std::array<std::string_view, 1> target_keys = {"titles.*.target_fps"};

constexpr Rule floor_rule = {
    .id = "forecast.frame-floor",
    .about = "mean rendered rate against a title's floor",
    .consequence =
        "The picture would stutter: the title would run slower than you said you can bear.",
    .grade = Grade::must,
    .kinds = frame_kinds,
    .reads = frame_cells,
    .brief_keys = floor_keys,
    .relation = Relation::at_least,
    .unit = "fps",
    .basis = Basis::model,
    .equation = "1000 / mean frame time >= floor, (F1) with (F3), (F4), (F8)",
    .source = "analysis/forecast/README.md (F1)",
    .places = places_with<&TitleGoal::floor_fps>,
    .measure = measure_floor,
    .tell = tell_floor};

constexpr Rule slow_rule = {
    .id = "forecast.slow-frames",
    .about = "the rate of the slowest frames in a hundred against a title's limit",
    .consequence = "The picture would hitch now and then, more often than you said you can bear.",
    .grade = Grade::must,
    .kinds = frame_kinds,
    .reads = frame_cells,
    .brief_keys = slow_keys,
    .relation = Relation::at_least,
    .unit = "fps",
    .basis = Basis::model,
    .equation = "1000 / frame time that 99 % of the frames keep >= limit, (F2) with (F4), (F8)",
    .source = "analysis/forecast/README.md (F2)",
    .places = places_with<&TitleGoal::p99_frame_time_fps>,
    .measure = measure_slow,
    .tell = tell_slow};

constexpr Rule target_rule = {
    .id = "forecast.frame-target",
    .about = "mean rendered rate against a title's target",
    .consequence = "The title would run, but slower than you wished.",
    .grade = Grade::tells,
    .kinds = frame_kinds,
    .reads = frame_cells,
    .brief_keys = target_keys,
    .relation = Relation::at_least,
    .unit = "fps",
    .basis = Basis::model,
    .equation = "1000 / mean frame time >= target, (F1) with (F3), (F4), (F8)",
    .source = "analysis/forecast/README.md (F1)",
    .places = all_titles,
    .measure = measure_target,
    .tell = tell_target};

// --- forecast.video-memory

int card_titles(const Facts& facts) {
  return facts.build.has(Kind::gpu) ? static_cast<int>(facts.brief.titles.size()) : 0;
}

// (F10)
void measure_memory(const Facts& facts, int place, Measure& m) {
  const TitleGoal& goal = goal_at(facts, place);
  m.limit = m.read(facts, column("gpu", "video_memory_gib"), facts.build.one(Kind::gpu));
  const Row title = title_row(facts, goal);
  if (title == no_row) {
    m.unknown = true;
    return;
  }
  m.value = m.read(facts, column("titles", "video_memory_gib"), title);
  m.value += m.read(facts, column("titles", "video_memory_gib_per_mpix"), title) *
             picture_of(goal).output_mpix;
}

void tell_memory(const Facts& facts, int place, const Measure& m, Telling& out) {
  const TitleGoal& goal = goal_at(facts, place);
  const PartRef gpu{Kind::gpu, facts.build.one(Kind::gpu)};
  out.subjects = {gpu};
  out.where = goal.title;
  out.load = "title";
  out.statement = fmt::format("The card {} has the video memory that {} needs at {}x{}.",
                              facts.catalog.name(gpu), title_name(facts.catalog, goal.title),
                              goal.width_px, goal.height_px);
  if (!m.value.is_absent())
    out.remedy = fmt::format("a card with {:.0f} GiB or more, or settings that need less",
                             std::ceil(m.value.quantile(0.95)));
}

constexpr std::array card_only = {Kind::gpu};
constexpr std::array memory_cells = {column("gpu", "video_memory_gib"),
                                     column("titles", "video_memory_gib"),
                                     column("titles", "video_memory_gib_per_mpix")};
constexpr std::array<std::string_view, 1> memory_keys = {"titles"};

constexpr Rule memory_rule = {
    .id = "forecast.video-memory",
    .about = "video memory a title needs against what the card has",
    .consequence =
        "The card would run out of memory: the picture would hitch badly or show coarse surfaces.",
    .grade = Grade::must,
    .kinds = card_only,
    .reads = memory_cells,
    .brief_keys = memory_keys,
    .relation = Relation::at_most,
    .unit = "GiB",
    .basis = Basis::model,
    .equation = "video memory the title needs <= video memory of the card, (F10)",
    .source = "analysis/forecast/README.md (F10)",
    .places = card_titles,
    .measure = measure_memory,
    .tell = tell_memory};

constexpr std::array<const Rule*, 4> rules = {&floor_rule, &slow_rule, &target_rule, &memory_rule};

}  // namespace

std::span<const Rule* const> forecast_rules() { return rules; }
std::span<const ColumnId> frame_rate_cells() { return frame_cells; }

}  // namespace rigproof
