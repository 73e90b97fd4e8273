#include "coupled/air/air_march.hpp"

#include <algorithm>

namespace rigproof::coupled {
namespace {

constexpr int steps_a_point = 8;

class March {
 public:
  explicit March(const Marched& what)
      : what_(what), body_c_(what.start_c), speeds_(what.otherwise) {}

  // The speeds that the temperatures ask for now, and the balance at them. The processor's own
  // temperature hangs on the balance; one look back is near enough, as steps are short.
  bool settle() {
    if (!take_phase()) return false;
    speeds_ = asked_speeds();
    return take_phase();
  }
  bool advance(double step_s) {
    const auto transient = transient_of(phase_, watts(), body_c_);
    if (!transient) return false;
    const auto temps = transient->temps_c(step_s);
    if (!temps) return false;
    for (std::size_t i = 0; i < phase_.network.bodies; ++i)
      body_c_[i] = (*temps)[node_of(phase_, i)];
    return true;
  }
  [[nodiscard]] bool is_too_hot(std::size_t body) const {
    constexpr double nearly_k = 1e-6;
    return body < phase_.network.bodies && phase_.kept_w[body] < phase_.asked_w[body] &&
           temp_of(body) >= phase_.limit_c[body] - nearly_k;
  }
  void slow_down() { slowed_ = true; }
  [[nodiscard]] bool slowed() const { return slowed_; }
  [[nodiscard]] MarchPoint point(double time_s) const {
    return {.time_s = time_s,
            .body_c = body_c_,
            .cpu_c = temp_of(AirModel::cpu_body),
            .speeds = speeds_};
  }

 private:
  [[nodiscard]] const Watts& watts() const { return slowed_ ? phase_.kept_w : phase_.asked_w; }
  [[nodiscard]] double temp_of(std::size_t body) const {
    return body_c_[body] + (body == AirModel::cpu_body ? phase_.chip_k_w * watts()[body] : 0.0);
  }
  bool take_phase() {
    auto phase = phase_of(what_.model, what_.of, AirModel::middle, speeds_, what_.stores);
    if (phase) phase_ = *phase;
    return phase.has_value();
  }
  [[nodiscard]] FanSpeeds asked_speeds() const {
    AirState now;
    now.cpu.temp_c = temp_of(AirModel::cpu_body);
    if (what_.of.has_card) now.gpu.temp_c = temp_of(AirModel::gpu_body);
    if (what_.of.liquid) now.coolant_c = body_c_[AirModel::cpu_body];
    FanSpeeds out = what_.otherwise;
    for (const FanGroup group : all_fan_groups)
      if (const auto& setting = what_.settings[static_cast<std::size_t>(group)])
        out.of(group) = set_speed_frac(*setting, now);
    return out;
  }

  const Marched& what_;
  Watts body_c_;
  FanSpeeds speeds_;
  Phase phase_;
  bool slowed_ = false;
};

}  // namespace

// (B22)
std::vector<MarchPoint> march(const Marched& what, double until_s, std::size_t points,
                              const std::function<void(std::size_t body, double time_s)>& slows) {
  std::vector<MarchPoint> out;
  March now(what);
  const double step_s = until_s / static_cast<double>((points - 1) * steps_a_point);
  for (std::size_t k = 0; k < points; ++k) {
    const double point_s = until_s * static_cast<double>(k) / static_cast<double>(points - 1);
    if (!now.settle()) return {};
    out.push_back(now.point(point_s));
    for (int i = 0; k + 1 < points && i < steps_a_point; ++i) {
      if (i > 0 && !now.settle()) return {};
      for (std::size_t body = 0; body < 2; ++body)
        if (!now.slowed() && now.is_too_hot(body)) {
          slows(body, point_s + i * step_s);
          now.slow_down();
        }
      if (!now.advance(step_s)) return {};
    }
  }
  return out;
}

}  // namespace rigproof::coupled
