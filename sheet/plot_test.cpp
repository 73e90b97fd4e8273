// Oracles: axes, spreading and words by hand; where a point lies, from the tick labels that are
// written beside the axis.
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "sheet/hostile.hpp"
#include "sheet/physics_words.hpp"
#include "sheet/plot_axes.hpp"
#include "sheet/plot_reading.hpp"
#include "sheet/plots.hpp"

namespace rigproof::sheet {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

// One leading digit 1, 2 or 5.
bool is_round(double step) {
  const double digits = step / std::pow(10.0, std::floor(std::log10(step) + 1e-9));
  return std::abs(digits - 1.0) < 1e-9 || std::abs(digits - 2.0) < 1e-9 ||
         std::abs(digits - 5.0) < 1e-9;
}

TEST(PlotAxes, StepsAreOneTwoOrFiveByHand) {
  const std::vector<std::pair<double, double>> cases = {
      {1.0, 1.0}, {1.1, 2.0}, {2.0, 2.0}, {2.1, 5.0}, {5.1, 10.0}, {70.0, 100.0}, {0.03, 0.05}};
  for (const auto& [at_least, step] : cases) EXPECT_DOUBLE_EQ(round_step(at_least), step);
}

TEST(PlotAxes, CoverWhatTheyAreForWithRoundTicks) {
  for (const double low : {-5.3, 0.0, 22.0, 99.0})
    for (const double span : {0.0, 0.004, 1.0, 73.0, 12345.0}) {
      const PlotAxis axis = axis_over(low, low + span, 200.0, 10.0, 26.0);
      EXPECT_LE(axis.from, low + 1e-9 * std::abs(low) + 1e-12);
      EXPECT_GE(axis.to, low + span - 1e-9);
      EXPECT_TRUE(is_round(axis.step)) << axis.step;
      EXPECT_DOUBLE_EQ(axis.px(axis.from), 200.0);
      EXPECT_NEAR(axis.px(axis.to), 10.0, 1e-9);
      const std::vector<double> ticks = axis.ticks();
      EXPECT_GE(ticks.size(), 2U);
      EXPECT_LE(ticks.size(), 10U);  // 190 px, a tick each 26 at the nearest, before rounding out
      for (const double tick : ticks)
        EXPECT_NEAR(std::remainder(tick, axis.step), 0.0, 1e-6 * axis.step);
    }
}

TEST(PlotAxes, LabelsHaveTheDecimalsOfTheStep) {
  const PlotAxis tenths{.from = 0.0, .to = 1.0, .from_px = 0.0, .to_px = 100.0, .step = 0.1};
  EXPECT_EQ(tenths.label(3 * 0.1), "0.3");  // not 0.30000000000000004
  const PlotAxis fives{.from = -10.0, .to = 10.0, .from_px = 0.0, .to_px = 100.0, .step = 5.0};
  EXPECT_EQ(fives.label(-5.0), "\u22125");
  EXPECT_EQ(fives.label(-0.0), "0");
}

TEST(PlotAxes, BlocksSpreadToBothSidesByHand) {
  const std::vector<double> sizes = {10.0, 10.0};
  // Both want to be at 0: five to each side is nearest to that.
  EXPECT_THAT(spread_out(std::vector{0.0, 0.0}, sizes, 0.0, -100.0, 100.0), ElementsAre(-5.0, 5.0));
  EXPECT_THAT(spread_out(std::vector{0.0, 0.0}, sizes, 0.0, 0.0, 100.0), ElementsAre(0.0, 10.0));
  EXPECT_THAT(spread_out(std::vector{95.0, 96.0}, sizes, 2.0, 0.0, 100.0), ElementsAre(78.0, 90.0));
  EXPECT_THAT(spread_out(std::vector{1.0, 50.0}, sizes, 0.0, 0.0, 100.0), ElementsAre(1.0, 50.0));
}

TEST(PlotAxes, ThinningKeepsPeaks) {
  std::vector<double> xs, ys;
  for (int i = 0; i < 100'000; ++i) xs.push_back(i), ys.push_back(i == 54'321 ? 90.0 : 20.0);
  const PlotAxis x = axis_within(0.0, 99'999.0, 0.0, 300.0, 40.0);
  const PlotAxis y = axis_over(20.0, 90.0, 100.0, 0.0, 26.0);
  const std::vector<PlotPoint> points = curve_points(xs, ys, x, y);
  EXPECT_LE(points.size(), 4U * 601U);
  EXPECT_TRUE(std::ranges::any_of(points, [&](PlotPoint p) { return p.y_px == y.px(90.0); }));
}

TEST(PhysicsWords, ByHand) {
  EXPECT_EQ(degrees(84.0), "84 \u00B0C");
  EXPECT_EQ(degrees({}), "");
  EXPECT_EQ(duration_words(35.0), "35 s");
  EXPECT_EQ(duration_words(252.0), "4.2 min");
  EXPECT_EQ(duration_words(5400.0), "1.5 h");
  EXPECT_EQ(letter_of(0), "a");
  EXPECT_EQ(letter_of(27), "b2");
  EXPECT_EQ(value_at({0.0, 10.0}, {20.0, 40.0}, 2.5), 25.0);
  EXPECT_EQ(value_at({0.0, 10.0}, {20.0, 40.0}, 10.0), 40.0);
  EXPECT_EQ(value_at({0.0, 10.0}, {20.0, 40.0}, 11.0), std::nullopt);
  EXPECT_EQ(window_words({"1 ms", 500.0, 700.0, 810.0}), "500 to 700 W of 810 W: 110 W left");
  EXPECT_EQ(window_words({"1 ms", 500.0, 700.0, 660.0}), "500 to 700 W of 660 W: up to 40 W over");
  EXPECT_EQ(window_words({"1 ms", 500.0, 700.0, 450.0}), "500 to 700 W of 450 W: 250 W over");
  EXPECT_EQ(window_words({"1 ms", 500.0, 700.0, {}}), "500 to 700 W, no limit stated");
  EXPECT_EQ(window_words({"1 ms", {}, {}, 660.0}), "load not known, 660 W allowed");
  EXPECT_EQ(window_words({"1 ms", {}, {}, {}}), "neither load nor limit known");
}

// Ten kelvin a minute for six minutes, then level; settled at six.
Warming ramp() {
  return {.load = "all",
          .time_s = {0.0, 120.0, 360.0, 600.0},
          .curves = {{"chip", {20.0, 40.0, 80.0, 80.0}, 95.0, 360.0}},
          .noise_dba = {25.0, 26.0, 30.0, 30.0},
          .notes = {}};
}

TEST(WarmingPlot, PointsLieWhereTheAxesSay) {
  for (const PlotForm& form : {wide_plot(), slim_plot()}) {
    const ReadPlot plot(warming_plot(ramp(), form).svg);
    const std::vector<ReadPath> curves = plot.of("cv");
    ASSERT_EQ(curves.size(), 2U);
    const ReadPlot::Line x = plot.x_axis();
    const double middle = (curves[0].points.front().y + curves[1].points.front().y) / 2;
    const ReadPlot::Line y = plot.y_axis(0.0, middle + 0.35 * plot.em + 4.0);
    ASSERT_EQ(curves[0].points.size(), 4U);
    const std::vector<double> minutes = {0.0, 2.0, 6.0, 10.0}, temps = {20.0, 40.0, 80.0, 80.0};
    for (std::size_t i = 0; i < 4; ++i) {
      EXPECT_NEAR(curves[0].points[i].x, x.px(minutes[i]), 0.05);
      EXPECT_NEAR(curves[0].points[i].y, y.px(temps[i]), 0.05);
    }
    const std::vector<ReadPath> limits = plot.of("lim");
    ASSERT_EQ(limits.size(), 1U);
    EXPECT_NEAR(limits[0].points[0].y, y.px(95.0), 0.05);
    const std::vector<ReadPath> marks = plot.of("md");  // on the curve, where it settles
    ASSERT_EQ(marks.size(), 1U);
    EXPECT_NEAR(marks[0].points[0].x, x.px(6.0), 0.05);
    EXPECT_NEAR((marks[0].points[0].y + marks[0].points[1].y) / 2, y.px(80.0), 0.05);
    // Two dimensions: 15 K to the limit, upright; six minutes to the settling, level.
    bool room = false, settling = false;
    for (const ReadPath& line : plot.of("dl")) {
      const ReadPoint a = line.points.front(), b = line.points.back();
      room |=
          a.x == b.x && std::abs(std::abs(a.y - b.y) - std::abs(y.px(95.0) - y.px(80.0))) < 0.05;
      settling |=
          a.y == b.y && std::abs(a.x - x.px(0.0)) < 0.05 && std::abs(b.x - x.px(6.0)) < 0.05;
    }
    EXPECT_TRUE(room);
    EXPECT_TRUE(settling);
    EXPECT_NE(plot.says("a 6 min"), nullptr);
  }
}

TEST(WarmingPlot, TicksAreRoundAndTimesInTheirUnit) {
  const auto step_of = [](double span_s) {
    Warming warming = ramp();
    for (double& t : warming.time_s) t *= span_s / 600.0;
    const ReadPlot plot(warming_plot(warming, wide_plot()).svg);
    const std::vector<double> ticks = plot.x_axis().ticks;
    return std::pair(ticks[1] - ticks[0], plot.says("seconds") != nullptr   ? "seconds"
                                          : plot.says("minutes") != nullptr ? "minutes"
                                                                            : "hours");
  };
  for (const double span_s : {7.0, 90.0, 600.0, 2700.0, 9000.0, 90'000.0})
    EXPECT_TRUE(is_round(step_of(span_s).first)) << span_s;
  EXPECT_STREQ(step_of(90.0).second, "seconds");
  EXPECT_STREQ(step_of(2700.0).second, "minutes");
  EXPECT_STREQ(step_of(90'000.0).second, "hours");
}

TEST(WarmingPlot, WhatIsOverItsLimitSaysSoInWordsAndMark) {
  Warming warming = ramp();
  warming.curves[0].limit_c = 77.0;
  const ReadPlot plot(warming_plot(warming, wide_plot()).svg);
  EXPECT_EQ(plot.of("cv tt").size(), 1U);
  EXPECT_EQ(plot.of("lim tt").size(), 1U);
  EXPECT_THAT(warming_words(warming), HasSubstr("3 K over of 77"));
  EXPECT_EQ(warming_table(warming).rows[0][3], "3 K over");
}

// Sixty degrees at fifty per cent, forty at a hundred; five kelvin either way.
SpeedSweep slope() {
  SpeedSweep out{.load = "all",
                 .speed_percent = {50.0, 100.0},
                 .temperatures = {},
                 .noise_dba = {.middle = {30.0, 40.0}, .low = {29.0, 39.0}, .high = {32.0, 42.0}}};
  out.temperatures = {
      {.name = "chip",
       .temp_c = {.middle = {60.0, 40.0}, .low = {55.0, 35.0}, .high = {65.0, 45.0}},
       .limit_c = 70.0}};
  out.chosen_percent = 75.0;
  return out;
}

TEST(SpeedPlot, IntervalsAndTheChosenSpeedLieWhereTheAxesSay) {
  for (const PlotForm& form : {wide_plot(), slim_plot()}) {
    const ReadPlot plot(speed_plot(slope(), form).svg);
    const ReadPlot::Line x = plot.x_axis();
    const std::vector<ReadPath> bands = plot.of("ha"), curves = plot.of("cv");
    ASSERT_EQ(bands.size(), 2U);
    ASSERT_EQ(curves.size(), 2U);
    const ReadPlot::Line y = plot.y_axis(0.0, plot.of("ax")[0].points[0].y + plot.em);
    ASSERT_EQ(bands[0].points.size(), 4U);  // low from left to right, high back
    const std::vector<ReadPoint> want = {{50.0, 55.0}, {100.0, 35.0}, {100.0, 45.0}, {50.0, 65.0}};
    for (std::size_t i = 0; i < 4; ++i) {
      EXPECT_NEAR(bands[0].points[i].x, x.px(want[i].x), 0.05);
      EXPECT_NEAR(bands[0].points[i].y, y.px(want[i].y), 0.05);
    }
    EXPECT_NEAR(curves[0].points[0].y, y.px(60.0), 0.05);
    const std::vector<ReadPath> chosen = plot.of("md");
    ASSERT_EQ(chosen.size(), 2U);  // through each panel
    for (const ReadPath& line : chosen) EXPECT_NEAR(line.points[0].x, x.px(75.0), 0.05);
    EXPECT_NE(plot.says("chosen 75 %"), nullptr);
    EXPECT_NE(plot.says("50"), nullptr);  // halfway between sixty and forty
    EXPECT_NE(plot.says("35"), nullptr);  // and the noise halfway between thirty and forty
  }
}

TEST(SpeedPlot, AnIntervalThatIsNoneIsNotDrawn) {
  SpeedSweep sweep = slope();
  sweep.temperatures[0].temp_c.low = {61.0, 35.0};  // above the middle
  EXPECT_EQ(ReadPlot(speed_plot(sweep, wide_plot()).svg).of("ha").size(), 1U);
  sweep.noise_dba.high = {32.0};
  EXPECT_EQ(ReadPlot(speed_plot(sweep, wide_plot()).svg).of("ha").size(), 0U);
  sweep.chosen_percent = 101.0;
  EXPECT_EQ(ReadPlot(speed_plot(sweep, wide_plot()).svg).of("md").size(), 0U);
}

TEST(WindowsPlot, BarsLieWhereTheAxisSays) {
  const SupplyWindows supply{.supply = "s",
                             .rated_w = 500.0,
                             .windows = {{"1 ms", 600.0, 700.0, 900.0},
                                         {"10 ms", 400.0, 800.0, 650.0},
                                         {"sustained", {}, {}, {}}}};
  for (const PlotForm& form : {wide_plot(), slim_plot()}) {
    const ReadPlot plot(windows_plot(supply, form).svg);
    const ReadPlot::Line x = plot.x_axis();
    const std::vector<ReadPath> fine = plot.of("hb"), over = plot.of("hb tt"),
                                allowed = plot.of("lim"), rated = plot.of("ch");
    ASSERT_EQ(fine.size(), 1U);
    ASSERT_EQ(over.size(), 1U);
    ASSERT_EQ(allowed.size(), 2U);
    ASSERT_EQ(rated.size(), 1U);
    EXPECT_NEAR(fine[0].points[0].x, x.px(600.0), 0.05);
    EXPECT_NEAR(fine[0].points[1].x, x.px(700.0), 0.05);
    EXPECT_NEAR(over[0].points[0].x, x.px(400.0), 0.05);
    EXPECT_NEAR(over[0].points[1].x, x.px(800.0), 0.05);
    EXPECT_NEAR(allowed[0].points[0].x, x.px(900.0), 0.05);
    EXPECT_NEAR(allowed[1].points[0].x, x.px(650.0), 0.05);
    EXPECT_NEAR(rated[0].points[0].x, x.px(500.0), 0.05);
    EXPECT_NE(plot.says("neither load nor limit known"), nullptr);
    EXPECT_NE(plot.says("400 to 800 W of 650 W: up to 150 W over"), nullptr);
    EXPECT_NE(plot.says("?"), nullptr);
  }
}

TEST(Plots, WhatCannotBeDrawnIsASentence) {
  const auto expect_none = [](const Plot& plot) {
    EXPECT_THAT(plot.svg, IsEmpty());
    EXPECT_THAT(plot.why_not, HasSubstr("."));
  };
  expect_none(warming_plot({}, wide_plot()));
  expect_none(speed_plot({}, wide_plot()));
  expect_none(windows_plot({}, wide_plot()));
  Warming warming = ramp();
  warming.curves[0].temp_c[1] = nan_value;
  expect_none(warming_plot(warming, wide_plot()));
  warming = ramp();
  warming.curves[0].temp_c.pop_back();
  expect_none(warming_plot(warming, wide_plot()));
  for (const std::vector<double>& times : std::vector<std::vector<double>>{
           {0.0, 120.0, 120.0, 600.0}, {0.0, nan_value, 360.0, 600.0}, {0.0, 1.0, 2.0, infinite}}) {
    warming = ramp();
    warming.time_s = times;
    expect_none(warming_plot(warming, wide_plot()));
  }
  expect_none(warming_plot({.load = {},
                            .time_s = {0.0},
                            .curves = {{"one", {20.0}, {}, {}}},
                            .noise_dba = {},
                            .notes = {}},
                           wide_plot()));
  warming = ramp();
  warming.curves.resize(9, warming.curves[0]);
  expect_none(warming_plot(warming, wide_plot()));
  SpeedSweep sweep = slope();
  sweep.temperatures[0].temp_c.middle[0] = infinite;
  sweep.noise_dba.middle = {};
  expect_none(speed_plot(sweep, wide_plot()));
  expect_none(windows_plot({.supply = "s",
                            .rated_w = nan_value,
                            .windows = {{"1 ms", nan_value, 3.0, -1.0}, {"2 ms", 7.0, 3.0, {}}}},
                           wide_plot()));
}

// Every number of a picture replaced by what is none, one after the other.
template <class Thing, class Draw>
void expect_sound_spoiled(const Thing& good,
                          const std::vector<std::function<void(Thing&, double)>>& spoils,
                          const Draw& draw) {
  for (const auto& spoil : spoils)
    for (const double value : {nan_value, infinite, -infinite, 1e308, -1e308, 0.0, -7.0, 5e-324})
      for (const PlotForm& form : {wide_plot(), slim_plot()}) {
        Thing thing = good;
        spoil(thing, value);
        const Plot plot = draw(thing, form);
        EXPECT_NE(plot.svg.empty(), plot.why_not.empty());
        if (!plot.svg.empty()) expect_sound(plot.svg, std::to_string(value));
      }
}

TEST(Plots, AreSoundWhateverNumbersAreInThem) {
  const Physics sample = sample_physics();
  expect_sound_spoiled<Warming>(
      *sample.warming,
      {[](Warming& w, double v) { w.curves[0].temp_c[3] = v; },
       [](Warming& w, double v) { w.curves[0].limit_c = v; },
       [](Warming& w, double v) { w.curves[0].settled_s = v; },
       [](Warming& w, double v) { w.noise_dba[2] = v; },
       [](Warming& w, double v) { w.time_s[1] = v; },
       [](Warming& w, double v) { std::ranges::fill(w.curves[1].temp_c, v); }},
      warming_plot);
  expect_sound_spoiled<SpeedSweep>(
      *sample.speed_sweep,
      {[](SpeedSweep& s, double v) { s.speed_percent[1] = v; },
       [](SpeedSweep& s, double v) { s.temperatures[0].temp_c.middle[0] = v; },
       [](SpeedSweep& s, double v) { s.temperatures[0].temp_c.low[0] = v; },
       [](SpeedSweep& s, double v) { s.temperatures[1].limit_c = v; },
       [](SpeedSweep& s, double v) { s.chosen_percent = v; },
       [](SpeedSweep& s, double v) { s.noise_limit_dba = v; }},
      speed_plot);
  expect_sound_spoiled<SupplyWindows>(
      *sample.supply_windows,
      {[](SupplyWindows& s, double v) { s.rated_w = v; },
       [](SupplyWindows& s, double v) { s.windows[0].low_w = v; },
       [](SupplyWindows& s, double v) { s.windows[0].high_w = v; },
       [](SupplyWindows& s, double v) { s.windows[0].allowed_w = v; }},
      windows_plot);
}

TEST(Plots, AreSoundWhateverTextsAreInThem) {
  const Physics hostile = *hostile_sheet().physics;
  for (const PlotForm& form : {wide_plot(), slim_plot()})
    for (const Plot& plot :
         {heat_path_plot(*hostile.heat_path, form), warming_plot(*hostile.warming, form),
          speed_plot(*hostile.speed_sweep, form), windows_plot(*hostile.supply_windows, form)}) {
      ASSERT_THAT(plot.why_not, IsEmpty());
      expect_sound(plot.svg, "hostile");
      EXPECT_EQ(plot.svg.find("\xE2\x80\xAE"), std::string::npos);  // U+202E
    }
}

TEST(Plots, NoTextLiesOnAnother) {
  Physics tight = sample_physics(), hostile = *hostile_sheet().physics;
  tight.warming->curves[1].limit_c = 68.0;
  tight.warming->curves[0].limit_c = 79.0;
  tight.speed_sweep->chosen_percent = 31.0;
  for (const Physics& physics : {sample_physics(), tight, hostile})
    for (const PlotForm& form : {wide_plot(), slim_plot()})
      for (const Plot& plot :
           {heat_path_plot(*physics.heat_path, form), warming_plot(*physics.warming, form),
            speed_plot(*physics.speed_sweep, form), windows_plot(*physics.supply_windows, form)})
        expect_texts_apart(plot.svg, std::to_string(form.width_px));
}

// 316 px of a phone 375 px wide for 320 of paper.
TEST(Plots, TextOnAPhoneIsLegible) {
  EXPECT_GE(slim_plot().text_px * 316.0 / slim_plot().width_px, 11.0);
}

TEST(Plots, TheSameNumbersGiveTheSameBytes) {
  EXPECT_EQ(heat_path_plot(*sample_physics().heat_path, wide_plot()).svg,
            heat_path_plot(*sample_physics().heat_path, wide_plot()).svg);
  EXPECT_EQ(warming_plot(*sample_physics().warming, slim_plot()).svg,
            warming_plot(*sample_physics().warming, slim_plot()).svg);
}

}  // namespace
}  // namespace rigproof::sheet
