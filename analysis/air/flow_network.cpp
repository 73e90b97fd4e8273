#include "analysis/air/flow_network.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "analysis/air/path_law.hpp"

namespace rigproof::air {
namespace {

using ByRoom = std::array<double, most_rooms>;
using ByPath = std::array<double, most_paths>;

constexpr int most_iterations = 200;
constexpr int most_line_steps = 60;
// A line search ends where the slope along the line has fallen to this share. Ours.
constexpr double line_slope_frac = 0.3;
constexpr double least_bracket_frac = 1e-6;
constexpr double balance_frac = 1e-9;
constexpr double balance_m3_s = 1e-9;
constexpr double law_frac = 1e-9;
constexpr double aim_frac = 1e-11;           // of the fans' largest flow: where Newton stops
constexpr double aim_pressure_frac = 1e-13;  // and the move of the largest pressure that is left
constexpr double least_width_frac = 1e-6;    // of the largest gap. Ours
constexpr double least_slope_frac = 1e-13;   // of the fans' pressure by their flow. Ours
constexpr double no_flow_m3_s = 1e-14;       // what rounding leaves of a flow that is zero

std::string number_fault(const FlowPath& path) {
  const double a = path.resistance.linear_pa_s_m3;
  const double b = path.resistance.square_pa_s2_m6;
  if (!(a >= 0.0 && a <= 1e18 && b >= 0.0 && b <= 1e18)) return "resistance outside 0 to 1e18";
  if (!(a >= 1e-9 || b >= 1e-9)) return "no resistance";
  if (!path.fan) return "";
  const FanDrive& drive = path.fan->drive;
  if (path.fan->curve == nullptr) return "a fan without a curve";
  if (!(drive.speed_frac >= 0.0 && drive.speed_frac <= 10.0)) return "speed_frac outside 0 to 10";
  if (drive.count < 1 || drive.count > 1000) return "count outside 1 to 1000";
  if (!(drive.density_ratio >= 0.01 && drive.density_ratio <= 10.0))
    return "density_ratio outside 0.01 to 10";
  return "";
}

std::string fault_of(std::size_t rooms, std::span<const FlowPath> paths,
                     std::span<const double> start_pressure_pa) {
  if (rooms < 1 || rooms > most_rooms) return "rooms: must be between 1 and 12";
  if (paths.size() > most_paths) return "more than 64 paths";
  for (std::size_t k = 0; k < paths.size(); ++k) {
    const FlowPath& path = paths[k];
    std::string fault = number_fault(path);
    if (path.from >= rooms || path.to >= rooms) fault = "a room that is not there";
    if (path.from == path.to) fault = "from a room to itself";
    if (!fault.empty()) return "path " + std::to_string(k) + ": " + fault;
  }
  if (start_pressure_pa.empty()) return "";
  if (start_pressure_pa.size() != rooms) return "start_pressure_pa: not one a room";
  for (const double pressure_pa : start_pressure_pa)
    if (!(std::abs(pressure_pa) <= 1e9)) return "start_pressure_pa: outside -1e9 to 1e9";
  return "";
}

class Network {
 public:
  Network(std::size_t rooms, std::span<const FlowPath> paths) : rooms_(rooms), paths_(paths) {
    join();
    for (std::size_t k = 0; k < paths.size(); ++k) {
      const auto& fan = paths[k].fan;
      laws_[k] = fan ? PathLaw(paths[k].resistance, *fan->curve, fan->drive, fan->reversed)
                     : PathLaw(paths[k].resistance);
      fan_scale_pa_ = std::max(fan_scale_pa_, std::abs(laws_[k].drop_pa(0.0)));
      fan_scale_m3_s_ = std::max(fan_scale_m3_s_, std::abs(laws_[k].at(0.0).flow_m3_s));
    }
  }

  FlowSolution solve(std::span<const double> start_pressure_pa) {
    if (fan_scale_pa_ > 0.0)  // else nothing moves
      std::ranges::copy(start_pressure_pa, pressure_pa_.begin());
    for (std::size_t room = 0; room < rooms_; ++room)  // only differences within a group count
      if (!is_ground(room)) pressure_pa_[room] -= pressure_pa_[ground_[room]];
    for (std::size_t room = 0; room < rooms_; ++room)
      if (is_ground(room)) pressure_pa_[room] = 0.0;
    evaluate();
    FlowSolution out;
    while (out.iterations < most_iterations && step(out.iterations == 0)) ++out.iterations;
    settle();
    report(out);
    return out;
  }

 private:
  [[nodiscard]] bool is_ground(std::size_t room) const { return ground_[room] == room; }

  // ground_[r]: the first room of the group that paths join r to.
  void join() {
    for (std::size_t room = 0; room < rooms_; ++room) ground_[room] = room;
    for (bool changed = true; std::exchange(changed, false);)
      for (const FlowPath& path : paths_) {
        const std::size_t first = std::min(ground_[path.from], ground_[path.to]);
        changed = changed || ground_[path.from] != first || ground_[path.to] != first;
        ground_[path.from] = ground_[path.to] = first;
      }
  }

