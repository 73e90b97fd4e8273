// Random builds of the demo catalog: what a scene shows and what the claims say are the same thing.
// Rooms are read from the tables here, not from the layout.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/layout.hpp"
#include "app/workshop.hpp"
#include "tests/plan/random_numbers.hpp"
#include "tests/support/gap_checks.hpp"

namespace rigproof {
namespace {

using fit::Axis;
using fit::Box;
using fit::Extent;
using fit::Use;

constexpr int rounds = 2000;
constexpr double touching_mm = 1e-6;  // rounding of doubles: what only touches does not overlap

const Catalog& demo() {
  static const app::Workshop workshop = [] {
    auto opened = app::open_workshop("demo/catalog");
    if (!opened) throw std::runtime_error(opened.error().message);
    return std::move(*opened);
  }();
  return workshop.catalog;
}

// One part of each kind; added fans in half of the builds, a liquid cooler in half of them, which
// the author wants in front in a third of those.
class RandomBuild {
 public:
  explicit RandomBuild(test_plan::RandomNumbers& random) : random_(random) {
    for (const Kind kind : {Kind::board, Kind::memory, Kind::gpu, Kind::chassis, Kind::psu})
      build.add(kind, any(kind));
    const char* const type = random_.chance(50) ? "liquid" : "air";
    Row cooler = any(Kind::cooler);
    while (demo().word(column("cooler", "type"), cooler) != type) cooler = any(Kind::cooler);
    build.add(Kind::cooler, cooler);
    if (random_.chance(50)) build.add(Kind::fan, any(Kind::fan), random_.number(1, 4));
    if (random_.chance(33)) setup.mounts["cooler"] = "front";
  }
  Build build;
  Setup setup;

 private:
  Row any(Kind kind) {
    return static_cast<Row>(random_.number(0, static_cast<int>(demo().rows(table_of(kind))) - 1));
  }
  test_plan::RandomNumbers& random_;
};

struct Round {
  const Build& build;
  const std::vector<Claim>& claims;
  const fit::Scene& scene;

