// Arithmetic with Draws. Oracles: the same sum sample by sample in plain doubles, corners by hand,
// and the identity that what is shared cancels.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "base/draws.hpp"

namespace rigproof {
namespace {

Draws cell(const char* name, double low, double high) {
  return Draws::uniform(low, high, stream("case", name, "depth_mm"));
}
Draws range(const char* name, double low, double high) {
  return Draws::span(low, high, stream("case", name, "depth_mm"));
}

TEST(DrawsArithmetic, WhatIsSharedCancels) {
  const Draws a = cell("a", 1.0, 2.0);
  const Draws same = cell("a", 1.0, 2.0);
  const Draws zero = a - same;
  for (int i = 0; i < draw_count; ++i) ASSERT_EQ(zero[i], 0.0);
  // Interval arithmetic cannot know: [1, 2] - [1, 2] = [-1, 1].
  EXPECT_EQ(zero.low(), -1.0);
  EXPECT_EQ(zero.high(), 1.0);
  Draws itself = a;
  itself -= itself;
  for (int i = 0; i < draw_count; ++i) ASSERT_EQ(itself[i], 0.0);
  EXPECT_EQ(itself.low(), -1.0);
  EXPECT_EQ(itself.high(), 1.0);
  Draws twice = a;
  twice += twice;
  for (int i = 0; i < draw_count; ++i) ASSERT_EQ(twice[i], 2.0 * a[i]);
  EXPECT_EQ(twice.low(), 2.0);
  EXPECT_EQ(twice.high(), 4.0);
}

TEST(DrawsArithmetic, CertainNumbersStayCertain) {
  const Draws a = 3.0;
  const Draws b = 4.5;
  EXPECT_TRUE((a + b).is_certain());
  EXPECT_EQ((a + b)[0], 7.5);
  EXPECT_EQ((a - b)[255], -1.5);
  EXPECT_EQ((a * -2.0)[7], -6.0);
  EXPECT_EQ((a * -2.0).low(), -6.0);
  EXPECT_EQ(Draws::larger(a, b)[3], 4.5);
  EXPECT_EQ(Draws::smaller(a, b)[3], 3.0);
  EXPECT_TRUE(Draws::larger(a, b).is_certain());
}

TEST(DrawsArithmetic, HullsOfCorners) {
  // a in [1, 2], b in [-3, 5], by hand: a - b in [1 - 5, 2 + 3]; -2 b in [-10, 6];
  // max(a, b) in [max(1, -3), max(2, 5)]; min(a, b) in [min(1, -3), min(2, 5)].
  const Draws a = range("a", 1.0, 2.0);
  const Draws b = cell("b", -3.0, 5.0);
  const auto hull = [](const Draws& d) { return std::pair(d.low(), d.high()); };
  EXPECT_EQ(hull(a + b), std::pair(-2.0, 7.0));
  EXPECT_EQ(hull(a - b), std::pair(-4.0, 5.0));
  EXPECT_EQ(hull(b - a), std::pair(-5.0, 4.0));
  EXPECT_EQ(hull(b * -2.0), std::pair(-10.0, 6.0));
  EXPECT_EQ(hull(Draws::larger(a, b)), std::pair(1.0, 5.0));
  EXPECT_EQ(hull(Draws::smaller(a, b)), std::pair(-3.0, 2.0));
  EXPECT_EQ(hull(10.0 - a), std::pair(8.0, 9.0));
}

TEST(DrawsArithmetic, SpansMarkWhateverTheyTouch) {
  const Draws a = range("a", 1.0, 2.0);
  const Draws b = cell("b", -3.0, 5.0);
  for (const Draws& d : {a + b, b + a, a - b, b - a, a * 0.5, a + 1.0, 1.0 - a, Draws::larger(a, b),
                         Draws::smaller(b, a)})
    EXPECT_TRUE(d.spans());
  EXPECT_FALSE((b + b).spans());
}

TEST(DrawsArithmetic, AbsentStaysAbsent) {
  const Draws gone = Draws::absent();
  const Draws a = cell("a", 1.0, 2.0);
  for (const Draws& d : {gone, gone + 1.0, 1.0 + gone, gone - a, a - gone, a + gone, gone * 3.0,
                         Draws::larger(a, gone), Draws::smaller(gone, a), gone - gone})
    EXPECT_TRUE(d.is_absent());
  EXPECT_FALSE((a + a).is_absent());
  EXPECT_THROW((void)Draws::at_most(gone, a), ContractViolation);
  EXPECT_THROW((void)Draws::at_most(a, gone), ContractViolation);
}

// One random expression, grown in Draws and in plain doubles side by side.
struct Twin {
  Draws draws;
  std::vector<double> plain;
};

class Grower {
 public:
  explicit Grower(unsigned seed) : random_(seed) {}

