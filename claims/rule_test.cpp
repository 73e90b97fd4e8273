// Rules judged and explained: verdicts against counted draws and hand-made intervals.
#include "claims/rule.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::missing_cells;
using test_support::Scene;
using test_support::TestTables;
using testing::ElementsAre;

constexpr std::array memory_kind = {Kind::memory};
constexpr ColumnId height =
    column("memory", "height_mm");  // class range 31 to 56 mm, tolerance 0.5
constexpr ColumnId speed = column("memory", "speed_mt_s");  // no class range, no tolerance
constexpr ColumnId kit_type = column("memory", "memory_type");

int once(const Facts&) { return 1; }

// The room above the slots, in mm; set by the test before judging.
double room_mm = 0.0;

void measure_height(const Facts& facts, int, Measure& m) {
  m.value = m.read(facts, height, facts.build.one(Kind::memory));
  m.limit = room_mm;
}
void tell_height(const Facts& facts, int place, const Measure&, Telling& t) {
  t.statement = "The kit fits under the cooler.";
  t.where = "slot " + std::to_string(place);
  t.remedy = "choose a lower kit";
  t.subjects = {{Kind::memory, facts.build.one(Kind::memory)}};
}
constexpr Rule height_rule = {.id = "test.height",
                              .about = "",
                              .kinds = memory_kind,
                              .unit = "mm",
                              .source = "part data",
                              .places = once,
                              .measure = measure_height,
                              .tell = tell_height};

Rule with(Relation relation) {
  Rule rule = height_rule;
  rule.relation = relation;
  return rule;
}

// 1 in the first `k` draws, 3 in the others.
Draws low_in(int k) {
  std::array<double, draw_count> samples;
  for (int i = 0; i < draw_count; ++i) samples[static_cast<std::size_t>(i)] = i < k ? 1.0 : 3.0;
  return Draws::of(samples);
}

Measure numbers(const Draws& value, const Draws& limit) {
  Measure m;
  m.value = value;
  m.limit = limit;
  return m;
}

TEST(Judge, CountsTheDrawsInWhichItHolds) {
  struct Case {
    int draws;
    Verdict verdict;
  };
  for (const Case& c :
       {Case{256, Verdict::holds}, Case{244, Verdict::holds}, Case{243, Verdict::thin},
        Case{128, Verdict::thin}, Case{127, Verdict::doubtful}, Case{13, Verdict::doubtful},
        Case{12, Verdict::fails}, Case{0, Verdict::fails}}) {
    const Finding at_most = judge(with(Relation::at_most), numbers(low_in(c.draws), 2.0));
    EXPECT_EQ(at_most.verdict, c.verdict) << c.draws;
    EXPECT_EQ(at_most.holds.count(), static_cast<std::size_t>(c.draws));
    // At least: the same draws on the other side of the comparison.
    EXPECT_EQ(judge(with(Relation::at_least), numbers(2.0, low_in(c.draws))).verdict, c.verdict)
        << c.draws;
  }
}

TEST(Judge, EqualIsWithinTheLimit) {
  EXPECT_EQ(judge(with(Relation::at_most), numbers(4.0, 4.0)).verdict, Verdict::holds);
  EXPECT_EQ(judge(with(Relation::at_least), numbers(4.0, 4.0)).verdict, Verdict::holds);
  EXPECT_EQ(judge(with(Relation::equals), numbers(4.0, 4.0)).verdict, Verdict::holds);
  EXPECT_EQ(judge(with(Relation::equals), numbers(4.0, 5.0)).verdict, Verdict::fails);
  EXPECT_EQ(judge(with(Relation::equals), numbers(5.0, 4.0)).verdict, Verdict::fails);
}

TEST(Judge, ClassRangeDecidesOnlyWhenAllOfItAgrees) {
  const Draws range = Draws::span(31.0, 56.0, stream("memory", "kit", "height_mm"));
  struct Case {
    double limit;
    Verdict at_most, at_least;
  };
  for (const Case& c :
       {Case{60.0, Verdict::holds, Verdict::fails}, Case{56.0, Verdict::holds, Verdict::unknown},
        Case{55.9, Verdict::unknown, Verdict::unknown},
        Case{31.0, Verdict::unknown, Verdict::holds}, Case{30.9, Verdict::fails, Verdict::holds}}) {
    EXPECT_EQ(judge(with(Relation::at_most), numbers(range, c.limit)).verdict, c.at_most)
        << c.limit;
    EXPECT_EQ(judge(with(Relation::at_least), numbers(range, c.limit)).verdict, c.at_least)
        << c.limit;
  }
}

