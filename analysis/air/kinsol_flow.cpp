// The air network for KINSOL: fan laws as the equations say them, not as our solver keeps them.
#include "analysis/air/kinsol_flow.hpp"

#include <kinsol/kinsol.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace rigproof::air::by_sundials {
namespace {

// (A9): the least of p(r) + t r for 0 <= r <= Q, less t Q. Straight between points, so it is at a
// point or at Q.
double envelope_pa(const std::vector<FanPoint>& points, double tilt_pa_s_m3, double flow_m3_s) {
  double least_pa = points.front().pressure_pa;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const FanPoint& left = points[i - 1];
    if (left.flow_m3_s >= flow_m3_s) break;
    const double r = std::min(flow_m3_s, points[i].flow_m3_s);
    const double share = (r - left.flow_m3_s) / (points[i].flow_m3_s - left.flow_m3_s);
    const double p = left.pressure_pa + share * (points[i].pressure_pa - left.pressure_pa);
    least_pa = std::min(least_pa, p + tilt_pa_s_m3 * r);
  }
  return least_pa - tilt_pa_s_m3 * flow_m3_s;
}

double slope_pa_s_m3(const FanPoint& left, const FanPoint& right) {
  return (right.pressure_pa - left.pressure_pa) / (right.flow_m3_s - left.flow_m3_s);
}

// (A9), (A10) of a curve from no flow to no pressure, which falls at its end.
double measured_pa(const std::vector<FanPoint>& points, double flow_m3_s) {
  const double shutoff_pa = points.front().pressure_pa;
  const double last_m3_s = points.back().flow_m3_s;
  const double tilt = 1e-6 * shutoff_pa / last_m3_s;
  const double k = shutoff_pa / (last_m3_s * last_m3_s);
  if (flow_m3_s < 0.0) {
    const double first = std::min(slope_pa_s_m3(points[0], points[1]), -tilt);
    return shutoff_pa + first * flow_m3_s + k * flow_m3_s * flow_m3_s;
  }
  if (flow_m3_s <= last_m3_s) return envelope_pa(points, tilt, flow_m3_s);
  const double x = flow_m3_s - last_m3_s;
  const double last = slope_pa_s_m3(points[points.size() - 2], points.back());
  return std::min(last, -2.0 * k * last_m3_s) * x - k * x * x;
}

}  // namespace

double PathByHand::fan_pa(double flow_m3_s) const {
  if (!drive) return 0.0;
  const double sign = reversed ? -1.0 : 1.0;
  const double k = ends.shutoff_pressure_pa / (ends.free_flow_m3_s * ends.free_flow_m3_s);
  const double each_m3_s = sign * flow_m3_s / drive->count;
  const double s = drive->speed_frac;
  if (s < 1e-6) return -sign * drive->density_ratio * k * each_m3_s * std::abs(each_m3_s);
  const double q = each_m3_s / s;
  const double at_full_pa =
      points.empty() ? ends.shutoff_pressure_pa - k * q * std::abs(q) : measured_pa(points, q);
  return sign * drive->density_ratio * s * s * at_full_pa;
}

double PathByHand::drop_pa(double flow_m3_s) const {
  return resistance.linear_pa_s_m3 * flow_m3_s +
         resistance.square_pa_s2_m6 * flow_m3_s * std::abs(flow_m3_s) - fan_pa(flow_m3_s);
}

std::vector<PathByHand> by_hand(const test_support::RandomNetwork& net) {
  std::vector<PathByHand> out;
  std::size_t fan = 0;
  for (const FlowPath& path : net.paths) {
    out.push_back({.from = path.from,
                   .to = path.to,
                   .resistance = path.resistance,
                   .drive = std::nullopt,
                   .reversed = false,
                   .ends = {},
                   .points = {}});
    if (!path.fan) continue;
    out.back().drive = path.fan->drive;
    out.back().reversed = path.fan->reversed;
    out.back().ends = net.ends[fan];
    out.back().points = net.points[fan];
    ++fan;
  }
  return out;
}

Scale scale_of(const std::vector<PathByHand>& paths) {
  Scale out{.pressure_pa = 0.0, .flow_m3_s = 0.0};
  for (const PathByHand& path : paths) {
    if (!path.drive) continue;
    out.pressure_pa = std::max(out.pressure_pa, std::abs(path.fan_pa(0.0)));
    out.flow_m3_s = std::max(out.flow_m3_s,
                             path.drive->count * path.drive->speed_frac * path.ends.free_flow_m3_s);
  }
  if (out.pressure_pa == 0.0) return {.pressure_pa = 1.0, .flow_m3_s = 0.01};
  return out;
}

