// Warming and cooling of whole builds against the closed form of one body with one time constant
// (text book: T(t) = T_end + (T_start - T_end) e^(-t / tau), tau = C / G), and laws of scale.
#include "coupled/air/air_warming.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>

#include "coupled/air/air_answer.hpp"
#include "tests/support/tower_air.hpp"

namespace rigproof::coupled {
namespace {

class Warmer {
 public:
  explicit Warmer(const Made& made, const std::vector<std::string>& parts) : scene_(tower(made)) {
    scene_.take("box");
    for (const std::string& part : parts) scene_.take(part);
    scene_.brief.room_c = 25.0;
  }
  const AirCase& of(Load load) {
    Measure m;
    cases_.push_back(std::make_unique<AirCase>(air_case(scene_.facts(), load, m)));
    return *cases_.back();
  }
  Warming warm(Load load, double speed_frac = 1.0) {
    const Running after{&of(load), speed_frac};
    Measure m;
    return warming(scene_.facts(), nullptr, after, m).value();
  }
  Warming cool(Load from, Load to) {
    const Running before{&of(from), 1.0};
    const Running after{&of(to), 1.0};
    Measure m;
    return warming(scene_.facts(), &before, after, m).value();
  }
  AirState state(Load load) { return AirModel(of(load)).at(AirModel::middle, 1.0); }

