// Laws that every heat network keeps, on random ones; and a slow twin that shares no code.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "analysis/air/heat_network.hpp"
#include "analysis/air/random_network.hpp"

namespace rigproof::air {
namespace {

using trial::random_network;
using trial::RandomSizes;

constexpr int networks = 400;

HeatNetwork nth_network(std::mt19937_64& generator, int n) {
  const auto k = static_cast<std::size_t>(n);
  return random_network(
      generator,
      {.rooms = 2 + k % 11, .bodies = 2 + k % 15, .streams = 1 + k % 8, .loop = k % 2 == 0});
}

HeatState solved(const HeatNetwork& network) { return HeatField::of(network).value().state(); }

void expect_nowhere_cooler(const HeatState& now, const HeatState& before) {
  for (std::size_t r = 0; r < most_rooms; ++r) EXPECT_GE(now.room_c[r], before.room_c[r] - 1e-10);
  for (std::size_t b = 0; b < most_bodies; ++b) EXPECT_GE(now.body_c[b], before.body_c[b] - 1e-10);
}

TEST(HeatLaws, EnergyBalances) {
  std::mt19937_64 generator(1);
  for (int i = 0; i < networks; ++i) {
    const HeatState s = solved(nth_network(generator, i));
    EXPECT_FALSE(s.unbounded());
    EXPECT_LT(s.balance_error_frac, 1e-11);
  }
}

// The balance is affine: 5 K outside are 5 K everywhere.
TEST(HeatLaws, HotterOutsideHeatsAll) {
  std::mt19937_64 generator(2);
  for (int i = 0; i < networks; ++i) {
    HeatNetwork n = nth_network(generator, i);
    const HeatState before = solved(n);
    n.outside_c += 5.0;
    const HeatState now = solved(n);
    for (std::size_t r = 0; r < n.rooms; ++r)
      EXPECT_NEAR(now.room_c[r] - before.room_c[r], 5.0, 1e-9);
    for (std::size_t b = 0; b < n.bodies; ++b)
      EXPECT_NEAR(now.body_c[b] - before.body_c[b], 5.0, 1e-9);
  }
}

TEST(HeatLaws, MoreHeatCoolsNothing) {
  std::mt19937_64 generator(3);
  for (int i = 0; i < networks; ++i) {
    HeatNetwork n = nth_network(generator, i);
    const HeatState before = solved(n);
    n.body_heat_w[generator() % n.bodies] += 30.0;
    expect_nowhere_cooler(solved(n), before);
  }
}

// With no heat below zero nothing is colder than the outside, so a way to it heats nothing.
TEST(HeatLaws, AWayOutHeatsNothing) {
  std::mt19937_64 generator(4);
  for (int i = 0; i < networks; ++i) {
    HeatNetwork n = nth_network(generator, i);
    const HeatState before = solved(n);
    n.conductances.add({.a = body(generator() % n.bodies), .b = room(outside), .w_k = 2.0});
    expect_nowhere_cooler(before, solved(n));
  }
}

TEST(HeatLaws, NothingIsColderThanOutsideAndOneWattRisesAddUp) {
  std::mt19937_64 generator(5);
  for (int i = 0; i < networks; ++i) {
    HeatNetwork n = nth_network(generator, i);
    n.room_heat_w = {};
    const auto field = HeatField::of(n).value();
    const HeatState s = field.state();
    std::array<double, most_bodies> sum{};
    for (std::size_t j = 0; j < n.bodies; ++j) {
      const auto rise = field.rise_of(j);
      for (std::size_t b = 0; b < n.bodies; ++b) sum[b] += rise.body_k_w[b] * n.body_heat_w[j];
    }
    for (std::size_t b = 0; b < n.bodies; ++b) {
      EXPECT_GE(s.body_c[b], n.outside_c);
      EXPECT_NEAR(s.body_c[b], n.outside_c + sum[b], 1e-9);
    }
  }
}

// The slow twin: every stream's inlet and outlet as they are described, and every node's balance,
// set right one after the other until nothing moves.
struct Twin {
  const HeatNetwork& n;
  std::array<double, most_rooms> room_c{};
  std::array<double, most_bodies> body_c{};
  std::array<double, most_streams> inlet_c{};

