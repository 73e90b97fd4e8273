// Oracles: brute-force integration over the plane that uses no Phi and shares no code with the
// engine; values computed outside; simulation; identities; hand arithmetic.
#include "analysis/forecast/frame_time.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "analysis/forecast/random_stages.hpp"

namespace rigproof::forecast {
namespace {

// ---- brute force ---------------------------------------------------------------------------

struct Rule10 {  // Gauss-Legendre, ten points, found here by Newton on the recurrence of P10
  std::array<double, 10> x{}, w{};
  Rule10() {
    for (int i = 0; i < 10; ++i) {
      double t = std::cos(std::acos(-1.0) * (i + 0.75) / 10.5), slope = 1.0;
      for (int round = 0; round < 50; ++round) {
        double before = 1.0, now = t;
        for (int n = 2; n <= 10; ++n) {
          const double next = ((2 * n - 1) * t * now - (n - 1) * before) / n;
          before = now;
          now = next;
        }
        slope = 10.0 * (t * now - before) / (t * t - 1.0);
        t -= now / slope;
      }
      x[static_cast<std::size_t>(i)] = t;
      w[static_cast<std::size_t>(i)] = 2.0 / ((1.0 - t * t) * slope * slope);
    }
  }
};

template <class F>
double integrate(double from, double to, int panels, const F& f) {
  static const Rule10 rule;
  const double half = 0.5 * (to - from) / panels;
  double sum = 0.0;
  for (int p = 0; p < panels; ++p) {
    const double middle = from + half * (2 * p + 1);
    for (std::size_t i = 0; i < 10; ++i) sum += rule.w[i] * f(middle + half * rule.x[i]);
  }
  return half * sum;
}

double bell(double x) { return std::exp(-0.5 * x * x) / std::sqrt(2.0 * std::acos(-1.0)); }

constexpr double edge = 10.0;  // the mass outside is 1.5e-23

// The plane of two independent normals (u, v): ln Tc = mc + sc u, ln Tg = mg + sg (r u + q v).
struct Plane {
  double mc, mg, sc, sg, r, q;
  explicit Plane(const Stages& in)
      : mc(std::log(in.cpu_ms) - 0.5 * in.spread.cpu_log_sd * in.spread.cpu_log_sd),
        mg(std::log(in.gpu_ms) - 0.5 * in.spread.gpu_log_sd * in.spread.gpu_log_sd),
        sc(in.spread.cpu_log_sd),
        sg(in.spread.gpu_log_sd),
        r(in.spread.correlation),
        q(std::sqrt((1.0 - r) * (1.0 + r))) {}
  // Where, at this u, the card's log reaches this height.
  [[nodiscard]] double v_at(double u, double log_height) const {
    const double gap = log_height - mg - sg * r * u;
    const double v = sg * q > 0.0 ? gap / (sg * q) : (gap > 0.0 ? edge : -edge);
    return std::clamp(v, -edge, edge);
  }
  // Places in u where the inner integral bends or turns quickly: where the processor passes the
  // floor, and where the card's conditional middle passes the processor or the floor.
  [[nodiscard]] std::vector<double> cuts(double log_floor) const {
    std::vector<double> out{-edge, edge};
    const auto near = [&out](double at, double width) {
      for (const double steps : {0.0, 1.0, 3.0, 8.0, 20.0})
        for (const double side : {-1.0, 1.0})
          if (std::abs(at + side * steps * width) < edge) out.push_back(at + side * steps * width);
    };
    if (sc > 0.0 && std::isfinite(log_floor)) near((log_floor - mc) / sc, 0.0);
    if (sc != sg * r) near((mg - mc) / (sc - sg * r), sg * q / std::abs(sc - sg * r));
    if (sg * r != 0.0 && std::isfinite(log_floor))
      near((log_floor - mg) / (sg * r), q / std::abs(r));
    std::sort(out.begin(), out.end());
    return out;
  }
};

template <class F>
double over_u(const Plane& plane, double log_floor, const F& inner) {
  const std::vector<double> cuts = plane.cuts(log_floor);
  double sum = 0.0;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const int panels = 1 + static_cast<int>(cuts[i + 1] - cuts[i]);
    if (cuts[i + 1] > cuts[i])
      sum += integrate(cuts[i], cuts[i + 1], panels, [&](double u) { return bell(u) * inner(u); });
  }
  return sum;
}

double brute_mean_ms(const Stages& in) {
  const Plane plane(in);
  const double floor_ms = 1000.0 / in.spread.cap_fps;
  return over_u(plane, std::log(floor_ms), [&](double u) {
    const double held = std::max(std::exp(plane.mc + plane.sc * u), floor_ms);
    const double v0 = plane.v_at(u, std::log(held));
    const auto card = [&](double v) {
      return bell(v) * std::exp(plane.mg + plane.sg * (plane.r * u + plane.q * v));
    };
    const auto bare = [&](double v) { return bell(v) * held; };
    return integrate(-edge, v0, 8, bare) + integrate(v0, edge, 8, card);
  });
}

double brute_share_within(const Stages& in, double t_ms) {
  const Plane plane(in);
  return over_u(plane, std::log(t_ms), [&](double u) {
    if (plane.mc + plane.sc * u > std::log(t_ms)) return 0.0;
    return integrate(-edge, plane.v_at(u, std::log(t_ms)), 10, bell);
  });
}

std::vector<Stages> grid() {
  std::vector<Stages> out;
  const double pairs[][2] = {{10.0, 10.0}, {12.0, 9.0}, {4.0, 16.0}, {20.0, 18.5}};
  const double sds[][2] = {{0.2, 0.2}, {0.15, 0.25}, {0.6, 0.05}, {0.2, 0.21}, {0.01, 0.3}};
  for (const auto& t : pairs)
    for (const auto& sd : sds)
      for (const double r : {-0.99, -0.5, 0.0, 0.3, 0.8, 0.99, 0.9999999})
        out.push_back({.cpu_ms = t[0],
                       .gpu_ms = t[1],
                       .spread = {.cpu_log_sd = sd[0], .gpu_log_sd = sd[1], .correlation = r}});
  return out;
}

std::string name(const Stages& in) {
  return std::to_string(in.cpu_ms) + "/" + std::to_string(in.gpu_ms) + " sd " +
         std::to_string(in.spread.cpu_log_sd) + "/" + std::to_string(in.spread.gpu_log_sd) + " r " +
         std::to_string(in.spread.correlation) + " cap " + std::to_string(in.spread.cap_fps);
}

Stages capped(Stages in, double cap_fps) {
  in.spread.cap_fps = cap_fps;
  return in;
}

Stages swapped(const Stages& in) {
  return {.cpu_ms = in.gpu_ms,
          .gpu_ms = in.cpu_ms,
          .spread = {.cpu_log_sd = in.spread.gpu_log_sd,
                     .gpu_log_sd = in.spread.cpu_log_sd,
                     .correlation = in.spread.correlation,
                     .cap_fps = in.spread.cap_fps}};
}

// ---- (F1) ----------------------------------------------------------------------------------

// By hand: sc = sg = 0.2, r = 0: s = 0.2 sqrt 2 = 0.282843, E = 20 Phi(s / 2) = 20 Phi(0.141421).
// sc = 0.15, sg = 0.25, r = 0.3: s^2 = 0.0225 + 0.0625 - 0.0225, s = 0.25 exactly.
// The figures: mpmath 1.3 (ncdf at 30 digits), computed outside.
TEST(MeanFrameTime, HandCases) {
  EXPECT_NEAR(
      mean_frame_time_ms({.cpu_ms = 10,
                          .gpu_ms = 10,
                          .spread = {.cpu_log_sd = 0.2, .gpu_log_sd = 0.2, .correlation = 0.0}}),
      11.124629160182848922, 1e-13);
  EXPECT_NEAR(
      mean_frame_time_ms({.cpu_ms = 12,
                          .gpu_ms = 9,
                          .spread = {.cpu_log_sd = 0.15, .gpu_log_sd = 0.25, .correlation = 0.3}}),
      12.160279033301159951, 1e-13);
}

TEST(MeanFrameTime, MatchesBruteForce) {
  for (const Stages& in : grid()) {
    const double brute = brute_mean_ms(in);
    EXPECT_NEAR(mean_frame_time_ms(in), brute, 1e-9 * brute) << name(in);
  }
}

TEST(MeanFrameTime, LimitsWhenStagesStopVarying) {
  for (const double tiny : {0.0, 1e-300, 1e-18, 1e-12, 1e-9}) {
    const Spread spread{.cpu_log_sd = tiny, .gpu_log_sd = tiny, .correlation = 0.0};
    // Equal stages: E = 2 T Phi(s / 2) = T (1 + s / sqrt(2 pi)) + O(s^3), s = tiny sqrt 2.
    EXPECT_NEAR(mean_frame_time_ms({.cpu_ms = 10, .gpu_ms = 10, .spread = spread}),
                10.0 * (1.0 + tiny / std::sqrt(std::acos(-1.0))), 1e-14);
    EXPECT_EQ(mean_frame_time_ms({.cpu_ms = 11, .gpu_ms = 10, .spread = spread}), 11.0);
    EXPECT_EQ(FrameTime(spread).mean_ms(11, 10), 11.0);
    EXPECT_EQ(FrameTime(spread).mean_ms(10, 11), 11.0);
  }
  // One shape: the ratio of the stages never changes, so the longer mean rules.
  const Spread together{.cpu_log_sd = 0.3, .gpu_log_sd = 0.3, .correlation = 1.0};
  EXPECT_EQ(mean_frame_time_ms({.cpu_ms = 8, .gpu_ms = 10, .spread = together}), 10.0);
}

// ---- (F3) ----------------------------------------------------------------------------------

// Computed outside: mpmath 1.3, cap + integral over t > cap of 1 - P(max <= t), nested quadrature.
TEST(CappedFrameTime, MatchesAValueFromOutside) {
  const Stages in{
      .cpu_ms = 12,
      .gpu_ms = 9,
      .spread = {
          .cpu_log_sd = 0.15, .gpu_log_sd = 0.25, .correlation = 0.3, .cap_fps = 1000.0 / 12.0}};
  EXPECT_NEAR(mean_frame_time_ms(in), 12.806753795953, 1e-11);
}

TEST(CappedFrameTime, MatchesBruteForce) {
  for (const Stages& in : grid()) {
    for (const double share : {0.7, 1.0, 1.3}) {
      const Stages with_cap = capped(in, 1000.0 / (share * std::max(in.cpu_ms, in.gpu_ms)));
      const double brute = brute_mean_ms(with_cap);
      EXPECT_NEAR(mean_frame_time_ms(with_cap), brute, 1e-9 * brute) << name(with_cap);
    }
  }
}

TEST(CappedFrameTime, StagesThatStandStill) {
  // Tc = 12 for ever, Tg varies, cap 10 ms: the larger of 12 and Tg. Cap 15 ms: of 15 and Tg.
  // Brute force over one dimension by the plane with sc = 0.
  for (const double cap_ms : {10.0, 15.0}) {
    const Stages in{
        .cpu_ms = 12,
        .gpu_ms = 11,
        .spread = {
            .cpu_log_sd = 0.0, .gpu_log_sd = 0.3, .correlation = 0.0, .cap_fps = 1000.0 / cap_ms}};
    const double brute = brute_mean_ms(in);
    for (const Stages& either : {in, swapped(in)}) {
      EXPECT_NEAR(mean_frame_time_ms(either), brute, 1e-9) << name(either);
      EXPECT_NEAR(FrameTime(either.spread).mean_ms(either.cpu_ms, either.gpu_ms), brute, 1e-9);
    }
  }
  const Spread still{.cpu_log_sd = 0, .gpu_log_sd = 0, .correlation = 0, .cap_fps = 50};
  EXPECT_EQ(mean_frame_time_ms({.cpu_ms = 8, .gpu_ms = 10, .spread = still}), 20.0);
  EXPECT_EQ(mean_frame_time_ms({.cpu_ms = 8, .gpu_ms = 30, .spread = still}), 30.0);
}

TEST(CappedFrameTime, OutOfReachCapsChangeNothingAndTightOnesRule) {
  for (const Stages& in : grid()) {
    const double bare = mean_frame_time_ms(in);
    EXPECT_NEAR(mean_frame_time_ms(capped(in, 1e9)), bare, 1e-12 * bare) << name(in);
    EXPECT_NEAR(mean_frame_time_ms(capped(in, 0.1)), 1e4, 1e-6) << name(in);
  }
}

// ---- (F2) ----------------------------------------------------------------------------------

// Computed outside: mpmath 1.3, root of its own nested quadrature.
TEST(QuantileFrameTime, MatchesAValueFromOutside) {
  const FrameTime model({.cpu_log_sd = 0.15, .gpu_log_sd = 0.25, .correlation = 0.3});
  EXPECT_NEAR(model.quantile_ms(12, 9, 0.99), 17.1787624151779, 1e-11);
}

// A quantile is right to 1e-7 if the brute-force share crosses p between t (1 -+ 1e-7).
TEST(QuantileFrameTime, BruteForceCrossesThere) {
  for (const Stages& in : grid()) {
    const FrameTime model(in.spread);
    for (const double p : {0.5, 0.99}) {
      const double t = model.quantile_ms(in.cpu_ms, in.gpu_ms, p);
      EXPECT_LT(brute_share_within(in, t * (1.0 - 1e-7)), p) << name(in);
      EXPECT_GT(brute_share_within(in, t * (1.0 + 1e-7)), p) << name(in);
    }
  }
}

TEST(QuantileFrameTime, LiesWithinItsBoundsAndUndoesTheShare) {
  Random random;
  for (int i = 0; i < 5000; ++i) {
    const Stages in = random.stages(false);
    const FrameTime model(in.spread);
    for (const double p : {0.05, 0.5, 0.99, 0.9999}) {
      const QuantileBounds bounds = model.quantile_bounds_ms(in.cpu_ms, in.gpu_ms, p);
      const double t = model.quantile_ms(in.cpu_ms, in.gpu_ms, p);
      EXPECT_LE(bounds.low_ms, t);
      EXPECT_GE(bounds.high_ms * (1.0 + 1e-14), t);
      EXPECT_NEAR(model.share_within(in.cpu_ms, in.gpu_ms, t), p, 1e-11) << name(in);
    }
  }
}

// Whoever only decides gets another number, but never the other side.
TEST(QuantileFrameTime, TheSideOfALimitIsThatOfTheSolvedTime) {
  Random random;
  for (int i = 0; i < 3000; ++i) {
    Stages in = random.stages(i % 3 == 0);
    if (i % 7 == 0) in.spread.cpu_log_sd = 0.0;
    if (i % 11 == 0) in.spread.gpu_log_sd = 0.0;
    const FrameTime model(in.spread);
    for (const double p : {0.05, 0.99}) {
      const QuantileBounds bounds = model.quantile_bounds_ms(in.cpu_ms, in.gpu_ms, p);
      const double solved = model.quantile_ms(in.cpu_ms, in.gpu_ms, p);
      for (const double limit :
           {solved, std::nextafter(solved, 0.0), std::nextafter(solved, 1e9), solved * (1 - 1e-10),
            solved * (1 + 1e-6), solved * (1 - 1e-6), bounds.low_ms, bounds.high_ms,
            0.5 * (bounds.low_ms + bounds.high_ms), 0.5 * solved, 2.0 * solved}) {
        double side = 0.0;
        model.quantile_side_ms({&in.cpu_ms, 1}, {&in.gpu_ms, 1}, p, limit, {&side, 1});
        EXPECT_EQ(side <= limit, solved <= limit)
            << name(in) << " p " << p << " limit " << limit << " solved " << solved << " low "
            << bounds.low_ms << " high " << bounds.high_ms << " side " << side;
      }
    }
  }
}

TEST(QuantileFrameTime, LimitsAndCap) {
  const double z = 2.326347874040841;  // 99 %, any table of the normal distribution
  // The card stands still at 10 ms: the larger of it and the processor's own quantile.
  const double own = 9.0 * std::exp(0.2 * z - 0.02);
  EXPECT_NEAR(
      FrameTime({.cpu_log_sd = 0.2, .gpu_log_sd = 0, .correlation = 0}).quantile_ms(9, 10, 0.99),
      own, 1e-12);
  EXPECT_EQ(
      FrameTime({.cpu_log_sd = 0.2, .gpu_log_sd = 0, .correlation = 0}).quantile_ms(9, 20, 0.99),
      20.0);
  EXPECT_EQ(FrameTime({.cpu_log_sd = 0, .gpu_log_sd = 0, .correlation = 0}).quantile_ms(9, 8, 0.99),
            9.0);
  // r = 1: the stages peak together.
  EXPECT_NEAR(
      FrameTime({.cpu_log_sd = 0.2, .gpu_log_sd = 0.1, .correlation = 1}).quantile_ms(9, 9, 0.99),
      own, 1e-11);
  // r = -1, equal stages: P = 2 Phi(a) - 1 = 0.99, a = 2.575829303548901 (99.5 % point, tabled).
  EXPECT_NEAR(
      FrameTime({.cpu_log_sd = 0.2, .gpu_log_sd = 0.2, .correlation = -1}).quantile_ms(9, 9, 0.99),
      9.0 * std::exp(0.2 * 2.575829303548901 - 0.02), 1e-11);
  // Tiny but not zero: r = 0, equal stages, Phi(a)^2 = 0.99, a = 2.5742... ; relative to sd.
  const double tiny = 1e-9;
  const double got = FrameTime({.cpu_log_sd = tiny, .gpu_log_sd = tiny, .correlation = 0})
                         .quantile_ms(10, 10, 0.99);
  const double a = std::log(got / 10.0) / tiny;
  EXPECT_NEAR(std::pow(0.5 * std::erfc(-a / std::sqrt(2.0)), 2), 0.99, 1e-7);
  // A cap is a floor for every frame, so for every quantile.
  const FrameTime held({.cpu_log_sd = 0.2, .gpu_log_sd = 0.2, .correlation = 0, .cap_fps = 60});
  EXPECT_DOUBLE_EQ(held.quantile_ms(5, 5, 0.99), 1000.0 / 60.0);
  EXPECT_EQ(held.share_within(5, 5, 16.6), 0.0);
  EXPECT_GT(held.share_within(5, 5, 16.7), 0.999);
  EXPECT_GT(held.quantile_ms(16, 5, 0.99), 1000.0 / 60.0);
}

// ---- simulation ----------------------------------------------------------------------------

TEST(FrameTime, AgreesWithAMillionSimulatedFrames) {
  const Stages cases[] = {
      {.cpu_ms = 10,
       .gpu_ms = 10,
       .spread = {.cpu_log_sd = 0.2, .gpu_log_sd = 0.2, .correlation = 0.0}},
      {.cpu_ms = 12,
       .gpu_ms = 9,
       .spread = {.cpu_log_sd = 0.3, .gpu_log_sd = 0.25, .correlation = -0.6, .cap_fps = 90}},
      {.cpu_ms = 7,
       .gpu_ms = 8,
       .spread = {.cpu_log_sd = 0.4, .gpu_log_sd = 0.1, .correlation = 0.7, .cap_fps = 120}}};
  constexpr int count = 1'000'000;
  std::mt19937_64 source(7);
  std::normal_distribution<double> normal;
  for (const Stages& in : cases) {
    const Plane plane(in);
    const FrameTime model(in.spread);
    const double floor_ms = 1000.0 / in.spread.cap_fps;
    const double p99 = model.quantile_ms(in.cpu_ms, in.gpu_ms, 0.99);
    double sum = 0.0, squares = 0.0;
    int within_p99 = 0;
    for (int i = 0; i < count; ++i) {
      const double u = normal(source), v = normal(source);
      const double frame = std::max({std::exp(plane.mc + plane.sc * u), floor_ms,
                                     std::exp(plane.mg + plane.sg * (plane.r * u + plane.q * v))});
      sum += frame;
      squares += frame * frame;
      within_p99 += frame <= p99;
    }
    const double mean = sum / count;
    const double error = std::sqrt((squares / count - mean * mean) / count);
    EXPECT_NEAR(model.mean_ms(in.cpu_ms, in.gpu_ms), mean, 4.0 * error) << name(in);
    EXPECT_NEAR(within_p99, 0.99 * count, 4.0 * std::sqrt(0.99 * 0.01 * count)) << name(in);
  }
}

// ---- identities ----------------------------------------------------------------------------

TEST(FrameTime, SymmetryScaleAndFloor) {
  Random random;
  for (int i = 0; i < 5000; ++i) {
    const Stages in = random.stages(i % 2 == 0);
    const double mean = mean_frame_time_ms(in);
    const double cap_ms = 1000.0 / in.spread.cap_fps;
    EXPECT_GE(mean, std::max({in.cpu_ms, in.gpu_ms, cap_ms})) << name(in);
    // (F3) between its parts: E[max(M, c)] <= E[M] + c, and >= E[M].
    const double bare = mean_frame_time_ms(capped(in, no_cap_fps));
    EXPECT_GE(mean, bare * (1.0 - 1e-13)) << name(in);
    EXPECT_LE(mean, bare + cap_ms) << name(in);
    EXPECT_NEAR(mean_frame_time_ms(swapped(in)), mean, 1e-13 * mean) << name(in);
    Stages scaled = capped(in, in.spread.cap_fps / 3.7);
    scaled.cpu_ms *= 3.7;
    scaled.gpu_ms *= 3.7;
    EXPECT_NEAR(mean_frame_time_ms(scaled), 3.7 * mean, 1e-11 * mean) << name(in);
    const double p99 = FrameTime(in.spread).quantile_ms(in.cpu_ms, in.gpu_ms, 0.99);
    EXPECT_NEAR(FrameTime(scaled.spread).quantile_ms(scaled.cpu_ms, scaled.gpu_ms, 0.99), 3.7 * p99,
                1e-10 * p99);
    EXPECT_NEAR(FrameTime(swapped(in).spread).quantile_ms(in.gpu_ms, in.cpu_ms, 0.99), p99,
                1e-11 * p99);
  }
}

// Rounding may take back the last digits, nothing more: 1e-13 for means, 1e-11 for quantiles.
TEST(FrameTime, RisesWithBothStages) {
  Random random;
  for (int i = 0; i < 5000; ++i) {
    const Stages in = random.stages(i % 2 == 0);
    const FrameTime model(in.spread);
    for (const double factor : {1.0 + 1e-9, 1.001, 1.2}) {
      for (const auto& [tc, tg] :
           {std::pair{in.cpu_ms * factor, in.gpu_ms}, std::pair{in.cpu_ms, in.gpu_ms * factor}}) {
        const double before = model.mean_ms(in.cpu_ms, in.gpu_ms);
        EXPECT_GE(model.mean_ms(tc, tg), before * (1.0 - 1e-13)) << name(in);
        const double slow = model.quantile_ms(in.cpu_ms, in.gpu_ms, 0.99);
        EXPECT_GE(model.quantile_ms(tc, tg, 0.99), slow * (1.0 - 1e-11)) << name(in);
      }
    }
  }
}

TEST(FrameTime, BatchEqualsItsScalarTwin) {
  Random random;
  for (int round = 0; round < 60; ++round) {
    Stages shape = random.stages(round % 2 == 0);
    if (round % 5 == 0) shape.spread.correlation = round % 10 == 0 ? 1.0 : -1.0;
    if (round % 7 == 0) shape.spread.gpu_log_sd = 0.0;
    if (round % 11 == 0) shape.spread.cpu_log_sd = shape.spread.gpu_log_sd;
    std::vector<double> cpu(256), gpu(256), mean(256), p99(256);
    for (std::size_t i = 0; i < 256; ++i) {
      cpu[i] = shape.cpu_ms * std::exp(random.in(-2.0, 2.0));
      gpu[i] = shape.gpu_ms * std::exp(random.in(-2.0, 2.0));
    }
    const FrameTime model(shape.spread);
    model.mean_ms(cpu, gpu, mean);
    model.quantile_ms(cpu, gpu, 0.99, p99);
    for (std::size_t i = 0; i < 256; ++i) {
      const double twin =
          mean_frame_time_ms({.cpu_ms = cpu[i], .gpu_ms = gpu[i], .spread = shape.spread});
      ASSERT_NEAR(mean[i], twin, 1e-13 * twin) << name(shape) << " at " << cpu[i] << ' ' << gpu[i];
      ASSERT_EQ(mean[i], model.mean_ms(cpu[i], gpu[i]));
      ASSERT_EQ(p99[i], model.quantile_ms(cpu[i], gpu[i], 0.99));
    }
  }
}

}  // namespace
}  // namespace rigproof::forecast
