// From the cells of a catalog to claims. Rates are computed again from the table's numbers by plain
// arithmetic and a numeric integration over the plane (no normal distribution function, no shared
// code).
#include "analysis/forecast/frame_rules.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "analysis/forecast/speeds.hpp"
#include "tests/support/allocations.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using Cells = TestTables::Cells;

const Rule& rule(std::string_view id) { return rule_of(forecast_rules(), id); }

// The numbers of the main test title and machine, once as table cells and once as doubles.
TestTables machine_tables() {
  TestTables tables;
  tables.row("cpu", {{"id", "cpu-a"}, {"frame_speed", "1.25"}, {"memory_max_mt_s", "6000"}});
  tables.row("board", {{"id", "board-a"}, {"memory_max_mt_s", "6400"}});
  tables.row("memory", {{"id", "pair-5200"}, {"speed_mt_s", "5200"}, {"modules", "2"}});
  tables.row("memory", {{"id", "one-5200"}, {"speed_mt_s", "5200"}, {"modules", "1"}});
  tables.row("gpu", {{"id", "card-a"},
                     {"raster_speed", "2"},
                     {"ray_speed", "1.6"},
                     {"bandwidth_gb_s", "500"},
                     {"video_memory_gib", "8"}});
  for (const char* table : {"cpu", "gpu"}) tables.plus_minus(table, "*", "*", 0);
  return tables;
}

Cells title_cells(const char* id) {
  return {{"id", id},
          {"cpu_ms", "10"},
          {"memory_share_frac", "0.3"},
          {"cpu_log_sd", "0.2"},
          {"raster_ms", "2"},
          {"raster_ms_per_mpix", "1.5"},
          {"ray_ms", "0.5"},
          {"ray_ms_per_mpix", "0.4"},
          {"traffic_gb", "0.2"},
          {"traffic_gb_per_mpix", "0.15"},
          {"gpu_log_sd", "0.15"},
          {"stage_correlation", "0.3"},
          {"upscale_ms_per_mpix", "0.1"},
          {"generate_ms", "1"},
          {"video_memory_gib", "4"},
          {"video_memory_gib_per_mpix", "0.5"},
          {"megapixels_low", "0.5"},
          {"megapixels_high", "8.2944"}};
}

Cells with(Cells cells, const std::string& column, const std::string& value) {
  for (auto& cell : cells)
    if (cell.first == column) {
      cell.second = value;
      return cells;
    }
  cells.emplace_back(column, value);
  return cells;
}

TitleGoal goal(const char* title, double floor_fps = 60.0) {
  return {.title = title,
          .width_px = 2560,
          .height_px = 1440,
          .target_fps = floor_fps,
          .floor_fps = floor_fps,
          .p99_frame_time_fps = floor_fps};
}

void take_machine(Scene& scene) {
  for (const char* id : {"cpu-a", "board-a", "pair-5200", "card-a"}) scene.take(id);
}

// sc 0.2, sg 0.15, r 0.3: integral over two independent normals z, w; card's normal is r z + sqrt(1
// - r^2) w.
template <class F>
double over_the_plane(double cpu_ms, double gpu_ms, F f) {
  constexpr double sc = 0.2, sg = 0.15, r = 0.3, step = 0.008, edge = 7.0;
  double sum = 0.0;
  for (double z = -edge + step / 2; z < edge; z += step)
    for (double w = -edge + step / 2; w < edge; w += step) {
      const double cpu = cpu_ms * std::exp(sc * z - sc * sc / 2);
      const double gpu = gpu_ms * std::exp(sg * (r * z + std::sqrt(1 - r * r) * w) - sg * sg / 2);
      sum += f(std::max(cpu, gpu)) * std::exp(-(z * z + w * w) / 2);
    }
  return sum * step * step / (2 * 3.14159265358979323846);
}

double mean_of_longer_ms(double cpu_ms, double gpu_ms) {
  return over_the_plane(cpu_ms, gpu_ms, [](double longer) { return longer; });
}

double share_within(double cpu_ms, double gpu_ms, double t_ms) {
  return over_the_plane(cpu_ms, gpu_ms, [&](double longer) { return longer <= t_ms ? 1.0 : 0.0; });
}