  Twin leaf() {
    const auto [low, high] = std::minmax({number(), number()});
    const Stream cell = stream("fan", std::to_string(random_() % 5), "speed_rpm");
    Twin out{.draws = low, .plain = {}};
    if (random_() % 3 == 0) out.draws = Draws::uniform(low, high, cell);
    if (random_() % 3 == 1) out.draws = Draws::span(low, high, cell);
    for (int i = 0; i < draw_count; ++i) out.plain.push_back(out.draws[i]);
    return out;
  }

  Twin tree(int depth) {
    if (depth == 0) return leaf();
    const Twin a = tree(depth - 1);
    const Twin b = tree(depth - 1);
    const double factor = number();
    switch (random_() % 5) {
      case 0:
        return {a.draws + b.draws, each(a, b, [](double x, double y) { return x + y; })};
      case 1:
        return {a.draws - b.draws, each(a, b, [](double x, double y) { return x - y; })};
      case 2:
        return {Draws::larger(a.draws, b.draws),
                each(a, b, [](double x, double y) { return x > y ? x : y; })};
      case 3:
        return {Draws::smaller(a.draws, b.draws),
                each(a, b, [](double x, double y) { return x < y ? x : y; })};
      default:
        return {a.draws * factor, each(a, b, [&](double x, double) { return x * factor; })};
    }
  }

 private:
  double number() { return std::uniform_real_distribution<double>(-10.0, 10.0)(random_); }

  template <class Operation>
  static std::vector<double> each(const Twin& a, const Twin& b, Operation operation) {
    std::vector<double> out;
    for (std::size_t i = 0; i < a.plain.size(); ++i)
      out.push_back(operation(a.plain[i], b.plain[i]));
    return out;
  }

  std::mt19937 random_;
};

TEST(DrawsArithmetic, IsSampleBySampleAndStaysInItsHull) {
  for (unsigned seed = 0; seed < 400; ++seed) {
    const Twin twin = Grower(seed).tree(4);
    ASSERT_LE(twin.draws.low(), twin.draws.high()) << seed;
    for (int i = 0; i < draw_count; ++i) {
      ASSERT_EQ(twin.draws[i], twin.plain[static_cast<std::size_t>(i)]) << seed;
      ASSERT_GE(twin.draws[i], twin.draws.low()) << seed;
      ASSERT_LE(twin.draws[i], twin.draws.high()) << seed;
    }
  }
}

TEST(DrawsAtMost, CountsLikeALoop) {
  for (unsigned seed = 0; seed < 600; ++seed) {
    Grower grower(seed);
    const int depth = static_cast<int>(seed % 3);
    const Twin a = grower.tree(depth);
    const Twin b = grower.tree(depth);
    const DrawSet got = Draws::at_most(a.draws, b.draws);
    for (std::size_t i = 0; i < draw_count; ++i)
      ASSERT_EQ(got[i], a.plain[i] <= b.plain[i]) << seed;
  }
}

TEST(DrawsAtMost, TouchingIsEnough) {
  EXPECT_TRUE(Draws::at_most(2.0, 2.0).all());
  EXPECT_TRUE(Draws::at_most(range("a", 1.0, 2.0), range("b", 2.0, 3.0)).all());
  // A span on [2, 3] includes its ends: exactly one draw stands at 2.
  EXPECT_EQ(Draws::at_most(range("b", 2.0, 3.0), 2.0).count(), 1U);
  EXPECT_TRUE(Draws::at_most(cell("b", 2.5, 3.0), cell("a", 1.0, 2.0)).none());
  const Draws a = cell("a", 1.0, 2.0);
  EXPECT_TRUE(Draws::at_most(a, a).all());
}

// Copies share samples that are made at the first look; changing one changes no other.
TEST(DrawsCopy, SharesNothingThatIsChanged) {
  const Draws unseen = cell("a", 1.0, 2.0);
  const Draws seen = cell("a", 1.0, 2.0);
  const std::array<double, 3> before = {seen[0], seen[100], seen[255]};
  Draws sum = 0.0;  // adding to nothing shares
  sum += unseen;
  sum *= 2.0;
  Draws copy = unseen;
  copy += 1.0;
  Draws twice = unseen;
  twice += twice;
  constexpr std::array looked_at = {0, 100, 255};
  for (std::size_t i = 0; i < before.size(); ++i) {
    const int draw = looked_at[i];
    EXPECT_EQ(unseen[draw], before[i]);
    EXPECT_EQ(sum[draw], 2.0 * before[i]);
    EXPECT_EQ(copy[draw], before[i] + 1.0);
    EXPECT_EQ(twice[draw], before[i] + before[i]);
  }
}

TEST(DrawsCopy, KeepsEverything) {
  Draws a = range("a", 1.0, 2.0);
  const Draws b = a;
  a *= 3.0;
  EXPECT_EQ(b.low(), 1.0);
  EXPECT_TRUE(b.spans());
  EXPECT_EQ(a[5], 3.0 * b[5]);
  a = b;
  EXPECT_EQ(a[5], b[5]);
  a = 7.0;
  EXPECT_TRUE(a.is_certain());
  EXPECT_FALSE(a.spans());
  EXPECT_EQ(a[5], 7.0);
}

}  // namespace
}  // namespace rigproof
