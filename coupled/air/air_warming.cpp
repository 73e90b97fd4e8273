#include "coupled/air/air_warming.hpp"

#include <algorithm>
#include <cmath>

#include "coupled/air/air_march.hpp"
#include "coupled/air/air_phase.hpp"

namespace rigproof::coupled {
namespace {

using air::Transient;

constexpr std::size_t curve_points = 81;
// The picture ends this much after the last has settled.
constexpr double beyond_settled = 1.3;

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

// A setting of one point is a speed that stays.
bool follows(const Running& running) {
  return running.settings != nullptr &&
         std::ranges::any_of(*running.settings, [](const auto& setting) {
           return setting && setting->points.size() > 1;
         });
}

// (B22)
bool follow(AirModel& model, const Running& after, const Stores& stores, const Watts& start_c,
            double until_s, Warming& out) {
  const auto points = march({.model = model,
                             .of = *after.of,
                             .stores = stores,
                             .settings = *after.settings,
                             .otherwise = after.speeds,
                             .start_c = start_c},
                            until_s, curve_points, [&](std::size_t body, double time_s) {
                              if (auto& of = out.of[body]) of->slows_after_s = time_s;
                            });
  const auto add = [&](Warmed which, double temp_c) {
    if (auto& of = out.of[static_cast<std::size_t>(which)]) of->temp_c.push_back(temp_c);
  };
  for (const MarchPoint& point : points) {
    out.time_s.push_back(point.time_s);
    out.speeds.push_back(point.speeds);
    add(Warmed::cpu, point.cpu_c);
    add(Warmed::gpu, point.body_c[AirModel::gpu_body]);
    add(Warmed::coolant, point.body_c[AirModel::cpu_body]);
  }
  return !points.empty();
}

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
  const bool drawn = follows(after) ? follow(model, after, stores, *start_c, until_s, out)
                                    : Curves(*phase, *start_c).draw(until_s, after.of->liquid, out);
  if (!drawn) return {};
  return out;
}

}  // namespace rigproof::coupled
