#include "coupled/air/air_apart.hpp"

#include <algorithm>
#include <cmath>

#include "analysis/air/noise.hpp"

namespace rigproof::coupled {
namespace {

// Sound power of all fans at these speeds, middle levels; of those whose level is stated.
class FanSound {
 public:
  FanSound(const Facts& facts, const AirCase& of) {
    for (const Sound& sound : of.sounds) {
      const Draws& level = facts.draws.of(sound.level, sound.row);
      if (!sound.fans || level.is_absent()) continue;
      at_full_.of(*sound.fans) +=
          sound.count * std::pow(10.0, 0.1 * (middle_of(level) + sound.change_db));
    }
  }
  [[nodiscard]] double power(FanSpeeds speeds) const {
    double sum = 0.0;
    for (const FanGroup group : all_fan_groups)
      sum += at_full_.of(group) * std::pow(speeds.of(group), 0.1 * air::fan_speed_exponent_db);
    return sum;
  }
  [[nodiscard]] bool is_known() const { return power(1.0) > 0.0; }

 private:
  FanSpeeds at_full_ = 0.0;
};

// The fans of one group at a fixed speed, those of the other sought.
FanSettings case_fans_at(double frac) {
  constexpr double percent = 100.0;
  FanSettings out;
  out[static_cast<std::size_t>(FanGroup::chassis)] = FanSetting::still(percent * frac);
  return out;
}

}  // namespace

// (B21)
std::optional<FanSpeeds> quietest_apart(const Facts& facts, const AirCase& of, power::Load load,
                                        const AirAnswer& answer) {
  constexpr int apart_steps = 16;
  const FanSound sound(facts, of);
  if (!answer.known || answer.from != SpeedsFrom::least || settings_of(facts) != nullptr ||
      !sound.is_known())
    return {};
  const Limits limits = limits_of(facts.brief, of, load);
  AirModel model(of);
  std::optional<FanSpeeds> best;
  double least_power = sound.power(answer.speeds);
  int hottest = AirModel::middle;
  for (int step = 0; step <= speed_steps; step += apart_steps) {
    const double case_frac = speed_of_step(step);
    if (sound.power({case_frac, least_speed_frac}) >= least_power) continue;
    const FanSettings fixed = case_fans_at(case_frac);
    AirSteering steering(model, &fixed);
    const auto least = SpeedSearch(steering, limits).least(0, no_step, hottest);
    if (least.step == no_step) continue;
    hottest = least.draw;
    const FanSpeeds speeds(case_frac, speed_of_step(least.step));
    const double power = sound.power(speeds);
    if (power >= least_power) continue;
    least_power = power;
    best = speeds;
  }
  return best;
}

}  // namespace rigproof::coupled
