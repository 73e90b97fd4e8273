// Draws: how the samples are made and read. Oracles: the definition of stratified quantiles, a type
// 5 quantile written a second way (itself held against published values), and plain loops.
#include "base/draws.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "base/contract.hpp"

namespace rigproof {
namespace {

Stream any_stream(int i) { return stream("gpu", "card-" + std::to_string(i), "length_mm"); }

std::vector<double> samples_of(const Draws& draws) {
  std::vector<double> samples;
  for (int i = 0; i < draw_count; ++i) samples.push_back(draws[i]);
  return samples;
}

std::vector<double> sorted(std::vector<double> samples) {
  std::ranges::sort(samples);
  return samples;
}

// Type 5 of Hyndman and Fan, by its other definition: straight lines through the points
// (p_k, x_k) with p_k = (k - 1/2)/n, flat outside. Shares no code with Draws::quantile.
double quantile_by_lines(const std::vector<double>& ascending, double p) {
  const auto n = static_cast<double>(ascending.size());
  for (std::size_t k = 0; k < ascending.size(); ++k) {
    const double here = (static_cast<double>(k) + 0.5) / n;
    if (p > here) continue;
    if (k == 0) return ascending.front();
    const double before = here - 1.0 / n;
    const double share = (p - before) / (here - before);
    return ascending[k - 1] * (1.0 - share) + ascending[k] * share;
  }
  return ascending.back();
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
  double mean_a = 0.0;
  double mean_b = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    mean_a += a[i] / static_cast<double>(a.size());
    mean_b += b[i] / static_cast<double>(b.size());
  }
  double ab = 0.0;
  double aa = 0.0;
  double bb = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ab += (a[i] - mean_a) * (b[i] - mean_b);
    aa += (a[i] - mean_a) * (a[i] - mean_a);
    bb += (b[i] - mean_b) * (b[i] - mean_b);
  }
  return ab / std::sqrt(aa * bb);
}

TEST(DrawsUniform, IsStratified) {
  // On [0, 256] the quantiles (k + 1/2)/256 are k + 1/2, exact in binary.
  const auto ascending = sorted(samples_of(Draws::uniform(0.0, 256.0, any_stream(1))));
  for (int k = 0; k < draw_count; ++k) ASSERT_EQ(ascending[static_cast<std::size_t>(k)], k + 0.5);
}

TEST(DrawsUniform, HullIsTheIntervalAndHoldsTheSamples) {
  const Draws draws = Draws::uniform(-0.3, 0.7, any_stream(2));
  EXPECT_EQ(draws.low(), -0.3);
  EXPECT_EQ(draws.high(), 0.7);
  EXPECT_FALSE(draws.is_certain());
  EXPECT_FALSE(draws.spans());
  EXPECT_NEAR(draws.mean(), 0.2, 1e-15);    // symmetric; the sum rounds
  EXPECT_NEAR(draws.median(), 0.2, 1e-15);  // midway between samples 128 and 129
  // A type 5 quantile at p of stratified uniform samples is the uniform's own quantile between
  // 1/512 and 511/512.
  EXPECT_NEAR(draws.quantile(0.05), -0.25, 1e-15);
  EXPECT_NEAR(draws.quantile(0.95), 0.65, 1e-15);
}

TEST(DrawsUniform, OfOnePointIsCertain) {
  const Draws draws = Draws::uniform(4.0, 4.0, any_stream(3));
  EXPECT_TRUE(draws.is_certain());
  EXPECT_EQ(draws[17], 4.0);
  EXPECT_EQ(draws.quantile(0.3), 4.0);
  EXPECT_EQ(draws.mean(), 4.0);
}

TEST(DrawsSpan, IncludesItsEndsAndIsMarked) {
  // On [0, 255] the quantiles k/255 are the whole numbers.
  const Draws draws = Draws::span(0.0, 255.0, any_stream(4));
  const auto ascending = sorted(samples_of(draws));
  for (int k = 0; k < draw_count; ++k) ASSERT_EQ(ascending[static_cast<std::size_t>(k)], k);
  EXPECT_TRUE(draws.spans());
  EXPECT_FALSE(draws.is_certain());
  EXPECT_TRUE(Draws::span(4.0, 4.0, any_stream(4)).spans());  // still not a measured number
}

TEST(DrawsSpan, NeverLeavesItsHull) {
  // low + (high - low) may round to the far side of high.
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> any(-1.0, 1.0);
  for (int i = 0; i < 2000; ++i) {
    const auto [low, high] = std::minmax({any(random), any(random)});
    const auto ascending = sorted(samples_of(Draws::span(low, high, any_stream(i))));
    ASSERT_EQ(ascending.front(), low);
    ASSERT_LE(ascending.back(), high);
    ASSERT_NEAR(ascending.back(), high, 1e-15);
  }
}

TEST(DrawsMade, RefusesWhatIsNoRange) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double inf = std::numeric_limits<double>::infinity();
  const Stream s = any_stream(0);
  EXPECT_THROW((void)Draws::uniform(2.0, 1.0, s), ContractViolation);
  EXPECT_THROW((void)Draws::uniform(nan, 1.0, s), ContractViolation);
  EXPECT_THROW((void)Draws::uniform(0.0, inf, s), ContractViolation);
  EXPECT_THROW((void)Draws::span(2.0, 1.0, s), ContractViolation);
  EXPECT_THROW((void)Draws::span(-inf, 1.0, s), ContractViolation);
  std::array<double, draw_count> samples{};
  samples[9] = nan;
  EXPECT_THROW((void)Draws::of(samples), ContractViolation);
}

