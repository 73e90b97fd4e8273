// The numbers are invented, but each gap is the difference of the edges it lies between, so that a
// picture of them can be checked with a ruler.
#include "sheet/sample_scene.hpp"

#include <fmt/format.h>

#include "sheet/hostile.hpp"

namespace rigproof::sheet {
namespace {

using enum fit::Use;

struct Span {
  double low_mm, high_mm;
};

fit::Box box(std::string name, fit::Use use, const std::array<Span, 3>& spans) {
  fit::Box out{.name = name, .part_id = std::move(name), .use = use};
  for (std::size_t i = 0; i < 3; ++i)
    out.at[i] = {.low_mm = spans[i].low_mm, .high_mm = spans[i].high_mm};
  return out;
}

// A gap at most as long as its claim allows: value and limit are measured from the same edge.
fit::Gap gap(std::string claim, fit::Axis axis, Span between, std::array<double, 3> at_mm,
             double limit_mm, Verdict verdict) {
  const double margin_mm = between.high_mm - between.low_mm;
  return {.claim_id = std::move(claim),
          .where = {},
          .axis = axis,
          .from_mm = between.low_mm,
          .to_mm = between.high_mm,
          .at_mm = at_mm,
          .value_mm = limit_mm - margin_mm,
          .limit_mm = limit_mm,
          .margin_mm = margin_mm,
          .verdict = verdict};
}

}  // namespace

fit::Scene tower_scene() {
  using enum fit::Axis;
  fit::Scene out;
  out.title = "Saltmarsh attic studio";
  out.size_mm = {445, 232, 466};
  out.boxes = {box("case", outline, {{{-12, 433}, {-22, 210}, {-26, 440}}}),
               box("board", board, {{{0, 244}, {8, 12}, {118, 423}}}),
               box("memory", memory, {{{150, 157}, {12, 47}, {252, 385}}}),
               box("memory", memory, {{{160, 167}, {12, 47}, {252, 385}}}),
               box("tower", cooler, {{{72, 140}, {14, 206}, {256, 381}}}),
               box("card", card, {{{0, 336}, {14, 151}, {150, 206}}}),
               box("bend 24-pin", bend, {{{244, 284}, {12, 47}, {300, 352}}}),
               box("radiator 360", radiator, {{{341, 368}, {30, 150}, {36, 430}}}),
               box("fan 120", fan, {{{368, 393}, {30, 150}, {50, 170}}}),
               box("fan 120", fan, {{{368, 393}, {30, 150}, {170, 290}}}),
               box("fan 120", fan, {{{368, 393}, {30, 150}, {290, 410}}}),
               box("supply chamber", outline, {{{0, 330}, {0, 205}, {0, 100}}}),
               box("supply", supply, {{{2, 142}, {20, 170}, {6, 92}}}),
               box("drive", drive, {{{210, 310}, {40, 110}, {10, 17}}})};
  out.boxes[11].part_id.clear();
  out.boxes[12].at[1].placed = false;
  out.boxes[13].at[0].placed = out.boxes[13].at[2].placed = false;
  out.gaps = {gap("fit.cooler-height", y, {206, 210}, {106, 208, 318}, 196, Verdict::thin),
              gap("fit.card-length", x, {336, 341}, {338.5, 82, 178}, 341, Verdict::thin),
              gap("fit.cooler-memory", x, {140, 150}, {145, 30, 318}, 45, Verdict::holds),
              gap("fit.radiator-length", z, {430, 440}, {354, 90, 435}, 404, Verdict::holds),
              gap("fit.board-height", z, {423, 440}, {122, 10, 431}, 322, Verdict::holds)};
  out.dimensions = {
      {.text = "", .axis = x, .from_mm = -12, .to_mm = 433, .at_mm = {210, 94, -26}},
      {.text = "", .axis = y, .from_mm = -22, .to_mm = 210, .at_mm = {433, 94, 207}},
      {.text = "", .axis = z, .from_mm = -26, .to_mm = 440, .at_mm = {433, 94, 207}},
      {.text = "card",
       .axis = x,
       .from_mm = 0,
       .to_mm = 336,
       .plus_minus_mm = 2,
       .at_mm = {168, 82, 150}},
      {.text = "tower",
       .axis = y,
       .from_mm = 14,
       .to_mm = 206,
       .plus_minus_mm = 1,
       .at_mm = {106, 110, 381}},
      {.text = "chamber", .axis = z, .from_mm = 0, .to_mm = 100, .at_mm = {0, 100, 50}}};
  out.notes = {"supply: its place across the chamber is in no table",
               "drive: the case has places for it; which one is used is not said"};
  return out;
}

fit::Scene small_scene() {
  using enum fit::Axis;
  fit::Scene out;
  out.title = "Lantern box, 11 litres";
  out.size_mm = {340, 152, 214};
  out.boxes = {box("case", outline, {{{-6, 334}, {-66, 86}, {-8, 206}}}),
               box("card", card, {{{0, 311}, {-58, -6}, {50, 187}}}),
               box("board", board, {{{0, 170}, {6, 10}, {30, 200}}}),
               box("memory", memory, {{{128, 135}, {10, 44}, {52, 185}}}),
               box("memory", memory, {{{138, 145}, {10, 44}, {52, 185}}}),
               box("flat cooler", cooler, {{{34, 126}, {12, 66}, {76, 168}}}),
               box("fan 92", fan, {{{34, 126}, {66, 81}, {76, 168}}}),
               box("supply", supply, {{{196, 321}, {14, 78}, {106, 206}}}),
               box("bend", bend, {{{170, 196}, {14, 50}, {140, 190}}}),
               box("drive", drive, {{{214, 314}, {20, 90}, {20, 27}}})};
  out.boxes[9].at[0].placed = out.boxes[9].at[1].placed = false;
  out.gaps = {gap("fit.cooler-height", y, {90, 86}, {80, 84, 122}, 76, Verdict::fails),
              gap("fit.cooler-memory", x, {126, 128}, {127, 30, 122}, 36, Verdict::thin),
              gap("fit.card-length", x, {311, 318}, {314.5, -32, 118}, 318, Verdict::thin),
              gap("fit.board-height", z, {200, 206}, {85, 8, 203}, 206, Verdict::holds),
              gap("fit.supply-length", x, {321, 334}, {327, 46, 150}, 138, Verdict::holds),
              gap("fit.card-width", z, {187, 206}, {150, -32, 196}, 156, Verdict::holds),
              gap("fit.card-thickness", y, {-6, 0}, {150, -3, 118}, 58, Verdict::holds)};
  out.boxes[6].at[1].high_mm = 90;  // the fan on the cooler stands 4 mm through the side panel
  out.gaps[1].where = "nearest socket";
  out.dimensions = {
      {.text = "", .axis = x, .from_mm = -6, .to_mm = 334, .at_mm = {164, 10, -8}},
      {.text = "", .axis = y, .from_mm = -66, .to_mm = 86, .at_mm = {334, 10, 99}},
      {.text = "", .axis = z, .from_mm = -8, .to_mm = 206, .at_mm = {334, 10, 99}},
      {.text = "card",
       .axis = x,
       .from_mm = 0,
       .to_mm = 311,
       .plus_minus_mm = 1.5,
       .at_mm = {155, -32, 50}},
      {.text = "cooler", .axis = y, .from_mm = 12, .to_mm = 90, .at_mm = {80, 51, 168}},
      {.text = "supply", .axis = x, .from_mm = 196, .to_mm = 321, .at_mm = {258, 46, 206}}};
  out.notes = {"drive: which of its places is used is not said"};
  return out;
}

fit::Scene crowded_scene(int count) {
  fit::Scene out;
  out.title = "Crowded";
  out.size_mm = {400, 200, 450};
  for (int i = 0; i < count; ++i) {
    const double x_mm = 20.0 * (i % 19);
    const double z_mm = 30.0 * (i / 19 % 14);
    out.boxes.push_back(box(fmt::format("thing {}", i), drive,
                            {{{x_mm, x_mm + 17}, {5.0 * (i % 7), 60}, {z_mm, z_mm + 26}}}));
    out.gaps.push_back(gap(fmt::format("fit.gap-{}", i), static_cast<fit::Axis>(i % 3), {3, 5},
                           {x_mm, 50, z_mm}, 100.0 + i, Verdict::thin));
    out.gaps.back().margin_mm = 0.5 * i - 20;
    out.dimensions.push_back({.text = "step",
                              .axis = static_cast<fit::Axis>(i % 3),
                              .from_mm = x_mm,
                              .to_mm = x_mm + 31 + i,
                              .at_mm = {x_mm, 20, z_mm}});
  }
  return out;
}

fit::Scene hostile_scene() {
  fit::Scene out = tower_scene();
  out.title = hostile_text("title");
  for (fit::Box& each : out.boxes) each.name = each.part_id = hostile_text("box");
  for (fit::Gap& each : out.gaps) each.claim_id = each.where = hostile_text("gap");
  for (fit::Dimension& each : out.dimensions) each.text = hostile_text("dimension");
  for (std::string& each : out.notes) each = hostile_text("note");
  return out;
}

}  // namespace rigproof::sheet