  [[nodiscard]] static double difference(const FlowPath& path, const ByRoom& of_room) {
    return of_room[path.from] - of_room[path.to];
  }

  // Net flow into each room; 0 where pressure is given.
  void find_gaps(const ByPath& flow_m3_s) {
    into_m3_s_.fill(0.0);
    largest_flow_m3_s_ = 0.0;
    for (std::size_t k = 0; k < paths_.size(); ++k) {
      into_m3_s_[paths_[k].from] -= flow_m3_s[k];
      into_m3_s_[paths_[k].to] += flow_m3_s[k];
      largest_flow_m3_s_ = std::max(largest_flow_m3_s_, std::abs(flow_m3_s[k]));
    }
    gap_m3_s_ = 0.0;
    for (std::size_t room = 0; room < rooms_; ++room) {
      if (is_ground(room)) into_m3_s_[room] = 0.0;
      gap_m3_s_ = std::max(gap_m3_s_, std::abs(into_m3_s_[room]));
    }
  }

  void evaluate() {
    for (std::size_t k = 0; k < paths_.size(); ++k) {
      points_[k] = laws_[k].at(difference(paths_[k], pressure_pa_));
      flow_m3_s_[k] = points_[k].flow_m3_s;
    }
    find_gaps(flow_m3_s_);
  }

  // dQ/dp of each path. At no flow a square law has none that is finite, so the slope is taken over
  // a width: `wide`, the gap at its ends; else no more than the flow itself, and in the end, as
  // gaps close, none. The least slope is one whose drop pressures cannot show.
  void find_conductances(bool wide) {
    const double least = least_slope_frac * fan_scale_pa_ / fan_scale_m3_s_;
    for (std::size_t k = 0; k < paths_.size(); ++k) {
      const double gap_m3_s =
          std::max(std::abs(into_m3_s_[paths_[k].from]), std::abs(into_m3_s_[paths_[k].to]));
      const double width_m3_s = (wide ? gap_m3_s : std::min(gap_m3_s, std::abs(flow_m3_s_[k]))) +
                                least_width_frac * gap_m3_s_;
      conductance_[k] = 1.0 / std::max(least, points_[k].slope_pa_s_m3 +
                                                  points_[k].curvature_pa_s2_m6 * width_m3_s);
    }
  }

  // (A15): pressures that drive `into_m3_s_` out again through the conductances. Rooms are taken
  // out one by one, their ways joined through; nothing is subtracted, so any ratio of conductances
  // keeps its digits.
  [[nodiscard]] ByRoom answer() const {
    std::array<ByRoom, most_rooms> g{};
    for (std::size_t k = 0; k < paths_.size(); ++k) {
      g[paths_[k].from][paths_[k].to] += conductance_[k];
      g[paths_[k].to][paths_[k].from] += conductance_[k];
    }
    ByRoom source = into_m3_s_;
    ByRoom sum{};
    for (std::size_t r = rooms_; r-- > 1;) {
      if (is_ground(r)) continue;  // the lowest of its group: all others are gone
      for (std::size_t i = 0; i < r; ++i) sum[r] += g[r][i];
      for (std::size_t i = 0; i < r; ++i) {
        const double share = g[r][i] / sum[r];
        if (share == 0.0) continue;
        source[i] += share * source[r];
        for (std::size_t j = 0; j < r; ++j) g[i][j] += share * g[r][j];
      }
    }
    ByRoom out{};
    for (std::size_t r = 1; r < rooms_; ++r) {
      if (is_ground(r)) continue;
      double driven = source[r];
      for (std::size_t i = 0; i < r; ++i) driven += g[r][i] * out[i];
      out[r] = driven / sum[r];
    }
    return out;
  }

  // Slope of the convex function along the line, after `length` of it; moves there.
  double slope_at(const ByRoom& start, const ByRoom& direction, double length) {
    for (std::size_t room = 0; room < rooms_; ++room)
      pressure_pa_[room] = start[room] + length * direction[room];
    evaluate();
    double slope = 0.0;
    for (std::size_t room = 0; room < rooms_; ++room) slope -= into_m3_s_[room] * direction[room];
    return slope;
  }