// 5200 of a possible 6000 and 6400 MT/s, two modules. 2560 x 1440 is 3.6864 megapixels.
const double cpu_ms = 10.0 / 1.25 * (1.0 + 0.3 * (5600.0 / 5200.0 - 1.0));
const double gpu_ms = (2.0 + 1.5 * 3.6864) / 2.0 + (0.5 + 0.4 * 3.6864) / 1.6 +
                      1000.0 * (0.2 + 0.15 * 3.6864) / 500.0;

TEST(FrameFloor, RateFromTheCellsByPlainArithmetic) {
  TestTables tables = machine_tables();
  tables.row("titles", title_cells("title-a"));
  Scene scene(tables);
  take_machine(scene);
  const double expected_fps = 1000.0 / mean_of_longer_ms(cpu_ms, gpu_ms);
  ASSERT_GT(expected_fps, 100.0);  // 8.18 and 6.50 ms: neither stage hides the other
  ASSERT_LT(expected_fps, 1000.0 / cpu_ms);
  scene.brief.titles = {goal("title-a", expected_fps - 0.1)};
  const Claim holds = scene.claim(rule("forecast.frame-floor"));
  EXPECT_NEAR(holds.value->value, expected_fps, 1e-3);  // the midpoint rule's error across the kink
  EXPECT_FALSE(holds.value->low);                       // all inputs are certain
  EXPECT_EQ(holds.verdict, Verdict::holds);
  EXPECT_EQ(holds.where, "title-a");
  EXPECT_EQ(holds.load, "title");
  EXPECT_EQ(holds.basis, Basis::model);
  scene.brief.titles = {goal("title-a", expected_fps + 0.1)};
  const Claim fails = scene.claim(rule("forecast.frame-floor"));
  EXPECT_EQ(fails.verdict, Verdict::fails);
  EXPECT_NE(fails.remedy.find("processor"), std::string::npos);  // the longer stage
}

TEST(SlowFrames, NinetyNineInAHundredStayWithin) {
  TestTables tables = machine_tables();
  tables.row("titles", title_cells("title-a"));
  Scene scene(tables);
  take_machine(scene);
  scene.brief.titles = {goal("title-a")};
  const double q99_ms = 1000.0 / scene.claim(rule("forecast.slow-frames")).value->value;
  EXPECT_NEAR(share_within(cpu_ms, gpu_ms, q99_ms), 0.99,
              2e-4);  // a step of the grid along the edge
  scene.brief.titles = {goal("title-a", 1000.0 / q99_ms * 1.001)};
  EXPECT_EQ(scene.claim(rule("forecast.slow-frames")).verdict, Verdict::fails);
  scene.brief.titles = {goal("title-a", 1000.0 / q99_ms * 0.999)};
  EXPECT_EQ(scene.claim(rule("forecast.slow-frames")).verdict, Verdict::holds);
}

// Rendered at half the pixels an axis: 0.9216 megapixels, upscaled to 3.6864; two frames generated
// for each.
TEST(FrameTarget, UpscaledAndGeneratedFrames) {
  TestTables tables = machine_tables();
  tables.row("titles", title_cells("title-a"));
  Scene scene(tables);
  take_machine(scene);
  TitleGoal asked = goal("title-a", 60.0);
  asked.render_scale = 0.5;
  asked.generated_per_rendered = 2;
  scene.brief.titles = {asked};
  const double small_gpu_ms = (2.0 + 1.5 * 0.9216) / 2.0 + (0.5 + 0.4 * 0.9216) / 1.6 +
                              1000.0 * (0.2 + 0.15 * 0.9216) / 500.0 + 0.1 * 3.6864 / 2.0 +
                              2 * 1.0 / 2.0;
  const double rendered_fps = 1000.0 / mean_of_longer_ms(cpu_ms, small_gpu_ms);
  const Claim claim = scene.claim(rule("forecast.frame-target"));
  EXPECT_NEAR(claim.value->value, rendered_fps, 1e-3);
  EXPECT_EQ(claim.grade, Grade::tells);
  const std::string displayed = std::to_string(std::lround(3 * rendered_fps)) + " are displayed";
  EXPECT_NE(claim.statement.find(displayed), std::string::npos) << claim.statement;
}