  [[nodiscard]] const Box* box(Use use) const {
    const auto found = std::ranges::find(scene.boxes, use, &Box::use);
    return found == scene.boxes.end() ? nullptr : &*found;
  }
  [[nodiscard]] const Claim* claim(std::string_view id) const {
    const auto found = std::ranges::find(claims, id, &Claim::id);
    return found == claims.end() ? nullptr : &*found;
  }
  [[nodiscard]] std::string id(Kind kind) const {
    return std::string(demo().id({kind, build.one(kind)}));
  }
};

const Extent& along(const Box& box, Axis axis) { return box.at[static_cast<std::size_t>(axis)]; }
bool known(const Extent& extent) { return extent.placed && extent.sized; }
bool overlap(const Extent& a, const Extent& b) {
  return std::min(a.high_mm, b.high_mm) - std::max(a.low_mm, b.low_mm) > touching_mm;
}
bool overlap_known(const Box& a, const Box& b, Axis axis) {
  return known(along(a, axis)) && known(along(b, axis)) && overlap(along(a, axis), along(b, axis));
}

// Missing for certain: the whole interval of the margin is below zero.
bool misses(const Claim* claim) {
  return claim != nullptr && claim->margin &&
         claim->margin->high.value_or(claim->margin->value) < 0;
}
// What overlaps at stated values has a margin below zero in half of the draws: it cannot hold.
bool does_not_hold(const Claim* claim) {
  return claim != nullptr && claim->verdict != Verdict::holds;
}

double stated_mm(const Round& round, std::string_view limits) {
  for (const Row row :
       demo().rows_of(table("case_clearances"), {Kind::chassis, round.build.one(Kind::chassis)}))
    if (demo().word(column("case_clearances", "limits"), row) == limits &&
        demo().word(column("case_clearances", "when"), row) == "always")
      return demo().number(column("case_clearances", "by_mm"), row);
  return std::numeric_limits<double>::quiet_NaN();
}

std::string_view face_of(const Round& round, const Box& box) {
  for (const Row row :
       demo().rows_of(table("case_mounts"), {Kind::chassis, round.build.one(Kind::chassis)}))
    if (demo().word(column("case_mounts", "mount"), row) == box.mount)
      return demo().word(column("case_mounts", "face"), row);
  return {};
}
// Radiator and added fans on a face; the case's own fans are not judged by any claim.
std::vector<const Box*> hung_on(const Round& round, std::string_view face) {
  std::vector<const Box*> out;
  for (const Box& box : round.scene.boxes)
    if ((box.use == Use::radiator || box.use == Use::fan) &&
        box.part_id != round.id(Kind::chassis) && face_of(round, box) == face)
      out.push_back(&box);
  return out;
}

struct Counts {
  int all_axes = 0, front = 0, front_margins = 0, top = 0, card_missed = 0, card_in_front = 0,
      cooler_missed = 0, over_board_missed = 0;
};

// Boxes whose places are known on every axis meet only where some claim says so.
void check_all_axes(const Round& round, Counts& counts) {
  const bool some_no = std::ranges::any_of(round.claims, [](const Claim& claim) {
    return claim.verdict != Verdict::holds || (claim.margin && claim.margin->value < 0.0);
  });
  for (const Box& a : round.scene.boxes)
    for (const Box& b : round.scene.boxes) {
      if (&a >= &b || a.use == Use::outline || b.use == Use::outline || a.part_id == b.part_id)
        continue;
      const auto all_known = [](const Box& box) { return std::ranges::all_of(box.at, known); };
      if (!all_known(a) || !all_known(b)) continue;
      ++counts.all_axes;
      const bool meet = overlap_known(a, b, Axis::x) && overlap_known(a, b, Axis::y) &&
                        overlap_known(a, b, Axis::z);
      // A board and what stands on it touch, and no claim speaks of them: they must never meet.
      const bool on_board = a.use == Use::board || b.use == Use::board;
      EXPECT_FALSE(meet && (on_board || !some_no)) << a.name << " and " << b.name;
    }
}

// In front x alone decides: nobody knows where beside the card the row of holes ends.
void check_front(const Round& round, Counts& counts) {
  const Box* const card = round.box(Use::card);
  ASSERT_NE(card, nullptr);
  const Claim* const claim = round.claim("fit.card-length");
  bool shown = false;
  double begins_mm = std::numeric_limits<double>::infinity();
  bool all_known = known(along(*card, Axis::x));
  for (const Box* hung : hung_on(round, "front")) {
    begins_mm = std::min(begins_mm, along(*hung, Axis::x).low_mm);
    all_known = all_known && known(along(*hung, Axis::x));
    // A fan of unstated thickness is drawn with the middle of its class, and shown all the same.
    shown = shown || overlap(along(*card, Axis::x), along(*hung, Axis::x));
    if (!overlap_known(*card, *hung, Axis::x)) continue;
    ++counts.front;
    EXPECT_TRUE(does_not_hold(claim)) << hung->name;
  }
  // Between the card's end and the first thing in front lies the claim's margin, box to box.
  if (all_known && std::isfinite(begins_mm) && claim != nullptr && claim->margin) {
    ++counts.front_margins;
    EXPECT_NEAR(begins_mm - along(*card, Axis::x).high_mm, claim->margin->value,
                fit_test::rounding_mm(*claim));
  }
  if (!misses(claim)) return;
  ++counts.card_missed;
  const fit::Gap* const gap = fit_test::gap_for(round.scene, *claim);
  ASSERT_NE(gap, nullptr);
  EXPECT_LT(gap->to_mm, gap->from_mm);
  const double end_mm = along(*card, Axis::x).high_mm;
  EXPECT_GT(end_mm, gap->to_mm);
  // Either the bare case is too short, or what hangs in front is shown to be in the way.
  const bool too_short = end_mm > stated_mm(round, "card-length");
  counts.card_in_front += too_short ? 0 : 1;
  EXPECT_TRUE(too_short || shown);
}

// What hangs from the top is in the way if it reaches below the board's edge (z) and closer to the
// board than what stands there (y). Where memory begins below the edge is not known.
void check_top(const Round& round, Counts& counts) {
  const Box* const board = round.box(Use::board);
  const Box* const memory = round.box(Use::memory);
  ASSERT_TRUE(board != nullptr && memory != nullptr);
  const Claim* const claim = round.claim("fit.over-board");
  const double edge_mm =
      demo().number(column("board", "upper_edge_mm"), round.build.one(Kind::board));
  bool lower = false;
  bool closer = false;
  for (const Box* hung : hung_on(round, "top")) {
    const Extent& z = along(*hung, Axis::z);
    const Extent& y = along(*hung, Axis::y);
    const bool below = z.low_mm < along(*board, Axis::z).high_mm - touching_mm;
    const double tallest_mm =
        std::max(along(*memory, Axis::y).high_mm, std::isnan(edge_mm) ? 0.0 : edge_mm);
    lower = lower || below;
    closer = closer || y.low_mm < tallest_mm;
    const bool sure = known(z) && known(y) && along(*board, Axis::z).placed;
    if (sure && below && overlap_known(*hung, *memory, Axis::y)) {
      ++counts.top;
      EXPECT_TRUE(does_not_hold(claim)) << hung->name;
    }
  }
  if (!misses(claim)) return;
  ++counts.over_board_missed;
  EXPECT_TRUE(lower && closer);
  const fit::Gap* const gap = fit_test::gap_for(round.scene, *claim);
  ASSERT_NE(gap, nullptr);
  EXPECT_LT(gap->to_mm, gap->from_mm);
}

void check_cooler(const Round& round, Counts& counts) {
  const Box* const cooler = round.box(Use::cooler);
  ASSERT_NE(cooler, nullptr);
  const Claim* const claim = round.claim("fit.cooler-height");
  const double panel_mm = stated_mm(round, "cooler-height");
  const double top_mm = along(*cooler, Axis::y).high_mm;
  if (known(along(*cooler, Axis::y)) && top_mm > panel_mm + touching_mm) {
    EXPECT_TRUE(does_not_hold(claim));
  }
  if (!misses(claim)) return;
  ++counts.cooler_missed;
  const fit::Gap* const gap = fit_test::gap_for(round.scene, *claim);
  ASSERT_NE(gap, nullptr);
  EXPECT_LT(gap->to_mm, gap->from_mm);
  const Box& outline = round.scene.boxes.front();
  ASSERT_EQ(outline.use, Use::outline);
  EXPECT_GT(top_mm, along(outline, Axis::y).high_mm);
}

TEST(SceneDemo, ScenesAndClaimsAgreeOnRandomBuilds) {
  test_plan::RandomNumbers random(20261);
  CellDraws draws(demo());
  const Brief brief;
  Counts counts;
  for (int i = 0; i < rounds && !testing::Test::HasFailure(); ++i) {
    const RandomBuild chosen(random);
    const Facts facts{.catalog = demo(),
                      .brief = brief,
                      .prices = nullptr,
                      .build = chosen.build,
                      .draws = draws,
                      .setup = &chosen.setup};
    const auto claims = all_claims(fit_rules(), facts);
    const fit::Scene scene = fit::scene_of(facts, claims, "random");
    const Round round{.build = chosen.build, .claims = claims, .scene = scene};
    SCOPED_TRACE("round " + std::to_string(i) + ": " + round.id(Kind::chassis) + ", " +
                 round.id(Kind::gpu) + ", " + round.id(Kind::cooler) + ", " +
                 round.id(Kind::board) + ", " + round.id(Kind::memory));
    fit_test::expect_real_numbers(scene);
    fit_test::expect_true_gaps(scene, claims);
    check_all_axes(round, counts);
    check_front(round, counts);
    check_top(round, counts);
    check_cooler(round, counts);
  }
  std::printf(
      "pairs %d, overlaps: front %d, top %d; margins in front %d; missed: card %d (%d of what "
      "hangs in front), "
      "cooler %d, over the board %d\n",
      counts.all_axes, counts.front, counts.top, counts.front_margins, counts.card_missed,
      counts.card_in_front, counts.cooler_missed, counts.over_board_missed);
  EXPECT_GT(counts.all_axes, 100);
  EXPECT_GT(counts.front, 20);
  EXPECT_GT(counts.front_margins, 200);
  EXPECT_GT(counts.top, 20);
  EXPECT_GT(counts.card_in_front, 20);
  EXPECT_GT(counts.card_missed, counts.card_in_front);
  EXPECT_GT(counts.cooler_missed, 20);
  EXPECT_GT(counts.over_board_missed, 20);
}

}  // namespace
}  // namespace rigproof