Gap gap_of(const std::vector<PathByHand>& paths, const Flows& flows) {
  Gap out{.laws_pa = 0.0, .balance_m3_s = 0.0};
  std::vector<double> into_m3_s(flows.pressure_pa.size());
  for (std::size_t k = 0; k < paths.size(); ++k) {
    const PathByHand& path = paths[k];
    const double flow_m3_s = flows.flow_m3_s[k];
    into_m3_s[path.from] -= flow_m3_s;
    into_m3_s[path.to] += flow_m3_s;
    const double difference_pa = flows.pressure_pa[path.from] - flows.pressure_pa[path.to];
    out.laws_pa += std::abs(difference_pa - path.drop_pa(flow_m3_s));
  }
  for (std::size_t room = 1; room < into_m3_s.size(); ++room)
    out.balance_m3_s = std::max(out.balance_m3_s, std::abs(into_m3_s[room]));
  return out;
}

FlowByKinsol::FlowByKinsol(std::size_t rooms, std::vector<PathByHand> paths)
    : rooms_(rooms),
      paths_(std::move(paths)),
      scale_(scale_of(paths_)),
      unknowns_(zeros(paths_.size() + rooms - 1, context_)),
      unknown_scale_(zeros(paths_.size() + rooms - 1, context_)),
      residual_scale_(zeros(paths_.size() + rooms - 1, context_)),
      lu_(paths_.size() + rooms - 1, unknowns_, context_),
      kinsol_(must(KINCreate(context_), "KINCreate")) {
  const auto unknown = values(unknown_scale_.get());
  const auto equation = values(residual_scale_.get());
  for (std::size_t i = 0; i < unknown.size(); ++i) {
    const bool is_path = i < paths_.size();  // a flow, a law; else a pressure, a balance
    unknown[i] = 1.0 / (is_path ? scale_.flow_m3_s : scale_.pressure_pa);
    equation[i] = 1.0 / (is_path ? scale_.pressure_pa : scale_.flow_m3_s);
  }
  must(KINInit(kinsol_.get(), residual, unknowns_.get()), "KINInit");
  must(KINSetUserData(kinsol_.get(), this), "KINSetUserData");
  must(KINSetLinearSolver(kinsol_.get(), lu_.solver.get(), lu_.matrix.get()), "KINSetLinearSolver");
  must(KINSetMaxSetupCalls(kinsol_.get(), 1),
       "KINSetMaxSetupCalls");  // derivatives anew at each step
  must(KINSetNumMaxIters(kinsol_.get(), 400), "KINSetNumMaxIters");
  must(KINSetFuncNormTol(kinsol_.get(), function_tolerance), "KINSetFuncNormTol");
  must(KINSetScaledStepTol(kinsol_.get(), 1e-16), "KINSetScaledStepTol");
  must(KINSetErrFile(kinsol_.get(), nullptr),
       "KINSetErrFile");  // giving up is counted, not printed
}

void FreeKinsol::operator()(void* memory) const { KINFree(&memory); }

int FlowByKinsol::residual(N_Vector unknowns, N_Vector out, void* self) {
  const auto& net = *static_cast<const FlowByKinsol*>(self);
  const std::size_t count = net.paths_.size();
  const auto u = values(unknowns);
  const auto f = values(out);
  std::ranges::fill(f, 0.0);
  const auto pressure_pa = [&](std::size_t room) { return room == 0 ? 0.0 : u[count + room - 1]; };
  for (std::size_t k = 0; k < count; ++k) {
    const PathByHand& path = net.paths_[k];
    f[k] = pressure_pa(path.from) - pressure_pa(path.to) - path.drop_pa(u[k]);
    if (path.from != 0) f[count + path.from - 1] -= u[k];
    if (path.to != 0) f[count + path.to - 1] += u[k];
  }
  return 0;
}

std::optional<Flows> FlowByKinsol::solve(double start_flow_m3_s) {
  const auto u = values(unknowns_.get());
  std::ranges::fill(u.first(paths_.size()), start_flow_m3_s);
  std::ranges::fill(u.subspan(paths_.size()), 0.0);
  const int status = KINSol(kinsol_.get(), unknowns_.get(), KIN_LINESEARCH, unknown_scale_.get(),
                            residual_scale_.get());
  if (status != KIN_SUCCESS) return std::nullopt;
  Flows out;
  out.flow_m3_s.assign(u.begin(), u.begin() + static_cast<std::ptrdiff_t>(paths_.size()));
  out.pressure_pa.assign(rooms_, 0.0);
  std::ranges::copy(u.subspan(paths_.size()), out.pressure_pa.begin() + 1);
  return out;
}

}  // namespace rigproof::air::by_sundials