TEST(Judge, ClassRangeOfOneValueIsThatValue) {
  const Draws one = Draws::span(1.0, 1.0, stream("board", "b", "atx24_inputs"));
  EXPECT_EQ(judge(with(Relation::equals), numbers(one, 1.0)).verdict, Verdict::holds);
  EXPECT_EQ(judge(with(Relation::equals), numbers(one, 2.0)).verdict, Verdict::fails);
  EXPECT_EQ(
      judge(with(Relation::equals), numbers(Draws::span(0.0, 2.0, stream("a", "b", "c")), 1.0))
          .verdict,
      Verdict::unknown);
}

// [31, 56] + [-2, 2] is [29, 58]: both ends count, whatever the draws happen to be.
TEST(Judge, ToleranceWidensAClassRange) {
  const Draws sum = Draws::span(31.0, 56.0, stream("a", "r", "c")) +
                    Draws::uniform(-2.0, 2.0, stream("b", "r", "c"));
  EXPECT_EQ(judge(with(Relation::at_most), numbers(sum, 58.0)).verdict, Verdict::holds);
  EXPECT_EQ(judge(with(Relation::at_most), numbers(sum, 57.9)).verdict, Verdict::unknown);
  EXPECT_EQ(judge(with(Relation::at_most), numbers(sum, 28.9)).verdict, Verdict::fails);
}

TEST(Judge, UnknownCountsInNoDraw) {
  Measure m = numbers(1.0, 2.0);
  m.unknown = true;
  const Finding finding = judge(height_rule, m);
  EXPECT_EQ(finding.verdict, Verdict::unknown);
  EXPECT_TRUE(finding.holds.none());
}

TEST(Judge, ComparingWhatWasNeverMeasuredIsABug) {
  EXPECT_THROW((void)judge(height_rule, Measure{}), ContractViolation);
}

TEST(Judge, OneCellReadTwiceIsTheSameInEveryDraw) {
  Scene scene(TestTables().row("memory", {{"id", "kit"}, {"height_mm", "40"}}));
  scene.take("kit");
  Measure m;
  m.value = m.read(scene.facts(), height, 0);
  m.limit = m.read(scene.facts(), height, 0);
  EXPECT_EQ(judge(height_rule, m).holds.count(), 256U);
}

// 40 +- 0.5 mm, uniform: its 5 and 95 % points are 39.55 and 40.45. Room 45: margin 5, from 4.55
// to 5.45.
TEST(Explain, ShowsValueLimitAndSignedMarginWithTheirInterval) {
  Scene scene(TestTables().row("memory", {{"id", "kit"}, {"height_mm", "40"}}));
  scene.take("kit");
  room_mm = 45.0;
  const Claim claim = scene.claim(height_rule);
  EXPECT_EQ(claim.id, "test.height");
  EXPECT_EQ(claim.verdict, Verdict::holds);
  EXPECT_THAT(claim.subjects, ElementsAre("kit"));
  EXPECT_NEAR(claim.value->value, 40.0, 1e-9);
  EXPECT_NEAR(*claim.value->low, 39.55, 1e-9);
  EXPECT_NEAR(*claim.value->high, 40.45, 1e-9);
  EXPECT_EQ(claim.value->unit, "mm");
  EXPECT_EQ(claim.limit->value, 45.0);
  EXPECT_NEAR(claim.margin->value, 5.0, 1e-9);
  EXPECT_NEAR(*claim.margin->low, 4.55, 1e-9);
  EXPECT_NEAR(*claim.margin->high, 5.45, 1e-9);
  EXPECT_NEAR(*claim.margin_frac, 5.0 / 45.0, 1e-9);
  EXPECT_EQ(claim.odds, 1.0);
  EXPECT_TRUE(claim.remedy.empty()) << "what holds needs none";
}

// Room 40.25: (40.25 - 39.5) / 1 = 75 % of the width, 192 of 256 stratified draws.
TEST(Explain, OddsAreTheShareOfTheDraws) {
  Scene scene(TestTables().row("memory", {{"id", "kit"}, {"height_mm", "40"}}));
  scene.take("kit");
  room_mm = 40.25;
  const Claim claim = scene.claim(height_rule);
  EXPECT_EQ(claim.odds, 0.75);
  EXPECT_EQ(claim.verdict, Verdict::thin);
  EXPECT_EQ(claim.remedy, "choose a lower kit");
}

