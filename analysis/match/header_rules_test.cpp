// Fans, pump, front ports and USB 2 plugs against headers and hubs, counted by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/match/match_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::UnorderedElementsAre;

const Rule& rule(std::string_view id) { return rule_of(match_rules(), id); }

TestTables headers() {
  TestTables tables;
  tables.row("board", {{"id", "full"}})
      .row("board", {{"id", "bare"}})
      .row("board", {{"id", "unlisted"}});
  for (const auto& [header, count] :
       {std::pair{"fan", "2"}, {"pump", "1"}, {"usb2", "2"}, {"usb3", "1"}, {"usb-c", "1"}})
    tables.row("board_headers", {{"board", "full"}, {"header", header}, {"count", count}});
  return tables.row("board_headers", {{"board", "bare"}, {"header", "cpu-fan"}, {"count", "1"}})
      .row("case", {{"id", "front"}})
      .row("part_headers", {{"part", "front"}, {"header", "usb2"}, {"count", "1"}})
      .row("part_headers", {{"part", "front"}, {"header", "usb3"}, {"count", "2"}})
      .row("part_headers", {{"part", "front"}, {"header", "usb-c"}, {"count", "1"}})
      .row("case_fans", {{"case", "front"}, {"mount", "rear"}, {"size_mm", "120"}, {"count", "1"}})
      .row("case", {{"id", "blind"}})
      .row("part_headers", {{"part", "blind"}, {"header", "usb-c"}, {"count", "0"}})
      .row("case_fans", {{"case", "blind"}, {"mount", "rear"}, {"size_mm", "120"}, {"count", "0"}})
      .row("case", {{"id", "silent"}})
      .row("fan", {{"id", "single"}, {"chains", "no"}})
      .row("fan", {{"id", "link"}, {"chains", "yes"}})
      .row("fan", {{"id", "perhaps"}})
      .row("other", {{"id", "powered"}, {"what", "hub"}})
      .row("other_hubs", {{"other", "powered"}, {"feeds", "fan"}, {"outputs", "4"}})
      .row("part_headers", {{"part", "powered"}, {"header", "sata-power"}, {"count", "1"}})
      .row("other", {{"id", "splitter"}, {"what", "hub"}})
      .row("other_hubs", {{"other", "splitter"}, {"feeds", "fan"}, {"outputs", "3"}})
      .row("part_headers", {{"part", "splitter"}, {"header", "sata-power"}, {"count", "0"}})
      .row("other", {{"id", "untold"}, {"what", "hub"}})
      .row("other_hubs", {{"other", "untold"}, {"feeds", "fan"}, {"outputs", "3"}})
      .row("other", {{"id", "mystery"}, {"what", "hub"}})
      .row("board", {{"id", "headless"}})
      .row("board_headers", {{"board", "headless"}, {"header", "usb2"}, {"count", "0"}})
      .row("other", {{"id", "usb-hub"}, {"what", "hub"}})
      .row("other_hubs", {{"other", "usb-hub"}, {"feeds", "usb2"}, {"outputs", "3"}})
      .row("part_headers", {{"part", "usb-hub"}, {"header", "usb2"}, {"count", "1"}})
      .row("other", {{"id", "radio"}, {"what", "wifi-card"}})
      .row("part_headers", {{"part", "radio"}, {"header", "usb2"}, {"count", "1"}})
      .row("cooler", {{"id", "loop"}, {"type", "liquid"}})
      .row("part_headers", {{"part", "loop"}, {"header", "pump"}, {"count", "1"}})
      .row("part_headers", {{"part", "loop"}, {"header", "usb2"}, {"count", "1"}});
}

using Parts = std::vector<std::pair<std::string, int>>;

Claim of(std::string_view id, const Parts& parts, int place = 0) {
  Scene scene(headers());
  for (const auto& [part, count] : parts) scene.take(part, count);
  return scene.claim(rule(id), place);
}
int places(std::string_view id, const Parts& parts) {
  Scene scene(headers());
  for (const auto& [part, count] : parts) scene.take(part, count);
  return scene.places(rule(id));
}
Claim fans(const Parts& parts) { return of("match.fan-headers", parts); }

