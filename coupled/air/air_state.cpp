#include "coupled/air/air_state.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "analysis/air/dry_air.hpp"
#include "analysis/air/heat_network.hpp"
#include "analysis/air/regulated.hpp"
#include "base/contract.hpp"

namespace rigproof::coupled {
namespace {

constexpr double density_kg_m3 = 1.184;  // 25 degC, [cengel-a15], looked up
constexpr double m3_h_per_m3_s = 3600.0;
// A radiator core of 27 mm at an approach of 1 m/s, and how that grows: common practice, no source.
constexpr double core_pa = 12.0;
constexpr double core_m = 0.027;
constexpr double core_exponent = 1.5;
// How conductance follows the fans: [0.4, 0.8] is usual for fin stacks; common practice, no source.
constexpr double fin_exponent = 0.6;
// Fans of a radiator reach this share of their free flow behind it when it is rated; ours.
constexpr double rated_flow_frac = 0.6;
// What the card's own fans carry across between the rooms; common practice, no source.
constexpr double stirred_m3_s = 40.0 / m3_h_per_m3_s;
// Cases, boards and boxes let some heat through their walls whatever the air does; ours.
constexpr double wall_w_k = 1.0;

air::Resistance vent(double area_m2, double open_frac, double filter_pa) {
  air::Resistance out = air::perforated_plate({.area_m2 = area_m2,
                                               .open_frac = std::clamp(open_frac, 0.01, 0.99),
                                               .density_kg_m3 = density_kg_m3})
                            .value();
  if (filter_pa > 0.0)
    out = air::in_series(out, air::measured({.flow_m3_s = area_m2, .drop_pa = filter_pa}).value());
  return out;
}

std::size_t index(Room room) { return static_cast<std::size_t>(room); }

// A part that draws nothing is one that draws next to nothing.
constexpr double least_w = 0.1;

}  // namespace

AirModel::AirModel(const AirCase& of)
    : of_(of),
      leak_cm2_(number(of.leak_cm2)),
      cpu_w_(number(of.cpu_w)),
      gpu_w_(number(of.gpu_w)),
      upper_w_(number(of.upper_w)),
      lower_w_(number(of.lower_w)),
      cpu_w_k_(number(of.cpu_w_k)),
      cooler_flow_m3_h_(number(of.cooler_flow_m3_h)),
      gpu_w_k_(number(of.gpu_w_k)),
      cpu_limit_c_(number(of.cpu_limit_c)),
      gpu_limit_c_(number(of.gpu_limit_c)),
      stage_k_w_(number(of.stage_k_w)),
      drive_rise_k_(number(of.drive_rise_k)),
      plate_k_w_(number(of.plate_k_w)),
      rooms_(of.has_card ? 3 : 2) {
  RP_EXPECT(!of.unknown);
  for (const FanRow& row : of_.fans) {
    const FanNumbers numbers{.flow_m3_h = number(row.flow_m3_h),
                             .pressure_pa = number(row.pressure_pa),
                             .open_frac = number(row.open_frac),
                             .filter_pa = number(row.filter_pa)};
    fan_numbers_.add(numbers);
    curves_.push_back(
        row.measured != nullptr
            ? *row.measured
            : air::FanCurve::from_ends({.free_flow_m3_s = numbers.flow_m3_h.middle / m3_h_per_m3_s,
                                        .shutoff_pressure_pa = numbers.pressure_pa.middle})
                  .value());
  }
  for (const Opening& opening : of_.openings)
    opening_numbers_.add({number(opening.open_frac), number(opening.filter_pa)});
  paths_.reserve(air::most_paths);
  kinds_.reserve(air::most_paths);
}

// (B3), (B4)
void AirModel::lay_paths(int draw, FanSpeeds speeds) {
  paths_.clear();
  kinds_.clear();
  for (std::size_t i = 0; i < of_.fans.size(); ++i) {
    const FanRow& row = of_.fans[i];
    const double area_m2 = row.size_m * row.size_m;
    const FanNumbers& numbers = fan_numbers_[i];
    air::Resistance one = vent(area_m2, numbers.open_frac.at(draw), numbers.filter_pa.at(draw));
    if (row.radiator_m > 0.0)
      one = air::in_series(one, air::measured({.flow_m3_s = area_m2,
                                               .drop_pa = core_pa * row.radiator_m / core_m,
                                               .exponent = core_exponent})
                                    .value());
    // Flow and pressure of this draw against the middle ones, as a fan of another speed and air.
    const double flow = numbers.flow_m3_h.at(draw) / numbers.flow_m3_h.middle;
    const double pressure = numbers.pressure_pa.at(draw) / numbers.pressure_pa.middle;
    const std::size_t inside = index(row.inside);
    paths_.push_back({.from = row.blows_in ? 0 : inside,
                      .to = row.blows_in ? inside : 0,
                      .resistance = air::in_parallel(one, row.count).value(),
                      .fan = air::FanOnPath{.curve = &curves_[i],
                                            .drive = {.speed_frac = speeds.of(row.group()) * flow,
                                                      .count = row.count,
                                                      .density_ratio = pressure / (flow * flow)}}});
    kinds_.push_back({.row = i, .is_fan = true, .what = WayFlow::What::fans});
  }
  for (std::size_t i = 0; i < of_.openings.size(); ++i) {
    const Opening& opening = of_.openings[i];
    const OpeningNumbers& numbers = opening_numbers_[i];
    paths_.push_back({.from = 0,
                      .to = index(opening.inside),
                      .resistance = vent(opening.area_m2, numbers.open_frac.at(draw),
                                         numbers.filter_pa.at(draw))});
    kinds_.push_back({.row = i, .is_fan = false, .what = WayFlow::What::opening});
  }
  const double leak_m2 = std::max(1.0, leak_cm2_.at(draw)) * 1e-4;
  for (std::size_t room = 1; room < rooms_; ++room) {
    const double area_m2 = leak_m2 / static_cast<double>(rooms_ - 1);
    paths_.push_back(
        {.from = 0,
         .to = room,
         .resistance = air::orifice({.area_m2 = area_m2, .density_kg_m3 = density_kg_m3}).value()});
    kinds_.push_back({.row = 0, .is_fan = false, .what = WayFlow::What::gaps});
  }
  if (rooms_ > 2) {
    paths_.push_back(
        {.from = index(Room::lower),
         .to = index(Room::upper),
         .resistance =
             air::orifice({.area_m2 = of_.between_m2, .density_kg_m3 = density_kg_m3}).value()});
    kinds_.push_back({.row = 0, .is_fan = false, .what = WayFlow::What::between});
  }
}

// (B11): what takes its temperature from these and warms nothing by it.
void AirModel::add_followers(int draw, AirState& out) const {
  if (!of_.stage_k_w.is_absent()) out.stage_c = out.upper_c + stage_k_w_.at(draw) * out.cpu.power_w;
  if (!of_.drive_rise_k.is_absent()) out.drive_c = out.lower_c + drive_rise_k_.at(draw);
  if (!of_.plate_k_w.is_absent())
    out.coolant_c = out.cpu.temp_c - plate_k_w_.at(draw) * out.cpu.power_w;
}

// (B5) to (B8): where heat comes from and goes, with the flows as they are.
air::HeatNetwork AirModel::heat_network(int draw, FanSpeeds speeds) const {
  air::HeatNetwork heat;
  heat.outside_c = of_.outside_c;
  heat.rooms = rooms_;
  heat.bodies = of_.has_card ? 2 : 1;
  const double full_w_k = cpu_w_k_.at(draw);
  double rated_m3_s = 0.0;
  double transfer_units = 0.0;
  if (of_.liquid) {
    rated_m3_s = rated_flow_frac * cooler_flow_m3_h_.at(draw) / m3_h_per_m3_s;
    const double share = std::min(0.95, full_w_k / heat.air.capacity_w_k(rated_m3_s));
    transfer_units = -std::log(1.0 - share);
  }
  double radiator_m3_s = 0.0;
  for (std::size_t i = 0; i < paths_.size(); ++i)
    if (is_radiator(i)) radiator_m3_s += std::abs(flow_.flow_m3_s[i]);
  for (std::size_t i = 0; i < paths_.size(); ++i) {
    const double flow = flow_.flow_m3_s[i];
    if (!is_radiator(i)) {
      heat.flows.add({paths_[i].from, paths_[i].to, flow});
      continue;
    }
    const bool forward = flow >= 0.0;
    const double units = radiator_m3_s > 0.0 ? transfer_units * std::pow(radiator_m3_s / rated_m3_s,
                                                                         fin_exponent - 1.0)
                                             : 0.0;
    heat.streams.add({.from = forward ? paths_[i].from : paths_[i].to,
                      .to = forward ? paths_[i].to : paths_[i].from,
                      .body = cpu_body,
                      .flow_m3_s = std::abs(flow),
                      .effectiveness = 1.0 - std::exp(-units)});
  }
  const double follows = of_.cooler_has_fans ? std::pow(speeds.cooler_frac, fin_exponent) : 1.0;
  heat.conductances.add({air::body(cpu_body), air::room(index(Room::upper)),
                         of_.liquid ? wall_w_k : full_w_k * follows});
  if (of_.has_card) {
    heat.conductances.add({air::body(gpu_body), air::room(index(Room::lower)), gpu_w_k_.at(draw)});
    heat.flows.add({index(Room::lower), index(Room::upper), stirred_m3_s});
    heat.flows.add({index(Room::upper), index(Room::lower), stirred_m3_s});
    heat.room_heat_w[index(Room::lower)] = lower_w_.at(draw);
  }
  heat.room_heat_w[index(Room::upper)] = upper_w_.at(draw);
  for (std::size_t room = 1; room < rooms_; ++room)
    heat.conductances.add({air::room(room), air::room(air::outside), wall_w_k});
  return heat;
}

// (B7)
void AirModel::solve_heat(int draw, FanSpeeds speeds, AirState& out) {
  const auto field = air::HeatField::of(heat_network(draw, speeds));
  if (!field) return;
  const std::size_t count = of_.has_card ? 2 : 1;
  const std::array<air::RegulatedBody, 2> bodies = {
      {{cpu_body, {.limit_w = asked_cpu_w(draw), .limit_c = cpu_limit_c_.at(draw)}},
       {gpu_body, {.limit_w = asked_gpu_w(draw), .limit_c = gpu_limit_c_.at(draw)}}}};
  const auto parts = air::regulated_parts(*field, std::span(bodies).first(count));
  if (!parts) return;
  const auto kept = air::sustained_powers(*parts);
  if (!kept) return;
  std::array<double, 2> watts{};
  const auto keep = [&](std::size_t body, Kept& to) {
    to = {.power_w = (*kept)[body].power_w,
          .temp_c = (*kept)[body].temp_c,
          .lost_frac = (*kept)[body].lost_frac};
    watts[body] = to.power_w;
  };
  keep(cpu_body, out.cpu);
  if (of_.has_card) keep(gpu_body, out.gpu);
  const air::HeatState state = field->state(std::span(watts).first(count));
  out.upper_c = state.room_c[index(Room::upper)];
  out.lower_c = of_.has_card ? state.room_c[index(Room::lower)] : out.upper_c;
  add_followers(draw, out);
  add_flows(state, out);
  out.solved = state.closes() && !state.unbounded();
}

// What leaves, how warm, and what of what enters comes through fans.
void AirModel::add_flows(const air::HeatState& state, AirState& out) const {
  double heat_out = 0.0;
  std::size_t stream = 0;
  double in_by_fans = 0.0;
  double in_all = 0.0;
  for (std::size_t i = 0; i < paths_.size(); ++i) {
    const bool radiator = is_radiator(i);
    const std::size_t own = radiator ? stream++ : 0;
    const double flow = flow_.flow_m3_s[i];
    const bool leaves = flow > 0.0 ? paths_[i].to == 0 : flow < 0.0 && paths_[i].from == 0;
    const bool enters = flow > 0.0 ? paths_[i].from == 0 : flow < 0.0 && paths_[i].to == 0;
    const std::size_t source = flow > 0.0 ? paths_[i].from : paths_[i].to;
    if (leaves) {
      const double temp_c = radiator ? state.streams[own].outlet_c : state.room_c[source];
      out.through_m3_s += std::abs(flow);
      heat_out += std::abs(flow) * temp_c;
    }
    out.stalled = out.stalled || flow_.fan[i] == air::FanState::stalled;
    out.blown_backwards = out.blown_backwards || flow_.fan[i] == air::FanState::blown_backwards;
    if (enters) {
      in_all += std::abs(flow);
      if (kinds_[i].is_fan) in_by_fans += std::abs(flow);
    }
  }
  out.exhaust_c = out.through_m3_s > 0.0 ? heat_out / out.through_m3_s : of_.outside_c;
  out.filtered_frac = in_all > 0.0 ? in_by_fans / in_all : 0.0;
}

bool AirModel::is_radiator(std::size_t path) const {
  return kinds_[path].is_fan && of_.fans[kinds_[path].row].radiator_m > 0.0;
}
double AirModel::asked_cpu_w(int draw) const { return std::max(least_w, cpu_w_.at(draw)); }
double AirModel::asked_gpu_w(int draw) const { return std::max(least_w, gpu_w_.at(draw)); }

bool AirModel::solve_flow(int draw, FanSpeeds speeds) {
  lay_paths(draw, speeds);
  const std::span<const double> start =
      warm_ ? std::span<const double>(flow_.pressure_pa).first(rooms_) : std::span<const double>();
  auto solved = air::solve_flow(rooms_, paths_, start);
  if (!solved || !solved->converged) {
    warm_ = false;
    return false;
  }
  flow_ = *solved;
  warm_ = true;
  return true;
}

AirState AirModel::at(int draw, FanSpeeds speeds) {
  AirState out;
  if (!solve_flow(draw, speeds)) return out;
  out.upper_pa = flow_.pressure_pa[index(Room::upper)];
  out.least_pa = out.upper_pa;
  if (of_.has_card) out.least_pa = std::min(out.upper_pa, flow_.pressure_pa[index(Room::lower)]);
  solve_heat(draw, speeds, out);
  return out;
}

std::optional<air::HeatNetwork> AirModel::network_at(int draw, FanSpeeds speeds) {
  if (!solve_flow(draw, speeds)) return {};
  return heat_network(draw, speeds);
}

std::vector<AirModel::WayFlow> AirModel::flows_at(int draw, FanSpeeds speeds) {
  std::vector<WayFlow> out;
  if (!solve_flow(draw, speeds)) return out;
  for (std::size_t i = 0; i < paths_.size(); ++i) {
    const bool forward = flow_.flow_m3_s[i] >= 0.0;
    const auto from = static_cast<Room>(forward ? paths_[i].from : paths_[i].to);
    const auto to = static_cast<Room>(forward ? paths_[i].to : paths_[i].from);
    out.push_back({.what = kinds_[i].what,
                   .index = kinds_[i].row,
                   .from = from,
                   .to = to,
                   .flow_m3_s = std::abs(flow_.flow_m3_s[i]),
                   .fan_pressure_pa = kinds_[i].is_fan ? flow_.fan_pressure_pa[i] : 0.0});
  }
  return out;
}

double temp_c(const AirState& state, Watched which) {
  switch (which) {
    case Watched::cpu:
      return state.cpu.temp_c;
    case Watched::gpu:
      return state.gpu.temp_c;
    case Watched::coolant:
      return state.coolant_c;
    case Watched::stage:
      return state.stage_c;
    case Watched::drive:
      return state.drive_c;
    case Watched::exhaust:
      break;
  }
  return state.exhaust_c;
}

bool within(const AirState& state, const SpeedLimits& limits) {
  return state.solved && std::ranges::none_of(all_watched, [&](Watched which) {
           return temp_c(state, which) > limits[which];
         });
}

bool keeps(const AirState& state, const SpeedLimits& limits) {
  return within(state, limits) && state.cpu.lost_frac <= 0.0 && state.gpu.lost_frac <= 0.0;
}

}  // namespace rigproof::coupled
