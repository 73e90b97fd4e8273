#include "analysis/air/matrix_exponential.hpp"

#include <cmath>

namespace rigproof::air {
namespace {

constexpr std::size_t degree = 13;

// b_j = (2m - j)! m! / ((2m)! (m - j)! j!), from one to the next.
constexpr std::array<double, degree + 1> pade_coefficients() {
  std::array<double, degree + 1> out{};
  out[0] = 1.0;
  for (std::size_t j = 1; j <= degree; ++j)
    out[j] = out[j - 1] * static_cast<double>(degree - j + 1) /
             static_cast<double>((2 * degree - j + 1) * j);
  return out;
}

void add(Matrix& to, double factor, const Matrix& from) {
  const auto target = to.values();
  const auto source = from.values();
  for (std::size_t i = 0; i < target.size(); ++i) target[i] += factor * source[i];
}

// The approximant p(x) / p(-x): even powers are shared, the odd ones are x times a sum of such.
Matrix pade(const Matrix& x) {
  constexpr auto b = pade_coefficients();
  const std::size_t n = x.order();
  const Matrix one = Matrix::identity(n);
  const Matrix x2 = product(x, x);
  const Matrix x4 = product(x2, x2);
  const Matrix x6 = product(x4, x2);
  // For 0: b_0 + b_2 x2 + b_4 x4 + b_6 x6 + x6 (b_8 x2 + b_10 x4 + b_12 x6); for 1 the odd ones.
  const auto sums = [&](std::size_t odd) {
    Matrix high(n);
    add(high, b[8 + odd], x2);
    add(high, b[10 + odd], x4);
    add(high, b[12 + odd], x6);
    Matrix out = product(x6, high);
    add(out, b[odd], one);
    add(out, b[2 + odd], x2);
    add(out, b[4 + odd], x4);
    add(out, b[6 + odd], x6);
    return out;
  };
  const auto even_sums = sums(0);
  const Matrix odd_sums = product(x, sums(1));
  Matrix above = even_sums;
  add(above, 1.0, odd_sums);
  Matrix below = even_sums;
  add(below, -1.0, odd_sums);
  Lu(below).solve(above);
  return above;
}

}  // namespace

Matrix matrix_exponential(const Matrix& a, double t) {
  constexpr double most_norm = 5.371920351148152;  // theta_13 of the source
  const double norm = row_sum_norm(a) * std::abs(t);
  RP_EXPECT(norm <= 1e15);
  const int halvings =
      norm > most_norm ? static_cast<int>(std::ceil(std::log2(norm / most_norm))) : 0;
  Matrix scaled = a;
  for (double& value : scaled.values()) value *= std::ldexp(t, -halvings);
  Matrix out = pade(scaled);
  for (int i = 0; i < halvings; ++i) out = product(out, out);
  return out;
}

}  // namespace rigproof::air
