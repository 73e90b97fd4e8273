// Equations (F1) to (F7); see README.md.
#include "analysis/forecast/frame_time.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace rigproof::forecast {
namespace {

// A log-deviation below this moves a mean by less than its rounding: the stage is a constant.
constexpr double still = 1e-16;
// Phi(-9) = 1.1e-19: what stands behind it is lost in the rounding of the sum.
constexpr double far = 9.0;

// s^2 = sc^2 + sg^2 - 2 r sc sg, without the cancellation when the stages go together.
double ratio_log_sd(const Spread& spread) {
  const double gap = spread.cpu_log_sd - spread.gpu_log_sd;
  return std::sqrt(gap * gap +
                   2.0 * (1.0 - spread.correlation) * spread.cpu_log_sd * spread.gpu_log_sd);
}

// Correlation between a stage and its ratio to the other one: (own - r other) / s.
double own_correlation(double own_sd, double other_sd, double r, double s) {
  if (!(s > still)) return 0.0;
  return std::clamp(((own_sd - other_sd) + (1.0 - r) * other_sd) / s, -1.0, 1.0);
}

// (F1) as it stands.
double exchange(double a, double b, double s) {
  const double larger = std::max(a, b);
  if (!(s > still)) return larger;
  const double x = std::log(a / b) / s;
  return std::max(larger, a * normal_cdf(x + 0.5 * s) + b * normal_cdf(-x + 0.5 * s));
}

// Standardised log of t for a lognormal of this mean: P(stage <= t) = Phi(of this).
double standard(double t, double mean, double log_sd) {
  return std::log(t / mean) / log_sd + 0.5 * log_sd;
}

double cap_frame_ms(const Spread& spread) { return 1000.0 / spread.cap_fps; }

Result<void> within(const char* field, double value, double low, double high) {
  if (!(value >= low && value <= high)) return out_of_range(field, value);
  return {};
}

Result<void> positive(const char* field, double value) {
  if (!(value > 0.0 && std::isfinite(value))) return out_of_range(field, value);
  return {};
}

Result<void> not_negative(const char* field, const PixelLinear& demand) {
  constexpr double most = std::numeric_limits<double>::max();
  return within(field, demand.at_zero, 0.0, most).and_then([&] {
    return within(field, demand.per_mpix, 0.0, most);
  });
}

double share_of(double demand, double capacity) { return demand > 0.0 ? demand / capacity : 0.0; }

}  // namespace

double mean_frame_time_ms(const Stages& stages) {
  const double tc = stages.cpu_ms;
  const double tg = stages.gpu_ms;
  const Spread& spread = stages.spread;
  const double sc = spread.cpu_log_sd;
  const double sg = spread.gpu_log_sd;
  const double s = ratio_log_sd(spread);
  const double cap = cap_frame_ms(spread);
  if (!(cap > 0.0)) return exchange(tc, tg, s);
  if (!(sc > still)) return exchange(std::max(tc, cap), tg, sg);
  if (!(sg > still)) return exchange(tc, std::max(tg, cap), sc);
  if (!(s > still))
    return exchange(std::max(tc, tg), cap, sc);  // one shape, the longer stage rules
  const double x = std::log(tc / tg) / s;
  const double cpu_below = standard(cap, tc, sc);
  const double gpu_below = standard(cap, tg, sg);
  const NormalPair pair(spread.correlation);
  const NormalPair cpu_longest(own_correlation(sc, sg, spread.correlation, s));
  const NormalPair gpu_longest(own_correlation(sg, sc, spread.correlation, s));
  const double mean = cap * pair.both_below(cpu_below, gpu_below) +
                      tc * cpu_longest.both_below(x + 0.5 * s, sc - cpu_below) +
                      tg * gpu_longest.both_below(-x + 0.5 * s, sg - gpu_below);
  return std::max({mean, tc, tg, cap});
}