TEST(FrameTarget, OneModuleHalvesTheWidth) {
  TestTables tables = machine_tables();
  tables.row("titles", title_cells("title-a"));
  Scene scene(tables);
  take_machine(scene);
  scene.brief.titles = {goal("title-a")};
  const auto rate_with = [&](const char* memory, int count) {
    return scene.drop(Kind::memory)
        .take(memory, count)
        .claim(rule("forecast.frame-target"))
        .value->value;
  };
  const double slow_cpu_ms = 8.0 * (1.0 + 0.3 * (5600.0 / 2600.0 - 1.0));
  EXPECT_NEAR(rate_with("one-5200", 1), 1000.0 / mean_of_longer_ms(slow_cpu_ms, gpu_ms), 1e-3);
  EXPECT_DOUBLE_EQ(rate_with("one-5200", 2), rate_with("pair-5200", 1));
  EXPECT_DOUBLE_EQ(rate_with("pair-5200", 2),
                   rate_with("pair-5200", 1));  // four modules, still two channels
}

TEST(FrameTarget, MemoryRunsAsFastAsAllThreeAllow) {
  TestTables tables = machine_tables();
  tables.row("memory", {{"id", "pair-8000"}, {"speed_mt_s", "8000"}, {"modules", "2"}});
  tables.row("board", {{"id", "slow-board"}, {"memory_max_mt_s", "4800"}});
  Scene scene(tables);
  scene.take("cpu-a").take("board-a").take("pair-8000");
  Measure m;
  const auto rate = [&] {
    const Facts facts = scene.facts();
    return forecast::effective_mt_s(facts, forecast::memory_path(facts.build), m)[0];
  };
  EXPECT_EQ(rate(), 6000.0);  // the processor
  scene.drop(Kind::board).take("slow-board");
  EXPECT_EQ(rate(), 4800.0);  // the board
  scene.drop(Kind::memory).take("one-5200");
  EXPECT_EQ(rate(), 2400.0);  // half of it
}

// Width: as many channels as the processor has, as far as modules fill them; 2 where it does not
// say. Every slot filled with more slots than channels: the speed the board lists for that, 4400
// MT/s.
TEST(FrameTarget, MemoryChannelsAndFullSlots) {
  TestTables tables = machine_tables();
  tables.row("memory", {{"id", "pair-5000"}, {"speed_mt_s", "5000"}, {"modules", "2"}});
  for (const auto& [id, channels] : {std::pair{"single", "1"}, {"dual", "2"}, {"quad", "4"}})
    tables.row("cpu", {{"id", id}, {"memory_max_mt_s", "6000"}, {"memory_channels", channels}});
  const auto board = [&](const char* id, const char* slots, const char* full) {
    tables.row("board", {{"id", id},
                         {"memory_max_mt_s", "6400"},
                         {"memory_slots", slots},
                         {"memory_full_mt_s", full}});
  };
  board("two", "2", "4400");
  board("four", "4", "4400");
  board("four-silent", "4", "");
  board("eight", "8", "4400");
  const auto rate = [&](const char* cpu, const char* board_id, int pairs) {
    Scene scene(tables);
    scene.take(cpu).take(board_id).take("pair-5000", pairs);
    Measure m;
    const Facts facts = scene.facts();
    return forecast::effective_mt_s(facts, forecast::memory_path(facts.build), m)[0];
  };
  EXPECT_EQ(rate("dual", "four", 1), 5000.0);
  EXPECT_EQ(rate("dual", "four", 2), 4400.0) << "two modules a channel";
  EXPECT_EQ(rate("dual", "four-silent", 2), 5000.0) << "the board says nothing of it";
  EXPECT_EQ(rate("cpu-a", "four", 2), 4400.0) << "two channels where none are stated";
  EXPECT_EQ(rate("dual", "two", 1), 5000.0) << "both slots filled, one module a channel";
  EXPECT_EQ(rate("single", "two", 1), 2200.0) << "one channel, and two modules in it";
  EXPECT_EQ(rate("quad", "four", 1), 5000.0) << "two of four channels";
  EXPECT_EQ(rate("quad", "four", 2), 10000.0) << "all four, one module each";
  EXPECT_EQ(rate("quad", "eight", 4), 8800.0) << "all four twice";
}

TEST(FrameTarget, EngineCap) {
  TestTables tables = machine_tables();
  tables.row("titles", with(with(with(title_cells("title-a"), "cap_fps", "50"), "cpu_log_sd", "0"),
                            "gpu_log_sd", "0"));
  Scene scene(tables);
  take_machine(scene);
  scene.brief.titles = {goal("title-a")};
  EXPECT_DOUBLE_EQ(scene.claim(rule("forecast.frame-target")).value->value, 50.0);
}

