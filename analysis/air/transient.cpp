#include "analysis/air/transient.hpp"

#include <fmt/format.h>

#include <cmath>

#include "analysis/air/balance_lu.hpp"
#include "analysis/air/matrix_exponential.hpp"

namespace rigproof::air {
namespace {

// The constant that a source is carried by. Of the size of temperatures, so that it does not
// dominate the norm that the exponential scales by.
constexpr double constant_k = 1000.0;
constexpr double most_time_norm = 1e12;

// Of M: off-diagonals with their sign turned, and the row sums.
BalanceLu steady_elimination(const ReducedBalance& reduced) {
  Matrix negative = reduced.rates();
  for (double& rate : negative.values()) rate = -rate;
  for (std::size_t i = 0; i < negative.order(); ++i) negative(i, i) = 0.0;
  return {negative, reduced.losses()};
}

}  // namespace

// A node's temperature (less `offset`), or its first or second derivative in time.
struct Transient::Probe {
  std::size_t node;
  int derivative = 0;
  double offset = 0.0;
};

// Steps that stay a sixteenth to an eighth of the time gone by: sums of decaying exponentials have
// no finer features at that time. The next longer step is the square of the last.
class Transient::Walk {
 public:
  explicit Walk(const Transient& of) : of_(of), state_(of.start_) {
    const double norm = row_sum_norm(of.reduced_.rates());
    step_s_ = norm > 0.0 ? 0.25 / norm : 1.0;
    step_ = matrix_exponential(of.generator_, step_s_);
  }

  void advance() {
    before_ = state_;
    before_s_ = time_s_;
    last_step_s_ = step_s_;
    apply(step_, of_.used(before_), std::span(state_).first(step_.order()));
    time_s_ += step_s_;
    ++steps_;
    if (steps_ < 16 || steps_ % 8 != 0) return;
    step_ = product(step_, step_);
    step_s_ *= 2.0;
  }

  [[nodiscard]] const State& before() const { return before_; }
  [[nodiscard]] const State& state() const { return state_; }
  [[nodiscard]] double before_s() const { return before_s_; }
  [[nodiscard]] double last_step_s() const { return last_step_s_; }
  [[nodiscard]] double time_s() const { return time_s_; }
  [[nodiscard]] bool exhausted() const { return steps_ > 8 * 64; }

 private:
  const Transient& of_;
  Matrix step_;
  State state_{};
  State before_{};
  double step_s_ = 0;
  double last_step_s_ = 0;
  double time_s_ = 0;
  double before_s_ = 0;
  int steps_ = 0;
};

Result<Transient> Transient::of(const HeatBalance& balance, std::span<const double> capacity_j_k,
                                std::span<const double> start_c) {
  auto reduced = ReducedBalance::of(balance, capacity_j_k);
  if (!reduced) return tl::unexpected(reduced.error());
  if (start_c.size() != reduced->nodes())
    return out_of_range("starts", static_cast<double>(start_c.size()));
  Transient out;
  out.reduced_ = *reduced;
  const auto storing = out.reduced_.storing();
  const std::size_t n = storing.size();
  for (std::size_t i = 0; i < n; ++i) {
    out.start_[i] = start_c[storing[i]];
    if (!std::isfinite(out.start_[i]))
      return out_of_range(fmt::format("start_c[{}]", storing[i]).c_str(), out.start_[i]);
  }
  const BalanceLu elimination = steady_elimination(out.reduced_);
  if (!elimination.singular()) {
    State steady{};
    std::ranges::copy(out.reduced_.gains(), steady.begin());
    elimination.solve(std::span(steady).first(n));
    out.steady_c_ = out.reduced_.complete(std::span(steady).first(n), true);
    for (std::size_t i = 0; i < n; ++i) out.start_[i] -= steady[i];
    out.generator_ = out.reduced_.rates();
    return out;
  }
  out.generator_ = Matrix(n + 1);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) out.generator_(i, j) = out.reduced_.rates()(i, j);
    out.generator_(i, n) = out.reduced_.gains()[i] / constant_k;
  }
  out.start_[n] = constant_k;
  return out;
}

