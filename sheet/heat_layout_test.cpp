// Oracles: conservation (bands tile the bars they end at), the scale read from the drawn scale bar,
// and small paths worked out by hand.
#include "sheet/heat_layout.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <limits>

#include "sheet/hostile.hpp"
#include "sheet/plot_reading.hpp"
#include "sheet/sample.hpp"

namespace rigproof::sheet {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using Kind = HeatPlace::Kind;

HeatPath sample_path() { return *sample_physics().heat_path; }

// A hundred watts that leave as seventy-five and twenty-five.
HeatPath fork_path() {
  return {.load = "all",
          .fan_speed_percent = 50.0,
          .room_c = 20.0,
          .places = {{"chip", "chip", Kind::source, 80.0},
                     {"air", "air", Kind::room, 35.0},
                     {"top", "top", Kind::outside, 35.0},
                     {"rear", "rear", Kind::outside, {}}},
          .flows = {{"chip", "air", 100.0}, {"air", "top", 75.0}, {"air", "rear", 25.0}}};
}

TEST(SamplePath, ConservesItsWatts) {
  const HeatPath path = sample_path();
  std::map<std::string, double> balance;
  for (const HeatFlow& flow : path.flows) {
    balance[flow.from_id] -= flow.watts;
    balance[flow.to_id] += flow.watts;
  }
  double in = 0.0, out = 0.0;
  for (const HeatPlace& place : path.places) {
    if (place.kind == Kind::source)
      in -= balance[place.id];
    else if (place.kind == Kind::outside)
      out += balance[place.id];
    else
      EXPECT_DOUBLE_EQ(balance[place.id], 0.0) << place.id;
  }
  EXPECT_DOUBLE_EQ(in, 402.0);
  EXPECT_DOUBLE_EQ(out, 402.0);
}

// The bands that begin (or end) at a node, laid on its bar from the top: no gap, no overlap.
void expect_tiled(const HeatLayout& layout, std::size_t node, bool at_from) {
  std::vector<std::pair<double, double>> spans;
  for (const HeatBand& band : layout.bands)
    if ((at_from ? band.from : band.to) == node)
      spans.emplace_back(at_from ? band.from_px : band.to_px, band.watts * layout.px_per_w);
  std::ranges::sort(spans);
  double at = layout.nodes[node].top_px;
  for (const auto& [top, width] : spans) {
    EXPECT_NEAR(top, at, 1e-9);
    at += width;
  }
  const double watts = at_from ? layout.nodes[node].out_w : layout.nodes[node].in_w;
  EXPECT_NEAR(at - layout.nodes[node].top_px, watts * layout.px_per_w, 1e-9);
}

TEST(HeatLayout, BandsTileTheBarsTheyEndAt) {
  for (const PlotForm& form : {wide_plot(), slim_plot()})
    for (const HeatPath& path : {sample_path(), fork_path()}) {
      const HeatLayout layout = heat_layout(path, form);
      ASSERT_THAT(layout.why_not, IsEmpty());
      for (std::size_t i = 0; i < layout.nodes.size(); ++i)
        for (const bool at_from : {true, false}) expect_tiled(layout, i, at_from);
    }
}

TEST(HeatLayout, BandsGoFromColumnToColumnAndBarsKeepApart) {
  for (const PlotForm& form : {wide_plot(), slim_plot()}) {
    const HeatLayout layout = heat_layout(sample_path(), form);
    for (const HeatBand& band : layout.bands)
      EXPECT_EQ(layout.nodes[band.to].column, layout.nodes[band.from].column + 1);
    for (const HeatNode& a : layout.nodes) {
      EXPECT_GE(a.top_px - a.label_px, -1e-9);
      EXPECT_LE(a.top_px + a.through_w() * layout.px_per_w, layout.height_px + 1e-9);
      for (const HeatNode& b : layout.nodes) {
        if (&a == &b || a.column != b.column) continue;
        EXPECT_TRUE(a.top_px + a.through_w() * layout.px_per_w <= b.top_px - b.label_px ||
                    b.top_px + b.through_w() * layout.px_per_w <= a.top_px - a.label_px);
      }
    }
  }
}

TEST(HeatLayout, SourcesStandLeftAndTheOutsideRight) {
  const HeatPath path = sample_path();
  const HeatLayout layout = heat_layout(path, wide_plot());
  // chip, cooler, air under the card, air over it, outside.
  EXPECT_EQ(layout.columns, 5U);
  for (const HeatNode& node : layout.nodes) {
    if (node.passing) continue;
    const Kind kind = path.places[node.place].kind;
    if (kind == Kind::source) {
      EXPECT_EQ(node.column, 0U);
    }
    if (kind == Kind::outside) {
      EXPECT_EQ(node.column, 4U);
    }
  }
}

// The scale bar says how many watts its length is; every band is as wide as that makes its watts.
TEST(HeatPlot, EveryBandIsToTheScaleThatIsStated) {
  for (const PlotForm& form : {wide_plot(), slim_plot()})
    for (const HeatPath& path : {sample_path(), fork_path()}) {
      const ReadPlot plot(heat_path_plot(path, form).svg);
      const ReadWords* scale = nullptr;
      for (const ReadWords& each : plot.words)
        if (each.text.find("all bands to this scale") != std::string::npos) scale = &each;
      ASSERT_NE(scale, nullptr);
      double length = 0.0;
      for (const ReadPath& line : plot.of("dl"))
        if (line.points[0].x == line.points[1].x) length = line.points[1].y - line.points[0].y;
      const double px_per_w = length / std::stod(scale->text);
      const std::vector<ReadPath> bands = plot.of("fb");
      ASSERT_EQ(bands.size(), path.flows.size());
      std::vector<double> want, got;
      for (const HeatFlow& flow : path.flows) want.push_back(flow.watts * px_per_w);
      // Begins at its upper left corner, closes at its lower left one; in the middle of its points
      // are the two corners at the right.
      for (const ReadPath& band : bands) {
        const std::size_t half = band.points.size() / 2;
        got.push_back(band.points.back().y - band.points.front().y);
        EXPECT_NEAR(band.points[half].y - band.points[half - 1].y, got.back(), 0.021);
      }
      std::ranges::sort(want);
      std::ranges::sort(got);
      for (std::size_t i = 0; i < want.size(); ++i) EXPECT_NEAR(got[i], want[i], 0.05);
    }
}

TEST(HeatPlot, PlacesSayNameTemperatureAndWatts) {
  const std::string svg = heat_path_plot(fork_path(), wide_plot()).svg;
  for (const char* says : {">chip<", ">80 \u00B0C, 100 W<", ">35 \u00B0C, 75 W<", ">25 W<"})
    EXPECT_THAT(svg, HasSubstr(says));
  EXPECT_THAT(svg, HasSubstr("Heat given off: chip 100 W. It leaves by: top 75 W, rear 25 W."));
}

// Twenty of a hundred watts are missing behind the air: hatched as wide as twenty watts.
TEST(HeatPlot, WhatDoesNotAddUpIsHatchedAndSaid) {
  HeatPath path = fork_path();
  path.flows[1].watts = 55.0;
  const HeatLayout layout = heat_layout(path, wide_plot());
  EXPECT_DOUBLE_EQ(unaccounted_w(path.places[1], layout.nodes[1]), 20.0);
  EXPECT_DOUBLE_EQ(unaccounted_w(path.places[0], layout.nodes[0]), 0.0);
  const std::string svg = heat_path_plot(path, wide_plot()).svg;
  EXPECT_THAT(svg, HasSubstr("hatched: 20 W do not add up"));
  const ReadPlot plot(svg);
  const std::vector<ReadPath> rest = plot.of("hb tt");
  ASSERT_EQ(rest.size(), 1U);
  EXPECT_NEAR(rest[0].points[2].y - rest[0].points[0].y, 20.0 * layout.px_per_w, 0.02);
  EXPECT_EQ(heat_path_plot(fork_path(), wide_plot()).svg.find("add up"), std::string::npos);
}

TEST(HeatPlot, WhatCannotBeDrawnIsASentence) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double inf = std::numeric_limits<double>::infinity();
  const auto expect_none = [](const HeatPath& path, const std::string& why) {
    const Plot plot = heat_path_plot(path, wide_plot());
    EXPECT_THAT(plot.svg, IsEmpty());
    EXPECT_THAT(plot.why_not, HasSubstr(why));
  };
  expect_none({}, "No heat flows");
  HeatPath path = fork_path();
  for (const double watts : {nan, inf, -inf, -1.0, 1e308}) {
    path.flows[0].watts = watts;
    expect_none(path, "not known, or runs backwards");
  }
  path = fork_path();
  for (HeatFlow& flow : path.flows) flow.watts = 0.0;
  expect_none(path, "No heat flows");
  path = fork_path();
  path.flows.push_back({"top", "chip", 1.0});
  expect_none(path, "circle");
  path = fork_path();
  path.flows.push_back({"chip", "chip", 1.0});
  expect_none(path, "circle");
  path = fork_path();
  path.places[3].id = "top";
  expect_none(path, "same id");
  path = fork_path();
  path.flows[0].to_id = "nowhere";
  expect_none(path, "not named");
  path = fork_path();
  for (int i = 0; i < 60; ++i) path.places.push_back({std::to_string(i), "x", Kind::room, {}});
  expect_none(path, "more places");
}

