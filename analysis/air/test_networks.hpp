// For tests of the air network: short ways to write one, and random ones.
#pragma once

#include <cmath>
#include <deque>
#include <random>
#include <vector>

#include "analysis/air/flow_network.hpp"

namespace rigproof::air::test_support {

inline FanCurve parabola(double free_flow_m3_s, double shutoff_pressure_pa) {
  return FanCurve::from_ends(
             {.free_flow_m3_s = free_flow_m3_s, .shutoff_pressure_pa = shutoff_pressure_pa})
      .value();
}

inline FlowPath opening(std::size_t from, std::size_t to, double square, double linear = 0.0) {
  return {
      .from = from, .to = to, .resistance = {.linear_pa_s_m3 = linear, .square_pa_s2_m6 = square}};
}

inline FlowPath fan_path(std::size_t from, std::size_t to, double square, const FanCurve& curve,
                         const FanDrive& drive = {}, bool reversed = false) {
  FlowPath out = opening(from, to, square);
  out.fan = FanOnPath{.curve = &curve, .drive = drive, .reversed = reversed};
  return out;
}

class Random {
 public:
  explicit Random(unsigned seed) : engine_(seed) {}
  std::size_t below(std::size_t n) { return engine_() % n; }
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_()) / 4294967296.0;
  }
  double log_between(double low, double high) {
    return std::exp(between(std::log(low), std::log(high)));
  }

 private:
  std::mt19937 engine_;
};

struct Kind {
  std::size_t most_rooms = 6;
  std::size_t most_more_paths = 6;
  double least_square = 1e3;
  double most_square = 1e6;
  bool with_linear = true;
  bool measured_curves = true;
  double fan_frac = 0.4;
  double hump_frac = 0.0;     ///< of measured curves: a dip before the middle, a rise after it
  double stopped_frac = 0.0;  ///< of fans
};

// Every room is joined to an earlier one, so none is sealed; then some more paths.
struct RandomNetwork {
  std::size_t rooms = 0;
  std::deque<FanCurve> curves;                // a deque: paths point into it
  std::vector<std::vector<FanPoint>> points;  // of each curve; empty: a parabola
  std::vector<FanEnds> ends;
  std::vector<FlowPath> paths;

  RandomNetwork(Random& random, const Kind& kind) {
    rooms = 2 + random.below(kind.most_rooms - 1);
    for (std::size_t room = 1; room < rooms; ++room) add(random, kind, random.below(room), room);
    for (std::size_t more = 1 + random.below(kind.most_more_paths); more > 0; --more) {
      const std::size_t from = random.below(rooms);
      add(random, kind, from, (from + 1 + random.below(rooms - 1)) % rooms);
    }
  }

 private:
  void add(Random& random, const Kind& kind, std::size_t from, std::size_t to) {
    FlowPath path = opening(from, to, random.log_between(kind.least_square, kind.most_square));
    if (kind.with_linear && random.below(2) == 0)
      path.resistance.linear_pa_s_m3 = random.log_between(1.0, 1e3);
    if (random.between(0.0, 1.0) < kind.fan_frac) {
      add_curve(random, kind);
      path.fan = FanOnPath{.curve = &curves.back(),
                           .drive = {.speed_frac = random.between(0.2, 1.2),
                                     .count = 1 + static_cast<int>(random.below(3)),
                                     .density_ratio = random.between(0.8, 1.1)},
                           .reversed = random.below(2) == 0};
      if (kind.stopped_frac > 0.0 && random.between(0.0, 1.0) < kind.stopped_frac)
        path.fan->drive.speed_frac = 0.0;
    }
    paths.push_back(path);
  }

  void add_curve(Random& random, const Kind& kind) {
    const FanEnds own{.free_flow_m3_s = random.between(0.01, 0.06),
                      .shutoff_pressure_pa = random.between(5.0, 40.0)};
    ends.push_back(own);
    points.emplace_back();
    if (!kind.measured_curves || random.below(2) == 0) {
      curves.push_back(FanCurve::from_ends(own).value());
      return;
    }
    for (int i = 0; i <= 5; ++i)  // falling everywhere, to zero
      points.back().push_back(
          {own.free_flow_m3_s * i / 5.0, own.shutoff_pressure_pa * (1.0 - std::pow(i / 5.0, 1.5))});
    if (kind.hump_frac > 0.0 && random.between(0.0, 1.0) < kind.hump_frac) {
      points.back()[random.below(3)].pressure_pa *= random.between(0.4, 0.8);
      ends.back().shutoff_pressure_pa = points.back().front().pressure_pa;
    }
    curves.push_back(FanCurve::from_points(points.back()).value());
  }
};

}  // namespace rigproof::air::test_support
