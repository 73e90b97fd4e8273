#include "coupled/air/air_phase.hpp"

#include <algorithm>

namespace rigproof::coupled {
namespace {

// (B16) The processor's body is what stores its cooler's heat, and the processor is hotter by the
// plate's share: every way out of the body leads so much better.
void split_plate(air::HeatNetwork& network, double plate_k_w, double& chip_k_w) {
  double all_w_k = 0.0;
  double most_effective = 0.0;
  for (std::size_t i = 0; i < network.streams.size(); ++i) {
    all_w_k += air::stream_conductance_w_k(network.streams[i], network.air);
    most_effective = std::max(most_effective, network.streams[i].effectiveness);
  }
  const auto is_cooler = [](const air::Conductance& c) {
    return c.a.kind == air::Node::Kind::body && c.a.index == AirModel::cpu_body;
  };
  for (const air::Conductance& c : network.conductances)
    if (is_cooler(c)) all_w_k += c.w_k;
  constexpr double most_better = 4.0;
  const double left_k_w = 1.0 / all_w_k - plate_k_w;
  double better = left_k_w > 0.0 ? std::min(most_better, 1.0 / (left_k_w * all_w_k)) : most_better;
  if (most_effective > 0.0) better = std::min(better, 1.0 / most_effective);
  for (std::size_t i = 0; i < network.streams.size(); ++i)
    network.streams[i].effectiveness = std::min(1.0, network.streams[i].effectiveness * better);
  for (std::size_t i = 0; i < network.conductances.size(); ++i)
    if (is_cooler(network.conductances[i])) network.conductances[i].w_k *= better;
  chip_k_w = (1.0 - 1.0 / better) / all_w_k;
}

}  // namespace

Stores stores_of(const Facts& facts, Measure& m) {
  const Row cooler = facts.build.one(Kind::cooler);
  Stores out{m.read(facts, column("cooler", "heat_capacity_j_k"), cooler), Draws(0.0),
             base_k_w(facts, m)};
  if (facts.build.has(Kind::gpu))
    out.gpu_j_k = m.read(facts, column("gpu", "heat_capacity_j_k"), facts.build.one(Kind::gpu));
  return out;
}

std::optional<Phase> phase_of(AirModel& model, const AirCase& of, int draw, FanSpeeds speeds,
                              const Stores& stores) {
  const auto at = [draw](const Draws& draws) {
    return draw == AirModel::middle ? middle_of(draws) : draws[draw];
  };
  const AirState state = model.at(draw, speeds);
  auto network = model.network_at(draw, speeds);
  if (!state.solved || !network) return {};
  Phase out{.network = *network};
  split_plate(out.network, stores.plate_k_w.is_absent() ? 0.0 : at(stores.plate_k_w), out.chip_k_w);
  out.asked_w = {model.asked_cpu_w(draw), of.has_card ? model.asked_gpu_w(draw) : 0.0};
  out.kept_w = {state.cpu.power_w, state.gpu.power_w};
  out.limit_c = {at(of.cpu_limit_c), of.has_card ? at(of.gpu_limit_c) : no_limit_c};
  out.capacity_j_k = {at(stores.cooler_j_k), at(stores.gpu_j_k)};
  out.ends_c = {state.cpu.temp_c - out.chip_k_w * out.kept_w[0], state.gpu.temp_c};
  return out;
}

std::optional<air::Transient> transient_of(const Phase& phase, const Watts& watts,
                                           const Watts& start_c) {
  air::HeatNetwork network = phase.network;
  for (std::size_t i = 0; i < network.bodies; ++i) network.body_heat_w[i] = watts[i];
  const auto field = air::HeatField::of(network);
  if (!field) return {};
  air::NodeValues capacity_j_k{};
  air::NodeValues starts_c{};
  for (std::size_t i = 0; i < network.bodies; ++i) {
    const std::size_t node = field->unknown_of(air::body(i));
    capacity_j_k[node] = phase.capacity_j_k[i];
    starts_c[node] = start_c[i];
  }
  const std::size_t nodes = network.rooms - 1 + network.bodies;
  auto made = air::Transient::of(field->balance(), std::span(capacity_j_k).first(nodes),
                                 std::span(starts_c).first(nodes));
  if (!made) return {};
  return std::move(*made);
}

std::size_t node_of(const Phase& phase, std::size_t body) { return phase.network.rooms - 1 + body; }

}  // namespace rigproof::coupled
