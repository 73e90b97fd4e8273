// Heat that goes into each place goes out of it (first law), and all of it ends outside.
#include "coupled/air/air_heat_path.hpp"

#include <gtest/gtest.h>

#include "tests/support/tower_air.hpp"

namespace rigproof::coupled {
namespace {

double into(const std::vector<HeatMove>& moves, HeatEnd end) {
  double sum = 0.0;
  for (const HeatMove& move : moves)
    sum += move.to == end ? move.watts : move.from == end ? -move.watts : 0.0;
  return sum;
}

TEST(HeatPath, WhatGoesInGoesOut) {
  for (const std::vector<std::string>& parts : {std::vector<std::string>{"cpu", "board", "tower"},
                                                {"cpu", "board", "card", "tower"},
                                                {"cpu", "board", "card", "loop"},
                                                {"cpu", "board", "card", "loop", "drive"}}) {
    for (const double speed_frac : {1.0, 0.4}) {
      const Solved made = solved(tower(), parts, Load::everything, speed_frac);
      ASSERT_TRUE(made.state.solved);
      AirModel model(made.of);
      const auto moves = heat_moves(model, speed_frac);
      for (const HeatMove& move : moves) EXPECT_GT(move.watts, 0.0);
      const double cpu_w = made.state.cpu.power_w;
      const double gpu_w = made.state.gpu.power_w;
      const double upper_w = made.of.upper_w.median();
      const double lower_w = made.of.lower_w.median();
      const double all_w = cpu_w + gpu_w + upper_w + lower_w;
      const double slack_w = 1e-6 * all_w;
      EXPECT_NEAR(into(moves, HeatEnd::cpu), -cpu_w, slack_w);
      EXPECT_NEAR(into(moves, HeatEnd::gpu), -gpu_w, slack_w);
      EXPECT_NEAR(into(moves, HeatEnd::upper), -upper_w, slack_w);
      EXPECT_NEAR(into(moves, HeatEnd::lower), -lower_w, slack_w);
      EXPECT_NEAR(into(moves, HeatEnd::outside), all_w, slack_w);
    }
  }
}

}  // namespace
}  // namespace rigproof::coupled
