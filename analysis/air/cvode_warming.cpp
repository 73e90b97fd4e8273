// A heat network for CVODE: what flows into each node, link by link.
#include "analysis/air/cvode_warming.hpp"

#include <cvode/cvode.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace rigproof::air::by_sundials {
namespace {

constexpr long most_steps = 20'000;

std::size_t count_storing(const std::vector<double>& capacity_j_k) {
  return static_cast<std::size_t>(
      std::ranges::count_if(capacity_j_k, [](double k) { return k > 0.0; }));
}

// Temperatures in, heats out, by node; what falls on the outside is dropped.
class Heats {
 public:
  Heats(const HeatNetwork& network, std::span<const double> temps_c, std::span<double> out_w)
      : network_(network), temps_c_(temps_c), out_w_(out_w) {}

  [[nodiscard]] double temp_c(Node node) const {
    return is_outside(node) ? network_.outside_c : temps_c_[place(node)];
  }
  void give(Node node, double heat_w) {
    if (!is_outside(node)) out_w_[place(node)] += heat_w;
  }
  // A fluid arrives with the temperature of one node and is brought to that of another.
  void arrive(Node to, double capacity_w_k, double arriving_c) {
    give(to, capacity_w_k * (arriving_c - temp_c(to)));
  }

 private:
  static bool is_outside(Node node) {
    return node.kind == Node::Kind::room && node.index == outside;
  }
  [[nodiscard]] std::size_t place(Node node) const {
    return node.kind == Node::Kind::room ? node.index - 1 : network_.rooms - 1 + node.index;
  }

  const HeatNetwork& network_;
  std::span<const double> temps_c_;
  std::span<double> out_w_;
};

// (A31): T_in = (1 - r) T_room + r T_out and T_out = T_in + eps (T_body - T_in), both solved for
// T_in.
void pass(const Stream& stream, double capacity_w_k, Heats& heats) {
  const double r = stream.recirculation_frac;
  const double eps = stream.effectiveness;
  const double body_c = heats.temp_c(body(stream.body));
  const double inlet_c =
      ((1.0 - r) * heats.temp_c(room(stream.from)) + r * eps * body_c) / (1.0 - r * (1.0 - eps));
  const double outlet_c = inlet_c + eps * (body_c - inlet_c);
  const std::size_t payer = stream.paid_by == Stream::same ? stream.body : stream.paid_by;
  heats.give(body(payer), -eps * capacity_w_k * (body_c - inlet_c));
  heats.arrive(room(stream.to), (1.0 - r) * capacity_w_k, outlet_c);
}

}  // namespace

void heat_into_w(const HeatNetwork& network, std::span<const double> temps_c,
                 std::span<double> out_w) {
  std::ranges::fill(out_w, 0.0);
  Heats heats(network, temps_c, out_w);
  const double rho_cp = network.air.density_kg_m3 * network.air.specific_heat_j_kg_k;
  for (const AirFlow& flow : network.flows) {
    const bool forward = flow.flow_m3_s > 0.0;
    const Node from = room(forward ? flow.from : flow.to);
    heats.arrive(room(forward ? flow.to : flow.from), rho_cp * std::abs(flow.flow_m3_s),
                 heats.temp_c(from));
  }
  for (const Stream& stream : network.streams) pass(stream, rho_cp * stream.flow_m3_s, heats);
  for (const LiquidFlow& flow : network.liquids)
    heats.arrive(body(flow.to), flow.capacity_w_k, heats.temp_c(body(flow.from)));
  for (const Conductance& link : network.conductances) {
    const double heat_w = link.w_k * (heats.temp_c(link.a) - heats.temp_c(link.b));
    heats.give(link.a, -heat_w);
    heats.give(link.b, heat_w);
  }
  for (std::size_t r = 1; r < network.rooms; ++r) heats.give(room(r), network.room_heat_w[r]);
  for (std::size_t b = 0; b < network.bodies; ++b) heats.give(body(b), network.body_heat_w[b]);
}

