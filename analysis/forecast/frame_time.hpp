// Frame time: how long a frame takes when a processor stage and a card stage must both be done.
//
// The stages overlap, so a frame lasts as long as the longer of the two; both vary from frame to
// frame as correlated lognormals. Equations (F1) to (F7) are in README.md. All times are ms, all
// rates are rendered frames a second unless the name says displayed.
//
// Two doors: plain functions for inner loops, whose caller has checked the inputs once (`check`),
// and `checked_*`, which answer out_of_range and name the field. Everything here is a pure value
// function: no allocation, no state, any number of threads.
#pragma once

#include <limits>
#include <span>

#include "analysis/forecast/normal.hpp"
#include "base/result.hpp"

namespace rigproof::forecast {

inline constexpr double no_cap_fps = std::numeric_limits<double>::infinity();

/// How a title's two stages vary from frame to frame, and its engine's cap.
struct Spread {
  double cpu_log_sd;            ///< standard deviation of ln(stage), in [0, 2]
  double gpu_log_sd;            ///< likewise
  double correlation;           ///< of the two logarithms, in [-1, 1]
  double cap_fps = no_cap_fps;  ///< each frame lasts at least 1000 / cap_fps; infinity: no cap
};

struct Stages {
  double cpu_ms;  ///< mean of the processor stage, > 0
  double gpu_ms;  ///< mean of the card stage, > 0
  Spread spread;
};

/// (F1), (F3): mean frame time. The plain scalar form: the formula as it stands, for reading, for
/// single values and as the reference of FrameTime::mean_ms. Never below cpu_ms, gpu_ms or the cap.
/// Source: [margrabe-1978] for two, [stulz-1982] for the larger of two above a floor.
[[nodiscard]] double mean_frame_time_ms(const Stages& stages);

/// Bounds of a quantile that need no solving.
struct QuantileBounds {
  double low_ms;
  double high_ms;
};

/// One title's frame times for many pairs of stages: what depends on the spread is done once.
class FrameTime {
 public:
  /// In: a spread that `check` accepts.
  explicit FrameTime(const Spread& spread);

  /// (F1), (F3) for one pair.
  [[nodiscard]] double mean_ms(double cpu_ms, double gpu_ms) const;
  /// (F1), (F3) for every pair; the three spans are of equal length.
  void mean_ms(std::span<const double> cpu_ms, std::span<const double> gpu_ms,
               std::span<double> out_ms) const;

  /// Share of frames that last at most t_ms: P(max <= t), 0 below the cap's frame time.
  [[nodiscard]] double share_within(double cpu_ms, double gpu_ms, double t_ms) const;

  /// (F2): the frame time that a share p of frames stays within; p in (0, 1), 0.99 for the slow
  /// ones. Relative error below 1e-12 for log-deviations to 2 and p to 0.9999.
  [[nodiscard]] double quantile_ms(double cpu_ms, double gpu_ms, double p) const;
  void quantile_ms(std::span<const double> cpu_ms, std::span<const double> gpu_ms, double p,
                   std::span<double> out_ms) const;

  /// For whom only the side of a limit matters: for every pair a frame time that is at most
  /// limit_ms where quantile_ms is, and above it where that is. Solves only on the edge.
  void quantile_side_ms(std::span<const double> cpu_ms, std::span<const double> gpu_ms, double p,
                        double limit_ms, std::span<double> out_ms) const;

  /// low: the larger of the two stages' own quantiles. high: the same at the share where two
  /// independent stages (correlation >= 0, [slepian-1962]) or any two (else, Bonferroni) reach p.
  [[nodiscard]] QuantileBounds quantile_bounds_ms(double cpu_ms, double gpu_ms, double p) const;

 private:
  [[nodiscard]] double exchange_ms(double cpu_ms, double gpu_ms) const;
  [[nodiscard]] double floored_ms(double cpu_ms, double gpu_ms) const;
  // Normal quantiles of the two shares between which a share of the larger stage lies.
  struct Between {
    double low_z;
    double high_z;
  };
  [[nodiscard]] Between between(double p) const;
  [[nodiscard]] QuantileBounds quantile_bounds_ms(double cpu_ms, double gpu_ms,
                                                  const Between& z) const;
  [[nodiscard]] double larger_quantile_ms(double cpu_ms, double gpu_ms, double z) const;

