#include "analysis/air/heat_network.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "analysis/air/heat_checks.hpp"

namespace rigproof::air {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

bool is_outside(Node node) { return node.kind == Node::Kind::room && node.index == outside; }

double temp_c(const HeatState& state, Node node) {
  return node.kind == Node::Kind::room ? state.room_c[node.index] : state.body_c[node.index];
}

Node payer(const Stream& stream) {
  return body(stream.paid_by == Stream::same ? stream.body : stream.paid_by);
}

// The same flow with its sign in its direction.
AirFlow forward(const AirFlow& flow) {
  if (flow.flow_m3_s >= 0.0) return flow;
  return {.from = flow.to, .to = flow.from, .flow_m3_s = -flow.flow_m3_s};
}

// (A31), (A32): what the fins see, from the room's and the body's temperature.
StreamState stream_state(const Stream& stream, const AirHeat& air, double room_c, double body_c) {
  const double r = stream.recirculation_frac;
  const double eps = stream.effectiveness;
  const double drawn = (1.0 - r) / (1.0 - r + r * eps);  // weight of the room in the inlet
  StreamState out;
  if (!std::isfinite(room_c + body_c)) {
    const double g = stream_conductance_w_k(stream, air);
    return {.inlet_c = infinity, .outlet_c = infinity, .heat_w = g > 0.0 ? infinity : 0.0};
  }
  out.inlet_c = body_c + drawn * (room_c - body_c);
  out.outlet_c = out.inlet_c + eps * (body_c - out.inlet_c);
  out.heat_w = stream_conductance_w_k(stream, air) * (body_c - room_c);
  return out;
}

}  // namespace

double stream_conductance_w_k(const Stream& stream, const AirHeat& air) {
  const double r = stream.recirculation_frac;
  const double eps = stream.effectiveness;
  return air.capacity_w_k(stream.flow_m3_s) * eps * (1.0 - r) / (1.0 - r + r * eps);
}

Result<HeatField> HeatField::of(const HeatNetwork& network) {
  if (auto well = check(network); !well) return tl::unexpected(well.error());
  HeatField out(network);
  out.assemble();
  out.find_unbounded();
  out.factor();
  // Only where numbers under- or overflow: a node that is held has something to hold on to.
  if (out.lu_.singular()) return bad_input("heat network: its conductances differ too widely");
  return out;
}

std::size_t HeatField::unknown_of(Node node) const {
  RP_EXPECT(!is_outside(node));
  if (node.kind == Node::Kind::room) {
    RP_EXPECT(node.index < network_.rooms);
    return node.index - 1;
  }
  RP_EXPECT(node.index < network_.bodies);
  return network_.rooms - 1 + node.index;
}

// `w_k` (T_column) leaves the balance of `row`.
void HeatField::put(Node row, Node column, double w_k) {
  if (is_outside(row)) return;
  const std::size_t i = unknown_of(row);
  if (is_outside(column))
    from_outside_w_k_[i] -= w_k;
  else
    a_(i, unknown_of(column)) += w_k;
}

// What arrives with the temperature of `from`, and goes on with that of `to`.
void HeatField::carry(Node from, Node to, double w_k) {
  put(to, to, w_k);
  put(to, from, -w_k);
}

// (A31): the body gives g (T_body - T_from), which arrives in `to` on top of the air.
void HeatField::add_stream(const Stream& stream) {
  const double g = stream_conductance_w_k(stream, network_.air);
  const double drawn =
      (1.0 - stream.recirculation_frac) * network_.air.capacity_w_k(stream.flow_m3_s);
  const Node from = room(stream.from);
  const Node to = room(stream.to);
  const Node drives = body(stream.body);
  put(payer(stream), drives, g);
  put(payer(stream), from, -g);
  if (stream.from == stream.to) {
    carry(drives, to, g);
    return;
  }
  put(to, to, drawn);
  put(to, drives, -g);
  put(to, from, -std::max(0.0, drawn - g));  // g <= drawn but for rounding
}

void HeatField::assemble() {
  a_ = Matrix(unknowns());
  for (const AirFlow& given : network_.flows) {
    const AirFlow flow = forward(given);
    if (flow.from != flow.to)
      carry(room(flow.from), room(flow.to), network_.air.capacity_w_k(flow.flow_m3_s));
  }
  for (const Stream& stream : network_.streams) add_stream(stream);
  for (const LiquidFlow& flow : network_.liquids)
    if (flow.from != flow.to) carry(body(flow.from), body(flow.to), flow.capacity_w_k);
  for (const Conductance& link : network_.conductances) {
    if (link.a.kind == link.b.kind && link.a.index == link.b.index) continue;
    carry(link.a, link.b, link.w_k);
    carry(link.b, link.a, link.w_k);
  }
  // A stream may take all that its liquid brings; rounding then leaves a term of the wrong sign.
  for (std::size_t i = 0; i < unknowns(); ++i)
    for (std::size_t j = 0; j < unknowns(); ++j)
      if (i != j) a_(i, j) = std::min(a_(i, j), 0.0);
}

// (A36): a node is held when its balance leads, node by node, to the outside. As air and liquid
// balance and conductances go both ways, a held node takes nothing from one that is not.
void HeatField::find_unbounded() {
  const std::size_t n = unknowns();
  std::bitset<most_unknowns> held;
  for (std::size_t i = 0; i < n; ++i) held[i] = from_outside_w_k_[i] > 0.0;
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < n && !held[i]; ++j)
        if (i != j && held[j] && a_(i, j) < 0.0) held[i] = changed = true;
  }
  for (std::size_t i = 0; i < n; ++i) unbounded_[i] = !held[i];
}

