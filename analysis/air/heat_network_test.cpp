// Heat networks worked by hand. Air of 1 kg/m3 and 1000 J/kgK: 0.001 m3/s carries 1 W/K.
#include "analysis/air/heat_network.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace rigproof::air {
namespace {

constexpr double close_k = 1e-11;

HeatNetwork empty_network(std::size_t rooms, std::size_t bodies) {
  HeatNetwork out;
  out.air = {.density_kg_m3 = 1.0, .specific_heat_j_kg_k = 1000.0};
  out.outside_c = 25.0;
  out.rooms = rooms;
  out.bodies = bodies;
  return out;
}

HeatState solved(const HeatNetwork& network) {
  const auto field = HeatField::of(network);
  if (!field) throw std::runtime_error(field.error().message);
  return field->state();
}

// 100 W in 20 W/K of air: 5 K.
TEST(HeatNetwork, WarmsOneRoom) {
  HeatNetwork n = empty_network(2, 0);
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.02});
  n.flows.add({.from = 1, .to = 0, .flow_m3_s = 0.02});
  n.room_heat_w[1] = 100.0;
  const HeatState s = solved(n);
  EXPECT_NEAR(s.room_c[1], 30.0, close_k);
  EXPECT_EQ(s.room_c[0], 25.0);
  EXPECT_NEAR(s.to_outside_w, 100.0, 1e-10);
  EXPECT_EQ(s.heat_w, 100.0);
}

// Check values C5: CFM = 1.76 W / K (looked up: a maker's FAQ), 2 %. 100 CFM, 568 W: 10 K.
TEST(HeatNetwork, KeepsTheRuleOfSensibleHeat) {
  HeatNetwork n = empty_network(2, 0);
  n.air = {};
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 100.0 * 4.719474e-4});
  n.flows.add({.from = 1, .to = 0, .flow_m3_s = 100.0 * 4.719474e-4});
  n.room_heat_w[1] = 568.2;
  EXPECT_NEAR(solved(n).room_c[1] - 25.0, 1.76 * 568.2 / 100.0, 0.02 * 10.0);
}

// 100 W, then 60 W more in the same 20 W/K: 25, 30, 33 degC. Written backwards it is the same.
TEST(HeatNetwork, WarmsRoomsInSeries) {
  HeatNetwork n = empty_network(3, 0);
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.02});
  n.flows.add({.from = 2, .to = 1, .flow_m3_s = -0.02});
  n.flows.add({.from = 0, .to = 2, .flow_m3_s = -0.02});
  n.room_heat_w[1] = 100.0;
  n.room_heat_w[2] = 60.0;
  const HeatState s = solved(n);
  EXPECT_NEAR(s.room_c[1], 30.0, close_k);
  EXPECT_NEAR(s.room_c[2], 33.0, close_k);
}

// Rooms 1 and 2 exchange 10 W/K; 1 has 30 W/K of fresh air. 60 W in room 2: all of it leaves with
// the fresh air, T1 = 27; over the exchange 6 K: T2 = 33.
TEST(HeatNetwork, MixesWhatCirculates) {
  HeatNetwork n = empty_network(3, 0);
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.03});
  n.flows.add({.from = 1, .to = 0, .flow_m3_s = 0.03});
  n.flows.add({.from = 1, .to = 2, .flow_m3_s = 0.01});
  n.flows.add({.from = 2, .to = 1, .flow_m3_s = 0.01});
  n.room_heat_w[2] = 60.0;
  const HeatState s = solved(n);
  EXPECT_NEAR(s.room_c[1], 27.0, close_k);
  EXPECT_NEAR(s.room_c[2], 33.0, close_k);
}

