// Dense elimination: against exact inverses, and what it must refuse.
#include "analysis/air/dense.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "analysis/air/balance_lu.hpp"

namespace rigproof::air {
namespace {

Matrix of(std::initializer_list<std::initializer_list<double>> rows) {
  Matrix out(rows.size());
  std::size_t i = 0;
  for (const auto& row : rows) {
    std::ranges::copy(row, out.row(i).begin());
    ++i;
  }
  return out;
}

// The inverse of the Hilbert matrix of order 4 is whole numbers (closed form); its condition,
// 1.6e4, costs as many digits.
TEST(Dense, InvertsTheHilbertMatrix) {
  Matrix hilbert(4);
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = 0; j < 4; ++j) hilbert(i, j) = 1.0 / static_cast<double>(i + j + 1);
  const Matrix exact = of({{16, -120, 240, -140},
                           {-120, 1200, -2700, 1680},
                           {240, -2700, 6480, -4200},
                           {-140, 1680, -4200, 2800}});
  Matrix inverse = Matrix::identity(4);
  Lu(hilbert).solve(inverse);
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = 0; j < 4; ++j) EXPECT_NEAR(inverse(i, j), exact(i, j), 1e-8);
}

TEST(Dense, SwapsRowsWhereAPivotIsZero) {
  std::array<double, 3> x{5.0, 7.0, 3.0};
  Lu(of({{0, 1, 0}, {0, 0, 1}, {1, 0, 0}})).solve(x);
  EXPECT_EQ(x, (std::array<double, 3>{3.0, 5.0, 7.0}));
}

TEST(Dense, SeesWhatIsSingular) {
  EXPECT_TRUE(Lu(of({{1, 2}, {2, 4}})).singular());
  EXPECT_TRUE(Lu(Matrix(3)).singular());
  EXPECT_FALSE(Lu(of({{1, 2}, {2, 4.001}})).singular());
  EXPECT_THROW(Lu(Matrix(1)).solve(std::span<double>{}), ContractViolation);
  EXPECT_THROW(Matrix(29), ContractViolation);
}

// By hand: 1 to 2 and 2 to 1 by 1, 2 to the outside by s: inverse {{(1 + s) / s, 1 / s}, {1 / s, 1
// / s}}. The diagonal 1 + s rounds s away; kept apart it does not.
TEST(BalanceLu, KeepsAThinWayOut) {
  constexpr double s = 1e-18;
  const std::array<double, 2> way_out{0.0, s};
  std::array<double, 2> x{1.0, 0.0};
  const BalanceLu lu(of({{0, -1}, {-1, 0}}), way_out);
  ASSERT_FALSE(lu.singular());
  lu.solve(x);
  EXPECT_NEAR(x[0] * s, 1.0, 1e-15);
  EXPECT_NEAR(x[1] * s, 1.0, 1e-15);
  EXPECT_TRUE(BalanceLu(of({{0, -1}, {-1, 0}}), std::array<double, 2>{}).singular());
}

}  // namespace
}  // namespace rigproof::air