TEST(Explain, AtLeastTurnsTheMarginRound) {
  Scene scene(TestTables().row("memory", {{"id", "kit"}, {"height_mm", "40"}}));
  scene.take("kit");
  room_mm = 45.0;
  const Claim claim = scene.claim(with(Relation::at_least));
  EXPECT_EQ(claim.verdict, Verdict::fails);
  EXPECT_NEAR(claim.margin->value, -5.0, 1e-9);
}

TEST(Explain, OverAClassRangeThereAreNoOddsAndTheRangeIsShown) {
  Scene scene(TestTables().row("memory", {{"id", "kit"}}));
  scene.take("kit");
  for (const double room : {60.0, 40.0, 20.0}) {
    room_mm = room;
    const Claim claim = scene.claim(height_rule);
    EXPECT_EQ(claim.verdict, room == 60.0   ? Verdict::holds
                             : room == 40.0 ? Verdict::unknown
                                            : Verdict::fails);
    EXPECT_FALSE(claim.odds);
    EXPECT_EQ(claim.value->low, 31.0);
    EXPECT_EQ(claim.value->high, 56.0);
    EXPECT_EQ(claim.margin->low, room - 56.0);
    EXPECT_EQ(claim.margin->high, room - 31.0);
    EXPECT_THAT(missing_cells(claim), ElementsAre("memory.kit.height_mm"));
  }
}

void measure_speed(const Facts& facts, int, Measure& m) {
  m.value = m.read(facts, speed, facts.build.one(Kind::memory));
  m.limit = 6000.0;
}
constexpr Rule speed_rule = {.id = "test.speed",
                             .about = "",
                             .kinds = memory_kind,
                             .unit = "MT/s",
                             .source = "part data",
                             .places = once,
                             .measure = measure_speed,
                             .tell = tell_height};

TEST(Explain, AbsentCellMakesItUnknownAndIsNamed) {
  Scene scene(TestTables().row("memory", {{"id", "kit"}, {"name", "Sella 32"}}));
  scene.take("kit");
  const Claim claim = scene.claim(speed_rule);
  EXPECT_EQ(claim.verdict, Verdict::unknown);
  EXPECT_FALSE(claim.odds);
  EXPECT_FALSE(claim.value);
  EXPECT_FALSE(claim.margin);
  EXPECT_EQ(claim.limit->value, 6000.0) << "what is known is shown";
  EXPECT_THAT(missing_cells(claim), ElementsAre("memory.kit.speed_mt_s"));
  EXPECT_EQ(claim.missing[0].how, "look up: rated speed with its profile (Sella 32)");
}

void measure_cents(const Facts&, int place, Measure& m) {
  m.value = place == 0 ? 134900.0 : 134901.0;
  m.limit = 134900.0;
}
int twice(const Facts&) { return 2; }
std::string_view currency(const Facts&, int place) { return place == 0 ? "EUR" : "USD"; }
double cents(const Facts&, int) { return 100.0; }
constexpr Rule money_rule = {.id = "test.money",
                             .about = "",
                             .kinds = memory_kind,
                             .source = "part data",
                             .places = twice,
                             .measure = measure_cents,
                             .tell = tell_height,
                             .unit_at = currency,
                             .divisor_at = cents};

TEST(Explain, MoneyIsJudgedInMinorUnitsAndShownInMajorOnes) {
  Scene scene(TestTables().row("memory", {{"id", "kit"}}));
  scene.take("kit");
  const Claim even = scene.claim(money_rule, 0);
  EXPECT_EQ(even.verdict, Verdict::holds);
  EXPECT_EQ(even.value->value, 1349.0);
  EXPECT_EQ(even.value->unit, "EUR");
  const Claim over = scene.claim(money_rule, 1);
  EXPECT_EQ(over.verdict, Verdict::fails);
  EXPECT_EQ(over.margin->value, -0.01);
  EXPECT_EQ(over.limit->unit, "USD");
}

void measure_words(const Facts& facts, int, Measure& m) {
  const auto type = m.read_word(facts, kit_type, facts.build.one(Kind::memory));
  m.compare_text(type, "DDR5", type == "DDR5");
}
constexpr Rule words_rule = {.id = "test.words",
                             .about = "",
                             .kinds = memory_kind,
                             .relation = Relation::equals,
                             .source = "part data",
                             .places = once,
                             .measure = measure_words,
                             .tell = tell_height};

