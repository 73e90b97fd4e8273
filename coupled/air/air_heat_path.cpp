#include "coupled/air/air_heat_path.hpp"

#include <array>
#include <cmath>

namespace rigproof::coupled {
namespace {

constexpr std::size_t ends = 5;

HeatEnd room_end(std::size_t room) {
  return room == 0 ? HeatEnd::outside : room == 1 ? HeatEnd::upper : HeatEnd::lower;
}

HeatEnd end_of(const air::Node& node) {
  if (node.kind == air::Node::Kind::room) return room_end(node.index);
  return node.index == AirModel::cpu_body ? HeatEnd::cpu : HeatEnd::gpu;
}

class Moves {
 public:
  void add(HeatEnd from, HeatEnd to, double watts) {
    if (from != to) watts_[index(from)][index(to)] += watts;
  }
  [[nodiscard]] std::vector<HeatMove> balanced() const {
    std::vector<HeatMove> out;
    constexpr double least_w = 1e-9;
    for (std::size_t a = 0; a < ends; ++a)
      for (std::size_t b = a + 1; b < ends; ++b) {
        const double net_w = watts_[a][b] - watts_[b][a];
        if (std::abs(net_w) <= least_w) continue;
        const auto from = static_cast<HeatEnd>(net_w > 0.0 ? a : b);
        const auto to = static_cast<HeatEnd>(net_w > 0.0 ? b : a);
        out.push_back({from, to, std::abs(net_w)});
      }
    return out;
  }

 private:
  static std::size_t index(HeatEnd end) { return static_cast<std::size_t>(end); }
  std::array<std::array<double, ends>, ends> watts_{};
};

}  // namespace

// (B19)
std::vector<HeatMove> heat_moves(AirModel& model, FanSpeeds speeds) {
  const AirState state = model.at(AirModel::middle, speeds);
  const auto network = model.network_at(AirModel::middle, speeds);
  if (!state.solved || !network) return {};
  const auto field = air::HeatField::of(*network);
  if (!field) return {};
  const std::array<double, 2> watts = {state.cpu.power_w, state.gpu.power_w};
  const air::HeatState heat = field->state(std::span(watts).first(network->bodies));

  Moves moves;
  const auto carry = [&](std::size_t from, std::size_t to, double flow_m3_s) {
    moves.add(room_end(from), room_end(to),
              network->air.capacity_w_k(flow_m3_s) * (heat.room_c[from] - network->outside_c));
  };
  for (const air::AirFlow& flow : network->flows) {
    const bool forward = flow.flow_m3_s >= 0.0;
    carry(forward ? flow.from : flow.to, forward ? flow.to : flow.from, std::abs(flow.flow_m3_s));
  }
  for (std::size_t i = 0; i < network->streams.size(); ++i) {
    const air::Stream& stream = network->streams[i];
    carry(stream.from, stream.to, stream.flow_m3_s);
    moves.add(HeatEnd::cpu, room_end(stream.to), heat.streams[i].heat_w);
  }
  const auto temp_c = [&](const air::Node& node) {
    return node.kind == air::Node::Kind::room ? heat.room_c[node.index] : heat.body_c[node.index];
  };
  for (const air::Conductance& c : network->conductances)
    moves.add(end_of(c.a), end_of(c.b), c.w_k * (temp_c(c.a) - temp_c(c.b)));
  return moves.balanced();
}

}  // namespace rigproof::coupled
