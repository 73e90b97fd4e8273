#include "analysis/air/balance_lu.hpp"

#include <cmath>

namespace rigproof::air {

BalanceLu::BalanceLu(const Matrix& a, std::span<const double> row_sums) : weights_(a) {
  const std::size_t n = a.order();
  RP_EXPECT(row_sums.size() == n);
  std::array<double, Matrix::most> rest{};
  std::ranges::copy(row_sums, rest.begin());
  for (std::size_t i = 0; i < n; ++i) {
    const auto row = weights_.row(i);
    row[i] = 0.0;
    for (double& value : row) {
      RP_EXPECT(value <= 0.0);
      value = -value;
    }
    RP_EXPECT(rest[i] >= 0.0);
  }
  for (std::size_t k = 0; k < n; ++k) {
    const auto from = weights_.row(k);
    double sum = rest[k];
    for (std::size_t j = k + 1; j < n; ++j) sum += from[j];
    diagonal_[k] = sum;
    if (!(sum > 0.0 && std::isfinite(sum))) {
      singular_ = true;
      return;
    }
    for (std::size_t i = k + 1; i < n; ++i) {
      const auto into = weights_.row(i);
      if (into[k] == 0.0) continue;
      const double factor = into[k] /= sum;
      for (std::size_t j = k + 1; j < n; ++j) into[j] += factor * from[j];
      into[i] = 0.0;  // what comes back to itself is no exchange
      rest[i] += factor * rest[k];
    }
  }
}

void BalanceLu::solve(std::span<double> x) const {
  RP_EXPECT(!singular_);
  const std::size_t n = weights_.order();
  for (std::size_t i = 1; i < n; ++i) {
    const auto row = weights_.row(i);
    double sum = x[i];
    for (std::size_t j = 0; j < i; ++j) sum += row[j] * x[j];
    x[i] = sum;
  }
  for (std::size_t i = n; i-- > 0;) {
    const auto row = weights_.row(i);
    double sum = x[i];
    for (std::size_t j = i + 1; j < n; ++j) sum += row[j] * x[j];
    x[i] = sum / diagonal_[i];
  }
}

}  // namespace rigproof::air
