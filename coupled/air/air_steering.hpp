// Who says how fast the fans turn: firmware that follows a temperature, or the search for the
// quietest speed. Equation (B20) of README.md.
#pragma once

#include "coupled/air/air_state.hpp"

namespace rigproof::coupled {

class AirSteering {
 public:
  /// `settings` null: every speed is sought. Both outlive it.
  AirSteering(AirModel& model, const FanSettings* settings) : model_(model), settings_(settings) {}

  struct Run {
    FanSpeeds speeds;
    AirState state;
  };
  /// One draw, or AirModel::middle, with `sought_frac` for the fans that nothing steers.
  [[nodiscard]] Run at(int draw, double sought_frac);

  /// Some fans follow no temperature.
  [[nodiscard]] bool seeks() const;
  [[nodiscard]] bool follows() const;

 private:
  [[nodiscard]] const FanSetting* setting(FanGroup group) const;
  void settle(int draw, std::size_t group, Run& run);
  [[nodiscard]] double excess(int draw, std::size_t group, double frac, Run& run);

  AirModel& model_;
  const FanSettings* settings_;
};

/// What a setting asks for at a state; at full speed where it follows what is not known (a sensor
/// that is not there; common practice, no source).
[[nodiscard]] double set_speed_frac(const FanSetting& setting, const AirState& state);

}  // namespace rigproof::coupled