  Spread spread_;
  double cap_ms_;  ///< 0 without a cap
  double s_;       ///< log-deviation of the ratio of the stages
  double inv_s_;   ///< 0 when the ratio does not vary
  NormalPair pair_, cpu_longest_, gpu_longest_;
};

/// A linear demand: `at_zero + per_mpix x megapixels`. Both >= 0.
struct PixelLinear {
  double at_zero = 0.0;
  double per_mpix = 0.0;
  [[nodiscard]] double at(double mpix) const { return at_zero + per_mpix * mpix; }
};

/// What a title asks of the processor for one frame.
struct CpuDemand {
  double cpu_ms;                    ///< at speed 1 and the reference memory, > 0
  double memory_sensitivity = 0.0;  ///< m in [0, 1]: the share of cpu_ms that waits for memory
};

struct CpuSpeed {
  double cpu_speed = 1.0;       ///< > 0; 1 is the reference processor
  double effective_mt_s = 1.0;  ///< > 0; transfer rate, number and width of channels included
  double reference_mt_s = 1.0;  ///< > 0; the rate at which the factor is 1
};

/// What a title asks of the card for one rendered frame, resource by resource.
struct GpuDemand {
  PixelLinear raster_ms{};           ///< at raster_speed 1
  PixelLinear ray_ms{};              ///< at ray_speed 1; all zero when no rays are traced
  PixelLinear traffic_gb{};          ///< bytes moved, in 1e9
  double upscale_ms_per_mpix = 0.0;  ///< per OUTPUT megapixel at raster_speed 1
  double generated_frame_ms =
      0.0;  ///< of card time for one generated frame, on the card in question
};

struct GpuSpeed {
  double raster_speed = 1.0;
  double ray_speed = 0.0;  ///< 0: the card traces no rays; then a title with rays never ends
  double bandwidth_gb_s = 0.0;
};

struct Picture {
  double output_mpix;              ///< of the display mode, > 0
  double render_scale = 1.0;       ///< per axis, in (0, 2]
  int generated_per_rendered = 0;  ///< in [0, 7]
  [[nodiscard]] double rendered_mpix() const { return output_mpix * render_scale * render_scale; }
};

/// (F4) 1 + m (reference / effective - 1): what slower memory makes of the processor stage.
[[nodiscard]] double memory_factor(double memory_sensitivity, double reference_mt_s,
                                   double effective_mt_s);
/// (F4) Mean processor stage.
[[nodiscard]] double cpu_stage_ms(const CpuDemand& demand, const CpuSpeed& speed);
/// (F4), (F5) Mean card stage of one rendered frame with the generated ones that follow it. A
/// resource that is not asked for costs nothing; one that is asked for and absent costs infinity.
[[nodiscard]] double gpu_stage_ms(const GpuDemand& demand, const GpuSpeed& speed,
                                  const Picture& picture);

struct FrameRates {
  double rendered_fps;   ///< what response, targets and floors speak of
  double displayed_fps;  ///< rendered x (1 + generated per rendered)
};
/// (F5)
[[nodiscard]] FrameRates frame_rates(double mean_frame_time_ms, int generated_per_rendered);

/// (F6) Worth of a rate as a share of its target: x to 1, then 1 + 0.25 ln x. x >= 0.
[[nodiscard]] double utility(double rate_over_target);

/// (F7) An upper bound of the mean over draws of utility(fps / target).
struct UtilityBound {
  double mean_cpu_fps;  ///< mean over the draws of 1000 / processor stage, > 0
  double mean_gpu_fps;  ///< > 0
  /// (F11) Frames that vary no more than those of any draw; its cap, if any, is that of every draw.
  /// Null: as if they did not vary.
  const FrameTime* steadiest = nullptr;
  double cap_fps = no_cap_fps;  ///< no draw has a higher one
  double target_fps;            ///< > 0
};
[[nodiscard]] double utility_bound(const UtilityBound& in);

/// Errors: out_of_range, naming the field. Every check is phrased so that NaN fails it.
[[nodiscard]] Result<void> check(const Spread& spread);
[[nodiscard]] Result<void> check(const Stages& stages);
[[nodiscard]] Result<void> check(const CpuDemand& demand, const CpuSpeed& speed);
[[nodiscard]] Result<void> check(const GpuDemand& demand, const GpuSpeed& speed,
                                 const Picture& picture);

[[nodiscard]] Result<double> checked_mean_frame_time_ms(const Stages& stages);
[[nodiscard]] Result<double> checked_quantile_frame_time_ms(const Stages& stages, double p);
[[nodiscard]] Result<double> checked_cpu_stage_ms(const CpuDemand& demand, const CpuSpeed& speed);
[[nodiscard]] Result<double> checked_gpu_stage_ms(const GpuDemand& demand, const GpuSpeed& speed,
                                                  const Picture& picture);

}  // namespace rigproof::forecast