// The rows sum to what the outside gives, since put() takes from each as much as it gives.
void HeatField::factor() {
  Matrix solvable = a_;
  Unknowns row_sums = from_outside_w_k_;
  for (std::size_t i = 0; i < unknowns(); ++i) {
    if (!unbounded_[i]) continue;
    std::ranges::fill(solvable.row(i), 0.0);
    row_sums[i] = 1.0;
  }
  lu_ = BalanceLu(solvable, std::span<const double>(row_sums).first(unknowns()));
}

bool HeatField::unbounded(Node node) const {
  return !is_outside(node) && unbounded_[unknown_of(node)];
}

HeatBalance HeatField::balance() const {
  HeatBalance out{.a = a_, .row_sum_w_k = from_outside_w_k_, .source_w = {}};
  for (std::size_t i = 0; i < unknowns(); ++i)
    out.source_w[i] = from_outside_w_k_[i] * network_.outside_c;
  for (std::size_t r = 1; r < network_.rooms; ++r)
    out.source_w[unknown_of(room(r))] += network_.room_heat_w[r];
  for (std::size_t b = 0; b < network_.bodies; ++b)
    out.source_w[unknown_of(body(b))] += network_.body_heat_w[b];
  return out;
}

HeatState HeatField::state() const {
  return state(std::span(network_.body_heat_w).first(network_.bodies));
}

HeatState HeatField::state(std::span<const double> body_heat_w) const {
  RP_EXPECT(body_heat_w.size() == network_.bodies);
  Unknowns heat{};
  for (std::size_t r = 1; r < network_.rooms; ++r)
    heat[unknown_of(room(r))] = network_.room_heat_w[r];
  for (std::size_t b = 0; b < network_.bodies; ++b) {
    RP_EXPECT(std::isfinite(body_heat_w[b]));
    heat[unknown_of(body(b))] = body_heat_w[b];
  }
  return state_of(heat);
}

// Solved for the rise above the outside, which loses no digits to the temperature itself.
HeatState HeatField::state_of(Unknowns heat_w) const {
  HeatState out;
  double all = 0.0;
  for (std::size_t i = 0; i < unknowns(); ++i) {
    if (unbounded_[i]) heat_w[i] = 0.0;
    out.heat_w += heat_w[i];
    all += std::abs(heat_w[i]);
  }
  lu_.solve(std::span(heat_w).first(unknowns()));
  for (std::size_t r = 0; r < network_.rooms; ++r) {
    out.unbounded_rooms[r] = unbounded(room(r));
    const double rise = r == outside ? 0.0 : heat_w[unknown_of(room(r))];
    out.room_c[r] = out.unbounded_rooms[r] ? infinity : network_.outside_c + rise;
  }
  for (std::size_t b = 0; b < network_.bodies; ++b) {
    out.unbounded_bodies[b] = unbounded(body(b));
    const double rise = heat_w[unknown_of(body(b))];
    out.body_c[b] = out.unbounded_bodies[b] ? infinity : network_.outside_c + rise;
  }
  for (std::size_t i = 0; i < network_.streams.size(); ++i) {
    const Stream& s = network_.streams[i];
    out.streams[i] = stream_state(s, network_.air, out.room_c[s.from], out.body_c[s.body]);
  }
  out.to_outside_w = to_outside_w(out);
  if (all > 0.0) out.balance_error_frac = std::abs(out.heat_w - out.to_outside_w) / all;
  return out;
}

// (A34). What comes in from outside has its temperature and counts nothing.
double HeatField::to_outside_w(const HeatState& state) const {
  double out = 0.0;
  const auto over_c = [&](Node node) {
    return unbounded(node) ? 0.0 : temp_c(state, node) - network_.outside_c;
  };
  for (const AirFlow& given : network_.flows) {
    const AirFlow flow = forward(given);
    if (flow.to == outside)
      out += network_.air.capacity_w_k(flow.flow_m3_s) * over_c(room(flow.from));
  }
  for (std::size_t i = 0; i < network_.streams.size(); ++i) {
    const Stream& s = network_.streams[i];
    if (s.to != outside) continue;
    const double drawn = (1.0 - s.recirculation_frac) * network_.air.capacity_w_k(s.flow_m3_s);
    out += drawn * over_c(room(s.from));
    if (std::isfinite(state.streams[i].heat_w)) out += state.streams[i].heat_w;
  }
  for (const Conductance& link : network_.conductances)
    if (is_outside(link.a) || is_outside(link.b))
      out += link.w_k * (over_c(link.a) + over_c(link.b));
  return out;
}

HeatField::Rise HeatField::rise_of(std::size_t heated_body) const {
  RP_EXPECT(heated_body < network_.bodies);
  Unknowns rise{};
  const std::size_t heated = unknown_of(body(heated_body));
  if (!unbounded_[heated]) rise[heated] = 1.0;
  lu_.solve(std::span(rise).first(unknowns()));
  Rise out;
  const auto of = [&](Node node) { return unbounded(node) ? infinity : rise[unknown_of(node)]; };
  for (std::size_t r = 1; r < network_.rooms; ++r) out.room_k_w[r] = of(room(r));
  for (std::size_t b = 0; b < network_.bodies; ++b) out.body_k_w[b] = of(body(b));
  return out;
}

}  // namespace rigproof::air
