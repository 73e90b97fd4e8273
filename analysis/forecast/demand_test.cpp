// What a title asks of the parts, what a rate is worth, and the checked door.
// Oracles: hand arithmetic; concavity; a bound against the mean it bounds.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "analysis/forecast/frame_time.hpp"
#include "analysis/forecast/random_stages.hpp"

namespace rigproof::forecast {
namespace {

// ---- (F4), (F5) ----------------------------------------------------------------------------

// m = 0.4, reference 6000, effective 4800: 1 + 0.4 (1.25 - 1) = 1.1; twice the rate: 1 - 0.2 = 0.8.
TEST(Demand, MemoryFactorByHand) {
  EXPECT_DOUBLE_EQ(memory_factor(0.4, 6000, 4800), 1.1);
  EXPECT_DOUBLE_EQ(memory_factor(0.4, 6000, 12000), 0.8);
  EXPECT_EQ(memory_factor(0.4, 6000, 6000), 1.0);
  EXPECT_EQ(memory_factor(0.0, 6000, 1600), 1.0);
  EXPECT_DOUBLE_EQ(memory_factor(1.0, 6000, 3000),
                   2.0);  // all of it waits: half the rate, twice the time
}

// 9 ms / 1.5 x 1.1 = 6.6 ms.
TEST(Demand, ProcessorStageByHand) {
  const auto got =
      checked_cpu_stage_ms({.cpu_ms = 9, .memory_sensitivity = 0.4},
                           {.cpu_speed = 1.5, .effective_mt_s = 4800, .reference_mt_s = 6000});
  ASSERT_TRUE(got);
  EXPECT_DOUBLE_EQ(*got, 6.6);
}

// 8 output megapixels at 0.5 per axis: 2 rendered megapixels.
//   raster (1 + 2 x 2) / 2          = 2.5 ms
//   ray    (2 + 1 x 2) / 4          = 1.0 ms
//   bytes  (0.5 + 0.25 x 2) / 500 s = 2.0 ms
//   upscaling 0.3 x 8 / 2           = 1.2 ms     sum 6.7 ms
// and two generated frames of 0.4 ms: 7.5 ms. At render_scale 1 there are 8 megapixels and no
// upscaling: (1 + 16) / 2 + (2 + 8) / 4 + (0.5 + 2) / 500 s = 8.5 + 2.5 + 5 = 16 ms.
TEST(Demand, CardStageByHand) {
  const GpuDemand demand{.raster_ms = {1, 2},
                         .ray_ms = {2, 1},
                         .traffic_gb = {0.5, 0.25},
                         .upscale_ms_per_mpix = 0.3,
                         .generated_frame_ms = 0.4};
  const GpuSpeed speed{.raster_speed = 2, .ray_speed = 4, .bandwidth_gb_s = 500};
  const auto stage = [&](double scale, int generated) {
    return checked_gpu_stage_ms(
               demand, speed,
               {.output_mpix = 8, .render_scale = scale, .generated_per_rendered = generated})
        .value();
  };
  EXPECT_DOUBLE_EQ(stage(0.5, 0), 6.7);
  EXPECT_DOUBLE_EQ(stage(0.5, 2), 7.5);
  EXPECT_DOUBLE_EQ(stage(1.0, 0), 16.0);
}

TEST(Demand, ResourcesThatAreNotAskedForNeedNotBeThere) {
  const GpuDemand no_rays{.raster_ms = {4, 0}};
  const GpuSpeed no_units{.raster_speed = 1, .ray_speed = 0};
  EXPECT_EQ(checked_gpu_stage_ms(no_rays, no_units, {.output_mpix = 2}).value(), 4.0);
  const GpuDemand rays{.raster_ms = {4, 0}, .ray_ms = {0, 1}};
  EXPECT_TRUE(std::isinf(gpu_stage_ms(rays, no_units, {.output_mpix = 2})));
  const auto refused = checked_gpu_stage_ms(rays, no_units, {.output_mpix = 2});
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().message.find("ray_speed"), std::string::npos);
  // A stage that never ends makes a frame that never ends, not a NaN.
  const FrameTime model({.cpu_log_sd = 0.2, .gpu_log_sd = 0.2, .correlation = 0.3, .cap_fps = 60});
  EXPECT_TRUE(std::isinf(model.mean_ms(10, std::numeric_limits<double>::infinity())));
  EXPECT_TRUE(std::isinf(model.quantile_ms(10, std::numeric_limits<double>::infinity(), 0.99)));
}

// 20 ms: 50 rendered; with three generated each, 200 displayed.
TEST(Demand, GeneratedFramesAreDisplayedNotRendered) {
  EXPECT_EQ(frame_rates(20, 3).rendered_fps, 50.0);
  EXPECT_EQ(frame_rates(20, 3).displayed_fps, 200.0);
  EXPECT_EQ(frame_rates(20, 0).displayed_fps, 50.0);
}

// ---- (F6), (F7) ----------------------------------------------------------------------------

TEST(Utility, ByHandAndConcave) {
  EXPECT_EQ(utility(0.0), 0.0);
  EXPECT_EQ(utility(0.6), 0.6);
  EXPECT_EQ(utility(1.0), 1.0);
  EXPECT_NEAR(utility(std::exp(1.0)), 1.25, 1e-15);
  Random random;
  for (int i = 0; i < 10000; ++i) {
    const double a = random.in(0.0, 4.0), b = random.in(0.0, 4.0), share = random.in(0.0, 1.0);
    EXPECT_GE(utility(share * a + (1.0 - share) * b),
              share * utility(a) + (1.0 - share) * utility(b) - 1e-15);
    EXPECT_GE(utility(std::max(a, b)), utility(std::min(a, b)));
  }
}

double mean_rate_fps(std::span<const double> stage_ms) {
  double sum = 0.0;
  for (const double ms : stage_ms) sum += 1000.0 / ms;
  return sum / static_cast<double>(stage_ms.size());
}

// The value side uses nothing of the bound side: utilities of single draws, summed.
TEST(UtilityBound, IsNeverBelowTheMeanUtility) {
  Random random;
  double closest = 1.0;
  for (int round = 0; round < 10000; ++round) {
    const Stages shape = random.stages(round % 3 == 0);
    const double width = random.in(0.0, 0.8);
    const double target_fps = random.in(20.0, 200.0);
    std::array<double, 16> cpu{}, gpu{};
    double sum = 0.0;
    for (std::size_t i = 0; i < cpu.size(); ++i) {
      cpu[i] = shape.cpu_ms * std::exp(random.in(-width, width));
      gpu[i] = shape.gpu_ms * std::exp(random.in(-width, width));
      const double x = 1000.0 / FrameTime(shape.spread).mean_ms(cpu[i], gpu[i]) / target_fps;
      sum += x <= 1.0 ? x : 1.0 + std::log(x) / 4.0;
    }
    const double value = sum / static_cast<double>(cpu.size());
    const double bound = utility_bound({.mean_cpu_fps = mean_rate_fps(cpu),
                                        .mean_gpu_fps = mean_rate_fps(gpu),
                                        .cap_fps = shape.spread.cap_fps,
                                        .target_fps = target_fps});
    ASSERT_GE(bound, value - 1e-14) << "round " << round;  // 1e-14: rounding of the sums
    closest = std::min(closest, bound - value);
  }
  EXPECT_LT(closest, 0.01);  // and it is not a bound of no use
}

// (F11) The same with what the frames vary by, the spread the same in all draws; never looser.
TEST(UtilityBound, WithTheSpreadIsCloserAndStillNeverBelow) {
  Random random;
  double farthest = 0.0;
  double plain_farthest = 0.0;
  for (int round = 0; round < 10000; ++round) {
    const Stages shape = random.stages(round % 3 == 0);
    const FrameTime frames(shape.spread);
    const double target_fps = random.in(20.0, 200.0);
    std::array<double, 16> cpu{}, gpu{};
    double sum = 0.0;
    for (std::size_t i = 0; i < cpu.size(); ++i) {
      cpu[i] = shape.cpu_ms * std::exp(random.in(-0.06, 0.06));
      gpu[i] = shape.gpu_ms * std::exp(random.in(-0.06, 0.06));
      const double x = 1000.0 / frames.mean_ms(cpu[i], gpu[i]) / target_fps;
      sum += x <= 1.0 ? x : 1.0 + std::log(x) / 4.0;
    }
    const double value = sum / static_cast<double>(cpu.size());
    UtilityBound in{.mean_cpu_fps = mean_rate_fps(cpu),
                    .mean_gpu_fps = mean_rate_fps(gpu),
                    .cap_fps = shape.spread.cap_fps,
                    .target_fps = target_fps};
    const double plain = utility_bound(in);
    in.steadiest = &frames;
    const double bound = utility_bound(in);
    ASSERT_LE(bound, plain) << "round " << round;
    ASSERT_GE(bound, value - 1e-13) << "round " << round;  // 1e-13: rounding of sums and Phi
    farthest = std::max(farthest, bound / value - 1.0);
    plain_farthest = std::max(plain_farthest, plain / value - 1.0);
  }
  EXPECT_LT(farthest, 0.02);  // at the target u bends: 3/8 of the mean deviation of 6 %, 1.1 %
  EXPECT_GT(plain_farthest, 0.1);
}

// Draws with spreads of their own: the steadiest of them, without a cap inside, bounds them all.
TEST(UtilityBound, TheSteadiestSpreadBoundsThemAll) {
  Random random;
  for (int round = 0; round < 10000; ++round) {
    std::array<Stages, 8> draws{};
    std::array<double, 8> cpu{}, gpu{};
    double least_log_sd = 10.0, most_cap = 0.0, sum = 0.0;
    const double target_fps = random.in(20.0, 200.0);
    for (std::size_t i = 0; i < draws.size(); ++i) {
      draws[i] = random.stages(round % 3 == 0);
      const Spread& spread = draws[i].spread;
      cpu[i] = draws[i].cpu_ms;
      gpu[i] = draws[i].gpu_ms;
      const double sc = spread.cpu_log_sd, sg = spread.gpu_log_sd;
      least_log_sd =
          std::min(least_log_sd,
                   std::sqrt(std::max(0.0, sc * sc + sg * sg - 2 * spread.correlation * sc * sg)));
      most_cap = std::max(most_cap, spread.cap_fps);
      const double x = 1000.0 / FrameTime(spread).mean_ms(cpu[i], gpu[i]) / target_fps;
      sum += x <= 1.0 ? x : 1.0 + std::log(x) / 4.0;
    }
    const FrameTime steadiest(
        {.cpu_log_sd = std::min(least_log_sd, 2.0), .gpu_log_sd = 0.0, .correlation = 0.0});
    const double bound = utility_bound({.mean_cpu_fps = mean_rate_fps(cpu),
                                        .mean_gpu_fps = mean_rate_fps(gpu),
                                        .steadiest = &steadiest,
                                        .cap_fps = most_cap,
                                        .target_fps = target_fps});
    ASSERT_GE(bound, sum / 8 - 1e-13) << "round " << round;
  }
}

// ---- the checked door ----------------------------------------------------------------------

TEST(Checked, NamesTheFieldThatIsOutOfRange) {
  const Stages good{.cpu_ms = 10,
                    .gpu_ms = 12,
                    .spread = {.cpu_log_sd = 0.2, .gpu_log_sd = 0.2, .correlation = 0.3}};
  EXPECT_TRUE(checked_mean_frame_time_ms(good));
  EXPECT_TRUE(checked_quantile_frame_time_ms(good, 0.99));
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refuses = [&](const char* field, auto change) {
    Stages bad = good;
    change(bad);
    const auto got = checked_mean_frame_time_ms(bad);
    ASSERT_FALSE(got) << field;
    EXPECT_EQ(got.error().code, ErrorCode::out_of_range);
    EXPECT_NE(got.error().message.find(field), std::string::npos) << got.error().message;
    EXPECT_FALSE(checked_quantile_frame_time_ms(bad, 0.99));
  };
  refuses("cpu_ms", [&](Stages& s) { s.cpu_ms = 0.0; });
  refuses("cpu_ms", [&](Stages& s) { s.cpu_ms = nan; });
  refuses("gpu_ms", [&](Stages& s) { s.gpu_ms = -1.0; });
  refuses("cpu_log_sd", [&](Stages& s) { s.spread.cpu_log_sd = -0.1; });
  refuses("gpu_log_sd", [&](Stages& s) { s.spread.gpu_log_sd = 2.1; });
  refuses("correlation", [&](Stages& s) { s.spread.correlation = 1.01; });
  refuses("correlation", [&](Stages& s) { s.spread.correlation = nan; });
  refuses("cap_fps", [&](Stages& s) { s.spread.cap_fps = 0.0; });
  for (const double p : {0.0, 1.0, nan}) EXPECT_FALSE(checked_quantile_frame_time_ms(good, p));
  EXPECT_FALSE(checked_cpu_stage_ms({.cpu_ms = 9, .memory_sensitivity = 1.2}, {}));
  EXPECT_FALSE(checked_cpu_stage_ms({.cpu_ms = 9}, {.cpu_speed = 0}));
  EXPECT_FALSE(checked_gpu_stage_ms({.raster_ms = {-1, 0}}, {}, {.output_mpix = 2}));
  EXPECT_FALSE(checked_gpu_stage_ms({.traffic_gb = {1, 0}}, {}, {.output_mpix = 2}));
  EXPECT_FALSE(checked_gpu_stage_ms({}, {}, {.output_mpix = 2, .render_scale = 0}));
}

}  // namespace
}  // namespace rigproof::forecast
