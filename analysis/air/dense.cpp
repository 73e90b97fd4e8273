#include "analysis/air/dense.hpp"

#include <cmath>

namespace rigproof::air {

double row_sum_norm(const Matrix& a) {
  double out = 0.0;
  for (std::size_t i = 0; i < a.order(); ++i) {
    double sum = 0.0;
    for (const double value : a.row(i)) sum += std::abs(value);
    out = std::max(out, sum);
  }
  return out;
}

Matrix product(const Matrix& a, const Matrix& b) {
  RP_EXPECT(a.order() == b.order());
  const std::size_t n = a.order();
  Matrix out(n);
  for (std::size_t i = 0; i < n; ++i) {
    const auto into = out.row(i);
    for (std::size_t k = 0; k < n; ++k) {
      const double factor = a(i, k);
      const auto from = b.row(k);
      for (std::size_t j = 0; j < n; ++j) into[j] += factor * from[j];
    }
  }
  return out;
}

void apply(const Matrix& a, std::span<const double> x, std::span<double> out) {
  for (std::size_t i = 0; i < a.order(); ++i) {
    double sum = 0.0;
    const auto row = a.row(i);
    for (std::size_t j = 0; j < a.order(); ++j) sum += row[j] * x[j];
    out[i] = sum;
  }
}

Lu::Lu(const Matrix& a) : lu_(a) {
  const std::size_t n = a.order();
  const double tiny = 1e-14;
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t pivot = k;
    for (std::size_t i = k + 1; i < n; ++i)
      if (std::abs(lu_(i, k)) > std::abs(lu_(pivot, k))) pivot = i;
    swapped_with_[k] = static_cast<std::uint8_t>(pivot);
    if (pivot != k) std::ranges::swap_ranges(lu_.row(k), lu_.row(pivot));
    double largest = 0.0;
    for (std::size_t j = 0; j < n; ++j) largest = std::max(largest, std::abs(lu_(k, j)));
    if (!(std::abs(lu_(k, k)) > tiny * largest)) {
      singular_ = true;
      return;
    }
    const double inverse = 1.0 / lu_(k, k);
    const auto from = lu_.row(k);
    for (std::size_t i = k + 1; i < n; ++i) {
      const auto into = lu_.row(i);
      if (into[k] == 0.0) continue;
      const double factor = into[k] *= inverse;
      for (std::size_t j = k + 1; j < n; ++j) into[j] -= factor * from[j];
    }
  }
}

void Lu::solve(std::span<double> x) const {
  RP_EXPECT(!singular_);
  const std::size_t n = lu_.order();
  for (std::size_t k = 0; k < n; ++k) std::swap(x[k], x[swapped_with_[k]]);
  for (std::size_t i = 1; i < n; ++i) {
    const auto row = lu_.row(i);
    double sum = x[i];
    for (std::size_t j = 0; j < i; ++j) sum -= row[j] * x[j];
    x[i] = sum;
  }
  for (std::size_t i = n; i-- > 0;) {
    const auto row = lu_.row(i);
    double sum = x[i];
    for (std::size_t j = i + 1; j < n; ++j) sum -= row[j] * x[j];
    x[i] = sum / row[i];
  }
}

void Lu::solve(Matrix& x) const {
  const std::size_t n = lu_.order();
  std::array<double, Matrix::most> column{};
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t i = 0; i < n; ++i) column[i] = x(i, j);
    solve(std::span(column).first(n));
    for (std::size_t i = 0; i < n; ++i) x(i, j) = column[i];
  }
}

}  // namespace rigproof::air