// A chip of 50 W on a sink: 10 W/K of paste, then 20 W/K of air with eps 0.5, taken from room 1
// (which 40 W warm to 25 + 40 / 20) and blown out: sink 27 + 50 / 10 = 32, chip 37, outlet 29.5.
TEST(HeatNetwork, CoolsABodyInAStream) {
  HeatNetwork n = empty_network(2, 2);
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.02});
  n.streams.add({.from = 1, .to = 0, .body = 1, .flow_m3_s = 0.02, .effectiveness = 0.5});
  n.conductances.add({.a = body(0), .b = body(1), .w_k = 10.0});
  n.room_heat_w[1] = 40.0;
  n.body_heat_w[0] = 50.0;
  const HeatState s = solved(n);
  EXPECT_NEAR(s.room_c[1], 27.0, close_k);
  EXPECT_NEAR(s.body_c[1], 32.0, close_k);
  EXPECT_NEAR(s.body_c[0], 37.0, close_k);
  EXPECT_NEAR(s.streams[0].inlet_c, 27.0, close_k);
  EXPECT_NEAR(s.streams[0].outlet_c, 29.5, close_k);
  EXPECT_NEAR(s.streams[0].heat_w, 50.0, 1e-10);
  EXPECT_NEAR(s.to_outside_w, 90.0, 1e-10);
}

// The fan of the sink stirs its own room: all 50 W stay there. Room 25 + 50 / 10 = 30, body 40.
TEST(HeatNetwork, LetsAStreamReturnToItsRoom) {
  HeatNetwork n = empty_network(2, 1);
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.01});
  n.flows.add({.from = 1, .to = 0, .flow_m3_s = 0.01});
  n.streams.add({.from = 1, .to = 1, .body = 0, .flow_m3_s = 0.01, .effectiveness = 0.5});
  n.body_heat_w[0] = 50.0;
  const HeatState s = solved(n);
  EXPECT_NEAR(s.room_c[1], 30.0, close_k);
  EXPECT_NEAR(s.body_c[0], 40.0, close_k);
}

// Closed form: half of 20 W/K returns to the inlet, eps 0.5, 60 W. The 10 W/K that leave are 6 K
// warmer; the inlet is half of that, 3 K; outlet - inlet = 3 K is half of body - inlet: body 9 K.
TEST(HeatNetwork, RecirculationFollowsItsClosedForm) {
  HeatNetwork n = empty_network(1, 1);
  n.streams.add({.body = 0, .flow_m3_s = 0.02, .effectiveness = 0.5, .recirculation_frac = 0.5});
  n.body_heat_w[0] = 60.0;
  const HeatState s = solved(n);
  EXPECT_NEAR(s.body_c[0], 34.0, close_k);
  EXPECT_NEAR(s.streams[0].inlet_c, 28.0, close_k);
  EXPECT_NEAR(s.streams[0].outlet_c, 31.0, close_k);
  EXPECT_NEAR(s.streams[0].heat_w, 60.0, 1e-10);
}

// The loop of exchanger_test.cpp: 100 W, air at 25, liquid 50 W/K, 25 W/K between inlets: liquid 29
// before the radiator, 27 after; 100 / 3 W/K from plate to liquid: 3 K more.
TEST(HeatNetwork, CoolsALoopByItsRadiator) {
  HeatNetwork n = empty_network(1, 3);
  n.liquids.add({.from = 0, .to = 1, .capacity_w_k = 50.0});
  n.liquids.add({.from = 1, .to = 0, .capacity_w_k = 50.0});
  n.streams.add({.body = 0, .flow_m3_s = 0.04, .effectiveness = 25.0 / 40.0, .paid_by = 1});
  n.conductances.add({.a = body(2), .b = body(0), .w_k = 100.0 / 3.0});
  n.body_heat_w[2] = 100.0;
  const HeatState s = solved(n);
  EXPECT_NEAR(s.body_c[0], 29.0, close_k);
  EXPECT_NEAR(s.body_c[1], 27.0, close_k);
  EXPECT_NEAR(s.body_c[2], 32.0, close_k);
  EXPECT_NEAR(s.body_c[2] - 25.0, 100.0 / *loop_conductance_w_k(20.0, 25.0, 50.0), 1e-10);
}

