#include "coupled/air/air_steering.hpp"

#include <algorithm>
#include <cmath>

namespace rigproof::coupled {
namespace {

double followed_c(const AirState& state, FanSetting::Follows follows) {
  switch (follows) {
    case FanSetting::Follows::cpu:
      return state.cpu.temp_c;
    case FanSetting::Follows::gpu:
      return state.gpu.temp_c;
    case FanSetting::Follows::coolant:
      break;
  }
  return state.coolant_c;
}

}  // namespace

double set_speed_frac(const FanSetting& setting, const AirState& state) {
  const double temp_c = followed_c(state, setting.follows);
  return std::isnan(temp_c) ? 1.0 : setting.speed_frac_at(temp_c);
}

const FanSetting* AirSteering::setting(FanGroup group) const {
  if (settings_ == nullptr) return nullptr;
  const auto& found = (*settings_)[static_cast<std::size_t>(group)];
  return found ? &*found : nullptr;
}

bool AirSteering::seeks() const {
  return std::ranges::any_of(all_fan_groups, [&](FanGroup g) { return setting(g) == nullptr; });
}
bool AirSteering::follows() const {
  return std::ranges::any_of(all_fan_groups, [&](FanGroup g) { return setting(g) != nullptr; });
}

// How much faster the firmware would turn this group than it turns; the groups after it settle to
// that first.
double AirSteering::excess(int draw, std::size_t group, double frac, Run& run) {
  run.speeds.of(all_fan_groups[group]) = frac;
  settle(draw, group + 1, run);
  return set_speed_frac(*setting(all_fan_groups[group]), run.state) - frac;
}

// (B20) Between the slowest and the fastest that a setting asks for there is a speed that it asks
// for at the temperature of that very speed: where the excess changes its sign. By false position,
// halving the end that stays (the Illinois rule).
void AirSteering::settle(int draw, std::size_t group, Run& run) {
  while (group < all_fan_groups.size() && setting(all_fan_groups[group]) == nullptr) ++group;
  if (group == all_fan_groups.size()) {
    run.state = model_.at(draw, run.speeds);
    return;
  }
  const auto& points = setting(all_fan_groups[group])->points;
  constexpr double percent = 100.0;
  constexpr double close_frac = 1e-9;
  constexpr int most_steps = 60;
  double low = points.front().speed_percent / percent;
  double high = points.back().speed_percent / percent;
  double low_excess = excess(draw, group, low, run);
  if (!run.state.solved || low_excess <= close_frac) return;
  double high_excess = excess(draw, group, high, run);
  if (!run.state.solved || high_excess >= -close_frac) return;
  int last_side = 0;
  for (int i = 0; i < most_steps && high - low > close_frac; ++i) {
    const double next =
        std::clamp(low + (high - low) * low_excess / (low_excess - high_excess), low, high);
    const double now = excess(draw, group, next, run);
    if (!run.state.solved || std::abs(now) <= close_frac) return;
    if (now > 0.0) {
      low = next;
      low_excess = now;
      if (last_side == 1) high_excess *= 0.5;
      last_side = 1;
    } else {
      high = next;
      high_excess = now;
      if (last_side == -1) low_excess *= 0.5;
      last_side = -1;
    }
  }
}

AirSteering::Run AirSteering::at(int draw, double sought_frac) {
  Run run;
  run.speeds = sought_frac;
  settle(draw, 0, run);
  return run;
}

}  // namespace rigproof::coupled