Transient::State Transient::moved(const State& from, double by_s) const {
  State out{};
  apply(matrix_exponential(generator_, by_s), used(from), std::span(out).first(generator_.order()));
  return out;
}

NodeValues Transient::temps_of(const State& state) const {
  NodeValues out = reduced_.complete(used(state), !steady_c_);
  if (steady_c_)
    for (std::size_t i = 0; i < reduced_.nodes(); ++i) out[i] += (*steady_c_)[i];
  return out;
}

double Transient::value(const State& state, const Probe& probe) const {
  if (probe.derivative == 0) return temps_of(state)[probe.node] - probe.offset;
  State from = state;
  State slope{};
  for (int i = 0; i < probe.derivative; ++i) {
    apply(generator_, used(from), std::span(slope).first(generator_.order()));
    from = slope;
  }
  return reduced_.complete(used(slope), false)[probe.node];
}

// Newton's method on the exact solution, halving where it leaves the bracket [0, within_s], at
// whose ends the probe has opposite signs.
double Transient::zero_s(const State& from, double within_s, const Probe& probe) const {
  const Probe slope{.node = probe.node, .derivative = probe.derivative + 1};
  double low = 0.0;
  double high = within_s;
  const bool rises = value(from, probe) < 0.0;
  double t = 0.5 * within_s;
  for (int i = 0; i < 100; ++i) {
    const State state = moved(from, t);
    const double now = value(state, probe);
    if (now == 0.0) return t;
    ((now < 0.0) == rises ? low : high) = t;
    double next = t - now / value(state, slope);
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (std::abs(next - t) <= 1e-13 * within_s || high - low <= 1e-13 * within_s) return next;
    t = next;
  }
  return t;
}

// No node is ever further from its end than the storing node that is furthest now, and that
// distance never grows (maximum principle: rows of M sum to <= 0).
double Transient::largest_difference_k(const State& state) const {
  double out = 0.0;
  for (const double difference : used(state)) out = std::max(out, std::abs(difference));
  return out;
}

bool Transient::is_time(double t_s) const {
  return t_s >= 0.0 && t_s * row_sum_norm(generator_) <= most_time_norm;
}

Result<NodeValues> Transient::temps_c(double t_s) const {
  if (!is_time(t_s)) return out_of_range("t_s", t_s);
  return temps_of(moved(start_, t_s));
}

Result<void> Transient::sample(std::span<const double> times_s, std::span<double> out_c) const {
  const std::size_t nodes = reduced_.nodes();
  RP_EXPECT(out_c.size() == times_s.size() * nodes);
  State state = start_;
  State next{};
  Matrix step = Matrix::identity(generator_.order());
  double step_s = 0.0;
  double now_s = 0.0;
  for (std::size_t k = 0; k < times_s.size(); ++k) {
    const double by_s = times_s[k] - now_s;
    if (!(by_s >= 0.0 && is_time(times_s[k]))) return out_of_range("times_s", times_s[k]);
    if (std::abs(by_s - step_s) > 1e-14 * times_s[k]) {
      step = matrix_exponential(generator_, by_s);
      step_s = by_s;
    }
    apply(step, used(state), std::span(next).first(generator_.order()));
    state = next;
    now_s = times_s[k];
    const NodeValues temps = temps_of(state);
    for (std::size_t i = 0; i < nodes; ++i) out_c[k * nodes + i] = temps[i];
  }
  return {};
}