FrameTime::FrameTime(const Spread& spread)
    : spread_(spread),
      cap_ms_(cap_frame_ms(spread)),
      s_(ratio_log_sd(spread)),
      inv_s_(s_ > still ? 1.0 / s_ : 0.0),
      pair_(spread.correlation),
      cpu_longest_(own_correlation(spread.cpu_log_sd, spread.gpu_log_sd, spread.correlation, s_)),
      gpu_longest_(own_correlation(spread.gpu_log_sd, spread.cpu_log_sd, spread.correlation, s_)) {
  RP_EXPECT(check(spread).has_value());
}

// (F1). Where the shorter stage is out of sight, the longer one is the answer to the last digit.
inline double FrameTime::exchange_ms(double cpu_ms, double gpu_ms) const {
  const double larger = std::max(cpu_ms, gpu_ms);
  if (inv_s_ == 0.0) return larger;
  const double x = std::log(cpu_ms / gpu_ms) * inv_s_;
  const double half = 0.5 * s_;
  if (std::abs(x) > far + half) return larger;
  return std::max(larger, cpu_ms * normal_cdf(half + x) + gpu_ms * normal_cdf(half - x));
}

// (F3) with a cap. The two early answers are right to rounding: the cap's whole share is at most
// cap x Phi(-9), or the stages' share above the cap at most (Tc + Tg) x Phi(-9).
double FrameTime::floored_ms(double cpu_ms, double gpu_ms) const {
  const double sc = spread_.cpu_log_sd;
  const double sg = spread_.gpu_log_sd;
  if (!(sc > still)) return exchange(std::max(cpu_ms, cap_ms_), gpu_ms, sg);
  if (!(sg > still)) return exchange(cpu_ms, std::max(gpu_ms, cap_ms_), sc);
  if (inv_s_ == 0.0) return exchange(std::max(cpu_ms, gpu_ms), cap_ms_, sc);
  const double cpu_below = standard(cap_ms_, cpu_ms, sc);
  const double gpu_below = standard(cap_ms_, gpu_ms, sg);
  if (std::min(cpu_below, gpu_below) < -far) return exchange_ms(cpu_ms, gpu_ms);
  if (sc - cpu_below < -far && sg - gpu_below < -far) return cap_ms_;
  const double x = std::log(cpu_ms / gpu_ms) * inv_s_;
  const double half = 0.5 * s_;
  const double mean = cap_ms_ * pair_.both_below(cpu_below, gpu_below) +
                      cpu_ms * cpu_longest_.both_below(half + x, sc - cpu_below) +
                      gpu_ms * gpu_longest_.both_below(half - x, sg - gpu_below);
  return std::max({mean, cpu_ms, gpu_ms, cap_ms_});
}

double FrameTime::mean_ms(double cpu_ms, double gpu_ms) const {
  return cap_ms_ > 0.0 ? floored_ms(cpu_ms, gpu_ms) : exchange_ms(cpu_ms, gpu_ms);
}

void FrameTime::mean_ms(std::span<const double> cpu_ms, std::span<const double> gpu_ms,
                        std::span<double> out_ms) const {
  RP_EXPECT(cpu_ms.size() == gpu_ms.size() && cpu_ms.size() == out_ms.size());
  if (cap_ms_ > 0.0) {
    for (std::size_t i = 0; i < out_ms.size(); ++i) out_ms[i] = floored_ms(cpu_ms[i], gpu_ms[i]);
  } else {
    for (std::size_t i = 0; i < out_ms.size(); ++i) out_ms[i] = exchange_ms(cpu_ms[i], gpu_ms[i]);
  }
}