TEST(Explain, WordsAreComparedAsWords) {
  Scene scene(TestTables()
                  .row("memory", {{"id", "new"}, {"memory_type", "DDR5"}})
                  .row("memory", {{"id", "old"}, {"memory_type", "DDR4"}})
                  .row("memory", {{"id", "bare"}}));
  scene.take("new");
  Claim claim = scene.claim(words_rule);
  EXPECT_EQ(claim.verdict, Verdict::holds);
  EXPECT_EQ(claim.value->text, "DDR5");
  EXPECT_EQ(claim.limit->text, "DDR5");
  EXPECT_EQ(claim.odds, 1.0);
  EXPECT_FALSE(claim.margin);
  claim = scene.drop(Kind::memory).take("old").claim(words_rule);
  EXPECT_EQ(claim.verdict, Verdict::fails);
  EXPECT_EQ(claim.odds, 0.0);
  claim = scene.drop(Kind::memory).take("bare").claim(words_rule);
  EXPECT_EQ(claim.verdict, Verdict::unknown);
  EXPECT_FALSE(claim.value);
  EXPECT_THAT(missing_cells(claim), ElementsAre("memory.bare.memory_type"));
}

TEST(Readers, NoteEachCellOnceAndAtMostEight) {
  TestTables tables;
  for (int i = 0; i < 10; ++i) tables.row("memory", {{"id", "kit-" + std::to_string(i)}});
  Scene scene(tables);
  Measure m;
  for (int again = 0; again < 2; ++again)
    for (Row row = 0; row < 3; ++row) EXPECT_TRUE(m.read(scene.facts(), speed, row).is_absent());
  EXPECT_EQ(m.missing_count, 3);
  for (Row row = 0; row < 10; ++row) EXPECT_EQ(m.read_word(scene.facts(), kit_type, row), "");
  EXPECT_EQ(m.missing_count, 8);
  EXPECT_TRUE(m.unknown);
}

TEST(Readers, RelationWithoutRowsIsUnknownAndNamesThePart) {
  Scene scene(TestTables()
                  .row("psu", {{"id", "listed"}})
                  .row("psu", {{"id", "unlisted"}})
                  .row("psu_cables", {{"psu", "listed"}, {"connector", "sata"}, {"count", "0"}}));
  Measure known;
  EXPECT_EQ(known.read_rows(scene.facts(), table("psu_cables"), {Kind::psu, 0}).size(), 1U);
  EXPECT_FALSE(known.unknown);
  Measure unknown;
  EXPECT_TRUE(unknown.read_rows(scene.facts(), table("psu_cables"), {Kind::psu, 1}).empty());
  EXPECT_TRUE(unknown.unknown);
  ASSERT_EQ(unknown.missing_count, 1);
  EXPECT_EQ(unknown.missing[0].parent, (PartRef{Kind::psu, 1}));
}

TEST(AllClaims, GoRuleByRuleAndPlaceByPlace) {
  Scene scene(TestTables().row("memory", {{"id", "kit"}, {"height_mm", "40"}}));
  scene.take("kit");
  room_mm = 45.0;
  const std::array<const Rule*, 2> book = {&money_rule, &height_rule};
  std::vector<std::string> order;
  for (const Claim& claim : all_claims(book, scene.facts()))
    order.push_back(claim.id + " " + claim.where);
  EXPECT_THAT(order, ElementsAre("test.money slot 0", "test.money slot 1", "test.height slot 0"));
}

TEST(Admitted, ByTheBriefAndItsExceptions) {
  Brief brief;
  EXPECT_TRUE(admitted(height_rule, Verdict::holds, brief));
  EXPECT_TRUE(admitted(height_rule, Verdict::thin, brief))
      << "thin is what a brief accepts when it says nothing";
  EXPECT_FALSE(admitted(height_rule, Verdict::unknown, brief));
  EXPECT_FALSE(admitted(height_rule, Verdict::doubtful, brief));
  EXPECT_FALSE(admitted(height_rule, Verdict::fails, brief));

  brief.accept = {.verdict = WorstVerdict::holds, .unknown = Unknowns::accept};
  EXPECT_FALSE(admitted(height_rule, Verdict::thin, brief));
  EXPECT_TRUE(admitted(height_rule, Verdict::unknown, brief));
  EXPECT_FALSE(admitted(height_rule, Verdict::fails, brief)) << "no brief lets in what fails";

  brief.accept_by_rule["test.height"] = {.verdict = WorstVerdict::thin,
                                         .unknown = Unknowns::refuse};
  EXPECT_TRUE(admitted(height_rule, Verdict::thin, brief));
  EXPECT_FALSE(admitted(height_rule, Verdict::unknown, brief));
  EXPECT_TRUE(admitted(speed_rule, Verdict::unknown, brief))
      << "the exception is for its rule alone";

  Rule tells = height_rule;
  tells.grade = Grade::tells;
  EXPECT_TRUE(admitted(tells, Verdict::fails, brief));
}

}  // namespace
}  // namespace rigproof