Result<std::optional<double>> Transient::time_to_reach_s(std::size_t node, double temp_c,
                                                         double horizon_s) const {
  if (node >= reduced_.nodes()) return out_of_range("node", static_cast<double>(node));
  if (!std::isfinite(temp_c)) return out_of_range("temp_c", temp_c);
  if (!is_time(horizon_s)) return out_of_range("horizon_s", horizon_s);
  const Probe probe{.node = node, .derivative = 0, .offset = temp_c};
  const Probe slope{.node = node, .derivative = 1};
  Walk walk(*this);
  double last = value(walk.state(), probe);
  if (last == 0.0) return 0.0;
  while (walk.time_s() < horizon_s) {
    const double out_of_reach_k =
        steady_c_ ? std::abs((*steady_c_)[node] - temp_c) - largest_difference_k(walk.state()) : 0;
    if (out_of_reach_k > 0.0 || walk.exhausted()) return std::nullopt;
    walk.advance();
    const double now = value(walk.state(), probe);
    double within_s = walk.last_step_s();
    bool reached = now == 0.0 || (now < 0.0) != (last < 0.0);
    // A rise and a fall inside one step: look at the turn.
    const double turn = value(walk.before(), slope);
    if (!reached && turn * last < 0.0 && turn * value(walk.state(), slope) < 0.0) {
      within_s = zero_s(walk.before(), within_s, slope);
      reached = (value(moved(walk.before(), within_s), probe) < 0.0) != (last < 0.0);
    }
    if (reached) {
      const double at_s = walk.before_s() + zero_s(walk.before(), within_s, probe);
      return at_s <= horizon_s ? std::optional(at_s) : std::nullopt;
    }
    last = now;
  }
  return std::nullopt;
}

Result<std::optional<double>> Transient::time_to_settle_s(std::size_t node, double within_k) const {
  if (node >= reduced_.nodes()) return out_of_range("node", static_cast<double>(node));
  if (!(within_k >= 1e-6 && std::isfinite(within_k))) return out_of_range("within_k", within_k);
  if (!steady_c_) return std::nullopt;
  const double end_c = (*steady_c_)[node];
  const Probe slope{.node = node, .derivative = 1};
  const Probe difference{.node = node, .derivative = 0, .offset = end_c};
  double settled_s = 0.0;
  // From a state outside the band to one inside, at most `by_s` later.
  const auto enters = [&](const State& from, double from_s, double by_s) {
    const double edge = value(from, difference) > 0.0 ? within_k : -within_k;
    settled_s =
        from_s + zero_s(from, by_s, {.node = node, .derivative = 0, .offset = end_c + edge});
  };
  Walk walk(*this);
  double last = value(walk.state(), difference);
  while (largest_difference_k(walk.state()) > within_k) {
    if (walk.exhausted()) return std::nullopt;
    walk.advance();
    const double now = value(walk.state(), difference);
    if (std::abs(now) <= within_k) {
      const double turn = value(walk.before(), slope);
      if (turn * value(walk.state(), slope) < 0.0) {
        const double turn_s = zero_s(walk.before(), walk.last_step_s(), slope);
        const State at_turn = moved(walk.before(), turn_s);
        if (std::abs(value(at_turn, difference)) > within_k) {
          enters(at_turn, walk.before_s() + turn_s, walk.last_step_s() - turn_s);
          last = now;
          continue;
        }
      }
      if (std::abs(last) > within_k) enters(walk.before(), walk.before_s(), walk.last_step_s());
    }
    last = now;
  }
  return settled_s;
}

// (A55): the largest eigenvalue of -M^-1, which has no negative entry and so a real largest one
// (Perron): squaring the matrix 50 times gives it to rounding, however close the next one is.
std::optional<double> Transient::slowest_time_constant_s() const {
  if (!steady_c_) return std::nullopt;
  const std::size_t n = generator_.order();
  if (n == 0) return 0.0;
  const BalanceLu elimination = steady_elimination(reduced_);
  Matrix power(n);
  State column{};
  for (std::size_t j = 0; j < n; ++j) {
    column.fill(0.0);
    column[j] = 1.0;
    elimination.solve(std::span(column).first(n));
    for (std::size_t i = 0; i < n; ++i) power(i, j) = column[i];
  }
  double log_root = 0.0;
  double share = 1.0;
  for (int i = 0; i < 50; ++i) {
    const double norm = row_sum_norm(power);
    log_root += share * std::log(norm);
    for (double& entry : power.values()) entry /= norm;
    power = product(power, power);
    share *= 0.5;
  }
  return std::exp(log_root);
}

}  // namespace rigproof::air