double FrameTime::share_within(double cpu_ms, double gpu_ms, double t_ms) const {
  const bool cpu_moves = spread_.cpu_log_sd > still;
  const bool gpu_moves = spread_.gpu_log_sd > still;
  if (!(t_ms > 0.0) || t_ms < cap_ms_) return 0.0;
  if ((!cpu_moves && t_ms < cpu_ms) || (!gpu_moves && t_ms < gpu_ms)) return 0.0;
  constexpr double always = std::numeric_limits<double>::infinity();
  return pair_.both_below(cpu_moves ? standard(t_ms, cpu_ms, spread_.cpu_log_sd) : always,
                          gpu_moves ? standard(t_ms, gpu_ms, spread_.gpu_log_sd) : always);
}

double FrameTime::larger_quantile_ms(double cpu_ms, double gpu_ms, double z) const {
  const auto own = [z](double mean, double sd) { return mean * std::exp(sd * (z - 0.5 * sd)); };
  return std::max(own(cpu_ms, spread_.cpu_log_sd), own(gpu_ms, spread_.gpu_log_sd));
}

FrameTime::Between FrameTime::between(double p) const {
  const double low_z = normal_quantile(p);
  // One stage stands still: the quantile is the larger of the two itself.
  if (!(spread_.cpu_log_sd > still) || !(spread_.gpu_log_sd > still)) return {low_z, low_z};
  return {low_z, normal_quantile(spread_.correlation >= 0.0 ? std::sqrt(p) : 0.5 + 0.5 * p)};
}

QuantileBounds FrameTime::quantile_bounds_ms(double cpu_ms, double gpu_ms, const Between& z) const {
  const double low = larger_quantile_ms(cpu_ms, gpu_ms, z.low_z);
  const double high =
      z.high_z > z.low_z ? std::max(low, larger_quantile_ms(cpu_ms, gpu_ms, z.high_z)) : low;
  return {.low_ms = std::max(low, cap_ms_), .high_ms = std::max(high, cap_ms_)};
}

QuantileBounds FrameTime::quantile_bounds_ms(double cpu_ms, double gpu_ms, double p) const {
  return quantile_bounds_ms(cpu_ms, gpu_ms, between(p));
}

void FrameTime::quantile_side_ms(std::span<const double> cpu_ms, std::span<const double> gpu_ms,
                                 double p, double limit_ms, std::span<double> out_ms) const {
  RP_EXPECT(cpu_ms.size() == gpu_ms.size() && cpu_ms.size() == out_ms.size());
  // Far more than what quantile_ms and share_within round; closer to the edge it is solved.
  constexpr double edge = 1e-9;
  const Between z = between(p);
  for (std::size_t i = 0; i < out_ms.size(); ++i) {
    const QuantileBounds bounds = quantile_bounds_ms(cpu_ms[i], gpu_ms[i], z);
    if (bounds.high_ms < limit_ms * (1.0 - edge)) {
      out_ms[i] = bounds.high_ms;
    } else if (bounds.low_ms > limit_ms * (1.0 + edge)) {
      out_ms[i] = bounds.low_ms;
    } else {
      const double share = share_within(cpu_ms[i], gpu_ms[i], limit_ms);
      if (std::abs(share - p) < edge || !(bounds.low_ms < limit_ms) || !(bounds.high_ms > limit_ms))
        out_ms[i] = quantile_ms(cpu_ms[i], gpu_ms[i], p);
      else
        out_ms[i] = share > p ? bounds.low_ms : bounds.high_ms;
    }
  }
}