// All that 40 W/K of liquid can give goes into 40 W/K of air: it returns as cold as the air came.
TEST(HeatNetwork, ARadiatorMayTakeAll) {
  HeatNetwork n = empty_network(1, 2);
  for (const double share : {0.1, 0.2, 0.7}) {  // their sum is not quite 1
    n.liquids.add({.from = 0, .to = 1, .capacity_w_k = 40.0 * share});
    n.liquids.add({.from = 1, .to = 0, .capacity_w_k = 40.0 * share});
  }
  n.streams.add({.body = 0, .flow_m3_s = 0.04, .effectiveness = 1.0, .paid_by = 1});
  n.body_heat_w[0] = 100.0;
  const HeatState s = solved(n);
  EXPECT_NEAR(s.body_c[0], 27.5, close_k);
  EXPECT_NEAR(s.body_c[1], 25.0, close_k);
}

// 5e-10 m3/s enter a sealed pair of rooms and never leave, too little to be refused against what
// circulates. Where that is the only way for the heat, the result says that it does not close.
TEST(HeatNetwork, SaysWhenItDoesNotClose) {
  HeatNetwork n = empty_network(4, 0);
  constexpr double lost = 5e-10;
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.05});
  n.flows.add({.from = 1, .to = 0, .flow_m3_s = 0.05 - lost});
  n.flows.add({.from = 1, .to = 2, .flow_m3_s = lost});
  n.flows.add({.from = 2, .to = 3, .flow_m3_s = 0.05});
  n.flows.add({.from = 3, .to = 2, .flow_m3_s = 0.05});
  n.room_heat_w[3] = 1.0;
  EXPECT_FALSE(solved(n).closes());
  n.conductances.add({.a = room(2), .b = room(0), .w_k = 1.0});
  EXPECT_TRUE(solved(n).closes());
}

// No air at all: 10 W through a wall of 2 W/K.
TEST(HeatNetwork, LetsHeatThroughWalls) {
  HeatNetwork n = empty_network(2, 0);
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.0});
  n.conductances.add({.a = room(1), .b = room(0), .w_k = 2.0});
  n.room_heat_w[1] = 10.0;
  EXPECT_NEAR(solved(n).room_c[1], 30.0, close_k);
}

// 1e-9 W/K out, 1e4 W/K among themselves: 13 digits apart, and still 1 / 1e-9 K.
TEST(HeatNetwork, HangsByAThread) {
  HeatNetwork n = empty_network(2, 2);
  n.conductances.add({.a = body(0), .b = body(1), .w_k = 1e4});
  n.conductances.add({.a = body(1), .b = room(1), .w_k = 1e4});
  n.conductances.add({.a = room(1), .b = room(0), .w_k = 1e-9});
  n.body_heat_w[0] = 1.0;
  const HeatState s = solved(n);
  EXPECT_NEAR(s.body_c[0], 1e9, 1e9 * 1e-7);  // 25 degC more
  EXPECT_LT(s.balance_error_frac, 1e-13);
}

TEST(HeatNetwork, FlagsWhatHasNoWayOut) {
  HeatNetwork n = empty_network(4, 3);
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.02});
  n.flows.add({.from = 1, .to = 0, .flow_m3_s = 0.02});
  n.flows.add({.from = 2, .to = 3, .flow_m3_s = 0.01});  // in a ring of their own
  n.flows.add({.from = 3, .to = 2, .flow_m3_s = 0.01});
  n.conductances.add({.a = body(1), .b = room(2), .w_k = 1.0});
  n.conductances.add({.a = body(2), .b = room(1), .w_k = 5.0});
  n.streams.add({.from = 1, .to = 1, .body = 0, .flow_m3_s = 0.0, .effectiveness = 0.5});
  n.room_heat_w[1] = 20.0;
  n.room_heat_w[2] = 20.0;
  n.body_heat_w = {10.0, 10.0, 10.0};
  const HeatState s = solved(n);
  EXPECT_EQ(s.unbounded_rooms.to_ulong(), 0b1100U);
  EXPECT_EQ(s.unbounded_bodies.to_ulong(), 0b011U);
  EXPECT_TRUE(s.unbounded());
  EXPECT_TRUE(std::isinf(s.room_c[2]) && std::isinf(s.body_c[0]));
  EXPECT_NEAR(s.room_c[1], 26.5, close_k);  // 30 W in 20 W/K
  EXPECT_NEAR(s.body_c[2], 28.5, close_k);
  EXPECT_EQ(s.heat_w, 30.0);
  EXPECT_EQ(s.streams[0].heat_w, 0.0);
}

