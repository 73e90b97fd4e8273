// The search against brute force on thousands of small random problems. The brute force walks every
// combination, keeps its own copy of what is forbidden, and shares no code with the search.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <memory>
#include <random>
#include <ranges>
#include <set>

#include "decision/plan/search.hpp"

namespace rigproof::plan {
namespace {

using Status = Outcome::Status;
using Choice = std::vector<int>;

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  int upto(int most) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(most + 1)); }
  int between(int low, int high) { return low + upto(high - low); }
  bool chance(int percent) { return upto(99) < percent; }
  template <class T>
  void shuffle(std::vector<T>& v) {
    for (std::size_t i = v.size(); i > 1; --i)
      std::swap(v[i - 1], v[static_cast<std::size_t>(upto(static_cast<int>(i) - 1))]);
  }

 private:
  std::mt19937_64 engine_;
};

/// What the brute force knows of a problem: sets of what is forbidden, values by head.
struct Truth {
  std::set<std::vector<int>> forbidden_pairs;                          ///< first, second, a, b
  std::vector<std::pair<std::vector<int>, std::set<Choice>>> refused;  ///< scope, options of it
  std::map<Choice, double> head_values;
  std::map<Choice, int> groups;
};

struct Instance {
  Problem problem;
  Truth truth;
  int keep = 1;
};

void walk(const std::vector<int>& sizes, Choice& at,
          const std::function<void(const Choice&)>& see) {
  if (at.size() == sizes.size()) return see(at);
  for (int option = 0; option < sizes[at.size()]; ++option) {
    at.push_back(option);
    walk(sizes, at, see);
    at.pop_back();
  }
}

std::vector<Choice> all_of(const std::vector<int>& sizes) {
  std::vector<Choice> all;
  Choice at;
  walk(sizes, at, [&](const Choice& c) { all.push_back(c); });
  return all;
}

// The same table over classes of options that are alike to it.
PairTable in_classes(const PairTable& table, int rows, int columns) {
  const auto classes_of = [](int count, const auto& alike) {
    std::vector<int> first_of_class;
    std::vector<int> classes;
    for (int i = 0; i < count; ++i) {
      const auto found =
          std::ranges::find_if(first_of_class, [&](int first) { return alike(first, i); });
      classes.push_back(static_cast<int>(found - first_of_class.begin()));
      if (found == first_of_class.end()) first_of_class.push_back(i);
    }
    return std::pair(first_of_class, classes);
  };
  const auto some_rows = classes_of(rows, [&](int i, int j) {
    return std::ranges::all_of(std::views::iota(0, columns), [&](int column) {
      return table.allowed(i, column) == table.allowed(j, column);
    });
  });
  const auto some_columns = classes_of(columns, [&](int i, int j) {
    return std::ranges::all_of(std::views::iota(0, rows), [&](int row) {
      return table.allowed(row, i) == table.allowed(row, j);
    });
  });
  PairTable out =
      PairTable::all_allowed(table.first, table.second, static_cast<int>(some_rows.first.size()),
                             static_cast<int>(some_columns.first.size()), table.why);
  for (std::size_t i = 0; i < some_rows.first.size(); ++i)
    for (std::size_t j = 0; j < some_columns.first.size(); ++j)
      if (!table.allowed(some_rows.first[i], some_columns.first[j]))
        out.forbid(static_cast<int>(i), static_cast<int>(j));
  out.row_class = some_rows.second;
  out.column_class = some_columns.second;
  return out;
}

struct Style {
  bool deep = false;            ///< seven slots of few options, checks that reach far back
  bool wide = false;            ///< two slots of more than one word of options and a small one
  bool whole_values = true;     ///< small whole values: many ties
  std::int64_t large_cost = 0;  ///< in every cost, so that sums are large and builds close
  double loose = 0.0;           ///< added to every head bound at most
};

double some_value(Dice& dice, const Style& style) {
  return style.whole_values ? dice.between(-4, 8) * 0.5 : dice.between(-40'000, 80'000) / 997.0;
}