// (F2): Newton on ln P(max > t), which is nearly straight in ln t where frames are slow, kept
// inside the bounds; a step that would leave them is replaced by halving.
double FrameTime::quantile_ms(double cpu_ms, double gpu_ms, double p) const {
  const QuantileBounds bounds = quantile_bounds_ms(cpu_ms, gpu_ms, p);
  if (!(bounds.high_ms > bounds.low_ms) || !std::isfinite(bounds.high_ms)) return bounds.low_ms;
  // The share jumps at the cap: there is nothing to solve when it is passed there.
  if (bounds.low_ms <= cap_ms_ && share_within(cpu_ms, gpu_ms, cap_ms_) >= p) return cap_ms_;
  const double sc = spread_.cpu_log_sd;
  const double sg = spread_.gpu_log_sd;
  // Offsets of ln t from ln low keep their digits when the deviations are tiny.
  const double cpu_at_low = standard(bounds.low_ms, cpu_ms, sc);
  const double gpu_at_low = standard(bounds.low_ms, gpu_ms, sg);
  const double log_tail = std::log1p(-p);
  double left = 0.0;
  double right = std::log(bounds.high_ms / bounds.low_ms);
  double y = 0.5 * right;
  for (int round = 0; round < 100; ++round) {
    const double h = cpu_at_low + y / sc;
    const double k = gpu_at_low + y / sg;
    const double share = pair_.both_below(h, k);
    if (std::abs(share - p) < 1e-16) break;
    (share < p ? left : right) = y;
    const double tail = 1.0 - share;
    const NormalPair::Gradient rise = pair_.gradient(h, k);
    const double slope = rise.by_h / sc + rise.by_k / sg;
    double next = tail > 0.0 ? y + (std::log(tail) - log_tail) * tail / slope : left;
    if (!(next > left && next < right)) next = 0.5 * (left + right);
    const double step = std::abs(next - y);
    y = next;
    if (step < 1e-11 * std::min(sc, sg) || right - left < 1e-16) break;
  }
  return std::max(bounds.low_ms * std::exp(y), cap_ms_);
}

void FrameTime::quantile_ms(std::span<const double> cpu_ms, std::span<const double> gpu_ms,
                            double p, std::span<double> out_ms) const {
  RP_EXPECT(cpu_ms.size() == gpu_ms.size() && cpu_ms.size() == out_ms.size());
  for (std::size_t i = 0; i < out_ms.size(); ++i) out_ms[i] = quantile_ms(cpu_ms[i], gpu_ms[i], p);
}

double memory_factor(double memory_sensitivity, double reference_mt_s, double effective_mt_s) {
  return 1.0 + memory_sensitivity * (reference_mt_s / effective_mt_s - 1.0);
}

double cpu_stage_ms(const CpuDemand& demand, const CpuSpeed& speed) {
  return demand.cpu_ms / speed.cpu_speed *
         memory_factor(demand.memory_sensitivity, speed.reference_mt_s, speed.effective_mt_s);
}

double gpu_stage_ms(const GpuDemand& demand, const GpuSpeed& speed, const Picture& picture) {
  const double mpix = picture.rendered_mpix();
  double stage_ms = share_of(demand.raster_ms.at(mpix), speed.raster_speed) +
                    share_of(demand.ray_ms.at(mpix), speed.ray_speed) +
                    1000.0 * share_of(demand.traffic_gb.at(mpix), speed.bandwidth_gb_s);
  if (picture.render_scale != 1.0)
    stage_ms += share_of(demand.upscale_ms_per_mpix * picture.output_mpix, speed.raster_speed);
  return stage_ms + picture.generated_per_rendered * demand.generated_frame_ms;
}

FrameRates frame_rates(double mean_frame_time_ms, int generated_per_rendered) {
  const double rendered_fps = 1000.0 / mean_frame_time_ms;
  return {.rendered_fps = rendered_fps,
          .displayed_fps = rendered_fps * (1 + generated_per_rendered)};
}

double utility(double rate_over_target) {
  return rate_over_target <= 1.0 ? rate_over_target : 1.0 + 0.25 * std::log(rate_over_target);
}

double utility_bound(const UtilityBound& in) {
  double rate_fps = std::min({in.mean_cpu_fps, in.mean_gpu_fps, in.cap_fps});
  if (in.steadiest != nullptr)
    rate_fps = std::min(rate_fps, 1000.0 / in.steadiest->mean_ms(1000.0 / in.mean_cpu_fps,
                                                                 1000.0 / in.mean_gpu_fps));
  return utility(rate_fps / in.target_fps);
}

