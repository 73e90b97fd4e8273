// Lights against headers of their voltage.
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
using testing::ElementsAre;
using testing::HasSubstr;

Scene& take(Scene& scene, const std::vector<std::string>& parts) {
  for (const auto& part : parts) scene.take(part);
  return scene;
}

TestTables lights() {
  return TestTables()
      .row("board", {{"id", "five"}})
      .row("board_headers", {{"board", "five"}, {"header", "light-5v"}, {"count", "1"}})
      .row("board", {{"id", "twelve"}})
      .row("board_headers", {{"board", "twelve"}, {"header", "light-12v"}, {"count", "1"}})
      .row("board_headers", {{"board", "twelve"}, {"header", "light-5v"}, {"count", "0"}})
      .row("board", {{"id", "unlisted"}})
      .row("fan", {{"id", "glow"}})
      .row("part_headers", {{"part", "glow"}, {"header", "light-5v"}, {"count", "1"}})
      .row("case", {{"id", "strip"}})
      .row("part_headers", {{"part", "strip"}, {"header", "light-12v"}, {"count", "1"}})
      .row("case", {{"id", "dark"}})
      .row("part_headers", {{"part", "dark"}, {"header", "light-5v"}, {"count", "0"}})
      .row("case", {{"id", "silent"}})
      .row("other", {{"id", "powered"}, {"what", "hub"}})
      .row("other_hubs", {{"other", "powered"}, {"feeds", "light-5v"}, {"outputs", "4"}})
      .row("part_headers", {{"part", "powered"}, {"header", "sata-power"}, {"count", "1"}})
      .row("part_headers", {{"part", "powered"}, {"header", "light-5v"}, {"count", "1"}})
      .row("other", {{"id", "splitter"}, {"what", "hub"}})
      .row("other_hubs", {{"other", "splitter"}, {"feeds", "light-5v"}, {"outputs", "4"}})
      .row("part_headers", {{"part", "splitter"}, {"header", "light-5v"}, {"count", "1"}});
}

Claim of(const std::vector<std::string>& parts, int place = 0) {
  Scene scene(lights());
  return take(scene, parts).claim(rule_of(match_rules(), "match.light-headers"), place);
}
int places(const std::vector<std::string>& parts) {
  Scene scene(lights());
  return take(scene, parts).places(rule_of(match_rules(), "match.light-headers"));
}

TEST(LightHeaders, OfTheirOwnVoltage) {
  EXPECT_EQ(of({"five", "glow"}).verdict, Verdict::holds);
  const Claim wrong = of({"twelve", "glow"});
  EXPECT_EQ(wrong.verdict, Verdict::fails) << "12 V is no place for 5 V lights";
  EXPECT_EQ(wrong.grade, Grade::tells);
  EXPECT_EQ(wrong.where, "light-5v");
  EXPECT_THAT(wrong.remedy, HasSubstr("destroys"));
  ASSERT_EQ(places({"twelve", "glow", "strip"}), 2);
  EXPECT_EQ(of({"twelve", "glow", "strip"}, 1).verdict, Verdict::holds);
  EXPECT_EQ(of({"five", "strip"}).verdict, Verdict::fails);
}

TEST(LightHeaders, AHubWithPowerOfItsOwnIsOne) {
  EXPECT_EQ(of({"twelve", "glow", "powered"}).verdict, Verdict::holds);
  EXPECT_EQ(of({"twelve", "glow", "splitter"}).verdict, Verdict::fails)
      << "it hangs on a header that is not there";
  EXPECT_EQ(places({"five", "powered"}), 0) << "its own input is no light";
  EXPECT_EQ(of({"unlisted", "glow", "powered"}).verdict, Verdict::holds)
      << "whatever the board has";
}

TEST(LightHeaders, AreAskedOnlyWhereLightsAreStated) {
  EXPECT_EQ(places({"five", "dark"}), 0);
  EXPECT_EQ(places({"five", "silent"}), 0);
  EXPECT_THAT(missing_cells(of({"unlisted", "glow"})), ElementsAre("board_headers.unlisted.*"));
}

}  // namespace
}  // namespace rigproof