TEST(DrawsOf, TakesItsHullFromTheSamples) {
  std::array<double, draw_count> samples{};
  samples[9] = -3.0;
  samples[200] = 8.0;
  const Draws draws = Draws::of(samples);
  EXPECT_EQ(draws.low(), -3.0);
  EXPECT_EQ(draws.high(), 8.0);
  EXPECT_EQ(draws[9], -3.0);
  EXPECT_EQ(draws[10], 0.0);
  EXPECT_FALSE(draws.spans());
  EXPECT_TRUE(Draws::of(samples, true).spans());
  EXPECT_TRUE(Draws::of({}).is_certain());
}

TEST(DrawsStream, SameCellSameDraws) {
  const Draws a = Draws::uniform(1.0, 2.0, stream("gpu", "card", "length_mm", 5));
  const Draws b = Draws::uniform(1.0, 2.0, stream("gpu", "card", "length_mm", 5));
  EXPECT_EQ(samples_of(a), samples_of(b));
}

TEST(DrawsStream, EveryPartOfTheCellCounts) {
  // The last two pairs differ only in where the words are cut.
  const std::vector<Stream> streams{
      stream("gpu", "card", "length_mm"),    stream("cpu", "card", "length_mm"),
      stream("gpu", "card-2", "length_mm"),  stream("gpu", "card", "width_mm"),
      stream("gpu", "card", "length_mm", 1), stream("gpuc", "ard", "length_mm"),
      stream("gpu", "cardl", "ength_mm"),    stream("", "", "gpucardlength_mm")};
  std::set<std::uint64_t> seeds;
  std::set<std::vector<double>> orders;
  for (const Stream& s : streams) {
    seeds.insert(s.seed);
    orders.insert(samples_of(Draws::uniform(0.0, 1.0, s)));
  }
  EXPECT_EQ(seeds.size(), streams.size());
  EXPECT_EQ(orders.size(), streams.size());
}

TEST(DrawsStream, DifferentCellsAreUncorrelated) {
  // For random orders r has mean 0 and variance exactly 1/255. Five standard deviations each for
  // the largest of 300 values (0.31) and for the mean of r^2: sd(r^2) is about sqrt(2)/255, over
  // 300 pairs 0.082/255, so the mean lies within (1 +- 0.41)/255.
  double sum = 0.0;
  constexpr int pairs = 300;
  for (int i = 0; i < pairs; ++i) {
    const double r = correlation(samples_of(Draws::uniform(0.0, 1.0, any_stream(2 * i))),
                                 samples_of(Draws::uniform(0.0, 1.0, any_stream(2 * i + 1))));
    EXPECT_LT(std::fabs(r), 0.31) << i;
    sum += r * r;
  }
  EXPECT_NEAR(sum / pairs, 1.0 / 255.0, 0.41 / 255.0);
}

TEST(DrawsQuantile, OracleReproducesTheWorkedExample) {
  // Check values, section E4, type 5; computed: R 4.2.2 quantile(x, p, type = 5), tolerance 1e-9.
  const std::vector<double> x{2, 3, 5, 7, 11, 13, 17, 19, 23, 29};
  const double expected[][2] = {{0.10, 2.5}, {0.25, 5},  {0.50, 12}, {0.75, 19},
                                {0.90, 26},  {0.95, 29}, {0.99, 29}};
  for (const auto& [p, value] : expected) EXPECT_NEAR(quantile_by_lines(x, p), value, 1e-9) << p;
  EXPECT_NEAR(quantile_by_lines({1, 2, 3, 4}, 0.25), 1.5, 1e-9);
  EXPECT_NEAR(quantile_by_lines({1, 2, 3, 4}, 0.40), 2.1, 1e-9);
  EXPECT_NEAR(quantile_by_lines({1, 2, 3, 4}, 0.75), 3.5, 1e-9);
}

TEST(DrawsQuantile, AgreesWithItsOtherDefinition) {
  std::mt19937_64 random(5);
  std::lognormal_distribution<double> skewed(0.0, 1.0);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  std::array<double, draw_count> samples;
  for (double& sample : samples) sample = skewed(random);
  const Draws draws = Draws::of(samples);
  const auto ascending = sorted(samples_of(draws));
  for (int i = 0; i < 2000; ++i) {
    const double p = share(random);
    ASSERT_NEAR(draws.quantile(p), quantile_by_lines(ascending, p), 1e-11) << p;  // values up to 20
  }
  // At p_k the sample itself; at and beyond the outermost p_k the outermost sample.
  EXPECT_EQ(draws.quantile(0.5 / 256), ascending.front());
  EXPECT_EQ(draws.quantile(100.5 / 256), ascending[100]);
  EXPECT_EQ(draws.quantile(0.0), ascending.front());
  EXPECT_EQ(draws.quantile(1.0), ascending.back());
  EXPECT_THROW((void)draws.quantile(-0.01), ContractViolation);
  EXPECT_THROW((void)draws.quantile(1.01), ContractViolation);
}

}  // namespace
}  // namespace rigproof
