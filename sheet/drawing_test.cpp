// Oracles: the SVG read back by a strict reader that shares nothing with the writer; what every
// drawing must keep (each number stands in a text, no text lies on another or off the paper, no
// leader runs through a text) judged from the written coordinates; projections by hand.
#include "sheet/drawing.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <limits>
#include <regex>

#include "sheet/drawing_layout.hpp"
#include "sheet/html_check.hpp"
#include "sheet/sample_scene.hpp"

namespace rigproof::sheet {
namespace {

using testing::HasSubstr;

struct ReadText {
  std::string words;
  Rect room;
};

double attribute(const std::string& tag, const std::string& name) {
  std::smatch found;
  const std::regex looks(" " + name + "=\"(-?[0-9.]+)\"");
  return std::regex_search(tag, found, looks) ? std::stod(found[1]) : 0.0;
}

// Where a text lies, from what is written of it. An average letter of a sans-serif face takes about
// half an em; entities count as one letter, other bytes as they are.
std::vector<ReadText> texts_of(const std::string& svg) {
  std::vector<ReadText> out;
  const std::regex looks("<text([^>]*)>([^<]*)</text>");
  for (std::sregex_iterator it(svg.begin(), svg.end(), looks), end; it != end; ++it) {
    const std::string tag = (*it)[1], words = (*it)[2];
    const double em = attribute(tag, "font-size"), x = attribute(tag, "x"), y = attribute(tag, "y");
    const std::string letters = std::regex_replace(words, std::regex("&[a-z#0-9]+;"), "_");
    const double width = 0.5 * em * static_cast<double>(letters.size());
    const bool middle = tag.find("middle") != std::string::npos;
    const double from = middle ? -width / 2 : 0.0;
    const bool upright = tag.find("rotate(-90") != std::string::npos;
    out.push_back({words, upright ? Rect{x - 0.75 * em, y - from - width, x, y - from}
                                  : Rect{x + from, y - 0.75 * em, x + from + width, y}});
  }
  return out;
}

Rect paper_of(const std::string& svg) {
  std::smatch found;
  EXPECT_TRUE(std::regex_search(svg, found, std::regex("viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\"")));
  return {0.0, 0.0, std::stod(found[1]), std::stod(found[2])};
}

void expect_clean(const std::string& svg, const std::string& what) {
  const HtmlCheck check = HtmlReader(svg).read();
  EXPECT_TRUE(check.faults.empty()) << what << ": " << check.faults.front();
  const std::vector<ReadText> texts = texts_of(svg);
  EXPECT_FALSE(texts.empty()) << what;
  const Rect paper = paper_of(svg);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    EXPECT_TRUE(contains(paper, texts[i].room)) << what << ": off the paper: " << texts[i].words;
    for (std::size_t k = 0; k < i; ++k)
      EXPECT_FALSE(overlap(texts[i].room, texts[k].room))
          << what << ": " << texts[i].words << " / " << texts[k].words;
  }
}

std::vector<std::string> drawings_of(const fit::Scene& scene) {
  std::vector<std::string> out = {drawing_sheet_svg(scene)};
  for (const DrawingForm& form : {page_form(), narrow_form()}) {
    out.push_back(side_section_svg(scene, form));
    out.push_back(top_view_svg(scene, form));
    out.push_back(front_view_svg(scene, form));
  }
  return out;
}

std::string all_text(const std::string& svg) {
  std::string out;
  for (const ReadText& text : texts_of(svg)) out += text.words + "\n";
  return out;
}

TEST(Drawing, NoTextLiesOnAnotherOrOffThePaper) {
  fit::Scene huge = tower_scene(), flat = tower_scene();
  for (fit::Box& box : huge.boxes)
    for (fit::Extent& extent : box.at) extent.high_mm *= 1e6;
  for (fit::Box& box : flat.boxes)
    for (fit::Extent& extent : box.at) extent.high_mm = extent.low_mm;
  int number = 0;
  for (const fit::Scene& scene : {tower_scene(), small_scene(), crowded_scene(60),
                                  crowded_scene(200), fit::Scene{}, huge, flat})
    for (const std::string& svg : drawings_of(scene))
      expect_clean(svg, scene.title + " " + std::to_string(number++));
}

// Every line of the drawing but hatching, which no text may stand on.
std::vector<Segment> lines_of(const std::string& svg) {
  std::vector<Segment> out;
  // The numbers of a path are many: an expression over all of them at once runs out of stack.
  const std::regex path("<path class=\"[^h\"][^\"]*\" d=\""),
      piece("M([-0-9.]+) ([-0-9.]+)L([-0-9.]+) ([-0-9.]+)");
  for (std::sregex_iterator it(svg.begin(), svg.end(), path), end; it != end; ++it) {
    const auto from = static_cast<std::size_t>(it->position() + it->length());
    const std::string d = svg.substr(from, svg.find('"', from) - from);
    for (std::sregex_iterator p(d.begin(), d.end(), piece); p != end; ++p)
      out.push_back(
          {{std::stod((*p)[1]), std::stod((*p)[2])}, {std::stod((*p)[3]), std::stod((*p)[4])}});
  }
  return out;
}

TEST(Drawing, NoLineRunsThroughAText) {
  for (const fit::Scene& scene : {tower_scene(), small_scene(), crowded_scene(60)})
    for (const std::string& svg : drawings_of(scene)) {
      const std::vector<Segment> lines = lines_of(svg);
      EXPECT_GT(lines.size(), 20U);
      for (const ReadText& text : texts_of(svg))
        for (const Segment& line : lines) EXPECT_FALSE(crosses(line, text.room)) << text.words;
    }
}

// The numbers as the scene has them: no rounding is needed in these two scenes.
void expect_numbers(const fit::Scene& scene, const std::string& text, View view) {
  for (const fit::Gap& gap : scene.gaps)
    if (lies_in(gap.axis, view)) {
      std::string wanted = std::to_string(static_cast<int>(std::abs(gap.margin_mm)));
      wanted += gap.margin_mm < 0 ? " mm over" : " mm left";
      EXPECT_THAT(text, HasSubstr(wanted)) << gap.claim_id;
    }
  for (const fit::Dimension& each : scene.dimensions) {
    if (!lies_in(each.axis, view)) continue;
    EXPECT_THAT(text, HasSubstr(std::to_string(static_cast<int>(each.to_mm - each.from_mm))));
  }
}

TEST(Drawing, EveryNumberOfTheSceneStandsInAText) {
  for (const fit::Scene& scene : {tower_scene(), small_scene()}) {
    for (const DrawingForm& form : {page_form(), narrow_form()}) {
      expect_numbers(scene, all_text(side_section_svg(scene, form)), View::side);
      expect_numbers(scene, all_text(top_view_svg(scene, form)), View::top);
      expect_numbers(scene, all_text(front_view_svg(scene, form)), View::front);
    }
    const std::string sheet = all_text(drawing_sheet_svg(scene));
    for (const View view : {View::side, View::top, View::front}) expect_numbers(scene, sheet, view);
  }
}

TEST(Drawing, DescriptionSaysWhatIsTightAndMeaningIsNotByColourAlone) {
  const std::string svg = side_section_svg(small_scene(), page_form());
  EXPECT_THAT(svg, HasSubstr("Tight: cooler height, 4 mm over"));
  EXPECT_THAT(svg, HasSubstr("class=\"h t\""));      // hatched, not only in the accent
  EXPECT_THAT(all_text(svg), HasSubstr("drive ?"));  // not only dashed
}

TEST(Drawing, TextsAreEscapedAndTheFileAsksForNothing) {
  for (const std::string& svg : drawings_of(hostile_scene())) {
    const HtmlCheck check = HtmlReader(svg).read();
    EXPECT_TRUE(check.faults.empty()) << check.faults.front();
    EXPECT_FALSE(check.tags.contains("script"));
    for (const char* name : {"href", "src", "style", "onload"})
      EXPECT_FALSE(check.attributes.contains(name)) << name;
    EXPECT_EQ(svg.find("url("), std::string::npos);
    EXPECT_EQ(svg.find("\xE2\x80\xAE"), std::string::npos);  // U+202E
  }
}

TEST(Drawing, TheSameSceneGivesTheSameBytes) {
  EXPECT_EQ(drawings_of(tower_scene()), drawings_of(tower_scene()));
}

TEST(Drawing, ScaleIsTheLargestPreferredOneThatFits) {
  EXPECT_EQ(drawing_scale(3.0).words, "1:1");
  EXPECT_EQ(drawing_scale(0.5).words, "1:2");
  EXPECT_EQ(drawing_scale(0.49).words, "1:2.5");
  EXPECT_EQ(drawing_scale(0.2).words, "1:5");
  EXPECT_EQ(drawing_scale(0.15).words, "1:10");
  EXPECT_EQ(drawing_scale(0.002).words, "1:500");
}

// 340 px for 120 mm of paper: the smallest text must be 11 px high or more.
TEST(Drawing, TextOnAPhoneIsLegible) {
  const DrawingForm form = narrow_form();
  EXPECT_GE(form.text_mm * 340.0 / form.width_mm, 11.0);
}

// By hand: in the view from above the side panel (y high) is below, so the tray is above; from the
// front the side panel is at the left. Neither view is a mirror image.
TEST(DrawingView, ViewsAreTrueNotMirrored) {
  const Projection side{.axes = axes_of(View::side), .paper_per_mm = 0.5, .at = {}};
  EXPECT_EQ(side.point({10, 20, 30}).x_mm, 5.0);
  EXPECT_EQ(side.point({10, 20, 30}).y_mm, -15.0);
  const Projection top{.axes = axes_of(View::top), .paper_per_mm = 0.5, .at = {}};
  EXPECT_EQ(top.point({10, 20, 30}).x_mm, 5.0);
  EXPECT_EQ(top.point({10, 20, 30}).y_mm, 10.0);
  const Projection front{.axes = axes_of(View::front), .paper_per_mm = 0.5, .at = {}};
  EXPECT_EQ(front.point({10, 20, 30}).x_mm, -10.0);
  EXPECT_EQ(front.point({10, 20, 30}).y_mm, -15.0);
}

// A board of 100 x 100 behind a card that covers its middle strip: of each upright edge of the
// board, 20 of 100 are hidden; of the card, nothing.
TEST(DrawingView, WhatABodyCoversIsHidden) {
  fit::Scene scene;
  scene.boxes.resize(2);
  scene.boxes[0] = {"board", "b", fit::Use::board, {{{0, 100}, {0, 2}, {0, 100}}}};
  scene.boxes[1] = {"card", "c", fit::Use::card, {{{-10, 110}, {5, 50}, {40, 60}}}};
  const Projection side{.axes = axes_of(View::side), .paper_per_mm = 1.0, .at = {}};
  double hidden_mm = 0.0;
  for (const EdgePiece& edge : flatten(scene, side).edges)
    if (edge.hidden) {
      EXPECT_EQ(edge.box, 0U);
      hidden_mm += std::abs(edge.line.to.y_mm - edge.line.from.y_mm);
    }
  EXPECT_DOUBLE_EQ(hidden_mm, 40.0);
  scene.boxes[1].at[0].placed = false;  // what is of unknown place hides nothing
  for (const EdgePiece& edge : flatten(scene, side).edges) EXPECT_FALSE(edge.hidden);
}

TEST(DrawingPlane, CrossingsByHand) {
  const Rect box{0, 0, 10, 10};
  EXPECT_TRUE(crosses({{-5, 5}, {15, 6}}, box));
  EXPECT_FALSE(crosses({{-5, 8}, {3, 16}}, box));    // passes the corner
  EXPECT_FALSE(crosses({{-5, 10}, {15, 10}}, box));  // along the border
  EXPECT_TRUE(crosses(Segment{{0, 0}, {10, 10}}, Segment{{0, 10}, {10, 0}}));
  EXPECT_FALSE(crosses(Segment{{0, 0}, {1, 1}}, Segment{{0, 10}, {10, 0}}));
}

TEST(Drawing, ShowsTheGapsThatAReaderLooksFor) {
  fit::Scene scene;
  const auto add = [&](double margin_mm, Verdict verdict) {
    fit::Gap gap;
    gap.limit_mm = 100.0;
    gap.margin_mm = margin_mm;
    gap.verdict = verdict;
    scene.gaps.push_back(gap);
  };
  for (const double margin_mm : {-3.0, 30.0, 40.0, 25.0, 26.0}) add(margin_mm, Verdict::holds);
  add(60.0, Verdict::thin);  // wide, but not sure
  const auto& shown = with_near_gaps(scene).gaps;
  std::vector<double> margins;
  for (const fit::Gap& gap : shown) margins.push_back(gap.margin_mm);
  EXPECT_EQ(margins, (std::vector<double>{-3.0, 30.0, 40.0, 25.0, 60.0}));
}

}  // namespace
}  // namespace rigproof::sheet
