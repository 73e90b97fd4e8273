// Where a room's air came in, by hand and by following parcels of air.
#include "analysis/air/flow_shares.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "analysis/air/test_networks.hpp"
#include "base/contract.hpp"

namespace rigproof::air {
namespace {

using test_support::opening;
using test_support::Random;
using test_support::RandomNetwork;

// Flows as given, whatever drives them.
FlowSolution flows(const std::vector<double>& flow_m3_s) {
  FlowSolution out;
  std::copy(flow_m3_s.begin(), flow_m3_s.end(), out.flow_m3_s.begin());
  return out;
}

// By hand. Room 1 takes 0.03 through path 0; 0.02 of it goes on to room 2 (path 2), which takes
// 0.01 more through path 1, written outwards. Room 1 lets 0.01 out (3), room 2 0.03 (4).
TEST(FlowShares, TwoRooms) {
  const std::vector<FlowPath> paths = {opening(0, 1, 1), opening(2, 0, 1), opening(1, 2, 1),
                                       opening(1, 0, 1), opening(2, 0, 1)};
  const FlowShares s = flow_shares(3, paths, flows({0.03, -0.01, 0.02, 0.01, 0.03}));
  EXPECT_DOUBLE_EQ(s.of_room[1][0], 1.0);
  EXPECT_DOUBLE_EQ(s.of_room[1][1], 0.0);
  EXPECT_DOUBLE_EQ(s.of_room[2][0], 2.0 / 3.0);
  EXPECT_DOUBLE_EQ(s.of_room[2][1], 1.0 / 3.0);
  EXPECT_DOUBLE_EQ(s.leaving[0], 0.75);
  EXPECT_DOUBLE_EQ(s.leaving[1], 0.25);
  EXPECT_EQ(s.leaving[3] + s.leaving[4] + s.leaving[2], 0.0);
  EXPECT_DOUBLE_EQ(s.entering_m3_s[2], 0.03);
  EXPECT_DOUBLE_EQ(s.entering_m3_s[0], 0.04);
}

// By hand. Room 1: 1 in from inlet 0 and 1 back from room 2; room 2: 2 from room 1 and 1 from
// inlet 1; 2 leave. c1 = (1 + c2) / 2, c2 = 2 c1 / 3 of inlet 0: c1 = 3/4, c2 = 1/2.
TEST(FlowShares, AirThatGoesRound) {
  const std::vector<FlowPath> paths = {opening(0, 1, 1), opening(0, 2, 1), opening(1, 2, 1),
                                       opening(2, 1, 1), opening(2, 0, 1)};
  const FlowShares s = flow_shares(3, paths, flows({1, 1, 2, 1, 2}));
  EXPECT_DOUBLE_EQ(s.of_room[1][0], 0.75);
  EXPECT_DOUBLE_EQ(s.of_room[2][0], 0.5);
  EXPECT_DOUBLE_EQ(s.of_room[2][1], 0.5);
  EXPECT_DOUBLE_EQ(s.leaving[0], 0.5);
}

// Rooms 2 and 3 turn the same air round for ever; room 4 has none.
TEST(FlowShares, NoAirFromOutsideNoShare) {
  const std::vector<FlowPath> paths = {opening(0, 1, 1), opening(1, 0, 1), opening(2, 3, 1),
                                       opening(3, 2, 1)};
  const FlowShares s = flow_shares(5, paths, flows({1, 1, 5, 5}));
  for (const std::size_t room : {2U, 3U, 4U})
    EXPECT_EQ(std::accumulate(s.of_room[room].begin(), s.of_room[room].end(), 0.0), 0.0);
  EXPECT_DOUBLE_EQ(s.of_room[1][0], 1.0);
  const FlowShares still = flow_shares(5, paths, flows({}));
  EXPECT_EQ(still.leaving[0], 0.0);
  EXPECT_THROW((void)flow_shares(13, paths, flows({})), ContractViolation);
  EXPECT_THROW((void)flow_shares(2, paths, flows({1, 1, 5, 5})), ContractViolation);
}

// What comes in goes out: of the air that leaves, an inlet's share is its share of the inflow.
// Shares of a room against the mixing repeated until it stands still.
TEST(FlowShares, RandomNetworks) {
  Random random(21);
  for (int i = 0; i < 500; ++i) {
    const RandomNetwork net(random, {});
    const auto solution = solve_flow(net.rooms, net.paths);
    ASSERT_TRUE(solution);
    const FlowShares s = flow_shares(net.rooms, net.paths, *solution);
    double inflow = 0.0;
    for (std::size_t k = 0; k < net.paths.size(); ++k) {
      const double q = solution->flow_m3_s[k];
      if (net.paths[k].from == 0) inflow += std::max(q, 0.0);
      if (net.paths[k].to == 0) inflow += std::max(-q, 0.0);
    }
    if (inflow < 1e-4) continue;  // nearly still: shares of nothing
    std::vector<std::vector<double>> air(net.rooms, std::vector<double>(net.paths.size()));
    for (int round = 0; round < 20000; ++round) {
      double change = 0.0;
      for (std::size_t room = 1; room < net.rooms; ++room) {
        std::vector<double> mixed(net.paths.size());
        double entering = 0.0;
        for (std::size_t k = 0; k < net.paths.size(); ++k) {
          const double q = solution->flow_m3_s[k];
          const bool in =
              (net.paths[k].to == room && q > 0) || (net.paths[k].from == room && q < 0);
          if (!in) continue;
          const std::size_t other = net.paths[k].to == room ? net.paths[k].from : net.paths[k].to;
          entering += std::abs(q);
          if (other == 0)
            mixed[k] += std::abs(q);
          else
            for (std::size_t n = 0; n < mixed.size(); ++n) mixed[n] += std::abs(q) * air[other][n];
        }
        for (std::size_t n = 0; n < mixed.size() && entering > 1e-7; ++n) {
          change = std::max(change, std::abs(mixed[n] / entering - air[room][n]));
          air[room][n] = mixed[n] / entering;
        }
      }
      if (change < 1e-14) break;
    }
    for (std::size_t room = 1; room < net.rooms; ++room) {
      if (s.entering_m3_s[room] < 1e-6) continue;
      double sum = 0.0;
      for (std::size_t k = 0; k < net.paths.size(); ++k) {
        EXPECT_NEAR(s.of_room[room][k], air[room][k], 1e-6) << i;
        sum += s.of_room[room][k];
      }
      const double reached = std::accumulate(air[room].begin(), air[room].end(), 0.0);
      EXPECT_NEAR(sum, reached < 0.5 ? 0.0 : 1.0, 1e-12) << i;  // none: air going round alone
    }
    for (std::size_t k = 0; k < net.paths.size(); ++k) {
      const double q = solution->flow_m3_s[k];
      const double in = net.paths[k].from == 0 ? q : net.paths[k].to == 0 ? -q : 0.0;
      EXPECT_NEAR(s.leaving[k], std::max(in, 0.0) / inflow, 1e-6);
    }
  }
}

}  // namespace
}  // namespace rigproof::air