TEST(HeatPlot, IsSoundWhateverIsInIt) {
  HeatPath hostile = sample_path();
  for (HeatPlace& place : hostile.places) place.name = hostile_text("place");
  HeatPath tiny = fork_path(), strange = fork_path();
  tiny.flows[2].watts = 1e-12;
  for (HeatFlow& flow : strange.flows) flow.watts = 1e-300;
  strange.places[0].temp_c = std::numeric_limits<double>::quiet_NaN();
  strange.places[1].temp_c = 1e300;
  HeatPath chain = fork_path();
  chain.flows[1].to_id = "r0";
  for (int i = 0; i < 5; ++i) {
    const std::string id = "r" + std::to_string(i);
    chain.places.push_back({id, "a very long name of a room", Kind::room, 30.0});
    chain.flows.push_back({id, i == 4 ? "top" : "r" + std::to_string(i + 1), 75.0});
  }
  int number = 0;
  for (const HeatPath& path : {sample_path(), fork_path(), hostile, tiny, strange, chain})
    for (const PlotForm& form : {wide_plot(), slim_plot()}) {
      const Plot plot = heat_path_plot(path, form);
      ASSERT_THAT(plot.why_not, IsEmpty());
      expect_sound(plot.svg, "heat path " + std::to_string(number++));
    }
}

}  // namespace
}  // namespace rigproof::sheet