 private:
  Scene scene_;
  std::vector<std::unique_ptr<AirCase>> cases_;
};

const std::vector<std::string> no_card = {"cpu", "board", "tower"};

// The tower: 200 W / 50 K in all, of which 20 K / 200 W = 0.1 K/W is the plate. What stores heat
// leads to the air by 1 / (1/4 - 0.1) W/K, the air to the outside by rho cp Q and 1 W/K of walls.
struct ByHand {
  double g_w_k, tau_s, lead_k;
};
ByHand by_hand(const AirState& state, double capacity_j_k, double watts) {
  const double to_air_w_k = 1.0 / (1.0 / 4.0 - 0.1);
  const double air_w_k = rho_cp * state.through_m3_s + 1.0;
  const double g_w_k = 1.0 / (1.0 / to_air_w_k + 1.0 / air_w_k);
  return {g_w_k, capacity_j_k / g_w_k, 0.1 * watts};
}

TEST(Warming, OneBodyWarmsByItsTimeConstant) {
  Warmer warmer({}, no_card);
  const AirState end = warmer.state(Load::everything);
  const ByHand hand = by_hand(end, 500.0, 100.0);
  const Warming warming = warmer.warm(Load::everything);
  const auto& cpu = warming[Warmed::cpu];
  ASSERT_TRUE(cpu);
  const double end_body_c = end.cpu.temp_c - hand.lead_k;
  for (std::size_t k = 0; k < warming.time_s.size(); ++k) {
    const double t_s = warming.time_s[k];
    const double body_c = end_body_c + (25.0 - end_body_c) * std::exp(-t_s / hand.tau_s);
    ASSERT_NEAR(cpu->temp_c[k], body_c + hand.lead_k, 1e-6) << t_s;
  }
  EXPECT_NEAR(cpu->settled_s.median(), hand.tau_s * std::log(end_body_c - 25.0), 1e-6);
  EXPECT_FALSE(cpu->slows_after_s);
  EXPECT_FALSE(warming[Warmed::gpu]);
  EXPECT_FALSE(warming[Warmed::coolant]);
}

// The same body from hot to rest: the fans run on, so the time constant is the same.
TEST(Warming, ItCoolsByTheSameTimeConstant) {
  Warmer warmer({}, no_card);
  const AirState hot = warmer.state(Load::everything);
  const AirState rest = warmer.state(Load::idle);
  const ByHand hand = by_hand(rest, 500.0, 10.0);
  const double from_c = hot.cpu.temp_c - 0.1 * 100.0;
  const double to_c = rest.cpu.temp_c - 0.1 * 10.0;
  const Warming cooling = warmer.cool(Load::everything, Load::idle);
  EXPECT_NEAR(cooling[Warmed::cpu]->settled_s.quantile(0.5), hand.tau_s * std::log(from_c - to_c),
              0.02 * hand.tau_s);
  EXPECT_NEAR(cooling[Warmed::cpu]->temp_c.front(), from_c + 1.0, 1e-6);
}

// T(t) = limit: t = -tau ln((end - limit) / (end - start)), with the power that is asked.
TEST(Warming, APartSlowsDownWhenItComesToItsLimit) {
  Made made;
  made.cpu_w = "300";  // 75 K over its air, in air of 25 degC and more
  Warmer warmer(made, no_card);
  const AirState kept = warmer.state(Load::everything);
  ASSERT_GT(kept.cpu.lost_frac, 0.0);
  const ByHand hand = by_hand(kept, 500.0, 300.0);
  const double air_w_k = rho_cp * kept.through_m3_s + 1.0;
  const double end_c = 25.0 + 40.0 / air_w_k + 300.0 / hand.g_w_k;  // of the body, at 300 W
  const double limit_c = 95.0 - hand.lead_k;
  const double slows_s = -hand.tau_s * std::log((end_c - limit_c) / (end_c - 25.0));
  const Warming warming = warmer.warm(Load::everything);
  ASSERT_TRUE(warming[Warmed::cpu]->slows_after_s);
  EXPECT_NEAR(*warming[Warmed::cpu]->slows_after_s, slows_s, 1e-6 * slows_s);
  for (const double temp_c : warming[Warmed::cpu]->temp_c) EXPECT_LE(temp_c, 95.0 + 1e-6);
  EXPECT_NEAR(warming[Warmed::cpu]->temp_c.back(), 95.0, 1.0);
}

TEST(Warming, TwiceTheCapacityTakesTwiceAsLong) {
  Made heavy;
  heavy.cooler_j_k = "1000";
  Warmer light({}, no_card);
  Warmer twice(heavy, no_card);
  const Draws one = light.warm(Load::everything)[Warmed::cpu]->settled_s;
  const Draws other = twice.warm(Load::everything)[Warmed::cpu]->settled_s;
  for (int d = 0; d < draw_count; ++d) EXPECT_NEAR(other[d], 2.0 * one[d], 1e-6 * other[d]);
}

// Whatever the cooler and with a card: it ends where the steady state is, the liquid the plate's
// 15 K / 250 W below the processor.
TEST(Warming, EndsAtTheSteadyState) {
  for (const char* cooler : {"tower", "loop"}) {
    Warmer warmer({}, {"cpu", "board", "card", cooler});
    for (const Load load : {Load::idle, Load::everything}) {
      const AirState end = warmer.state(load);
      const Warming warming = warmer.warm(load);
      EXPECT_NEAR(warming[Warmed::cpu]->temp_c.back(), end.cpu.temp_c, 1.0) << cooler;
      EXPECT_NEAR(warming[Warmed::gpu]->temp_c.back(), end.gpu.temp_c, 1.0) << cooler;
      ASSERT_EQ(warming[Warmed::coolant].has_value(), cooler == std::string("loop"));
      if (!warming[Warmed::coolant]) continue;
      EXPECT_NEAR(end.coolant_c, end.cpu.temp_c - 15.0 / 250.0 * end.cpu.power_w, 1e-9);
      EXPECT_NEAR(warming[Warmed::coolant]->temp_c.back(), end.coolant_c, 1.0);
      EXPECT_NEAR(warming[Warmed::coolant]->temp_c.front(), 25.0, 1e-9);
    }
  }
}

// A plate that would take all of the cooler's resistance leaves the rest a fourth of it at least.
TEST(Warming, APlateThatTakesTooMuchIsHeldBack) {
  Made made;
  made.plate_rise_k = "49.9";
  Warmer warmer(made, no_card);
  const AirState end = warmer.state(Load::everything);
  const Warming warming = warmer.warm(Load::everything);
  EXPECT_NEAR(warming[Warmed::cpu]->temp_c.front(), 25.0 + 0.75 * 25.0, 1e-6);
  EXPECT_NEAR(warming[Warmed::cpu]->temp_c.back(), end.cpu.temp_c, 1.0);
}

}  // namespace
}  // namespace rigproof::coupled
