// Small dense matrices of at most 28 rows, on the stack: what heat balances of a build need.
//
// Plain row-major storage without gaps, elimination with partial pivoting [golub-van-loan]. Only
// the rows in use are written or copied. No allocation.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>

#include "base/contract.hpp"

namespace rigproof::air {

class Matrix {
 public:
  /// 11 rooms and 16 bodies, and one row for what stays constant (transient.hpp).
  static constexpr std::size_t most = 28;

  Matrix() {}  // of no rows; the values stay unset on purpose
  /// All zero.
  explicit Matrix(std::size_t order) : order_(order) {
    RP_EXPECT(order <= most);
    std::fill_n(values_.begin(), order * order, 0.0);
  }
  Matrix(const Matrix& other) : order_(other.order_) { take(other); }
  Matrix& operator=(const Matrix& other) {
    if (this == &other) return *this;
    order_ = other.order_;
    take(other);
    return *this;
  }
  ~Matrix() = default;

  static Matrix identity(std::size_t order) {
    Matrix out(order);
    for (std::size_t i = 0; i < order; ++i) out(i, i) = 1.0;
    return out;
  }

  [[nodiscard]] std::size_t order() const { return order_; }
  [[nodiscard]] double& operator()(std::size_t row, std::size_t column) {
    return values_[row * order_ + column];
  }
  [[nodiscard]] double operator()(std::size_t row, std::size_t column) const {
    return values_[row * order_ + column];
  }
  [[nodiscard]] std::span<double> row(std::size_t i) {
    return std::span(values_).subspan(i * order_, order_);
  }
  [[nodiscard]] std::span<const double> row(std::size_t i) const {
    return std::span(values_).subspan(i * order_, order_);
  }
  /// Every value, row after row.
  [[nodiscard]] std::span<double> values() { return std::span(values_).first(order_ * order_); }
  [[nodiscard]] std::span<const double> values() const {
    return std::span(values_).first(order_ * order_);
  }

 private:
  void take(const Matrix& other) {
    std::copy_n(other.values_.begin(), order_ * order_, values_.begin());
  }

  std::size_t order_ = 0;
  std::array<double, most * most> values_;
};

/// Largest sum of absolute values in a row.
[[nodiscard]] double row_sum_norm(const Matrix& a);
/// a b; contract: of one order.
[[nodiscard]] Matrix product(const Matrix& a, const Matrix& b);
/// out = a x; out and x are different places.
void apply(const Matrix& a, std::span<const double> x, std::span<double> out);

/// P A = L U.
class Lu {
 public:
  Lu() = default;
  explicit Lu(const Matrix& a);

  /// A pivot is zero, or so small against its row (1e-14) that nothing can be said.
  [[nodiscard]] bool singular() const { return singular_; }
  /// In place: A x = x as given. Contract: not singular.
  void solve(std::span<double> x) const;
  /// In place, every column. Contract: not singular.
  void solve(Matrix& x) const;

 private:
  Matrix lu_;
  std::array<std::uint8_t, Matrix::most> swapped_with_{};
  bool singular_ = false;
};

}  // namespace rigproof::air