// No variation from frame to frame and a card that hardly matters: the rate is 100 x the
// processor's speed.
Cells processor_title(const char* id) {
  Cells cells = title_cells(id);
  for (const char* zero :
       {"memory_share_frac", "cpu_log_sd", "gpu_log_sd", "stage_correlation", "ray_ms",
        "ray_ms_per_mpix", "traffic_gb", "traffic_gb_per_mpix", "raster_ms_per_mpix"})
    cells = with(cells, zero, "0");
  return with(cells, "raster_ms", "0.1");
}

TEST(FrameFloor, OddsOfAnUncertainSpeed) {
  TestTables tables = machine_tables();
  tables.row("cpu", {{"id", "about-1"}, {"frame_speed", "1"}})
      .plus_minus("cpu", "about-1", "frame_speed", 0.2);
  tables.row("titles", processor_title("title-a")).row("titles", processor_title("title-b"));
  Scene scene(tables);
  for (const char* id : {"about-1", "board-a", "pair-5200", "card-a"}) scene.take(id);
  scene.brief.titles = {goal("title-a", 95.0), goal("title-b", 95.0)};
  const Claim claim = scene.claim(rule("forecast.frame-floor"));
  // 80...120 fps against 95: 25 / 40 of the interval, 160 of 256 quantiles.
  EXPECT_DOUBLE_EQ(*claim.odds, 0.625);
  EXPECT_EQ(claim.verdict, Verdict::thin);
  EXPECT_NEAR(claim.value->value, 100.0, 0.1);
  EXPECT_NEAR(*claim.value->low, 82.0, 0.1);  // 5 % of 80...120
  // What the titles share is shared: both hold in the same draws.
  const Facts facts = scene.facts();
  EXPECT_EQ(judge(rule("forecast.frame-floor"), facts, 0).holds,
            judge(rule("forecast.frame-floor"), facts, 1).holds);
  scene.brief.titles = {goal("title-a", 121.0)};
  EXPECT_EQ(scene.claim(rule("forecast.frame-floor")).verdict, Verdict::fails);
  scene.brief.titles = {goal("title-a", 79.0)};
  EXPECT_EQ(scene.claim(rule("forecast.frame-floor")).verdict, Verdict::holds);
}

// More variation makes the longer of two stages longer: the rates lie between those of the two
// ends.
TEST(FrameTarget, UncertainVariationIsDrawnToo) {
  const auto value_with = [](const char* cpu_log_sd, double plus_minus) {
    TestTables tables = machine_tables();
    tables.row("titles", with(title_cells("title-a"), "cpu_log_sd", cpu_log_sd));
    if (plus_minus > 0) tables.plus_minus("titles", "title-a", "cpu_log_sd", plus_minus);
    Scene scene(tables);
    take_machine(scene);
    scene.brief.titles = {goal("title-a")};
    Measure m;
    const Facts facts = scene.facts();
    return forecast::title_forecast(facts, facts.brief.titles[0], m).rendered_ms;
  };
  const Draws drawn = value_with("0.2", 0.1);
  EXPECT_FALSE(drawn.is_certain());
  EXPECT_GT(drawn.low(), value_with("0.1", 0.0)[0]);
  EXPECT_LT(drawn.high(), value_with("0.3", 0.0)[0]);
  EXPECT_NEAR(drawn.median(), value_with("0.2", 0.0)[0], 0.01);
}

// The batch for uncertain stages and the single value for certain ones are one model.
TEST(FrameTarget, BatchEqualsSingleValues) {
  TestTables tables = machine_tables();
  tables.row("titles", title_cells("title-a"));
  tables.plus_minus("gpu", "card-a", "raster_speed", 0.5);
  Scene scene(tables);
  take_machine(scene);
  scene.brief.titles = {goal("title-a")};
  Measure m;
  const Facts facts = scene.facts();
  const auto all = forecast::title_forecast(facts, facts.brief.titles[0], m);
  const forecast::TitleSpread spread = forecast::title_spread(facts, facts.brief.titles[0], m);
  const Draws cpu = forecast::cpu_stage_ms(facts, facts.brief.titles[0], m);
  const Draws gpu = forecast::gpu_stage_ms(facts, facts.brief.titles[0], 0, m);
  ASSERT_FALSE(gpu.is_certain());
  for (int draw = 0; draw < draw_count; draw += 17) {
    EXPECT_NEAR(all.rendered_ms[draw], forecast::mean_frame_ms(cpu[draw], gpu[draw], spread)[0],
                1e-11);
    EXPECT_NEAR(all.p99_ms[draw], forecast::p99_frame_ms(cpu[draw], gpu[draw], spread)[0], 1e-11);
  }
}