TEST(HeatNetwork, TellsWhatOneWattDoes) {
  HeatNetwork n = empty_network(2, 2);
  n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.02});
  n.flows.add({.from = 1, .to = 0, .flow_m3_s = 0.02});
  n.conductances.add({.a = body(0), .b = room(1), .w_k = 4.0});
  n.conductances.add({.a = body(1), .b = room(0), .w_k = 4.0});
  n.body_heat_w = {70.0, 30.0};
  const auto rise = HeatField::of(n)->rise_of(0);
  EXPECT_NEAR(rise.room_k_w[1], 0.05, 1e-15);
  EXPECT_NEAR(rise.body_k_w[0], 0.30, 1e-15);
  EXPECT_EQ(rise.body_k_w[1], 0.0);
}

// One thing wrong at a time; the message names it.
TEST(HeatNetwork, RefusesWhatCannotBe) {
  const auto refuses = [](const char* word, const auto& spoil) {
    HeatNetwork n = empty_network(2, 2);
    n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.02});
    n.flows.add({.from = 1, .to = 0, .flow_m3_s = 0.02});
    spoil(n);
    const auto field = HeatField::of(n);
    ASSERT_FALSE(field) << word;
    EXPECT_NE(field.error().message.find(word), std::string::npos) << field.error().message;
  };
  const double nan = std::nan("");
  refuses("rooms", [](auto& n) { n.rooms = 13; });
  refuses("rooms", [](auto& n) { n.rooms = 0; });
  refuses("bodies", [](auto& n) { n.bodies = 17; });
  refuses("outside_c", [&](auto& n) { n.outside_c = nan; });
  refuses("density_kg_m3", [](auto& n) { n.air.density_kg_m3 = 0.0; });
  refuses("room_heat_w", [](auto& n) { n.room_heat_w[0] = 1.0; });
  refuses("body_heat_w", [&](auto& n) { n.body_heat_w[1] = nan; });
  refuses("flows[2]", [](auto& n) { n.flows.add({.from = 0, .to = 2, .flow_m3_s = 0.0}); });
  refuses("flows[2].flow_m3_s",
          [&](auto& n) { n.flows.add({.from = 0, .to = 1, .flow_m3_s = nan}); });
  refuses("room 0: ", [](auto& n) { n.flows.add({.from = 0, .to = 1, .flow_m3_s = 0.001}); });
  refuses("streams[0]", [](auto& n) { n.streams.add({.body = 2, .flow_m3_s = 0.01}); });
  refuses("recirculation_frac",
          [](auto& n) { n.streams.add({.flow_m3_s = 0.01, .recirculation_frac = 1.0}); });
  refuses("effectiveness", [](auto& n) { n.streams.add({.effectiveness = 1.1}); });
  refuses("conductances[0].w_k",
          [](auto& n) { n.conductances.add({.a = body(0), .b = body(1), .w_k = -1.0}); });
  refuses("body 0: ", [](auto& n) { n.liquids.add({.from = 0, .to = 1, .capacity_w_k = 5.0}); });
  refuses("streams[0]: takes", [](auto& n) {
    n.streams.add({.body = 0, .flow_m3_s = 0.01, .effectiveness = 0.5, .paid_by = 1});
  });
}

}  // namespace
}  // namespace rigproof::air
