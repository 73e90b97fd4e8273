// Where the heat of a build goes: from chips into rooms of air, from room to room, and out. (B19)
// of README.md.
#pragma once

#include <vector>

#include "coupled/air/air_state.hpp"

namespace rigproof::coupled {

enum class HeatEnd : std::size_t { cpu, gpu, upper, lower, outside };

/// On the balance of what goes both ways, >= 0. Air from the outside carries none.
struct HeatMove {
  HeatEnd from = HeatEnd::upper;
  HeatEnd to = HeatEnd::outside;
  double watts = 0.0;
};

/// At one speed, middle draw, with the power that is kept. Empty where the balances did not close.
[[nodiscard]] std::vector<HeatMove> heat_moves(AirModel& model, FanSpeeds speeds);

}  // namespace rigproof::coupled