TEST(FanHeaders, OneForEveryFan) {
  const Claim even = fans({{"full", 1}, {"front", 1}, {"single", 1}});
  EXPECT_EQ(even.verdict, Verdict::holds);
  EXPECT_EQ(even.value->value, 2.0) << "the case's own fan and one more";
  EXPECT_EQ(even.limit->value, 2.0);
  const Claim over = fans({{"full", 1}, {"front", 1}, {"single", 2}});
  EXPECT_EQ(over.verdict, Verdict::fails);
  EXPECT_EQ(over.margin->value, -1.0);
  EXPECT_THAT(over.remedy, HasSubstr("hub"));
  EXPECT_EQ(fans({{"bare", 1}, {"front", 1}}).verdict, Verdict::fails)
      << "a processor fan header is not counted";
  EXPECT_EQ(places("match.fan-headers", {{"full", 1}, {"blind", 1}}), 0) << "no fan";
}

TEST(FanHeaders, ChainedFansShareAPlug) {
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"link", 3}}).value->value, 2.0);
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"link", 3}, {"single", 1}}).verdict, Verdict::fails);
}

TEST(FanHeaders, HubsAddTheirOutputs) {
  // Two headers and four outputs.
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"single", 5}, {"powered", 1}}).margin->value, 0.0);
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"single", 6}, {"powered", 1}}).verdict,
            Verdict::fails);
  // One header left and three outputs on the other.
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"single", 3}, {"splitter", 1}}).margin->value, 0.0);
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"single", 4}, {"splitter", 1}}).verdict,
            Verdict::fails);
  // Three splitters, two headers: the third hangs nowhere.
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"single", 5}, {"splitter", 3}}).limit->value, 6.0);
  EXPECT_EQ(fans({{"bare", 1}, {"front", 1}, {"splitter", 1}}).verdict, Verdict::fails);
  EXPECT_EQ(fans({{"bare", 1}, {"front", 1}, {"powered", 1}}).verdict, Verdict::holds);
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"single", 2}, {"usb-hub", 1}}).verdict,
            Verdict::fails)
      << "another sort of hub";
}

TEST(FanHeaders, UnknownOnlyWhereItHangsOnAnAbsentCell) {
  EXPECT_THAT(missing_cells(fans({{"unlisted", 1}, {"front", 1}})),
              ElementsAre("board_headers.unlisted.*"));
  EXPECT_THAT(missing_cells(fans({{"full", 1}, {"silent", 1}})), ElementsAre("case_fans.silent.*"));
  EXPECT_EQ(fans({{"full", 1}, {"silent", 1}, {"single", 3}}).verdict, Verdict::fails)
      << "too many without the case's own";
  EXPECT_EQ(fans({{"full", 1}, {"blind", 1}, {"perhaps", 2}}).verdict, Verdict::holds);
  const Claim chain = fans({{"full", 1}, {"front", 1}, {"perhaps", 2}});
  EXPECT_EQ(chain.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(chain), ElementsAre("fan.perhaps.chains"));
  // 2 + 3 outputs with power of its own, 2 - 1 + 3 without: five fans hang on it, four do not.
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"single", 3}, {"untold", 1}}).verdict,
            Verdict::holds);
  EXPECT_THAT(missing_cells(fans({{"full", 1}, {"front", 1}, {"single", 4}, {"untold", 1}})),
              ElementsAre("part_headers.untold.*"));
  EXPECT_EQ(fans({{"full", 1}, {"front", 1}, {"single", 5}, {"untold", 1}}).verdict,
            Verdict::fails);
  EXPECT_THAT(missing_cells(fans({{"full", 1}, {"front", 1}, {"single", 2}, {"mystery", 1}})),
              ElementsAre("other_hubs.mystery.*"));
}

TEST(PumpHeader, WhereACoolerStatesAPumpPlug) {
  EXPECT_EQ(of("match.pump-header", {{"full", 1}, {"loop", 1}}).verdict, Verdict::holds);
  const Claim none = of("match.pump-header", {{"bare", 1}, {"loop", 1}});
  EXPECT_EQ(none.verdict, Verdict::fails);
  EXPECT_EQ(none.grade, Grade::tells);
  EXPECT_THAT(missing_cells(of("match.pump-header", {{"unlisted", 1}, {"loop", 1}})),
              ElementsAre("board_headers.unlisted.*"));
  EXPECT_EQ(places("match.pump-header", {{"full", 1}}), 0);
}

