// The rates of stages alone against the draws that claims are made from, and against arithmetic by
// hand where all cells are certain. Tables are invented.
#include "analysis/forecast/stage_rates.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "analysis/forecast/speeds.hpp"
#include "tests/support/scene.hpp"

namespace rigproof::forecast {
namespace {

using test_support::Scene;
using test_support::TestTables;

TestTables::Cells title(const char* id, const char* ray, const char* share) {
  return {{"id", id},
          {"cpu_ms", "10"},
          {"memory_share_frac", share},
          {"cpu_log_sd", "0.2"},
          {"raster_ms", "2"},
          {"raster_ms_per_mpix", "1.5"},
          {"ray_ms", ray},
          {"ray_ms_per_mpix", ray},
          {"traffic_gb", "0.2"},
          {"traffic_gb_per_mpix", "0.15"},
          {"gpu_log_sd", "0.15"},
          {"stage_correlation", "0.3"},
          {"upscale_ms_per_mpix", "0.1"},
          {"generate_ms", "1"},
          {"megapixels_low", "0.5"},
          {"megapixels_high", "8.2944"}};
}

TestTables tables(bool certain) {
  TestTables out;
  out.row("titles", title("rays", "0.5", "0.3"));
  out.row("titles", title("plain", "0", "0"));
  const auto cpu = [&](const char* id, const char* speed) {
    out.row("cpu", {{"id", id}, {"frame_speed", speed}});
  };
  cpu("quick", "1.25");
  cpu("slow", "0.4");
  cpu("unstated", "");
  const auto gpu = [&](const char* id, const char* raster, const char* ray, const char* traffic) {
    out.row(
        "gpu",
        {{"id", id}, {"raster_speed", raster}, {"ray_speed", ray}, {"bandwidth_gb_s", traffic}});
  };
  gpu("large", "2", "1.6", "500");
  gpu("small", "0.5", "0.2", "180");
  gpu("no-rays", "1", "", "300");
  gpu("nothing", "", "", "");
  if (certain)
    for (const char* table : {"cpu", "gpu", "titles"}) out.plus_minus(table, "*", "*", 0);
  return out;
}

std::vector<TitleGoal> goals() {
  const auto goal = [](const char* title, int width_px, int height_px, double scale,
                       int generated) {
    TitleGoal out;
    out.title = title;
    out.width_px = width_px;
    out.height_px = height_px;
    out.render_scale = scale;
    out.generated_per_rendered = generated;
    out.target_fps = 60.0;
    return out;
  };
  return {goal("rays", 2560, 1440, 1.0, 0), goal("rays", 2560, 1440, 0.5, 2),
          goal("plain", 1920, 1080, 1.0, 0), goal("plain", 640, 360, 1.0, 0),  // too few pixels
          goal("no-such-title", 1920, 1080, 1.0, 0)};
}

void expect_rate(const StageRate& got, const Draws& stage_ms) {
  if (stage_ms.is_absent()) {
    EXPECT_EQ(got.mean_fps, 0.0);
    EXPECT_EQ(got.most_fps, 0.0);
    return;
  }
  double sum = 0.0;
  double most = 0.0;
  for (int i = 0; i < draw_count; ++i) {
    sum += 1000.0 / stage_ms[i];
    most = std::max(most, 1000.0 / stage_ms[i]);
  }
  EXPECT_NEAR(got.mean_fps, sum / draw_count, 1e-9 * sum / draw_count);
  EXPECT_NEAR(got.most_fps, most, 1e-9 * most);
}

TEST(StageRates, AreThoseOfTheDrawsThatClaimsAreMadeFrom) {
  Scene scene(tables(false));
  scene.brief.titles = goals();
  const Facts facts = scene.facts();
  StageRates rates(facts);
  int known = 0;
  for (Row gpu = 0; gpu < scene.catalog.rows(table("gpu")); ++gpu) {
    const auto got = rates.gpu(gpu);
    ASSERT_EQ(got.size(), scene.brief.titles.size());
    for (std::size_t t = 0; t < got.size(); ++t) {
      SCOPED_TRACE(testing::Message() << "card " << gpu << " title " << t);
      Measure scratch;
      const TitleGoal& goal = scene.brief.titles[t];
      const bool covered = range_covers(facts, goal, scratch);
      expect_rate(got[t], covered ? gpu_stage_ms(facts, goal, gpu, scratch) : Draws::absent());
      known += got[t].mean_fps > 0.0 ? 1 : 0;
    }
  }
  EXPECT_EQ(known, 7);  // two cards in three goals, the one without rays in the plain one
  for (Row cpu = 0; cpu < scene.catalog.rows(table("cpu")); ++cpu)
    for (const double mt_s : {3200.0, 5600.0, 9000.0}) {
      const auto got = rates.cpu(cpu, mt_s);
      for (std::size_t t = 0; t < got.size(); ++t) {
        SCOPED_TRACE(testing::Message() << "processor " << cpu << " title " << t);
        Measure scratch;
        expect_rate(got[t], cpu_stage_ms(facts, scene.brief.titles[t], cpu, mt_s, scratch));
      }
    }
}

// 1920 x 1080 is 2.0736 megapixels: (2 + 1.5 x 2.0736) / 2 + 1000 (0.2 + 0.15 x 2.0736) / 500 ms.
TEST(StageRates, ByHand) {
  Scene scene(tables(true));
  scene.brief.titles = {goals()[2]};
  const Facts facts = scene.facts();
  StageRates rates(facts);
  const double card_ms = (2.0 + 1.5 * 2.0736) / 2.0 + 1000.0 * (0.2 + 0.15 * 2.0736) / 500.0;
  EXPECT_NEAR(rates.gpu(0).at(0).mean_fps, 1000.0 / card_ms, 1e-9);
  EXPECT_NEAR(rates.cpu(0, 5600.0).at(0).mean_fps, 125.0, 1e-9);  // 10 ms / 1.25
  EXPECT_NEAR(rates.cpu(1, 3200.0).at(0).most_fps, 40.0, 1e-9);   // it does not follow memory
}

}  // namespace
}  // namespace rigproof::forecast
