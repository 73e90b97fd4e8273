// Screws and standoffs of whole builds, counted by hand. The numbers of holes are looked up
// (microATX 1.2 Figure 2; a CAD file for Mini-ITX and for the ATX supply's face); the rest is
// common practice without a source or from memory, as each line must say itself.
#include "analysis/fit/fasteners.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/scene.hpp"

namespace rigproof::fit {
namespace {

using test_support::Scene;
using test_support::TestTables;

TestTables tables() {
  TestTables t;
  t.row("board", {{"id", "large"}, {"form_factor", "ATX"}})
      .row("board", {{"id", "middle"}, {"form_factor", "microATX"}})
      .row("board", {{"id", "small"}, {"form_factor", "Mini-ITX"}})
      .row("board", {{"id", "silent-board"}})
      .row("psu", {{"id", "psu-atx"}, {"form", "ATX"}})
      .row("psu", {{"id", "psu-sfx"}, {"form", "SFX"}})
      .row("psu", {{"id", "psu-tfx"}, {"form", "TFX"}})
      .row("psu", {{"id", "psu-silent"}})
      .row("storage", {{"id", "stick"}, {"mounting", "M.2-2280"}})
      .row("storage", {{"id", "flat"}, {"mounting", "bay-2.5"}})
      .row("storage", {{"id", "thick"}, {"mounting", "bay-3.5"}})
      .row("storage", {{"id", "silent-drive"}})
      .row("cooler", {{"id", "tower"}, {"type", "air"}, {"fans", "1"}})
      .row("cooler", {{"id", "loop"}, {"type", "liquid"}, {"radiator_mm", "360"}, {"fans", "3"}})
      .row("cooler", {{"id", "silent-loop"}, {"type", "liquid"}, {"radiator_mm", "240"}})
      .row("fan", {{"id", "fan-a"}, {"size_mm", "120"}})
      .row("gpu", {{"id", "card-3"}, {"slots", "3"}})
      .row("gpu", {{"id", "silent-card"}})
      .row("other", {{"id", "radio"}, {"what", "wifi-card"}, {"slot", "x1"}})
      .row("other", {{"id", "stuff"}, {"what", "paste"}, {"slot", "none"}});
  return t;
}

std::vector<FastenerLine> lines_for(const std::vector<std::pair<std::string_view, int>>& parts) {
  Scene scene(tables());
  for (const auto& [id, count] : parts) scene.take(id, count);
  return fasteners(scene.facts());
}

const FastenerLine& line_of(const std::vector<FastenerLine>& lines, std::string_view starts) {
  const auto found = std::ranges::find_if(
      lines, [&](const FastenerLine& line) { return line.what_for.starts_with(starts); });
  if (found == lines.end()) throw std::invalid_argument("no line " + std::string(starts));
  return *found;
}

// 9, 8 or 9, and 4 holes: looked up; which thread a standoff has: common practice, no source.
TEST(Fasteners, BoardTakesOneForEachHole) {
  struct Row {
    const char* board;
    Count count;
  };
  for (const Row& row : {Row{"large", {9, 9}}, Row{"middle", {8, 9}}, Row{"small", {4, 4}}}) {
    const auto lines = lines_for({{row.board, 1}});
    ASSERT_EQ(lines.size(), 2U) << row.board;
    for (const FastenerLine& line : lines) {
      EXPECT_EQ(line.count, row.count) << line.what_for;
      EXPECT_EQ(line.known, Known::common_practice) << line.what_for;
      EXPECT_EQ(line.part_id, row.board);
      EXPECT_EQ(line.kind, "6-32 UNC or M3");
    }
  }
}

// Four face holes of an ATX supply, 6-32: looked up. SFX: common practice. TFX: we do not know.
TEST(Fasteners, Supplies) {
  const auto atx = lines_for({{"psu-atx", 1}});
  EXPECT_EQ(line_of(atx, "supply").count, (Count{4, 4}));
  EXPECT_EQ(line_of(atx, "supply").kind, "6-32 UNC");
  EXPECT_EQ(line_of(atx, "supply").known, Known::looked_up);
  const auto sfx = lines_for({{"psu-sfx", 1}});
  EXPECT_EQ(line_of(sfx, "supply").known, Known::common_practice);
  for (const char* id : {"psu-tfx", "psu-silent"}) {
    const auto lines = lines_for({{id, 1}});
    EXPECT_FALSE(line_of(lines, "supply").count) << id;
    EXPECT_EQ(line_of(lines, "supply").known, Known::not_known) << id;
    EXPECT_FALSE(line_of(lines, "supply").note.empty()) << id;
  }
}

// One screw a module (from memory), four a drive (common practice); threads M3 and 6-32 looked up.
// Clips and trays without tools need none.
TEST(Fasteners, DrivesByMounting) {
  const auto lines = lines_for({{"stick", 2}, {"flat", 2}, {"thick", 3}});
  EXPECT_EQ(line_of(lines, "drive stick").count, (Count{0, 2}));
  EXPECT_EQ(line_of(lines, "drive stick").kind, "M2");
  EXPECT_EQ(line_of(lines, "drive stick").known, Known::from_memory);
  EXPECT_EQ(line_of(lines, "drive flat").count, (Count{0, 8}));
  EXPECT_EQ(line_of(lines, "drive flat").kind, "M3");
  EXPECT_EQ(line_of(lines, "drive thick").count, (Count{0, 12}));
  EXPECT_EQ(line_of(lines, "drive thick").kind, "6-32 UNC");
  EXPECT_EQ(line_of(lines, "drive thick").known, Known::common_practice);
}

// Three fans of four corners: twelve long and twelve short ones, common practice.
TEST(Fasteners, RadiatorTakesItsFansAndItself) {
  const auto lines = lines_for({{"loop", 1}});
  EXPECT_EQ(line_of(lines, "fans on the radiator").count, (Count{12, 12}));
  EXPECT_EQ(line_of(lines, "radiator in the case").count, (Count{12, 12}));
  EXPECT_FALSE(line_of(lines, "mounting set").count);
  const auto silent = lines_for({{"silent-loop", 1}});
  EXPECT_FALSE(line_of(silent, "fans on the radiator").count);
  EXPECT_THAT(line_of(silent, "fans on the radiator").note, testing::HasSubstr("fans"));
  EXPECT_EQ(lines_for({{"tower", 1}}).size(), 1U);  // only its mounting set
}

TEST(Fasteners, AddedFansAndCards) {
  const auto lines = lines_for({{"fan-a", 3}, {"card-3", 1}, {"radio", 1}, {"stuff", 1}});
  ASSERT_EQ(lines.size(), 3U);  // paste takes none
  EXPECT_EQ(line_of(lines, "added fan").count, (Count{12, 12}));
  EXPECT_EQ(line_of(lines, "added fan").known, Known::common_practice);
  // The cooler may be wider than its bracket: at least one screw, at most one a slot.
  EXPECT_EQ(line_of(lines, "bracket of the card").count, (Count{1, 3}));
  EXPECT_EQ(line_of(lines, "bracket of radio").count, (Count{1, 1}));
  EXPECT_EQ(line_of(lines_for({{"card-3", 2}}), "bracket of the card").count, (Count{2, 6}));
}

TEST(Fasteners, AnAbsentCellLeavesTheCountOpen) {
  const auto lines = lines_for({{"silent-board", 1}, {"silent-drive", 1}, {"silent-card", 1}});
  ASSERT_EQ(lines.size(), 4U);
  for (const FastenerLine& line : lines) {
    EXPECT_FALSE(line.count) << line.what_for;
    EXPECT_EQ(line.known, Known::not_known) << line.what_for;
    EXPECT_TRUE(line.kind.empty()) << line.what_for;
    EXPECT_THAT(line.note, testing::HasSubstr("does not know")) << line.what_for;
  }
  EXPECT_FALSE(totals(lines).complete);
}

TEST(Fasteners, AnEmptyBuildTakesNone) {
  EXPECT_TRUE(lines_for({}).empty());
  EXPECT_TRUE(totals({}).complete);
}

// By hand. 6-32 UNC or M3: 9 standoffs + 9 screws. 6-32 UNC: supply 4, drive 0 to 4, card 1 to 3.
TEST(Fasteners, TotalsAddByKind) {
  const auto lines = lines_for({{"large", 1}, {"psu-atx", 1}, {"thick", 1}, {"card-3", 1}});
  const Totals sums = totals(lines);
  EXPECT_TRUE(sums.complete);
  ASSERT_EQ(sums.of_kind.size(), 2U);
  EXPECT_EQ(sums.of_kind[0].kind, "6-32 UNC or M3");
  EXPECT_EQ(sums.of_kind[0].count, (Count{18, 18}));
  EXPECT_EQ(sums.of_kind[1].kind, "6-32 UNC");
  EXPECT_EQ(sums.of_kind[1].count, (Count{5, 11}));
}

}  // namespace
}  // namespace rigproof::fit
