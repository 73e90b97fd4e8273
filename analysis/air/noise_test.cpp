// Levels: check values D2, each with how it is known there.
#include "analysis/air/noise.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace rigproof::air {
namespace {

double sum_of(const std::vector<NoiseSource>& sources) { return noise_sum(sources)->level_dba; }

// Looked up (3, 4.8, 6, 7, 10 dB); to two digits 10 lg n.
TEST(NoiseSum, AddsEqualSources) {
  struct Row {
    int count;
    double more_db;
  };
  for (const Row& row :
       {Row{1, 0.0}, Row{2, 3.01}, Row{3, 4.77}, Row{4, 6.02}, Row{5, 6.99}, Row{10, 10.0}}) {
    EXPECT_NEAR(sum_of({{.name = "fan", .level_dba = 22.0, .count = row.count}}),
                22.0 + row.more_db, 0.005);
    EXPECT_NEAR(sum_of(std::vector<NoiseSource>(static_cast<std::size_t>(row.count),
                                                {.name = "fan", .level_dba = 22.0})),
                22.0 + row.more_db, 0.005);
  }
}

// Computed: 30 + 33 dB 34.764; four fans of 22 dB(A) 28.021. For 24 + 27 + 31 dB the list prints
// 33.033; by hand 10 lg (251.189 + 501.187 + 1258.925) = 10 lg 2011.301 = 33.0348, which stands
// here.
TEST(NoiseSum, AddsUnequalSources) {
  EXPECT_NEAR(sum_of({{.name = "a", .level_dba = 30.0}, {.name = "b", .level_dba = 33.0}}), 34.764,
              0.0005);
  EXPECT_NEAR(sum_of({{.name = "a", .level_dba = 24.0},
                      {.name = "b", .level_dba = 27.0},
                      {.name = "c", .level_dba = 31.0}}),
              33.0348, 0.0001);
  EXPECT_NEAR(sum_of({{.name = "fan", .level_dba = 22.0, .count = 4}}), 28.021, 0.0005);
  EXPECT_NEAR(together_dba(30.0, 33.0), 34.764, 0.0005);
}

TEST(NoiseSum, NeverTakesUnknownForSilence) {
  const std::vector<NoiseSource> sources{{.name = "pump", .level_dba = {}},
                                         {.name = "fan", .level_dba = 25.0},
                                         {.name = "supply", .level_dba = {}},
                                         {.name = "absent", .level_dba = {}, .count = 0}};
  const NoiseSum sum = noise_sum(sources).value();
  EXPECT_TRUE(sum.at_least());
  EXPECT_NEAR(sum.level_dba, 25.0, 1e-12);
  ASSERT_EQ(sum.unknown.size(), 2U);
  EXPECT_EQ(sum.unknown[0], "pump");
  EXPECT_EQ(sum.unknown[1], "supply");
  const NoiseSum nothing = noise_sum(std::span(sources).first(1)).value();
  EXPECT_TRUE(nothing.at_least());
  EXPECT_EQ(nothing.level_dba, silent_dba);
}

TEST(NoiseSum, AFanThatStandsAddsNothing) {
  EXPECT_NEAR(sum_of({{.name = "a", .level_dba = silent_dba}, {.name = "b", .level_dba = 20.0}}),
              20.0, 1e-12);
  EXPECT_EQ(sum_of({{.name = "a", .level_dba = silent_dba}}), silent_dba);
  EXPECT_EQ(sum_of({}), silent_dba);
  EXPECT_EQ(together_dba(silent_dba, silent_dba), silent_dba);
  EXPECT_EQ(together_dba(silent_dba, 31.0), 31.0);
}

// More sources are never quieter, and order does not matter.
TEST(NoiseSum, GrowsAndDoesNotMindOrder) {
  std::vector<NoiseSource> sources;
  double last = silent_dba;
  for (int i = 0; i < 40; ++i) {
    sources.push_back({.name = "x", .level_dba = 20.0 + 13.0 * std::sin(i)});
    const double now = sum_of(sources);
    EXPECT_GT(now, last);
    last = now;
  }
  EXPECT_NEAR(sum_of({sources.rbegin(), sources.rend()}), last, 1e-12);
}

TEST(NoiseSum, RefusesWhatIsNoLevel) {
  const auto refuses = [](NoiseSource one) { return !noise_sum(std::vector{one}); };
  EXPECT_TRUE(refuses({.name = "a", .level_dba = std::nan("")}));
  EXPECT_TRUE(refuses({.name = "a", .level_dba = 201.0}));
  EXPECT_TRUE(refuses({.name = "a", .level_dba = 20.0, .count = -1}));
  EXPECT_FALSE(noise_sum(std::vector<NoiseSource>(most_sources + 1)));
}

// From memory: 6.02 dB a doubling of distance (20 lg).
TEST(Level, FallsWithDistance) {
  EXPECT_NEAR(*level_at_distance_dba(30.0, 0.5, 1.0), 30.0 - 6.02, 0.005);
  EXPECT_NEAR(*level_at_distance_dba(30.0, 1.0, 0.1), 50.0, 1e-12);
  EXPECT_FALSE(level_at_distance_dba(30.0, 0.0, 1.0));
  EXPECT_FALSE(level_at_distance_dba(30.0, 1.0, -1.0));
  EXPECT_FALSE(level_at_distance_dba(std::nan(""), 1.0, 1.0));
}

// Computed from ISO 3744's half sphere: at 1 m on a hard floor 7.98 dB below the power level.
TEST(Level, ComesFromSoundPower) {
  EXPECT_NEAR(*pressure_level_dba(40.0, 1.0), 40.0 - 7.98, 0.005);
  EXPECT_NEAR(*pressure_level_dba(40.0, 2.0), 40.0 - 7.98 - 6.02, 0.01);
  EXPECT_FALSE(pressure_level_dba(40.0, 0.0));
}

// From memory (ASHRAE Applications, sound chapter; fan makers): 50 lg: 1.2x +3.959, 0.8x -4.846, 2x
// +15.05, 1200 -> 1500 rpm +4.846 dB.
TEST(Level, FollowsTheSpeed) {
  EXPECT_NEAR(*level_at_speed_dba(20.0, 1000.0, 1200.0), 23.959, 0.0005);
  EXPECT_NEAR(*level_at_speed_dba(20.0, 1000.0, 800.0), 20.0 - 4.846, 0.0005);
  EXPECT_NEAR(*level_at_speed_dba(20.0, 700.0, 1400.0), 35.05, 0.005);
  EXPECT_NEAR(*level_at_speed_dba(20.0, 1200.0, 1500.0), 24.846, 0.0005);
  EXPECT_NEAR(*level_at_speed_dba(20.0, 1000.0, 10000.0, 60.0), 80.0, 1e-12);
  EXPECT_EQ(*level_at_speed_dba(20.0, 1000.0, 0.0), silent_dba);
  EXPECT_FALSE(level_at_speed_dba(20.0, 0.0, 1000.0));
  EXPECT_FALSE(level_at_speed_dba(20.0, 1000.0, -1.0));
  EXPECT_FALSE(level_at_speed_dba(20.0, 1000.0, 1000.0, std::nan("")));
}

// The same rows read the other way.
TEST(Level, GivesTheSpeedBack) {
  EXPECT_NEAR(*speed_at_level_rpm(20.0, 1200.0, 24.846), 1500.0, 0.05);
  EXPECT_NEAR(*speed_at_level_rpm(20.0, 700.0, 35.05), 1400.0, 0.5);
  EXPECT_EQ(*speed_at_level_rpm(20.0, 1000.0, silent_dba), 0.0);
  EXPECT_FALSE(speed_at_level_rpm(20.0, 1000.0, 25.0, 0.0));
}

}  // namespace
}  // namespace rigproof::air
