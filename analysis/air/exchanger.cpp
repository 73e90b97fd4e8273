#include "analysis/air/exchanger.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace rigproof::air {
namespace {

// 1 - exp(-x), without loss for small x.
double saturation(double x) { return -std::expm1(-x); }

// Terms until a Poisson tail of mean 700 is below 1e-20: mean + 9.3 standard deviations and more.
constexpr std::size_t most_terms = 1024;
using Terms = std::array<double, most_terms>;

std::size_t terms_for(double mean) {
  const double enough = mean + 10.0 * std::sqrt(mean) + 24.0;
  return std::min(most_terms, static_cast<std::size_t>(enough));
}

// tail[n] = 1 - e^-x sum_{m <= n} x^m / m!, as a sum of what is left: nothing cancels. e^-700 is
// still a normal double, so the terms may be built upwards from it.
void poisson_tails(double x, std::size_t count, std::span<double> tail) {
  double term = std::exp(-x);
  for (std::size_t m = 0; m < count; ++m) {
    term *= x / static_cast<double>(m + 1);
    tail[m] = term;
  }
  for (std::size_t m = count - 1; m-- > 0;) tail[m] += tail[m + 1];
}

// (A22). Every term is positive, and those past the mean of the smaller one die out.
double unmixed_series(double ntu, double ratio) {
  const double n = std::min(ntu, most_series_ntu);
  const double smaller = ratio * n;
  if (smaller < 1e-12) return saturation(n);  // the limit, off by less than the ratio times n
  const std::size_t used = terms_for(smaller);
  const std::size_t count = terms_for(n);
  Terms larger_tail;
  Terms smaller_tail;
  poisson_tails(n, count, larger_tail);
  poisson_tails(smaller, used, smaller_tail);
  double sum = 0.0;
  for (std::size_t i = used; i-- > 0;) sum += larger_tail[i] * smaller_tail[i];
  return std::min(1.0, sum / smaller);
}

// (A21)
double counter_flow(double ntu, double ratio) {
  const double gap = 1.0 - ratio;
  if (gap == 0.0) return ntu / (1.0 + ntu);
  const double passed = saturation(ntu * gap);
  return passed / (gap + ratio * passed);
}

// Inputs checked.
double effectiveness_of(Arrangement arrangement, double ntu, double ratio) {
  if (ratio == 0.0) return saturation(ntu);  // (A24)
  switch (arrangement) {
    using enum Arrangement;
    case counter:
      return counter_flow(ntu, ratio);
    case parallel:
      return saturation(ntu * (1.0 + ratio)) / (1.0 + ratio);
    case cross_unmixed:
      return unmixed_series(ntu, ratio);
    case cross_max_mixed:  // (A23)
      return saturation(ratio * saturation(ntu)) / ratio;
    case cross_min_mixed:
      return saturation(saturation(ratio * ntu) / ratio);
  }
  return 0.0;
}

bool is_count(double value) { return value >= 0.0 && std::isfinite(value); }

}  // namespace

Result<double> effectiveness(Arrangement arrangement, double ntu, double capacity_ratio_frac) {
  if (!is_count(ntu)) return out_of_range("ntu", ntu);
  if (!(capacity_ratio_frac >= 0.0 && capacity_ratio_frac <= 1.0))
    return out_of_range("capacity_ratio_frac", capacity_ratio_frac);
  return effectiveness_of(arrangement, ntu, capacity_ratio_frac);
}

Result<double> ntu_of(Arrangement arrangement, double effectiveness_frac,
                      double capacity_ratio_frac) {
  if (!(capacity_ratio_frac >= 0.0 && capacity_ratio_frac <= 1.0))
    return out_of_range("capacity_ratio_frac", capacity_ratio_frac);
  const auto at = [&](double ntu) {
    return effectiveness_of(arrangement, ntu, capacity_ratio_frac);
  };
  if (!(effectiveness_frac >= 0.0 && effectiveness_frac < at(most_series_ntu)))
    return out_of_range("effectiveness_frac", effectiveness_frac);
  double low = 0.0;
  double high = 1.0;
  while (at(high) < effectiveness_frac) high *= 2.0;
  for (int i = 0; i < 200 && high - low > 1e-13 * high; ++i) {
    const double middle = 0.5 * (low + high);
    (at(middle) < effectiveness_frac ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

Result<double> ua_at_w_k(const AirSide& side, double flow_m3_s) {
  if (!(side.reference_ua_w_k > 0.0 && std::isfinite(side.reference_ua_w_k)))
    return out_of_range("reference_ua_w_k", side.reference_ua_w_k);
  if (!(side.reference_flow_m3_s > 0.0 && std::isfinite(side.reference_flow_m3_s)))
    return out_of_range("reference_flow_m3_s", side.reference_flow_m3_s);
  if (!(side.exponent >= 0.0 && side.exponent <= 1.0))
    return out_of_range("exponent", side.exponent);
  if (!(side.series_w_k > 0.0)) return out_of_range("series_w_k", side.series_w_k);
  if (!is_count(flow_m3_s)) return out_of_range("flow_m3_s", flow_m3_s);
  const double air =
      side.reference_ua_w_k * std::pow(flow_m3_s / side.reference_flow_m3_s, side.exponent);
  if (air == 0.0) return 0.0;
  return 1.0 / (1.0 / air + 1.0 / side.series_w_k);
}

Result<double> ua_of_resistance_w_k(double resistance_k_w, double air_w_k) {
  if (!(air_w_k > 0.0 && std::isfinite(air_w_k))) return out_of_range("air_w_k", air_w_k);
  if (!(resistance_k_w * air_w_k > 1.0 && std::isfinite(resistance_k_w)))
    return out_of_range("resistance_k_w", resistance_k_w);
  return -air_w_k * std::log1p(-1.0 / (resistance_k_w * air_w_k));
}

Result<double> inlet_conductance_w_k(const Exchange& exchange) {
  if (!is_count(exchange.ua_w_k)) return out_of_range("ua_w_k", exchange.ua_w_k);
  if (!is_count(exchange.air_w_k)) return out_of_range("air_w_k", exchange.air_w_k);
  if (!(exchange.other_w_k >= 0.0)) return out_of_range("other_w_k", exchange.other_w_k);
  const auto [smaller, larger] = std::minmax({exchange.air_w_k, exchange.other_w_k});
  if (smaller == 0.0) return 0.0;
  // As the smaller rate goes to zero q goes to smaller x (inlet difference): any huge ntu does.
  const double ntu = std::min(exchange.ua_w_k / smaller, 1e12);
  return smaller * effectiveness_of(exchange.arrangement, ntu, smaller / larger);
}

Result<double> loop_conductance_w_k(double plate_w_k, double inlet_w_k, double liquid_w_k) {
  if (!(plate_w_k > 0.0)) return out_of_range("plate_w_k", plate_w_k);
  if (!(liquid_w_k > 0.0)) return out_of_range("liquid_w_k", liquid_w_k);
  if (!(inlet_w_k > 0.0 && inlet_w_k <= liquid_w_k)) return out_of_range("inlet_w_k", inlet_w_k);
  return 1.0 / (1.0 / plate_w_k + 1.0 / inlet_w_k - 1.0 / liquid_w_k);
}

}  // namespace rigproof::air
