// The choice of mounts on random cases, against plain loops over plain numbers that share no code.
#include "analysis/fit/mounting.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "analysis/fit/room.hpp"
#include "tests/support/scene.hpp"

namespace rigproof::fit {
namespace {

using test_support::Scene;
using test_support::TestTables;

struct PlainMount {
  std::vector<int> fan_sizes, radiators;
  int places = 0, depth_mm = 0, own_fans = 0;
  int takes_mm = -1;  // -1: nothing from the card
};

std::string joined(const std::vector<int>& numbers) {
  std::string text;
  for (const int number : numbers) text += (text.empty() ? "" : "|") + std::to_string(number);
  return text.empty() ? "none" : text;
}

class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  int upto(int n) { return static_cast<int>(engine_() % static_cast<unsigned>(n + 1)); }
  std::vector<int> some_of(const std::vector<int>& all) {
    std::vector<int> out;
    for (const int x : all)
      if (upto(1) == 1) out.push_back(x);
    return out;
  }

 private:
  std::mt19937 engine_;
};

std::vector<PlainMount> random_mounts(Dice& dice) {
  std::vector<PlainMount> mounts(static_cast<std::size_t>(1 + dice.upto(4)));
  for (PlainMount& m : mounts) {
    m.fan_sizes = dice.some_of({120, 140});
    if (m.fan_sizes.empty()) m.fan_sizes = {120};
    m.radiators = dice.some_of({120, 240, 280, 360});
    m.places = dice.upto(3);
    m.depth_mm = 20 + 10 * dice.upto(5);
    m.own_fans = m.places > 0 ? dice.upto(1) : 0;  // of the smallest listed size
    if (dice.upto(1) == 1) m.takes_mm = dice.upto(9);
  }
  return mounts;
}

TestTables tables_of(const std::vector<PlainMount>& mounts) {
  TestTables tables;
  tables.row("case", {{"id", "box"}});
  tables.row("case_clearances",
             {{"case", "box"}, {"limits", "card-length"}, {"when", "always"}, {"by_mm", "400"}});
  for (std::size_t i = 0; i < mounts.size(); ++i) {
    const PlainMount& m = mounts[i];
    const std::string name = "mount-" + std::to_string(i);
    tables.row("case_mounts", {{"case", "box"},
                               {"mount", name},
                               {"face", "top"},
                               {"fan_sizes_mm", joined(m.fan_sizes)},
                               {"fan_places", std::to_string(m.places)},
                               {"radiators_mm", joined(m.radiators)},
                               {"depth_mm", std::to_string(m.depth_mm)}});
    tables.row("case_fans", {{"case", "box"},
                             {"mount", name},
                             {"size_mm", std::to_string(m.fan_sizes.front())},
                             {"count", std::to_string(m.own_fans)}});
    if (m.takes_mm >= 0)
      tables.row("case_clearances", {{"case", "box"},
                                     {"limits", "card-length"},
                                     {"when", name},
                                     {"by_mm", std::to_string(m.takes_mm)}});
  }
  tables.row("cooler", {{"id", "loop"},
                        {"type", "liquid"},
                        {"radiator_mm", "240"},
                        {"radiator_thickness_mm", "27"},
                        {"fan_thickness_mm", "25"}});
  tables.row("fan", {{"id", "fan"}, {"size_mm", "140"}, {"thickness_mm", "25"}});
  return tables;
}

bool has(const std::vector<int>& numbers, int x) {
  return std::ranges::find(numbers, x) != numbers.end();
}

// Places for a 140 mm fan, counted by putting one after the other.
int places_for_140(const PlainMount& m) {
  if (!has(m.fan_sizes, 140) || m.depth_mm < 25) return 0;
  int length = m.places * m.fan_sizes.front();
  for (const int radiator : m.radiators) length = std::max(length, radiator);
  int at = m.own_fans * m.fan_sizes.front();
  int count = 0;
  while (at + 140 <= length) {
    at += 140;
    ++count;
  }
  return count;
}

TEST(Mounting, AgreesWithPlainLoopsOnRandomCases) {
  Dice dice(20261001);
  int with_radiator = 0;
  int with_fans = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const std::vector<PlainMount> mounts = random_mounts(dice);
    const int wanted = 1 + dice.upto(4);
    Scene scene(tables_of(mounts));
    scene.take("box").take("loop").take("fan", wanted);
    const Facts facts = scene.facts();
    std::array<Row, most_mounts> radiators{};
    const int candidates = radiator_candidates(facts, radiators);
    const Mounting got = seated(facts, candidates == 0 ? no_row : radiators[0]);

    // Radiator: 52 mm deep. Deep enough before too shallow (the less the better), then the least
    // taken, then first.
    int best = -1;
    const auto badness = [&](int i) {
      const PlainMount& m = mounts[static_cast<std::size_t>(i)];
      return std::pair{std::max(0, 52 - m.depth_mm), m.takes_mm < 0 ? 0 : m.takes_mm + 52};
    };
    for (int i = 0; i < static_cast<int>(mounts.size()); ++i)
      if (has(mounts[static_cast<std::size_t>(i)].radiators, 240) &&
          (best < 0 || badness(i) < badness(best)))
        best = i;
    ASSERT_EQ(got.radiator, best < 0 ? no_row : static_cast<Row>(best)) << trial;
    with_radiator += best >= 0 ? 1 : 0;

    // Fans: as many as all other mounts hold, no mount beyond its own.
    int free = 0;
    for (int i = 0; i < static_cast<int>(mounts.size()); ++i)
      if (i != best) free += places_for_140(mounts[static_cast<std::size_t>(i)]);
    ASSERT_EQ(got.free_places[0], free) << trial;
    ASSERT_EQ(got.unplaced[0], std::max(0, wanted - free)) << trial;
    int placed = 0;
    double last_taken = -1.0;
    std::set<Row> used;
    for (const FanGroup& group : got.groups()) {
      const PlainMount& m = mounts[group.mount];
      ASSERT_TRUE(used.insert(group.mount).second) << trial;
      ASSERT_LE(group.count, places_for_140(m)) << trial;
      const double taken = m.takes_mm < 0 ? 0.0 : m.takes_mm + 25.0;
      ASSERT_GE(taken, last_taken) << trial;  // those first that take least
      last_taken = taken;
      placed += group.count;
    }
    ASSERT_EQ(placed, std::min(wanted, free)) << trial;
    with_fans += placed > 0 ? 1 : 0;

    // Room with everything, by hand, and never more than with less mounted.
    double room = 400.0;
    if (best >= 0) room -= badness(best).second;
    for (const Row mount : used)
      if (mounts[mount].takes_mm >= 0) room -= mounts[mount].takes_mm + 25.0;
    const Seats seats{got};  // this very way, not the best one
    Facts given = facts;
    given.seats = &seats;
    Measure measure;
    const Draws all = room_mm(given, "card-length", measure);
    EXPECT_NEAR(all.median(), room, 2.5) << trial;  // clearances and thicknesses have tolerances,
    EXPECT_NEAR(0.5 * (all.low() + all.high()), room, 1e-9) << trial;  // even around the stated sum
    scene.drop(Kind::cooler);
    const Draws less = room_mm(scene.facts(), "card-length", measure);
    scene.drop(Kind::fan);
    const Draws bare = room_mm(scene.facts(), "card-length", measure);
    EXPECT_GE(bare.low(), less.low()) << trial;
    EXPECT_GE(bare.low(), all.low()) << trial;
    EXPECT_GE(bare.high(), all.high()) << trial;
  }
  EXPECT_GT(with_radiator, 100);  // the dice asked what they should
  EXPECT_GT(with_fans, 100);
}

}  // namespace
}  // namespace rigproof::fit
