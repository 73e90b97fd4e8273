// Regulated parts: worked by hand, and on random builds against the conditions themselves.
#include "analysis/air/regulated.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "analysis/air/random_network.hpp"

namespace rigproof::air {
namespace {

RegulatedParts one_part(const PowerLimits& limits) {
  RegulatedParts out;
  out.add({.limits = limits, .base_c = 30.0, .rise_k_w = {0.2}});
  return out;
}

Sustained only(const PowerLimits& limits) { return (*sustained_powers(one_part(limits)))[0]; }

// 30 degC and 0.2 K/W. 350 W would be 100 degC; 90 degC are 300 W.
TEST(Regulated, OnePartByHand) {
  const Sustained held = only({.limit_w = 350.0, .limit_c = 90.0});
  EXPECT_EQ(held.binds, Binds::temperature);
  EXPECT_NEAR(held.power_w, 300.0, 1e-10);
  EXPECT_NEAR(held.temp_c, 90.0, 1e-10);
  EXPECT_NEAR(held.lost_frac, 1.0 / 7.0, 1e-12);

  const Sustained free = only({.limit_w = 250.0, .limit_c = 90.0});
  EXPECT_EQ(free.binds, Binds::power);
  EXPECT_EQ(free.power_w, 250.0);
  EXPECT_NEAR(free.temp_c, 80.0, 1e-12);
  EXPECT_EQ(free.lost_frac, 0.0);

  const Sustained hot = only({.limit_w = 350.0, .minimum_w = 320.0, .limit_c = 90.0});
  EXPECT_TRUE(hot.too_hot());
  EXPECT_EQ(hot.power_w, 320.0);
  EXPECT_NEAR(hot.temp_c, 94.0, 1e-12);

  const Sustained hopeless = only({.limit_w = 350.0, .limit_c = 20.0});  // the air is hotter
  EXPECT_TRUE(hopeless.too_hot());
  EXPECT_EQ(hopeless.power_w, 0.0);
  EXPECT_NEAR(hopeless.temp_c, 30.0, 1e-12);

  EXPECT_EQ(only({.limit_w = 5000.0}).binds,
            Binds::power);  // no temperature limit
  EXPECT_EQ(only({.limit_w = 300.0, .limit_c = 90.0}).power_w,
            300.0);  // both bind
}

// A card (0.1 K/W) warms the processor (0.4 K/W) by 0.05 K/W, and not the other way. Air 25, both
// to 85 degC. 400 W of card: 65 degC; processor (85 - 25 - 20) / 0.4 = 100 W of 200. 800 W of card
// would be 105 degC: 600 W; processor (85 - 25 - 30) / 0.4 = 75 W.
TEST(Regulated, ACardWarmsTheProcessor) {
  RegulatedParts parts;
  parts.add(
      {.limits = {.limit_w = 400.0, .limit_c = 85.0}, .base_c = 25.0, .rise_k_w = {0.1, 0.0}});
  parts.add(
      {.limits = {.limit_w = 200.0, .limit_c = 85.0}, .base_c = 25.0, .rise_k_w = {0.05, 0.4}});
  auto got = sustained_powers(parts).value();
  EXPECT_EQ(got[0].binds, Binds::power);
  EXPECT_NEAR(got[0].temp_c, 65.0, 1e-12);
  EXPECT_EQ(got[1].binds, Binds::temperature);
  EXPECT_NEAR(got[1].power_w, 100.0, 1e-10);
  EXPECT_NEAR(got[1].lost_frac, 0.5, 1e-12);
  parts[0].limits.limit_w = 800.0;
  got = sustained_powers(parts).value();
  EXPECT_NEAR(got[0].power_w, 600.0, 1e-10);
  EXPECT_NEAR(got[1].power_w, 75.0, 1e-10);
}

// 0.2 a + 0.1 b = 60, 0.1 a + 0.3 b = 60: a = 240, b = 120. With b at most 90: a = 255.
TEST(Regulated, TwoPartsWarmOneAnother) {
  RegulatedParts parts;
  parts.add(
      {.limits = {.limit_w = 500.0, .limit_c = 80.0}, .base_c = 20.0, .rise_k_w = {0.2, 0.1}});
  parts.add(
      {.limits = {.limit_w = 500.0, .limit_c = 80.0}, .base_c = 20.0, .rise_k_w = {0.1, 0.3}});
  auto got = sustained_powers(parts).value();
  EXPECT_NEAR(got[0].power_w, 240.0, 1e-10);
  EXPECT_NEAR(got[1].power_w, 120.0, 1e-10);
  parts[1].limits.limit_w = 90.0;
  got = sustained_powers(parts).value();
  EXPECT_NEAR(got[0].power_w, 255.0, 1e-10);
  EXPECT_EQ(got[1].binds, Binds::power);
  // b cannot go below 330 W, which alone is 20 + 99 degC for it; a is left (60 - 33) / 0.2 = 135 W.
  parts[1].limits = {.limit_w = 500.0, .minimum_w = 330.0, .limit_c = 80.0};
  got = sustained_powers(parts).value();
  EXPECT_NEAR(got[0].power_w, 135.0, 1e-10);
  EXPECT_TRUE(got[1].too_hot());
  EXPECT_NEAR(got[1].temp_c, 20.0 + 13.5 + 99.0, 1e-10);
}

TEST(Regulated, RefusesWhatIsNoHeatBalance) {
  EXPECT_FALSE(sustained_powers(one_part({.limit_w = 0.0})));
  EXPECT_FALSE(sustained_powers(one_part({.limit_w = 10.0, .minimum_w = 11.0})));
  EXPECT_FALSE(sustained_powers(one_part({.limit_w = 10.0, .limit_c = std::nan("")})));
  RegulatedParts parts = one_part({.limit_w = 10.0});
  parts[0].rise_k_w[0] = -0.1;
  EXPECT_FALSE(sustained_powers(parts));
  parts[0].rise_k_w[0] = 0.0;  // heat without warmth
  EXPECT_FALSE(sustained_powers(parts));
  parts[0].rise_k_w = {0.2, 0.2};
  parts.add(parts[0]);  // two parts, one temperature
  EXPECT_FALSE(sustained_powers(parts));
  EXPECT_TRUE(sustained_powers({}).value().size() == 0);
}

struct Case {
  HeatNetwork network;
  std::vector<RegulatedBody> bodies;
};

Case random_case(std::mt19937_64& generator, std::size_t parts) {
  const auto in = [&](double low, double high) {
    return std::uniform_real_distribution(low, high)(generator);
  };
  Case out{.network = trial::random_network(generator,
                                            {.rooms = 5, .bodies = 6, .streams = 4, .loop = true}),
           .bodies = {}};
  for (std::size_t i = 0; i < parts; ++i) {
    const double limit = in(20.0, 600.0);
    out.bodies.push_back({.body = i + 2,
                          .limits = {.limit_w = limit,
                                     .minimum_w = in(0.0, 1.0) < 0.5 ? 0.0 : in(0.0, 0.9) * limit,
                                     .limit_c = in(30.0, 110.0)}});
  }
  return out;
}

// With the powers found put into the heat network itself every part is in one of its three states.
// All three occur; the rises are not looked at.
TEST(Regulated, FulfilsItsConditionsOnRandomBuilds) {
  std::mt19937_64 generator(11);
  std::array<int, 3> seen{};
  for (int i = 0; i < 2000; ++i) {
    const Case c = random_case(generator, 1 + static_cast<std::size_t>(i) % 4);
    const auto field = HeatField::of(c.network).value();
    const auto got = sustained_powers(regulated_parts(field, c.bodies).value()).value();
    auto heat_w = c.network.body_heat_w;
    for (std::size_t p = 0; p < got.size(); ++p) heat_w[c.bodies[p].body] = got[p].power_w;
    const HeatState state = field.state(std::span<const double>(heat_w).first(c.network.bodies));
    for (std::size_t p = 0; p < got.size(); ++p) {
      const PowerLimits& limits = c.bodies[p].limits;
      const double temp = state.body_c[c.bodies[p].body];
      EXPECT_NEAR(got[p].temp_c, temp, 1e-8);
      EXPECT_GE(got[p].power_w, limits.minimum_w);
      EXPECT_LE(got[p].power_w, limits.limit_w);
      const bool at_power = got[p].power_w == limits.limit_w && temp <= limits.limit_c + 1e-8;
      const bool at_temp = std::abs(temp - limits.limit_c) <= 1e-8;
      const bool at_least = got[p].power_w == limits.minimum_w && temp >= limits.limit_c - 1e-8;
      EXPECT_TRUE(at_power || at_temp || at_least);
      ++seen[static_cast<std::size_t>(got[p].binds)];
    }
  }
  for (const int count : seen) EXPECT_GT(count, 100);
}

// Brute force, where no part is left too hot: of all powers on a grid that keep every limit none
// makes any part hotter than the answer does, and the answer keeps every limit too.
TEST(Regulated, HasTheHighestTemperaturesThatAreAllowed) {
  std::mt19937_64 generator(12);
  int tried = 0;
  for (int i = 0; i < 60; ++i) {
    Case c = random_case(generator, 3);
    for (RegulatedBody& one : c.bodies) {
      one.limits.minimum_w = 0.0;
      one.limits.limit_c += 20.0;
    }
    const auto parts = regulated_parts(HeatField::of(c.network).value(), c.bodies).value();
    const auto got = sustained_powers(parts).value();
    if (std::ranges::any_of(got, &Sustained::too_hot)) continue;
    ++tried;
    constexpr int steps = 40;
    for (int at = 0; at < steps * steps * steps; ++at) {
      const std::array<int, 3> step{at % steps, at / steps % steps, at / steps / steps};
      std::array<double, 3> temp{};
      bool allowed = true;
      for (std::size_t p = 0; p < 3; ++p) {
        temp[p] = parts[p].base_c;
        for (std::size_t q = 0; q < 3; ++q)
          temp[p] += parts[p].rise_k_w[q] * parts[q].limits.limit_w * step[q] / (steps - 1.0);
        allowed = allowed && temp[p] <= parts[p].limits.limit_c;
      }
      for (std::size_t p = 0; allowed && p < 3; ++p) ASSERT_LE(temp[p], got[p].temp_c + 1e-8);
    }
    for (std::size_t p = 0; p < 3; ++p) EXPECT_LE(got[p].temp_c, parts[p].limits.limit_c + 1e-8);
  }
  EXPECT_GT(tried, 25);
}

// Hotter air can only take power away in the sum, and never cools a part.
TEST(Regulated, HotterAirCoolsNoPart) {
  std::mt19937_64 generator(13);
  for (int i = 0; i < 500; ++i) {
    Case c = random_case(generator, 3);
    for (RegulatedBody& one : c.bodies) one.limits.minimum_w = 0.0;
    const auto before =
        sustained_powers(regulated_parts(HeatField::of(c.network).value(), c.bodies).value())
            .value();
    c.network.outside_c += 4.0;
    const auto now =
        sustained_powers(regulated_parts(HeatField::of(c.network).value(), c.bodies).value())
            .value();
    for (std::size_t p = 0; p < 3; ++p) EXPECT_GE(now[p].temp_c, before[p].temp_c - 1e-8);
  }
}

TEST(Regulated, RefusesBodiesItCannotAskFor) {
  std::mt19937_64 generator(14);
  Case c = random_case(generator, 2);
  const auto field = HeatField::of(c.network).value();
  c.bodies[1].body = c.bodies[0].body;
  EXPECT_FALSE(regulated_parts(field, c.bodies));
  c.bodies[1].body = 15;
  EXPECT_FALSE(regulated_parts(field, c.bodies));
  c.bodies.resize(5);
  EXPECT_FALSE(regulated_parts(field, c.bodies));
  HeatNetwork alone;
  alone.bodies = 1;
  EXPECT_FALSE(
      regulated_parts(HeatField::of(alone).value(),
                      std::vector<RegulatedBody>{{.body = 0, .limits = {.limit_w = 1.0}}}));
}

}  // namespace
}  // namespace rigproof::air
