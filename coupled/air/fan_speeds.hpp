// How fast the two groups of fans turn that are steered apart: the case's and the cooler's.
#pragma once

#include "base/draws.hpp"
#include "catalog/fan_settings.hpp"

namespace rigproof::coupled {

/// Shares of full speed.
struct FanSpeeds {
  double chassis_frac = 1.0;
  double cooler_frac = 1.0;

  FanSpeeds() = default;
  FanSpeeds(double common) : chassis_frac(common), cooler_frac(common) {}  // NOLINT: all at one
  FanSpeeds(double chassis, double cooler) : chassis_frac(chassis), cooler_frac(cooler) {}
  [[nodiscard]] double of(FanGroup group) const {
    return group == FanGroup::chassis ? chassis_frac : cooler_frac;
  }
  [[nodiscard]] double& of(FanGroup group) {
    return group == FanGroup::chassis ? chassis_frac : cooler_frac;
  }
  [[nodiscard]] bool are_one() const { return chassis_frac == cooler_frac; }
  friend bool operator==(const FanSpeeds&, const FanSpeeds&) = default;
};

/// The same in every draw: fans that follow a temperature turn as fast as it is hot.
struct SpeedDraws {
  Draws chassis_frac = 1.0;
  Draws cooler_frac = 1.0;

  SpeedDraws() = default;
  SpeedDraws(FanSpeeds certain)  // NOLINT: speeds that are sure
      : chassis_frac(certain.chassis_frac), cooler_frac(certain.cooler_frac) {}
  SpeedDraws(double common) : SpeedDraws(FanSpeeds(common)) {}  // NOLINT: all at one
  SpeedDraws(Draws chassis, Draws cooler)
      : chassis_frac(std::move(chassis)), cooler_frac(std::move(cooler)) {}
  [[nodiscard]] FanSpeeds operator[](int draw) const {
    return {chassis_frac[draw], cooler_frac[draw]};
  }
  [[nodiscard]] bool are_certain() const {
    return chassis_frac.is_certain() && cooler_frac.is_certain();
  }
};

}  // namespace rigproof::coupled