TEST(FrameFloor, EveryAbsentCellIsNamed) {
  const auto missing = [](const char* take_instead, Cells title) {
    TestTables tables = machine_tables();
    tables.row("titles", std::move(title));
    tables.row("cpu", {{"id", "no-speed"}, {"memory_max_mt_s", "6000"}});
    tables.row("board", {{"id", "no-rate"}});
    tables.row("memory", {{"id", "no-modules"}, {"speed_mt_s", "5200"}});
    tables.row("gpu", {{"id", "no-rays"}, {"raster_speed", "2"}, {"bandwidth_gb_s", "500"}});
    Scene scene(tables);
    take_machine(scene);
    if (*take_instead != 0) {
      scene.drop(scene.catalog.find_part(take_instead)->kind).take(take_instead);
    }
    scene.brief.titles = {goal("title-a", 1.0)};
    const Claim claim = scene.claim(rule("forecast.frame-floor"));
    EXPECT_EQ(claim.verdict, claim.missing.empty() ? Verdict::holds : Verdict::unknown);
    EXPECT_EQ(claim.value.has_value(), claim.missing.empty());
    return missing_cells(claim);
  };
  using Names = std::vector<std::string>;
  const Cells title = title_cells("title-a");
  EXPECT_EQ(missing("", title), Names{});
  EXPECT_EQ(missing("no-speed", title), Names{"cpu.no-speed.frame_speed"});
  EXPECT_EQ(missing("no-rate", title), Names{"board.no-rate.memory_max_mt_s"});
  EXPECT_EQ(missing("no-modules", title), Names{"memory.no-modules.modules"});
  EXPECT_EQ(missing("no-rays", title), Names{"gpu.no-rays.ray_speed"});
  EXPECT_EQ(missing("", with(title, "ray_ms", "")), Names{"titles.title-a.ray_ms"});
  EXPECT_EQ(missing("", with(title, "memory_share_frac", "")),
            Names{"titles.title-a.memory_share_frac"});
  // What a title does not ask for, parts need not state; what the picture does not use, the title
  // need not.
  const Cells plain = processor_title("title-a");
  EXPECT_EQ(missing("no-rays", plain), Names{});
  EXPECT_EQ(missing("no-modules", plain), Names{});
  EXPECT_EQ(missing("", with(with(title, "upscale_ms_per_mpix", ""), "generate_ms", "")), Names{});
}

TEST(FrameFloor, PicturesOutsideTheTitlesRowAreUnknown) {
  TestTables tables = machine_tables();
  tables.row("titles", title_cells("title-a"));
  Scene scene(tables);
  take_machine(scene);
  const auto claim_at = [&](int width, int height) {
    TitleGoal asked = goal("title-a", 1.0);
    asked.width_px = width;
    asked.height_px = height;
    scene.brief.titles = {asked};
    return scene.claim(rule("forecast.frame-floor"));
  };
  EXPECT_EQ(claim_at(3840, 2160).verdict, Verdict::holds);  // 8.2944, the end of the row itself
  const Claim above = claim_at(3856, 2160);
  EXPECT_EQ(above.verdict, Verdict::unknown);
  EXPECT_EQ(missing_cells(above), std::vector<std::string>{"titles.title-a.megapixels_high"});
  EXPECT_EQ(missing_cells(claim_at(640, 480)),
            std::vector<std::string>{"titles.title-a.megapixels_low"});
}

TEST(FrameFloor, WithoutACardNothingIsClaimed) {
  TestTables tables = machine_tables();
  tables.row("titles", title_cells("title-a"));
  Scene scene(tables);
  take_machine(scene);
  scene.brief.titles = {goal("title-a", 1.0)};
  scene.drop(Kind::gpu);
  const Claim claim = scene.claim(rule("forecast.frame-floor"));
  EXPECT_EQ(claim.verdict, Verdict::unknown);
  EXPECT_NE(claim.statement.find("a processor's own graphics are not modelled"), std::string::npos);
  EXPECT_EQ(scene.places(rule("forecast.video-memory")), 0);
  EXPECT_EQ(scene.drop(Kind::cpu).places(rule("forecast.frame-floor")), 0);
}

