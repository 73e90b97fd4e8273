#include "analysis/air/flow_shares.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace rigproof::air {
namespace {

constexpr double least_flow_frac = 1e-9;

// A row a room: what flows in from each room, then through each inlet.
struct Mixing {
  std::size_t rooms;
  std::size_t paths;
  std::array<std::array<double, most_rooms>, most_rooms> from_room{};
  std::array<std::array<double, most_paths>, most_rooms> from_inlet{};
  std::array<double, most_rooms> sum{};

  // Row r's air, as far as rooms below r and inlets are concerned, stands in for room r in the
  // rows above it. What a row has of its own room (round about, or below) is never read: only its
  // mix counts. A room fed by itself alone has no outside air.
  void take_out(std::size_t r) {
    for (std::size_t i = 1; i < r; ++i) sum[r] += from_room[r][i];
    for (std::size_t k = 0; k < paths; ++k) sum[r] += from_inlet[r][k];
    if (!(sum[r] > 0.0)) return;
    for (std::size_t i = 1; i < r; ++i) {
      const double share = from_room[i][r] / sum[r];
      if (share == 0.0) continue;
      for (std::size_t j = 1; j < r; ++j) from_room[i][j] += share * from_room[r][j];
      for (std::size_t k = 0; k < paths; ++k) from_inlet[i][k] += share * from_inlet[r][k];
    }
  }

  void put_back(std::size_t r, FlowShares& out) const {
    if (!(sum[r] > 0.0)) return;
    for (std::size_t k = 0; k < paths; ++k) {
      double amount = from_inlet[r][k];
      for (std::size_t i = 1; i < r; ++i) amount += from_room[r][i] * out.of_room[i][k];
      out.of_room[r][k] = amount / sum[r];
    }
  }
};

}  // namespace

FlowShares flow_shares(std::size_t rooms, std::span<const FlowPath> paths,
                       const FlowSolution& solution) {
  RP_EXPECT(rooms >= 1 && rooms <= most_rooms && paths.size() <= most_paths);
  FlowShares out;
  Mixing mixing{.rooms = rooms, .paths = paths.size()};
  double largest_m3_s = 0.0;
  for (const double flow : solution.flow_m3_s)
    largest_m3_s = std::max(largest_m3_s, std::abs(flow));
  for (std::size_t k = 0; k < paths.size(); ++k) {
    const double flow = solution.flow_m3_s[k];
    if (!(std::abs(flow) > least_flow_frac * largest_m3_s)) continue;
    RP_EXPECT(paths[k].from < rooms && paths[k].to < rooms);
    const std::size_t from = flow > 0.0 ? paths[k].from : paths[k].to;
    const std::size_t to = flow > 0.0 ? paths[k].to : paths[k].from;
    out.entering_m3_s[to] += std::abs(flow);
    if (from == 0)
      mixing.from_inlet[to][k] += std::abs(flow);
    else
      mixing.from_room[to][from] += std::abs(flow);
  }
  for (std::size_t r = rooms; r-- > 1;) mixing.take_out(r);
  for (std::size_t r = 1; r < rooms; ++r) mixing.put_back(r, out);
  for (std::size_t k = 0; k < paths.size(); ++k) {
    const double flow = solution.flow_m3_s[k];
    const bool leaves = (paths[k].to == 0 && flow > 0.0) || (paths[k].from == 0 && flow < 0.0);
    if (!leaves || !(std::abs(flow) > least_flow_frac * largest_m3_s)) continue;
    const auto& air = out.of_room[flow > 0.0 ? paths[k].from : paths[k].to];
    for (std::size_t inlet = 0; inlet < paths.size(); ++inlet)
      out.leaving[inlet] += air[inlet] * std::abs(flow) / out.entering_m3_s[0];
  }
  return out;
}

}  // namespace rigproof::air