Instance make(std::uint64_t seed, const Style& style) {
  Dice dice(seed);
  Instance made;
  Problem& p = made.problem;
  const int slots = style.wide ? 3 : style.deep ? 7 : dice.between(2, 5);
  const int wide_from = dice.upto(1);
  const int resources = dice.between(1, 2);
  std::vector<int> sizes;
  for (int s = 0; s < slots; ++s) {
    sizes.push_back(dice.chance(1) ? 0 : dice.between(1, 5));
    if (style.deep) sizes.back() = dice.between(2, 3);
    if (style.wide) sizes.back() = s == wide_from || s == 2 ? dice.between(60, 75) : 2;
    Slot slot{.name = std::to_string(s), .options = {}};
    std::vector<int> ranks;
    for (int o = 0; o < sizes.back(); ++o) ranks.push_back(o * 3 - 2);
    dice.shuffle(ranks);
    for (int o = 0; o < sizes.back(); ++o) {
      Option option{.value = some_value(dice, style), .rank = ranks[static_cast<std::size_t>(o)]};
      for (int r = 0; r < resources; ++r)
        option.costs.push_back(style.large_cost == 0 ? dice.between(0, 6)
                                                     : style.large_cost * (s + 1) + dice.upto(9));
      slot.options.push_back(option);
    }
    p.slots.push_back(slot);
  }
  const std::int64_t large = style.large_cost * slots * (slots + 1) / 2;  // in every build
  for (int r = 0; r < resources; ++r)
    p.caps.push_back(large +
                     (dice.chance(15) ? dice.between(0, 6) : dice.between(2 * slots, 7 * slots)));
  p.money_weight = std::vector<double>{0.0, 0.25, 1.0}[static_cast<std::size_t>(dice.upto(2))];
  p.budget = large + dice.between(0, 40);
  if (dice.chance(50)) {
    for (int s = 0; s < slots; ++s) p.rank_order.push_back(s);
    dice.shuffle(p.rank_order);
  }

  for (int tables = dice.upto(5); tables > 0; --tables) {
    const int a = dice.upto(slots - 2);
    const int b = dice.between(a + 1, slots - 1);
    const auto rows = sizes[static_cast<std::size_t>(a)];
    const auto columns = sizes[static_cast<std::size_t>(b)];
    PairTable table =
        PairTable::all_allowed(a, b, rows, columns, "table " + std::to_string(tables % 3));
    const int percent = dice.between(0, 60);
    for (int i = 0; i < rows; ++i)
      for (int j = 0; j < columns; ++j)
        if (dice.chance(percent)) {
          table.forbid(i, j);
          made.truth.forbidden_pairs.insert({a, b, i, j});
        }
    if (dice.chance(30)) table = in_classes(table, rows, columns);
    p.tables.push_back(table);
  }
  constexpr std::array<std::array<int, 3>, 6> far_back = {
      {{0, 1, 6}, {2, 5, 6}, {0, 4, 5}, {1, 3, 6}, {0, 5, 6}, {1, 4, 6}}};
  for (int checks = style.deep ? dice.between(2, 5) : dice.upto(4); checks > 0; --checks) {
    std::vector<int> scope;
    std::vector<int> scope_sizes;
    const auto& far = far_back[static_cast<std::size_t>(dice.upto(5))];
    for (int s = 0; s < slots; ++s)
      if (style.deep ? std::ranges::find(far, s) != far.end() : dice.chance(45)) {
        scope.push_back(s);
        scope_sizes.push_back(sizes[static_cast<std::size_t>(s)]);
      }
    if (scope.empty()) continue;
    std::set<Choice> refused;
    const int percent = style.deep ? dice.between(55, 85) : dice.between(0, 70);
    for (const Choice& c : all_of(scope_sizes))
      if (dice.chance(percent)) refused.insert(c);
    made.truth.refused.emplace_back(scope, refused);
    p.checks.push_back({.scope = scope,
                        .why = "check " + std::to_string(checks),
                        .holds = [scope, refused](std::span<const int> choice) {
                          Choice part;
                          for (const int s : scope) {
                            EXPECT_GE(choice[static_cast<std::size_t>(s)], 0) << "asked too early";
                            part.push_back(choice[static_cast<std::size_t>(s)]);
                          }
                          return !refused.contains(part);
                        }});
  }

  p.head = std::min(dice.upto(3), slots);
  made.keep = dice.between(1, 4);
  if (p.head == 0) return made;
  const std::vector<int> head_sizes(sizes.begin(), sizes.begin() + p.head);
  auto& values = made.truth.head_values;
  for (const Choice& c : all_of(head_sizes)) values[c] = 3.0 * some_value(dice, style);
  std::map<Choice, double> upper;
  for (int n = 1; n <= p.head; ++n)
    for (const Choice& c : all_of({head_sizes.begin(), head_sizes.begin() + n})) {
      double most = -1e9;
      for (const auto& [head, value] : values)
        if (std::equal(c.begin(), c.end(), head.begin())) most = std::max(most, value);
      upper[c] = most + style.loose * dice.upto(100) / 100.0;
    }
  p.head_value = [values](std::span<const int> c) { return values.at({c.begin(), c.end()}); };
  p.head_bound = [upper](std::span<const int> c) { return upper.at({c.begin(), c.end()}); };
  if (dice.chance(50)) {
    std::map<Choice, double> ceiling;
    for (const auto& [c, bound] : upper) ceiling[c] = bound + dice.upto(4);
    p.head_ceiling = [ceiling](std::span<const int> c) { return ceiling.at({c.begin(), c.end()}); };
  }
  if (dice.chance(50))
    p.next_bound = [values, weight = p.money_weight, slots_of = p.slots, slack = dice.upto(3)](
                       std::span<const int> c, std::int64_t most_cost) {
      double most = -std::numeric_limits<double>::infinity();
      for (const auto& [head, value] : values) {
        const auto next = static_cast<std::size_t>(head[c.size()]);
        const std::int64_t cost = slots_of[c.size()].options[next].costs[0];
        if (std::equal(c.begin(), c.end(), head.begin()) && cost <= most_cost)
          most = std::max(most, value - weight * static_cast<double>(cost) + slack);
      }
      return most;
    };
  if (dice.chance(60)) {
    p.group_slots = dice.between(1, p.head);
    auto& groups = made.truth.groups;
    for (const Choice& c : all_of({head_sizes.begin(), head_sizes.begin() + p.group_slots}))
      groups[c] = dice.upto(3) - 1;
    p.group = [groups](std::span<const int> c) { return groups.at({c.begin(), c.end()}); };
  }
  return made;
}

