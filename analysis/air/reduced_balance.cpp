#include "analysis/air/reduced_balance.hpp"

#include <fmt/format.h>

#include <cmath>

namespace rigproof::air {
namespace {

Result<void> check(const HeatBalance& balance, std::span<const double> capacity_j_k) {
  const std::size_t n = balance.a.order();
  if (n > most_unknowns) return out_of_range("nodes", static_cast<double>(n));
  if (capacity_j_k.size() != n)
    return out_of_range("capacities", static_cast<double>(capacity_j_k.size()));
  for (std::size_t i = 0; i < n; ++i) {
    if (!(capacity_j_k[i] >= 0.0 && std::isfinite(capacity_j_k[i])))
      return out_of_range(fmt::format("capacity_j_k[{}]", i).c_str(), capacity_j_k[i]);
    if (!(balance.row_sum_w_k[i] >= 0.0 && std::isfinite(balance.row_sum_w_k[i])))
      return out_of_range(fmt::format("row_sum_w_k[{}]", i).c_str(), balance.row_sum_w_k[i]);
    if (!std::isfinite(balance.source_w[i]))
      return out_of_range(fmt::format("source_w[{}]", i).c_str(), balance.source_w[i]);
    for (std::size_t j = 0; j < n; ++j)
      if (i != j && !(balance.a(i, j) <= 0.0 && std::isfinite(balance.a(i, j))))
        return out_of_range(fmt::format("a({}, {})", i, j).c_str(), balance.a(i, j));
  }
  return {};
}

}  // namespace

Result<ReducedBalance> ReducedBalance::of(const HeatBalance& balance,
                                          std::span<const double> capacity_j_k) {
  if (auto well = check(balance, capacity_j_k); !well) return tl::unexpected(well.error());
  ReducedBalance out;
  const std::size_t n = balance.a.order();
  out.rows_ = balance.a;
  for (double& value : out.rows_.values()) value = -value;
  for (std::size_t i = 0; i < n; ++i) out.rows_(i, i) = 0.0;
  out.rest_w_k_ = balance.row_sum_w_k;
  out.source_w_ = balance.source_w;
  for (std::size_t i = 0; i < n; ++i) {
    if (capacity_j_k[i] > 0.0) {
      out.storing_[out.storing_count_++] = i;
      continue;
    }
    if (!(out.exchange_w_k(i) > 0.0))
      return bad_input(fmt::format("node {}: neither stores heat nor exchanges any", i));
    out.eliminate(i);
  }
  out.find_rates(capacity_j_k);
  return out;
}

double ReducedBalance::exchange_w_k(std::size_t node) const {
  double out = rest_w_k_[node];
  for (const double value : rows_.row(node)) out += value;
  return out;
}

void ReducedBalance::eliminate(std::size_t node) {
  const double diagonal = exchange_w_k(node);
  diagonal_w_k_[node] = diagonal;
  eliminated_[eliminated_count_] = node;
  const auto from = rows_.row(node);
  for (std::size_t i = 0; i < nodes(); ++i) {
    if (diagonal_w_k_[i] > 0.0) continue;  // eliminated
    const auto into = rows_.row(i);
    const double factor = into[node] / diagonal;
    into[node] = 0.0;
    if (factor == 0.0) continue;
    for (std::size_t j = 0; j < nodes(); ++j) into[j] += factor * from[j];
    into[i] = 0.0;
    rest_w_k_[i] += factor * rest_w_k_[node];
    source_w_[i] += factor * source_w_[node];
  }
  ++eliminated_count_;
}

void ReducedBalance::find_rates(std::span<const double> capacity_j_k) {
  rates_ = Matrix(storing_count_);
  for (std::size_t i = 0; i < storing_count_; ++i) {
    const std::size_t node = storing_[i];
    const double capacity = capacity_j_k[node];
    for (std::size_t j = 0; j < storing_count_; ++j)
      rates_(i, j) = rows_(node, storing_[j]) / capacity;
    rates_(i, i) = -exchange_w_k(node) / capacity;
    losses_[i] = rest_w_k_[node] / capacity;
    gains_[i] = source_w_[node] / capacity;
  }
}

NodeValues ReducedBalance::complete(std::span<const double> storing_values,
                                    bool with_source) const {
  NodeValues out{};
  for (std::size_t i = 0; i < storing_count_; ++i) out[storing_[i]] = storing_values[i];
  for (std::size_t e = eliminated_count_; e-- > 0;) {
    const std::size_t node = eliminated_[e];
    double sum = with_source ? source_w_[node] : 0.0;
    const auto row = rows_.row(node);
    for (std::size_t j = 0; j < nodes(); ++j) sum += row[j] * out[j];
    out[node] = sum / diagonal_w_k_[node];
  }
  return out;
}

}  // namespace rigproof::air