WarmingByCvode::WarmingByCvode(WarmingStart start, const Tolerance& tolerance)
    : start_(std::move(start)),
      all_c_(start_.start_c),
      heat_w_(all_c_.size()),
      state_(zeros(count_storing(start_.capacity_j_k), context_)),
      lu_(count_storing(start_.capacity_j_k), state_, context_),
      cvode_(must(CVodeCreate(CV_BDF, context_), "CVodeCreate")) {
  for (std::size_t i = 0; i < all_c_.size(); ++i)
    (start_.capacity_j_k[i] > 0.0 ? storing_ : following_).push_back(i);
  find_followers();
  must(CVodeInit(cvode_.get(), slope, 0.0, state_.get()), "CVodeInit");
  must(CVodeSStolerances(cvode_.get(), tolerance.relative_frac, tolerance.absolute_k),
       "CVodeSStolerances");
  must(CVodeSetUserData(cvode_.get(), this), "CVodeSetUserData");
  must(CVodeSetLinearSolver(cvode_.get(), lu_.solver.get(), lu_.matrix.get()),
       "CVodeSetLinearSolver");
  must(CVodeSetMaxNumSteps(cvode_.get(), most_steps), "CVodeSetMaxNumSteps");
  must(CVodeSetErrFile(cvode_.get(), nullptr), "CVodeSetErrFile");
  restart();
}

void FreeCvode::operator()(void* memory) const { CVodeFree(&memory); }

void WarmingByCvode::restart() {
  const auto state = values(state_.get());
  for (std::size_t i = 0; i < storing_.size(); ++i) state[i] = start_.start_c[storing_[i]];
  must(CVodeReInit(cvode_.get(), 0.0, state_.get()), "CVodeReInit");
}

// The heats are linear in the temperatures: a column of their matrix is what one kelvin more makes.
void WarmingByCvode::find_followers() {
  const std::size_t n = following_.size();
  if (n == 0) return;
  follower_ = zeros(n, context_);
  followers_.emplace(n, follower_, context_);
  std::vector<double> unit_c(all_c_.size(), 0.0);
  std::vector<double> base_w(all_c_.size());
  heat_into_w(start_.network, unit_c, base_w);
  for (std::size_t j = 0; j < n; ++j) {
    unit_c[following_[j]] = 1.0;
    heat_into_w(start_.network, unit_c, heat_w_);
    unit_c[following_[j]] = 0.0;
    for (std::size_t i = 0; i < n; ++i)
      SM_ELEMENT_D(followers_->matrix.get(), i, j) = heat_w_[following_[i]] - base_w[following_[i]];
  }
  must(SUNLinSolInitialize(followers_->solver.get()), "SUNLinSolInitialize");
  must(-std::abs(SUNLinSolSetup(followers_->solver.get(), followers_->matrix.get())),
       "SUNLinSolSetup");
}

// (A51): all temperatures, from those that store heat: no heat may be left in the others.
void WarmingByCvode::complete(std::span<const double> storing_c) {
  for (std::size_t i = 0; i < storing_.size(); ++i) all_c_[storing_[i]] = storing_c[i];
  if (!followers_) return;
  for (const std::size_t node : following_) all_c_[node] = 0.0;
  heat_into_w(start_.network, all_c_, heat_w_);
  const auto follower = values(follower_.get());
  for (std::size_t i = 0; i < follower.size(); ++i) follower[i] = -heat_w_[following_[i]];
  must(-std::abs(SUNLinSolSolve(followers_->solver.get(), followers_->matrix.get(), follower_.get(),
                                follower_.get(), 0.0)),
       "SUNLinSolSolve");
  for (std::size_t i = 0; i < follower.size(); ++i) all_c_[following_[i]] = follower[i];
}

int WarmingByCvode::slope(double /*t_s*/, N_Vector temps, N_Vector out, void* self) {
  auto& warming = *static_cast<WarmingByCvode*>(self);
  const auto slopes = values(out);
  warming.complete(values(temps));
  heat_into_w(warming.start_.network, warming.all_c_, warming.heat_w_);
  for (std::size_t i = 0; i < slopes.size(); ++i) {
    const std::size_t node = warming.storing_[i];
    slopes[i] = warming.heat_w_[node] / warming.start_.capacity_j_k[node];
  }
  return 0;
}

std::optional<std::vector<double>> WarmingByCvode::temps_c(double t_s) {
  double reached_s = 0.0;
  if (CVode(cvode_.get(), t_s, state_.get(), &reached_s, CV_NORMAL) < 0) return std::nullopt;
  complete(values(state_.get()));
  return all_c_;
}

long WarmingByCvode::steps() const {
  long out = 0;
  must(CVodeGetNumSteps(cvode_.get(), &out), "CVodeGetNumSteps");
  return out;
}

}  // namespace rigproof::air::by_sundials