struct Build {
  std::int64_t score = 0;
  std::vector<std::int64_t> costs = {};
  std::vector<int> ranks = {};
  Choice choice = {};
};

bool satisfies(const Instance& in, const Choice& c, std::vector<std::int64_t>& costs) {
  const Problem& p = in.problem;
  costs.assign(p.caps.size(), 0);
  for (std::size_t s = 0; s < c.size(); ++s)
    for (std::size_t r = 0; r < p.caps.size(); ++r)
      costs[r] += p.slots[s].options[static_cast<std::size_t>(c[s])].costs[r];
  for (std::size_t r = 0; r < p.caps.size(); ++r)
    if (costs[r] > p.caps[r]) return false;
  for (int a = 0; a < static_cast<int>(c.size()); ++a)
    for (int b = a + 1; b < static_cast<int>(c.size()); ++b)
      if (in.truth.forbidden_pairs.contains(
              {a, b, c[static_cast<std::size_t>(a)], c[static_cast<std::size_t>(b)]}))
        return false;
  for (const auto& [scope, refused] : in.truth.refused) {
    Choice part;
    for (const int s : scope) part.push_back(c[static_cast<std::size_t>(s)]);
    if (refused.contains(part)) return false;
  }
  return true;
}

/// Every build that satisfies everything, best first (the order of the header, sorted outright).
std::vector<Build> every_build(const Instance& in) {
  const Problem& p = in.problem;
  std::vector<int> sizes;
  for (const Slot& s : p.slots) sizes.push_back(static_cast<int>(s.options.size()));
  std::vector<Build> builds;
  for (const Choice& c : all_of(sizes)) {
    Build b{.choice = c};
    if (!satisfies(in, c, b.costs)) continue;
    double score = p.head == 0 ? 0.0 : in.truth.head_values.at({c.begin(), c.begin() + p.head});
    for (std::size_t s = static_cast<std::size_t>(p.head); s < c.size(); ++s)
      score += p.slots[s].options[static_cast<std::size_t>(c[s])].value;
    score += p.money_weight * static_cast<double>(p.budget - b.costs[0]);
    b.score = std::llround(score);
    for (std::size_t i = 0; i < c.size(); ++i) {
      const std::size_t s = p.rank_order.empty() ? i : static_cast<std::size_t>(p.rank_order[i]);
      b.ranks.push_back(p.slots[s].options[static_cast<std::size_t>(c[s])].rank);
    }
    builds.push_back(b);
  }
  std::ranges::sort(builds, [](const Build& a, const Build& b) {
    return std::tuple(-a.score, a.costs[0], a.ranks) < std::tuple(-b.score, b.costs[0], b.ranks);
  });
  return builds;
}