TEST(FrameRules, OneClaimForEachTitleThatAsks) {
  TestTables tables = machine_tables();
  for (const char* id : {"title-a", "title-b", "title-c"}) tables.row("titles", title_cells(id));
  Scene scene(tables);
  take_machine(scene);
  scene.brief.titles = {goal("title-a"), goal("title-b"), goal("title-c")};
  scene.brief.titles[0].floor_fps.reset();
  scene.brief.titles[1].p99_frame_time_fps.reset();
  EXPECT_EQ(scene.places(rule("forecast.frame-floor")), 2);
  EXPECT_EQ(scene.claim(rule("forecast.frame-floor"), 0).where, "title-b");
  EXPECT_EQ(scene.claim(rule("forecast.frame-floor"), 1).where, "title-c");
  EXPECT_EQ(scene.places(rule("forecast.slow-frames")), 2);
  EXPECT_EQ(scene.claim(rule("forecast.slow-frames"), 0).where, "title-a");
  EXPECT_EQ(scene.claim(rule("forecast.slow-frames"), 1).where, "title-c");
  EXPECT_EQ(scene.places(rule("forecast.frame-target")), 3);
}

// 4 + 0.5 GiB a megapixel of output: 3840 x 2160 needs 8.1472, 2560 x 1440 needs 5.8432 of 8 GiB.
TEST(VideoMemory, NeedAtTheOutputPixels) {
  TestTables tables = machine_tables();
  tables.row("titles", title_cells("title-a"))
      .row("titles", with(title_cells("unstated"), "video_memory_gib", ""));
  tables.row("titles", title_cells("about")).plus_minus("titles", "about", "video_memory_gib", 0.5);
  tables.row("gpu", {{"id", "no-size"}});
  Scene scene(tables);
  scene.take("card-a");
  TitleGoal asked = goal("title-a");
  scene.brief.titles = {asked};
  const Claim fits = scene.claim(rule("forecast.video-memory"));
  EXPECT_EQ(fits.verdict, Verdict::holds);
  EXPECT_NEAR(fits.margin->value, 8.0 - 5.8432, 1e-12);
  asked.width_px = 3840;
  asked.height_px = 2160;
  asked.render_scale = 0.5;  // does not help: the output counts
  scene.brief.titles = {asked};
  const Claim fails = scene.claim(rule("forecast.video-memory"));
  EXPECT_EQ(fails.verdict, Verdict::fails);
  EXPECT_NEAR(fails.value->value, 8.1472, 1e-12);
  EXPECT_EQ(fails.remedy, "a card with 9 GiB or more, or settings that need less");
  asked.title =
      "about";  // 7.6472...8.6472 against 8: the quantiles (k + 1/2) / 256 <= 0.3528 are 90
  scene.brief.titles = {asked};
  EXPECT_DOUBLE_EQ(*scene.claim(rule("forecast.video-memory")).odds, 90.0 / 256.0);
  EXPECT_EQ(scene.claim(rule("forecast.video-memory")).verdict, Verdict::doubtful);
  scene.brief.titles = {goal("unstated")};
  EXPECT_EQ(missing_cells(scene.claim(rule("forecast.video-memory"))),
            std::vector<std::string>{"titles.unstated.video_memory_gib"});
  scene.brief.titles = {goal("title-a")};
  EXPECT_EQ(
      missing_cells(scene.drop(Kind::gpu).take("no-size").claim(rule("forecast.video-memory"))),
      std::vector<std::string>{"gpu.no-size.video_memory_gib"});
}

TEST(FrameRules, MeasureAllocatesNothing) {
  const std::size_t before = test_support::allocations;
  TestTables tables = machine_tables();
  EXPECT_GT(test_support::allocations, before);  // the counter counts
  tables.row("titles", title_cells("title-a")).plus_minus("gpu", "card-a", "raster_speed", 0.5);
  Scene scene(tables);
  take_machine(scene);
  scene.brief.titles = {goal("title-a")};
  const Facts facts = scene.facts();
  for (const Rule* each : forecast_rules())
    EXPECT_EQ(test_support::allocations_of(*each, facts, 0), 0U) << each->id;
}

}  // namespace
}  // namespace rigproof