TEST(FrontHeaders, EachSortOfPort) {
  const Parts parts = {{"full", 1}, {"front", 1}};
  ASSERT_EQ(places("match.front-headers", parts), 3);
  EXPECT_EQ(of("match.front-headers", parts, 0).where, "usb2");
  EXPECT_EQ(of("match.front-headers", parts, 0).verdict, Verdict::holds);
  const Claim usb3 = of("match.front-headers", parts, 1);
  EXPECT_EQ(usb3.verdict, Verdict::fails) << "two plugs, one header";
  EXPECT_EQ(usb3.grade, Grade::tells);
  EXPECT_EQ(of("match.front-headers", parts, 2).verdict, Verdict::holds);
  EXPECT_EQ(of("match.front-headers", {{"bare", 1}, {"front", 1}}, 2).verdict, Verdict::fails);
  EXPECT_THAT(missing_cells(of("match.front-headers", {{"unlisted", 1}, {"front", 1}})),
              ElementsAre("board_headers.unlisted.*"));
  EXPECT_EQ(places("match.front-headers", {{"full", 1}, {"blind", 1}}), 0);
  EXPECT_THAT(missing_cells(of("match.front-headers", {{"full", 1}, {"silent", 1}})),
              ElementsAre("part_headers.silent.*"));
}

Claim usb_c(const Parts& parts) {
  Scene scene(headers());
  for (const auto& [part, count] : parts) scene.take(part, count);
  EXPECT_EQ(scene.places(rule("match.must-front-usb-c")), 0) << "nobody asked";
  scene.brief.front_usb_c = true;
  return scene.claim(rule("match.must-front-usb-c"));
}

TEST(MustFrontUsbC, NeedsBothSides) {
  const Claim both = usb_c({{"full", 1}, {"front", 1}});
  EXPECT_EQ(both.verdict, Verdict::holds);
  EXPECT_EQ(both.grade, Grade::must);
  EXPECT_EQ(usb_c({{"full", 1}, {"blind", 1}}).verdict, Verdict::fails);
  EXPECT_EQ(usb_c({{"bare", 1}, {"front", 1}}).verdict, Verdict::fails);
  EXPECT_EQ(usb_c({{"bare", 1}, {"silent", 1}}).verdict, Verdict::fails)
      << "no header, whatever the case has";
  EXPECT_EQ(usb_c({{"unlisted", 1}, {"blind", 1}}).verdict, Verdict::fails)
      << "no port, whatever the board has";
  EXPECT_THAT(missing_cells(usb_c({{"unlisted", 1}, {"front", 1}})),
              ElementsAre("board_headers.unlisted.*"));
  EXPECT_THAT(missing_cells(usb_c({{"full", 1}, {"silent", 1}})),
              ElementsAre("part_headers.silent.*"));
}

// Front, loop and radio: three plugs of two; a hub takes one and gives three.
TEST(Usb2Headers, CountEveryInternalPlug) {
  const auto id = "match.usb2-headers";
  EXPECT_EQ(of(id, {{"full", 1}, {"front", 1}, {"loop", 1}}).margin->value, 0.0);
  const Claim three = of(id, {{"full", 1}, {"front", 1}, {"loop", 1}, {"radio", 1}});
  EXPECT_EQ(three.verdict, Verdict::fails);
  EXPECT_EQ(three.value->value, 3.0);
  EXPECT_EQ(three.grade, Grade::tells);
  const Claim hub = of(id, {{"full", 1}, {"front", 1}, {"loop", 1}, {"radio", 1}, {"usb-hub", 1}});
  EXPECT_EQ(hub.verdict, Verdict::holds);
  EXPECT_EQ(hub.margin->value, 1.0) << "2 + 3 - 4";
  EXPECT_THAT(hub.subjects, UnorderedElementsAre("full", "front", "loop", "radio", "usb-hub"));
  EXPECT_THAT(missing_cells(of(id, {{"unlisted", 1}, {"loop", 1}})),
              ElementsAre("board_headers.unlisted.*"));
  EXPECT_EQ(places(id, {{"full", 1}, {"silent", 1}}), 0) << "nothing states such a plug";
  const Claim nowhere = of(id, {{"headless", 1}, {"loop", 1}, {"usb-hub", 1}});
  EXPECT_EQ(nowhere.verdict, Verdict::fails) << "a hub cannot hang on itself";
  EXPECT_EQ(nowhere.limit->value, 0.0);
}

}  // namespace
}  // namespace rigproof