  double capacity(double flow) const {
    return n.air.density_kg_m3 * n.air.specific_heat_j_kg_k * flow;
  }
  double& at(Node node) {
    return node.kind == Node::Kind::room ? room_c[node.index] : body_c[node.index];
  }

  // Sum of w_k and of w_k T of what reaches a node by links.
  std::pair<double, double> by_links(Node node) {
    double weight = 0.0;
    double heat = 0.0;
    for (const Conductance& link : n.conductances)
      for (const auto& [one, other] : {std::pair(link.a, link.b), std::pair(link.b, link.a)})
        if (one.kind == node.kind && one.index == node.index) {
          weight += link.w_k;
          heat += link.w_k * at(other);
        }
    return {weight, heat};
  }

  void settle_room(std::size_t r) {
    auto [weight, heat] = by_links(room(r));
    heat += n.room_heat_w[r];
    for (const AirFlow& f : n.flows) {
      const double c = capacity(std::abs(f.flow_m3_s));
      const auto [from, to] = f.flow_m3_s > 0 ? std::pair(f.from, f.to) : std::pair(f.to, f.from);
      if (to != r) continue;
      weight += c;
      heat += c * room_c[from];
    }
    for (std::size_t i = 0; i < n.streams.size(); ++i) {
      const Stream& s = n.streams[i];
      if (s.to != r) continue;
      const double outlet = inlet_c[i] + s.effectiveness * (body_c[s.body] - inlet_c[i]);
      const double c = (1.0 - s.recirculation_frac) * capacity(s.flow_m3_s);
      weight += c;
      heat += c * outlet;
    }
    room_c[r] = heat / weight;
  }

  void settle_body(std::size_t b) {
    auto [weight, heat] = by_links(body(b));
    heat += n.body_heat_w[b];
    for (const LiquidFlow& f : n.liquids)
      if (f.to == b) {
        weight += f.capacity_w_k;
        heat += f.capacity_w_k * body_c[f.from];
      }
    for (std::size_t i = 0; i < n.streams.size(); ++i) {
      const Stream& s = n.streams[i];
      if ((s.paid_by == Stream::same ? s.body : s.paid_by) != b) continue;
      const double c = s.effectiveness * capacity(s.flow_m3_s);
      if (s.body == b) {
        weight += c;
        heat += c * inlet_c[i];
      } else {
        heat -= c * (body_c[s.body] - inlet_c[i]);
      }
    }
    body_c[b] = heat / weight;
  }

  void settle() {
    room_c.fill(n.outside_c);
    body_c.fill(n.outside_c);
    inlet_c.fill(n.outside_c);
    for (double moved = 1.0; moved > 1e-12;) {
      const auto before = body_c;
      for (int i = 0; i < 50; ++i) {
        for (std::size_t k = 0; k < n.streams.size(); ++k) {
          const Stream& s = n.streams[k];
          const double outlet = inlet_c[k] + s.effectiveness * (body_c[s.body] - inlet_c[k]);
          inlet_c[k] =
              (1.0 - s.recirculation_frac) * room_c[s.from] + s.recirculation_frac * outlet;
        }
        for (std::size_t r = 1; r < n.rooms; ++r) settle_room(r);
        for (std::size_t b = 0; b < n.bodies; ++b) settle_body(b);
      }
      moved = 0.0;
      for (std::size_t b = 0; b < n.bodies; ++b)
        moved = std::max(moved, std::abs(body_c[b] - before[b]));
    }
  }
};

TEST(HeatLaws, AgreesWithTheSlowTwin) {
  std::mt19937_64 generator(6);
  for (int i = 0; i < 60; ++i) {
    const HeatNetwork n = nth_network(generator, i);
    Twin twin{n};
    twin.settle();
    const HeatState s = solved(n);
    for (std::size_t r = 0; r < n.rooms; ++r) EXPECT_NEAR(s.room_c[r], twin.room_c[r], 1e-8);
    for (std::size_t b = 0; b < n.bodies; ++b) EXPECT_NEAR(s.body_c[b], twin.body_c[b], 1e-8);
    for (std::size_t k = 0; k < n.streams.size(); ++k)
      EXPECT_NEAR(s.streams[k].inlet_c, twin.inlet_c[k], 1e-8);
  }
}

}  // namespace
}  // namespace rigproof::air