Result<void> check(const Spread& spread) {
  return within("cpu_log_sd", spread.cpu_log_sd, 0.0, 2.0)
      .and_then([&] { return within("gpu_log_sd", spread.gpu_log_sd, 0.0, 2.0); })
      .and_then([&] { return within("correlation", spread.correlation, -1.0, 1.0); })
      .and_then([&]() -> Result<void> {
        if (!(spread.cap_fps > 0.0)) return out_of_range("cap_fps", spread.cap_fps);
        return {};
      });
}

Result<void> check(const Stages& stages) {
  return positive("cpu_ms", stages.cpu_ms)
      .and_then([&] { return positive("gpu_ms", stages.gpu_ms); })
      .and_then([&] { return check(stages.spread); });
}

Result<void> check(const CpuDemand& demand, const CpuSpeed& speed) {
  return positive("cpu_ms", demand.cpu_ms)
      .and_then([&] { return within("memory_sensitivity", demand.memory_sensitivity, 0.0, 1.0); })
      .and_then([&] { return positive("cpu_speed", speed.cpu_speed); })
      .and_then([&] { return positive("effective_mt_s", speed.effective_mt_s); })
      .and_then([&] { return positive("reference_mt_s", speed.reference_mt_s); });
}

Result<void> check(const GpuDemand& demand, const GpuSpeed& speed, const Picture& picture) {
  constexpr double most = std::numeric_limits<double>::max();
  const auto capacity = [](const char* field, bool asked, double value) {
    return asked ? positive(field, value) : within(field, value, 0.0, most);
  };
  const auto asked = [](const PixelLinear& part) { return part.at_zero + part.per_mpix > 0.0; };
  return not_negative("raster_ms", demand.raster_ms)
      .and_then([&] { return not_negative("ray_ms", demand.ray_ms); })
      .and_then([&] { return not_negative("traffic_gb", demand.traffic_gb); })
      .and_then(
          [&] { return within("upscale_ms_per_mpix", demand.upscale_ms_per_mpix, 0.0, most); })
      .and_then([&] { return within("generated_frame_ms", demand.generated_frame_ms, 0.0, most); })
      .and_then([&] { return positive("raster_speed", speed.raster_speed); })
      .and_then([&] { return capacity("ray_speed", asked(demand.ray_ms), speed.ray_speed); })
      .and_then([&] {
        return capacity("bandwidth_gb_s", asked(demand.traffic_gb), speed.bandwidth_gb_s);
      })
      .and_then([&] { return positive("output_mpix", picture.output_mpix); })
      .and_then([&]() -> Result<void> {
        if (!(picture.render_scale > 0.0 && picture.render_scale <= 2.0))
          return out_of_range("render_scale", picture.render_scale);
        return within("generated_per_rendered", picture.generated_per_rendered, 0.0, 7.0);
      });
}

Result<double> checked_mean_frame_time_ms(const Stages& stages) {
  return check(stages).map([&] { return mean_frame_time_ms(stages); });
}

Result<double> checked_quantile_frame_time_ms(const Stages& stages, double p) {
  if (!(p > 0.0 && p < 1.0)) return out_of_range("p", p);
  return check(stages).map(
      [&] { return FrameTime(stages.spread).quantile_ms(stages.cpu_ms, stages.gpu_ms, p); });
}

Result<double> checked_cpu_stage_ms(const CpuDemand& demand, const CpuSpeed& speed) {
  return check(demand, speed).map([&] { return cpu_stage_ms(demand, speed); });
}

Result<double> checked_gpu_stage_ms(const GpuDemand& demand, const GpuSpeed& speed,
                                    const Picture& picture) {
  return check(demand, speed, picture).map([&] { return gpu_stage_ms(demand, speed, picture); });
}

}  // namespace rigproof::forecast