std::vector<Build> kept_of(const Instance& in, const std::vector<Build>& builds) {
  std::vector<Build> kept;
  std::set<int> seen;
  for (const Build& b : builds) {
    if (static_cast<int>(kept.size()) == in.keep) break;
    const int n = in.problem.group_slots;
    if (n > 0 && !seen.insert(in.truth.groups.at({b.choice.begin(), b.choice.begin() + n})).second)
      continue;
    kept.push_back(b);
  }
  return kept;
}

void expect_same(const Instance& in, const Outcome& outcome, const std::vector<Build>& want) {
  ASSERT_EQ(outcome.status, want.empty() ? Status::impossible : Status::proven);
  ASSERT_EQ(outcome.best.size(), want.size());
  for (std::size_t i = 0; i < want.size(); ++i) {
    EXPECT_EQ(outcome.best[i].choice, want[i].choice) << "place " << i;
    EXPECT_EQ(outcome.best[i].score, want[i].score);
    EXPECT_EQ(outcome.best[i].costs, want[i].costs);
  }
  if (!want.empty()) {
    EXPECT_EQ(outcome.bound, want[0].score);
  }
  std::set<std::string> names;
  for (const Pruned& reason : outcome.pruned) {
    EXPECT_GE(reason.count, 0);
    EXPECT_TRUE(names.insert(reason.why).second) << reason.why << " stands twice";
  }
  EXPECT_EQ(outcome.pruned.at(0).why, "bound");
  EXPECT_LE(outcome.head_values, static_cast<std::int64_t>(in.truth.head_values.size()));
}

/// Returns how many of the instances were impossible, so that a test sees both kinds.
int compare(std::uint64_t first_seed, int count, const Style& style) {
  int impossible = 0;
  for (int i = 0; i < count; ++i) {
    SCOPED_TRACE(testing::Message() << "seed " << first_seed + static_cast<std::uint64_t>(i));
    const Instance in = make(first_seed + static_cast<std::uint64_t>(i), style);
    const auto want = kept_of(in, every_build(in));
    impossible += want.empty() ? 1 : 0;
    expect_same(in, search(in.problem, {.keep = in.keep}), want);
    if (testing::Test::HasFailure()) return impossible;
  }
  return impossible;
}

TEST(SearchAgainstBruteForce, ThreeThousandProblemsFullOfTies) {
  const int impossible = compare(1, 3000, {});
  EXPECT_GT(impossible, 100);
  EXPECT_LT(impossible, 2500);
}