  // One damped Newton step. The line search looks at slopes alone, which keep their digits close to
  // the solution where values do not. False, and nothing moved: it is not worth one, or pressures
  // have no finer digits.
  bool step(bool first) {
    if (gap_m3_s_ == 0.0) return false;
    find_conductances(first);
    const ByRoom direction = answer();
    const ByRoom start = pressure_pa_;
    double scale_pa = fan_scale_pa_;
    double move_pa = 0.0;
    double slope_low = 0.0;
    for (std::size_t room = 0; room < rooms_; ++room) {
      scale_pa = std::max(scale_pa, std::abs(start[room]));
      move_pa = std::max(move_pa, std::abs(direction[room]));
      slope_low -= into_m3_s_[room] * direction[room];
    }
    // Near the end gaps are rounding; settle() takes them out.
    const bool near = gap_m3_s_ <= aim_frac * fan_scale_m3_s_ || gap_m3_s_ > 0.5 * gap_before_m3_s_;
    const double least_move_pa =
        (near ? aim_pressure_frac : 4.0 * std::numeric_limits<double>::epsilon()) * scale_pa;
    gap_before_m3_s_ = gap_m3_s_;
    if (!(move_pa > least_move_pa) || !std::isfinite(move_pa)) return false;
    const double enough = line_slope_frac * -slope_low;
    double low = 0.0;
    double high = 0.0;  // 0: not found yet
    double slope_high = 0.0;
    double length = 1.0;
    for (int i = 0; i < most_line_steps; ++i) {
      const double slope = slope_at(start, direction, length);
      if (!std::isfinite(slope)) {  // beyond all numbers
        slope_at(start, direction, low);
        return low > 0.0;
      }
      if (std::abs(slope) <= enough) break;
      if (high > 0.0 && high - low <= least_bracket_frac * high) break;
      if (slope < 0.0) {
        low = length;
        slope_low = slope;
      } else {
        high = length;
        slope_high = slope;
      }
      // By halves every third time, else where a straight slope would be zero.
      const double secant = low + (high - low) * slope_low / (slope_low - slope_high);
      length = high == 0.0 ? 2.0 * length : i % 3 == 2 ? 0.5 * (low + high) : secant;
    }
    return true;
  }

  // A path of little resistance and little flow hangs on digits of a difference that pressures do
  // not have. What is left of the gaps is sent out along the last conductances; the laws move by
  // less than the rounding of a pressure.
  void settle() {
    if (gap_m3_s_ == 0.0) return;
    find_conductances(true);
    const ByRoom rest = answer();
    for (std::size_t k = 0; k < paths_.size(); ++k)
      flow_m3_s_[k] += conductance_[k] * difference(paths_[k], rest);
    find_gaps(flow_m3_s_);
  }

  [[nodiscard]] FanState state_of(const FanOnPath& fan, double flow_m3_s) const {
    const double along = fan.reversed ? -flow_m3_s : flow_m3_s;
    const double slack = std::max(balance_frac * largest_flow_m3_s_, no_flow_m3_s);
    if (fan.drive.speed_frac < stopped_speed_frac) return FanState::stopped;
    if (along < -slack) return FanState::blown_backwards;
    const double at_full = along / (fan.drive.count * fan.drive.speed_frac);
    if (at_full > fan.curve->free_flow_m3_s() * (1.0 + balance_frac))
      return FanState::beyond_free_flow;
    return fan.curve->in_stall_range(at_full) ? FanState::stalled : FanState::works;
  }

  void report(FlowSolution& out) const {
    out.flow_m3_s = flow_m3_s_;
    out.pressure_pa = pressure_pa_;
    out.worst_balance_m3_s = gap_m3_s_;
    double scale_pa = fan_scale_pa_;
    for (std::size_t room = 0; room < rooms_; ++room) {
      out.sealed[room] = ground_[room] != 0;
      scale_pa = std::max(scale_pa, std::abs(pressure_pa_[room]));
    }
    for (std::size_t k = 0; k < paths_.size(); ++k) {
      out.worst_law_pa = std::max(out.worst_law_pa, std::abs(laws_[k].drop_pa(flow_m3_s_[k]) -
                                                             difference(paths_[k], pressure_pa_)));
      const auto& fan = paths_[k].fan;
      if (!fan) continue;
      out.fan[k] = state_of(*fan, flow_m3_s_[k]);
      out.fan_pressure_pa[k] =
          fans_pressure_pa(*fan->curve, fan->drive, fan->reversed ? -flow_m3_s_[k] : flow_m3_s_[k]);
    }
    // Phrased so that NaN fails.
    out.converged =
        gap_m3_s_ <= std::clamp(balance_frac * largest_flow_m3_s_, no_flow_m3_s, balance_m3_s) &&
        out.worst_law_pa <= law_frac * scale_pa;
  }

  std::size_t rooms_;
  std::span<const FlowPath> paths_;
  std::array<PathLaw, most_paths> laws_;
  std::array<std::size_t, most_rooms> ground_{};
  double fan_scale_pa_ = 0.0;    // the largest shut-off pressure
  double fan_scale_m3_s_ = 0.0;  // the largest flow of a fan with its path alone
  ByRoom pressure_pa_{};
  std::array<PathPoint, most_paths> points_{};
  ByPath flow_m3_s_{};
  ByPath conductance_{};
  ByRoom into_m3_s_{};
  double gap_m3_s_ = 0.0;  // the largest of them
  double gap_before_m3_s_ = std::numeric_limits<double>::infinity();
  double largest_flow_m3_s_ = 0.0;
};

}  // namespace

tl::expected<FlowSolution, std::string> solve_flow(std::size_t rooms,
                                                   std::span<const FlowPath> paths,
                                                   std::span<const double> start_pressure_pa) {
  if (std::string fault = fault_of(rooms, paths, start_pressure_pa); !fault.empty())
    return tl::unexpected<std::string>(std::move(fault));
  return Network(rooms, paths).solve(start_pressure_pa);
}

}  // namespace rigproof::air
