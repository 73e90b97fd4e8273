#include "analysis/air/heat_checks.hpp"

#include <fmt/format.h>

#include <cmath>

namespace rigproof::air {
namespace {

bool is_amount(double value) { return value >= 0.0 && std::isfinite(value); }
bool is_share(double value) { return value >= 0.0 && value <= 1.0; }

// Names the member of a list, `streams[2].flow_m3_s`.
tl::unexpected<Error> wrong(const char* list, std::size_t at, const char* field, double value) {
  return out_of_range(fmt::format("{}[{}].{}", list, at, field).c_str(), value);
}

Result<void> check_index(const char* list, std::size_t at, std::size_t index, std::size_t count) {
  if (index < count) return {};
  return bad_input(fmt::format("{}[{}]: there is no room or body {}", list, at, index));
}

Result<void> check_node(std::size_t at, const Node& node, const HeatNetwork& network) {
  const bool is_room = node.kind == Node::Kind::room;
  return check_index("conductances", at, node.index, is_room ? network.rooms : network.bodies);
}

// What enters and what leaves one node.
struct Passing {
  double in = 0;
  double out = 0;

  // Looser than any flow solver ends with, tighter than the energy balance asks for.
  [[nodiscard]] bool balanced() const { return std::abs(in - out) <= 1e-8 * (in + out); }
};

Result<void> check_sizes(const HeatNetwork& network) {
  if (network.rooms < 1 || network.rooms > most_rooms)
    return out_of_range("rooms", static_cast<double>(network.rooms));
  if (network.bodies > most_bodies)
    return out_of_range("bodies", static_cast<double>(network.bodies));
  if (!std::isfinite(network.outside_c)) return out_of_range("outside_c", network.outside_c);
  const double density = network.air.density_kg_m3;
  if (!(density > 0.0 && std::isfinite(density))) return out_of_range("density_kg_m3", density);
  const double specific = network.air.specific_heat_j_kg_k;
  if (!(specific > 0.0 && std::isfinite(specific)))
    return out_of_range("specific_heat_j_kg_k", specific);
  if (network.room_heat_w[outside] != 0.0)
    return out_of_range("room_heat_w[0]", network.room_heat_w[outside]);
  for (const double heat : network.room_heat_w)
    if (!std::isfinite(heat)) return out_of_range("room_heat_w", heat);
  for (const double heat : network.body_heat_w)
    if (!std::isfinite(heat)) return out_of_range("body_heat_w", heat);
  return {};
}

Result<void> check_flows(const HeatNetwork& network) {
  for (std::size_t i = 0; i < network.flows.size(); ++i) {
    const AirFlow& flow = network.flows[i];
    for (const std::size_t end : {flow.from, flow.to})
      if (auto known = check_index("flows", i, end, network.rooms); !known) return known;
    if (!std::isfinite(flow.flow_m3_s)) return wrong("flows", i, "flow_m3_s", flow.flow_m3_s);
  }
  for (std::size_t i = 0; i < network.liquids.size(); ++i) {
    const LiquidFlow& flow = network.liquids[i];
    for (const std::size_t end : {flow.from, flow.to})
      if (auto known = check_index("liquids", i, end, network.bodies); !known) return known;
    if (!is_amount(flow.capacity_w_k))
      return wrong("liquids", i, "capacity_w_k", flow.capacity_w_k);
  }
  for (std::size_t i = 0; i < network.conductances.size(); ++i) {
    const Conductance& link = network.conductances[i];
    for (const Node& end : {link.a, link.b})
      if (auto known = check_node(i, end, network); !known) return known;
    if (!is_amount(link.w_k)) return wrong("conductances", i, "w_k", link.w_k);
  }
  return {};
}

Result<void> check_streams(const HeatNetwork& network) {
  for (std::size_t i = 0; i < network.streams.size(); ++i) {
    const Stream& s = network.streams[i];
    for (const std::size_t end : {s.from, s.to})
      if (auto known = check_index("streams", i, end, network.rooms); !known) return known;
    if (auto known = check_index("streams", i, s.body, network.bodies); !known) return known;
    if (s.paid_by != Stream::same)
      if (auto known = check_index("streams", i, s.paid_by, network.bodies); !known) return known;
    if (!is_amount(s.flow_m3_s)) return wrong("streams", i, "flow_m3_s", s.flow_m3_s);
    if (!is_share(s.effectiveness)) return wrong("streams", i, "effectiveness", s.effectiveness);
    if (!(is_share(s.recirculation_frac) && s.recirculation_frac < 1.0))
      return wrong("streams", i, "recirculation_frac", s.recirculation_frac);
  }
  return {};
}

Result<void> check_air_balance(const HeatNetwork& network) {
  std::array<Passing, most_rooms> rooms{};
  const auto pass = [&](std::size_t from, std::size_t to, double flow) {
    rooms[from].out += flow;
    rooms[to].in += flow;
  };
  for (const AirFlow& flow : network.flows)
    if (flow.flow_m3_s >= 0.0)
      pass(flow.from, flow.to, flow.flow_m3_s);
    else
      pass(flow.to, flow.from, -flow.flow_m3_s);
  for (const Stream& stream : network.streams)
    pass(stream.from, stream.to, (1.0 - stream.recirculation_frac) * stream.flow_m3_s);
  for (std::size_t r = 0; r < network.rooms; ++r)
    if (!rooms[r].balanced())
      return bad_input(fmt::format("room {}: {} m3/s enter, {} m3/s leave; they must balance", r,
                                   rooms[r].in, rooms[r].out));
  return {};
}

// Streams between two given bodies may not take more per kelvin than the liquid between them.
Result<void> check_liquid_balance(const HeatNetwork& network) {
  std::array<Passing, most_bodies> bodies{};
  for (const LiquidFlow& flow : network.liquids) {
    bodies[flow.from].out += flow.capacity_w_k;
    bodies[flow.to].in += flow.capacity_w_k;
  }
  for (std::size_t b = 0; b < network.bodies; ++b)
    if (!bodies[b].balanced())
      return bad_input(
          fmt::format("body {}: {} W/K of liquid enter, {} W/K leave; they must balance", b,
                      bodies[b].in, bodies[b].out));
  for (std::size_t i = 0; i < network.streams.size(); ++i) {
    const Stream& one = network.streams[i];
    if (one.paid_by == Stream::same || one.paid_by == one.body) continue;
    double taken = 0.0;
    double brought = 0.0;
    for (const Stream& other : network.streams)
      if (other.body == one.body && other.paid_by == one.paid_by)
        taken += stream_conductance_w_k(other, network.air);
    for (const LiquidFlow& flow : network.liquids)
      if (flow.from == one.body && flow.to == one.paid_by) brought += flow.capacity_w_k;
    if (!(taken <= brought * (1.0 + 1e-9)))
      return bad_input(fmt::format("streams[{}]: takes {} W/K from liquid that brings {} W/K", i,
                                   taken, brought));
  }
  return {};
}

}  // namespace

Result<void> check(const HeatNetwork& network) {
  for (const auto& part :
       {check_sizes, check_flows, check_streams, check_air_balance, check_liquid_balance})
    if (auto well = part(network); !well) return well;
  return {};
}

}  // namespace rigproof::air
