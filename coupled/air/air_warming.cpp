#include "coupled/air/air_warming.hpp"

#include <algorithm>
#include <cmath>

#include "analysis/air/transient.hpp"

namespace rigproof::coupled {
namespace {

using air::HeatField;
using air::HeatNetwork;
using air::Transient;

constexpr std::size_t curve_points = 81;
// The picture ends this much after the last has settled.
constexpr double beyond_settled = 1.3;

struct Stores {
  Draws cooler_j_k, gpu_j_k, plate_k_w;
};

Stores stores_of(const Facts& facts, Measure& m) {
  const Row cooler = facts.build.one(Kind::cooler);
  Stores out{m.read(facts, column("cooler", "heat_capacity_j_k"), cooler), Draws(0.0),
             base_k_w(facts, m)};
  if (facts.build.has(Kind::gpu))
    out.gpu_j_k = m.read(facts, column("gpu", "heat_capacity_j_k"), facts.build.one(Kind::gpu));
  return out;
}

using Watts = std::array<double, 2>;

// One draw under one load: its balance, what stores heat in it, and where all ends.
struct Phase {
  HeatNetwork network;
  double chip_k_w = 0.0;  ///< the processor above what stores its cooler's heat
  Watts asked_w{};
  Watts kept_w{};
  std::array<double, 2> limit_c{};
  std::array<double, 2> capacity_j_k{};
  Watts ends_c{};  ///< of the bodies, at the power that is kept
};

// (B16) The processor's body is what stores its cooler's heat, and the processor is hotter by the
// plate's share: every way out of the body leads so much better.
void split_plate(HeatNetwork& network, double plate_k_w, double& chip_k_w) {
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

// From these temperatures of the bodies on, with so much heat in them. Rooms store nothing.
std::optional<Transient> transient_of(const Phase& phase, const Watts& watts,
                                      const Watts& start_c) {
  HeatNetwork network = phase.network;
  for (std::size_t i = 0; i < network.bodies; ++i) network.body_heat_w[i] = watts[i];
  const auto field = HeatField::of(network);
  if (!field) return {};
  air::NodeValues capacity_j_k{};
  air::NodeValues starts_c{};
  for (std::size_t i = 0; i < network.bodies; ++i) {
    const std::size_t node = field->unknown_of(air::body(i));
    capacity_j_k[node] = phase.capacity_j_k[i];
    starts_c[node] = start_c[i];
  }
  const std::size_t nodes = network.rooms - 1 + network.bodies;
  auto made = Transient::of(field->balance(), std::span(capacity_j_k).first(nodes),
                            std::span(starts_c).first(nodes));
  if (!made) return {};
  return std::move(*made);
}

std::size_t node_of(const Phase& phase, std::size_t body) { return phase.network.rooms - 1 + body; }

// (B17) When the bodies of one draw are warm, s.
std::optional<Watts> settled_s(const Phase& phase, const Watts& start_c) {
  const auto transient = transient_of(phase, phase.kept_w, start_c);
  if (!transient) return {};
  Watts out{};
  for (std::size_t i = 0; i < phase.network.bodies; ++i) {
    const auto at = transient->time_to_settle_s(node_of(phase, i), settled_k);
    if (!at) return {};
    const std::optional<double>& settled = *at;
    if (!settled) return {};
    out[i] = *settled;
  }
  return out;
}

// What the bodies start at: where `before` ends, or as cold as the room.
class Start {
 public:
  Start(const Running* before, const Stores& stores, double room_c)
      : before_(before), stores_(stores), room_c_(room_c) {
    if (before != nullptr) model_.emplace(*before->of);
  }
  std::optional<Watts> at(int draw) {
    if (before_ == nullptr || !model_) return Watts{room_c_, room_c_};
    const auto phase = phase_of(*model_, *before_->of, draw, before_->speeds, stores_);
    if (!phase) return {};
    return phase->ends_c;
  }
  [[nodiscard]] bool spans() const { return before_ != nullptr && case_spans(*before_->of); }

 private:
  const Running* before_;
  const Stores& stores_;
  double room_c_;
  std::optional<AirModel> model_;
};

// (B18) The middle draw over time: all that the load asks until a part is as hot as it slows down
// at, from then on what is kept.
class Curves {
 public:
  Curves(const Phase& phase, const Watts& start_c) : phase_(phase), start_c_(start_c) {}

  bool draw(double until_s, bool liquid, Warming& out) {
    const auto first = transient_of(phase_, phase_.asked_w, start_c_);
    if (!first) return false;
    double slows_s = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < phase_.network.bodies; ++i) {
      const double lead_k = i == AirModel::cpu_body ? phase_.chip_k_w * phase_.asked_w[i] : 0.0;
      const auto at =
          first->time_to_reach_s(node_of(phase_, i), phase_.limit_c[i] - lead_k, horizon_s);
      if (!at || phase_.kept_w[i] >= phase_.asked_w[i]) continue;
      const std::optional<double>& reached_s = *at;
      if (!reached_s) continue;
      if (auto& of = out.of[i]) of->slows_after_s = reached_s;
      slows_s = std::min(slows_s, *reached_s);
    }
    const auto second = slowed_from(*first, slows_s);
    if (!second && std::isfinite(slows_s)) return false;
    for (std::size_t k = 0; k < curve_points; ++k) {
      const double t_s = until_s * static_cast<double>(k) / (curve_points - 1);
      const bool slowed = second && t_s >= slows_s;
      const auto temps = slowed ? second->temps_c(t_s - slows_s) : first->temps_c(t_s);
      if (!temps) return false;
      put(t_s, *temps, slowed ? phase_.kept_w : phase_.asked_w, liquid, out);
    }
    return true;
  }

 private:
  static constexpr double horizon_s = 1e5;

  // With what is kept, from where `first` has come to by then.
  std::optional<Transient> slowed_from(const Transient& first, double slows_s) const {
    if (!std::isfinite(slows_s)) return {};
    const auto then = first.temps_c(slows_s);
    if (!then) return {};
    Watts bodies_c{};
    for (std::size_t i = 0; i < phase_.network.bodies; ++i)
      bodies_c[i] = (*then)[node_of(phase_, i)];
    return transient_of(phase_, phase_.kept_w, bodies_c);
  }

  void put(double t_s, const air::NodeValues& temps, const Watts& watts, bool liquid,
           Warming& out) const {
    out.time_s.push_back(t_s);
    const double body_c = temps[node_of(phase_, AirModel::cpu_body)];
    const auto add = [&](Warmed which, double temp_c) {
      if (auto& of = out.of[static_cast<std::size_t>(which)]) of->temp_c.push_back(temp_c);
    };
    add(Warmed::cpu, body_c + phase_.chip_k_w * watts[AirModel::cpu_body]);
    if (phase_.network.bodies > 1) add(Warmed::gpu, temps[node_of(phase_, AirModel::gpu_body)]);
    if (liquid) add(Warmed::coolant, body_c);
  }

  const Phase& phase_;
  const Watts& start_c_;
};

// Of all draws; absent where one did not close.
std::array<Draws, 2> settled_of_all(AirModel& model, const Running& after, Start& start,
                                    const Stores& stores) {
  std::array<std::array<double, draw_count>, 2> samples{};
  for (int draw = 0; draw < draw_count; ++draw) {
    const auto phase = phase_of(model, *after.of, draw, after.speeds, stores);
    const auto start_c = start.at(draw);
    if (!phase || !start_c) return {Draws::absent(), Draws::absent()};
    const auto settled = settled_s(*phase, *start_c);
    if (!settled) return {Draws::absent(), Draws::absent()};
    for (std::size_t i = 0; i < 2; ++i) samples[i][static_cast<std::size_t>(draw)] = (*settled)[i];
  }
  const bool spans = stores.cooler_j_k.spans() || stores.gpu_j_k.spans() ||
                     stores.plate_k_w.spans() || case_spans(*after.of) || start.spans();
  return {Draws::of(samples[0], spans), Draws::of(samples[1], spans)};
}

}  // namespace

std::optional<Warming> warming(const Facts& facts, const Running* before, const Running& after,
                               Measure& m) {
  const Stores stores = stores_of(facts, m);
  if (stores.cooler_j_k.is_absent() || stores.gpu_j_k.is_absent()) return {};
  AirModel model(*after.of);
  Start start(before, stores, after.of->outside_c);
  const auto phase = phase_of(model, *after.of, AirModel::middle, after.speeds, stores);
  const auto start_c = start.at(AirModel::middle);
  if (!phase || !start_c) return {};
  const auto settled = settled_s(*phase, *start_c);
  if (!settled) return {};

  Warming out;
  const std::array<Draws, 2> all = settled_of_all(model, after, start, stores);
  const auto put = [&](Warmed which, const Draws& warm_s, double limit_c) {
    WarmingOf& to = out.of[static_cast<std::size_t>(which)].emplace();
    to.settled_s = warm_s;
    to.limit_c = limit_c;
  };
  put(Warmed::cpu, all[0], phase->limit_c[0]);
  if (after.of->has_card) put(Warmed::gpu, all[1], phase->limit_c[1]);
  if (after.of->liquid) put(Warmed::coolant, all[0], no_limit_c);
  const double until_s = beyond_settled * std::max({(*settled)[0], (*settled)[1], 60.0});
  if (!Curves(*phase, *start_c).draw(until_s, after.of->liquid, out)) return {};
  return out;
}

}  // namespace rigproof::coupled
