// 1000 random networks against a second method that shares no code with ours: flows round loops,
// one loop after the other ([cross-1936]), each set by bisection. It knows no room pressures, no
// derivatives and has its own fan laws, written from the equations.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>

#include "analysis/air/test_networks.hpp"

namespace rigproof::air {
namespace {

using test_support::Kind;
using test_support::Random;
using test_support::RandomNetwork;

struct LoopMethod {
  struct Way {
    std::size_t from, to;
    std::function<double(double)> drop_pa;
  };
  struct Member {
    std::size_t way;
    double sign;
  };

  std::vector<Way> ways;
  std::vector<double> flow_m3_s;
  std::vector<std::vector<Member>> loops;

  // Every way outside a tree closes one loop. `rooms` hang on each other from room 0 on.
  void find_loops(std::size_t rooms) {
    std::vector<int> up(rooms, -1);  // the way to the room's parent
    std::vector<std::size_t> depth(rooms, 0);
    std::vector<bool> in_tree(ways.size(), false);
    std::vector<bool> reached(rooms, false);
    reached[0] = true;
    for (bool grew = true; grew;) {
      grew = false;
      for (std::size_t w = 0; w < ways.size(); ++w) {
        if (reached[ways[w].from] == reached[ways[w].to]) continue;
        const bool forward = reached[ways[w].from];
        const std::size_t child = forward ? ways[w].to : ways[w].from;
        up[child] = static_cast<int>(w);
        depth[child] = depth[forward ? ways[w].from : ways[w].to] + 1;
        reached[child] = in_tree[w] = grew = true;
      }
    }
    for (std::size_t w = 0; w < ways.size(); ++w)
      if (!in_tree[w]) loops.push_back(closed_by(w, up, depth));
  }

  // Along the way, then home from its end to its start through the tree.
  [[nodiscard]] std::vector<Member> closed_by(std::size_t w, const std::vector<int>& up,
                                              const std::vector<std::size_t>& depth) const {
    std::vector<Member> out = {{w, 1.0}};
    std::size_t head = ways[w].to;
    std::size_t tail = ways[w].from;
    const auto climb = [&](std::size_t& room, double sense) {
      const auto via = static_cast<std::size_t>(up[room]);
      const bool leaves = ways[via].from == room;
      out.push_back({via, leaves ? sense : -sense});
      room = leaves ? ways[via].to : ways[via].from;
    };
    while (head != tail) {
      if (depth[head] >= depth[tail])
        climb(head, 1.0);
      else
        climb(tail, -1.0);
    }
    return out;
  }

  [[nodiscard]] double around_pa(const std::vector<Member>& loop, double extra_m3_s) const {
    double sum = 0.0;
    for (const Member& m : loop)
      sum += m.sign * ways[m.way].drop_pa(flow_m3_s[m.way] + m.sign * extra_m3_s);
    return sum;
  }

  // The change that closes the loop; |change| known to 1e-15 of a cubic metre a second.
  double close(const std::vector<Member>& loop) {
    double low = -1e-9;
    double high = 1e-9;
    while (around_pa(loop, low) > 0.0) low *= 4.0;
    while (around_pa(loop, high) < 0.0) high *= 4.0;
    while (high - low > 1e-15) {
      const double middle = 0.5 * (low + high);
      if (middle == low || middle == high) break;
      (around_pa(loop, middle) < 0.0 ? low : high) = middle;
    }
    const double change = 0.5 * (low + high);
    for (const Member& m : loop) flow_m3_s[m.way] += m.sign * change;
    return std::abs(change);
  }

  bool solve(std::size_t rooms) {
    flow_m3_s.assign(ways.size(), 0.0);
    find_loops(rooms);
    for (int sweep = 0; sweep < 50'000; ++sweep) {
      double largest = 0.0;
      for (const auto& loop : loops) largest = std::max(largest, close(loop));
      if (largest < 1e-13) return true;
    }
    return false;
  }
};

// (A8) to (A12) of one fan at full speed, from the data it was made of.
double one_fan_pa(const FanEnds& ends, const std::vector<FanPoint>& points, double q) {
  const double p0 = ends.shutoff_pressure_pa;
  const double q0 = ends.free_flow_m3_s;
  const double brake = p0 / (q0 * q0);
  if (points.empty()) return p0 - brake * q * std::abs(q);
  const auto slope = [&](std::size_t i) {
    return (points[i].pressure_pa - points[i - 1].pressure_pa) /
           (points[i].flow_m3_s - points[i - 1].flow_m3_s);
  };
  if (q < 0.0) return p0 + slope(1) * q + brake * q * q;
  for (std::size_t i = 1; i < points.size(); ++i)
    if (q <= points[i].flow_m3_s)
      return points[i].pressure_pa + slope(i) * (q - points[i].flow_m3_s);
  const double beyond = q - q0;
  const double steepest = std::min(slope(points.size() - 1), -2.0 * brake * q0);
  return points.back().pressure_pa + steepest * beyond - brake * beyond * beyond;
}

LoopMethod reference_of(const RandomNetwork& net) {
  LoopMethod out;
  std::size_t fan = 0;
  for (const FlowPath& path : net.paths) {
    const double a = path.resistance.linear_pa_s_m3;
    const double b = path.resistance.square_pa_s2_m6;
    if (!path.fan) {
      out.ways.push_back(
          {path.from, path.to, [=](double q) { return a * q + b * q * std::abs(q); }});
      continue;
    }
    const FanDrive drive = path.fan->drive;
    const double sign = path.fan->reversed ? -1.0 : 1.0;
    out.ways.push_back(
        {path.from, path.to, [=, ends = net.ends[fan], points = net.points[fan]](double q) {
           const double s = drive.speed_frac;
           const double each = sign * q / drive.count / s;
           return a * q + b * q * std::abs(q) -
                  sign * drive.density_ratio * s * s * one_fan_pa(ends, points, each);
         }});
    ++fan;
  }
  return out;
}

TEST(FlowReference, AgreesWithTheLoopMethodOnRandomNetworks) {
  Random random(11);
  double worst = 0.0;
  for (int i = 0; i < 1000; ++i) {
    const RandomNetwork net(random, Kind{});
    LoopMethod reference = reference_of(net);
    ASSERT_TRUE(reference.solve(net.rooms)) << i;
    const auto ours = solve_flow(net.rooms, net.paths);
    ASSERT_TRUE(ours && ours->converged) << i;
    for (std::size_t k = 0; k < net.paths.size(); ++k) {
      // Sweeps end at changes of 1e-13; slow ones add up to some hundred times that.
      EXPECT_NEAR(ours->flow_m3_s[k], reference.flow_m3_s[k], 1e-9) << i << " path " << k;
      worst = std::max(worst, std::abs(ours->flow_m3_s[k] - reference.flow_m3_s[k]));
    }
  }
  std::printf("worst difference %.2e m3/s\n", worst);
}

}  // namespace
}  // namespace rigproof::air