TEST(SearchAgainstBruteForce, ValuesThatDoNotRoundAway) {
  compare(100'001, 1500, {.whole_values = false});
}

// Sums up to 3e15, where doubles are half a unit apart, while builds differ by a few units.
TEST(SearchAgainstBruteForce, CostsNearTheLimit) {
  compare(200'001, 3000, {.whole_values = false, .large_cost = 199'999'999'999'001});
}

TEST(SearchAgainstBruteForce, FailuresThatRestOnSlotsFarBack) {
  const int impossible = compare(600'001, 1000, {.deep = true});
  EXPECT_GT(impossible, 100);
  EXPECT_LT(impossible, 900);
}

TEST(SearchAgainstBruteForce, SlotsOfSeveralWords) { compare(250'001, 8, {.wide = true}); }

TEST(SearchAgainstBruteForce, ALooseButAdmissibleBoundChangesNoAnswer) {
  compare(300'001, 1000, {.loose = 30.0});
  // The same problems, bound tight and loose: the dice differ, so compare through the problem
  // itself.
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Instance in = make(seed, {});
    if (in.problem.head == 0) continue;
    const Outcome tight = search(in.problem, {.keep = in.keep});
    in.problem.head_bound = [](std::span<const int>) { return 1e6; };
    const Outcome loose = search(in.problem, {.keep = in.keep});
    ASSERT_EQ(tight.status, loose.status);
    ASSERT_EQ(tight.best.size(), loose.best.size());
    for (std::size_t i = 0; i < tight.best.size(); ++i)
      EXPECT_EQ(tight.best[i].choice, loose.best[i].choice) << "seed " << seed;
    EXPECT_LE(tight.head_values, loose.head_values) << "seed " << seed;
  }
}

TEST(SearchAgainstBruteForce, FirstOnlyFindsABuildExactlyWhenThereIsOne) {
  for (std::uint64_t seed = 400'001; seed <= 401'000; ++seed) {
    const Instance in = make(seed, {});
    const auto builds = every_build(in);
    const Outcome outcome = search(in.problem, {.first_only = true});
    ASSERT_EQ(outcome.status == Status::impossible, builds.empty()) << "seed " << seed;
    if (builds.empty()) continue;
    ASSERT_EQ(outcome.best.size(), 1U);
    const auto found = std::ranges::find(builds, outcome.best[0].choice, &Build::choice);
    ASSERT_NE(found, builds.end()) << "seed " << seed;
    EXPECT_EQ(outcome.best[0].score, found->score);
    EXPECT_GE(outcome.bound, builds[0].score);
    EXPECT_LE(outcome.head_values, 1);
  }
}

TEST(SearchAgainstBruteForce, AStoppedSearchSaysSoAndItsBoundIsTrue) {
  int stopped_with_a_build = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    const Instance in = make(seed, {});
    const auto builds = every_build(in);
    for (const int after : {1, 2, 3, 5, 8, 13, 21}) {
      int asked = 0;
      bool ended = false;
      std::vector<std::int64_t> bounds;
      const Outcome outcome =
          search(in.problem, {.keep = in.keep,
                              .stop = [&] { return ended = ended || ++asked >= after; },
                              .progress = [&](const Progress& now) { bounds.push_back(now.bound); },
                              .ask_every = 1});
      for (const Solution& s : outcome.best)
        ASSERT_NE(std::ranges::find(builds, s.choice, &Build::choice), builds.end());
      for (const std::int64_t bound : bounds)
        if (!builds.empty()) {
          ASSERT_GE(bound, builds[0].score) << "seed " << seed;
        }
      if (!ended) {
        expect_same(in, outcome, kept_of(in, builds));
        continue;
      }
      ASSERT_EQ(outcome.status, Status::not_proven);
      if (builds.empty()) continue;
      ASSERT_GE(outcome.bound, builds[0].score) << "seed " << seed << " after " << after;
      if (outcome.best.empty()) continue;
      ++stopped_with_a_build;
      ASSERT_GE(outcome.bound, outcome.best[0].score);
    }
  }
  EXPECT_GT(stopped_with_a_build, 100);
}

// At every partial choice the search looks at, with ties, groups, loose and close bounds.
TEST(SearchAgainstBruteForce, NoBoundIsBelowTheTruthAnywhere) {
  std::int64_t seen = 0;
  std::int64_t exact = 0;
  for (std::uint64_t seed = 500'001; seed <= 501'500; ++seed) {
    const Instance in =
        make(seed, {.whole_values = seed % 2 == 0, .loose = static_cast<double>(seed % 3) * 2.0});
    const auto builds = every_build(in);
    const auto look = [&](std::span<const int> partial, std::int64_t bound) {
      ++seen;
      for (const Build& build : builds) {  // best first
        bool under = true;
        for (std::size_t s = 0; s < partial.size() && under; ++s)
          under = partial[s] < 0 || partial[s] == build.choice[s];
        if (!under) continue;
        EXPECT_GE(bound, build.score) << "seed " << seed;
        exact += bound == build.score ? 1 : 0;
        return;
      }
    };
    (void)search(in.problem, {.keep = in.keep, .look = look});
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GT(seen, 10'000);
  EXPECT_GT(exact, 1'000);
}

TEST(SearchAgainstBruteForce, TheSameInputGivesTheSameOutcome) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Instance in = make(seed, {});
    const Outcome one = search(in.problem, {.keep = in.keep});
    const Outcome two = search(make(seed, {}).problem, {.keep = in.keep});
    ASSERT_EQ(one.nodes, two.nodes);
    ASSERT_EQ(one.leaves, two.leaves);
    ASSERT_EQ(one.head_values, two.head_values);
    ASSERT_EQ(one.best.size(), two.best.size());
    for (std::size_t i = 0; i < one.best.size(); ++i)
      ASSERT_EQ(one.best[i].choice, two.best[i].choice);
    for (std::size_t i = 0; i < one.pruned.size(); ++i)
      ASSERT_EQ(one.pruned[i].count, two.pruned[i].count);
  }
}

}  // namespace
}  // namespace rigproof::plan
