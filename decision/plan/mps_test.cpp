// The integer program of a problem, proved by solvers from outside: on published instances and on
// random problems they reach the optimum of the search. Their answers are judged again here, with
// arithmetic of the test's own. A solver that is not installed is said as skipped.
#include "decision/plan/mps.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <memory>
#include <random>

#include "tests/support/outside_solver.hpp"
#include "tests/support/published_problems.hpp"

namespace rigproof::plan {
namespace {

using test_support::installed;
using test_support::OutsideAnswer;
using test_support::Solver;
using testing::HasSubstr;

MpsModel model_of(const Problem& problem, const MpsOptions& options = {}) {
  auto model = mps_model(problem, options);
  if (!model) throw std::runtime_error(model.error().message);
  return std::move(*model);
}

/// Option of each slot in an outside solution; -1 where not exactly one was chosen.
std::vector<int> choice_of(const Problem& problem, const MpsModel& model,
                           const OutsideAnswer& answer) {
  std::vector<int> choice;
  for (std::size_t s = 0; s < problem.slots.size(); ++s) {
    int chosen = -1;
    int count = 0;
    for (std::size_t o = 0; o < problem.slots[s].options.size(); ++o) {
      const auto column = static_cast<std::size_t>(model.first_column[s]) + o;
      const auto at = answer.values.find(model.linear.columns[column].name);
      if (at == answer.values.end() || at->second < 0.5) continue;
      chosen = static_cast<int>(o);
      ++count;
    }
    choice.push_back(count == 1 ? chosen : -1);
  }
  return choice;
}

const Option& option_of(const Problem& p, const std::vector<int>& choice, std::size_t slot) {
  return p.slots[slot].options.at(static_cast<std::size_t>(choice[slot]));
}

/// (P1) before it is rounded.
double worth_of(const Problem& p, const std::vector<int>& choice) {
  const auto head = static_cast<std::size_t>(p.head);
  double worth = head == 0
                     ? 0.0
                     : p.head_value(std::span<const int>(choice.data(), choice.size()).first(head));
  std::int64_t price = 0;
  for (std::size_t s = 0; s < choice.size(); ++s) {
    if (s >= head) worth += option_of(p, choice, s).value;
    price += option_of(p, choice, s).costs[0];
  }
  return worth + p.money_weight * static_cast<double>(p.budget - price);
}

bool within_caps_and_tables(const Problem& p, const std::vector<int>& choice) {
  for (std::size_t r = 0; r < p.caps.size(); ++r) {
    std::int64_t sum = 0;
    for (std::size_t s = 0; s < choice.size(); ++s) sum += option_of(p, choice, s).costs[r];
    if (sum > p.caps[r]) return false;
  }
  for (const PairTable& table : p.tables)
    if (!table.allowed(choice[static_cast<std::size_t>(table.first)],
                       choice[static_cast<std::size_t>(table.second)]))
      return false;
  return true;
}

bool checks_hold(const Problem& p, const std::vector<int>& choice) {
  for (const Check& check : p.checks)
    if (!check.holds(choice)) return false;
  return true;
}

/// What rounding in the solver may cost: tolerances of 1e-6 on each of some ten columns.
double tolerance(const Problem& p) {
  return 1e-5 * (1.0 + std::abs(p.money_weight * static_cast<double>(p.budget)));
}

/// The outside answer is the optimum of the search: same score, and a choice that satisfies all.
void expect_proved(const Problem& p, const MpsModel& model, const Outcome& outcome,
                   const OutsideAnswer& answer) {
  if (outcome.status == Outcome::Status::impossible) {
    EXPECT_EQ(answer.status, OutsideAnswer::Status::infeasible) << answer.log;
    return;
  }
  ASSERT_EQ(answer.status, OutsideAnswer::Status::optimal) << answer.log;
  const auto score = static_cast<double>(outcome.best.at(0).score);
  EXPECT_NEAR(-answer.objective, score, 0.5 + tolerance(p));
  const auto choice = choice_of(p, model, answer);
  ASSERT_EQ(std::ranges::count(choice, -1), 0) << answer.log;
  EXPECT_TRUE(within_caps_and_tables(p, choice));
  EXPECT_TRUE(checks_hold(p, choice));
  EXPECT_NEAR(worth_of(p, choice), -answer.objective, tolerance(p));
}

class OutsideProof : public testing::TestWithParam<Solver> {
 protected:
  void SetUp() override {
    if (!installed(GetParam()))
      GTEST_SKIP() << test_support::name_of(GetParam())
                   << " is not installed: nothing was proved from outside";
  }
  static Outcome expect_same_optimum(const Problem& problem, const MpsOptions& options = {}) {
    const Outcome outcome = search(problem, {});
    const MpsModel model = model_of(problem, options);
    EXPECT_TRUE(model.left_out.empty());
    expect_proved(problem, model, outcome, test_support::solve(GetParam(), mps_text(model)));
    return outcome;
  }
};
INSTANTIATE_TEST_SUITE_P(Solvers, OutsideProof, testing::ValuesIn(test_support::both_solvers),
                         [](const auto& solver) { return test_support::name_of(solver.param); });

TEST_P(OutsideProof, PublishedKnapsacks) {
  for (const Knapsack& k : published_knapsacks()) {
    SCOPED_TRACE(k.name);
    const Problem problem = packing(k.profits, {k.weights}, {k.capacity});
    const MpsModel model = model_of(problem);
    const OutsideAnswer answer = test_support::solve(GetParam(), mps_text(model));
    ASSERT_EQ(answer.status, OutsideAnswer::Status::optimal) << answer.log;
    EXPECT_NEAR(-answer.objective, static_cast<double>(k.optimum), 1e-6);  // the published one
    const auto choice = choice_of(problem, model, answer);
    EXPECT_EQ(taken_items({.choice = choice}), k.items);
    EXPECT_EQ(search(problem, {}).best.at(0).choice, choice);
  }
}

TEST_P(OutsideProof, PublishedManyConstraints) {
  for (const PublishedPacking& instance : petersen_packings()) {
    SCOPED_TRACE(instance.name);
    const MpsModel model = model_of(instance.problem);
    const OutsideAnswer answer = test_support::solve(GetParam(), mps_text(model));
    ASSERT_EQ(answer.status, OutsideAnswer::Status::optimal) << answer.log;
    EXPECT_NEAR(-answer.objective, static_cast<double>(instance.optimum), 1e-6);
    EXPECT_EQ(choice_of(instance.problem, model, answer), instance.choice);
  }
}

TEST_P(OutsideProof, PublishedCoveringByChecksAsRows) {
  const OutsideAnswer answer = test_support::solve(GetParam(), mps_text(model_of(stein_nine())));
  ASSERT_EQ(answer.status, OutsideAnswer::Status::optimal) << answer.log;
  EXPECT_NEAR(answer.objective, stein_nine_points, 1e-6);
  expect_same_optimum(stein_nine());
}

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  int upto(int most) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(most + 1)); }
  int between(int low, int high) { return low + upto(high - low); }
  bool chance(int percent) { return upto(99) < percent; }
  double value() { return between(-40'000, 80'000) / 997.0; }

 private:
  std::mt19937_64 engine_;
};

void add_tables(Dice& dice, Problem& p) {
  const int slots = static_cast<int>(p.slots.size());
  for (int tables = dice.upto(6); tables > 0; --tables) {
    const int a = dice.upto(slots - 2);
    const int b = dice.between(a + 1, slots - 1);
    const auto rows = static_cast<int>(p.slots[static_cast<std::size_t>(a)].options.size());
    const auto columns = static_cast<int>(p.slots[static_cast<std::size_t>(b)].options.size());
    PairTable table = PairTable::all_allowed(a, b, rows, columns, "table");
    const int percent = dice.between(0, 50);
    const bool steps = dice.chance(40);  // the larger, the less it goes with, as with lengths
    for (int i = 0; i < rows; ++i)
      for (int j = 0; j < columns; ++j)
        if (steps ? i * 2 + j > rows + columns : dice.chance(percent)) table.forbid(i, j);
    if (dice.chance(40)) {  // a check over two slots says the same
      const auto filled = std::make_shared<const PairTable>(table);
      p.checks.push_back({.scope = {a, b},
                          .why = "pair check",
                          .holds = [filled, a, b](std::span<const int> choice) {
                            return filled->allowed(choice[static_cast<std::size_t>(a)],
                                                   choice[static_cast<std::size_t>(b)]);
                          }});
      continue;
    }
    p.tables.push_back(table);
  }
}

void add_checks(Dice& dice, Problem& p) {
  for (int checks = dice.upto(3); checks > 0; --checks) {
    Check check{.why = "check " + std::to_string(checks)};
    for (int s = 0; s < static_cast<int>(p.slots.size()); ++s)
      if (dice.chance(45) && check.scope.size() < 4) check.scope.push_back(s);
    if (check.scope.empty()) continue;
    const int percent = dice.between(10, 60);
    const std::uint64_t classes = dice.chance(50) ? 3 : 100;  // some options are equal to it
    if (classes == 3)
      check.class_of = [](int, int option) { return static_cast<std::uint32_t>(option % 3); };
    check.holds = [scope = check.scope, percent, classes,
                   salt = dice.upto(1'000'000)](std::span<const int> choice) {
      std::uint64_t seed = static_cast<std::uint64_t>(salt);
      for (const int s : scope)
        seed = seed * 131 +
               static_cast<std::uint64_t>(choice[static_cast<std::size_t>(s)]) % classes + 1;
      return std::mt19937_64(seed)() % 100 >= static_cast<std::uint64_t>(percent);
    };
    p.checks.push_back(check);
  }
}

struct Made {
  Problem problem;
  HeadClasses classes;
};

/// Options of each slot of the head in up to three classes; the first and the last slot joined, if
/// there are three. The value is a random number per joint class and class of the others.
void add_head(Dice& dice, Made& made) {
  Problem& p = made.problem;
  p.head = std::min(dice.upto(3), static_cast<int>(p.slots.size()));
  if (p.head == 0) return;
  for (int s = 0; s < p.head; ++s) {
    auto& classes = made.classes.of_option.emplace_back();
    const auto count = static_cast<int>(p.slots[static_cast<std::size_t>(s)].options.size());
    for (int o = 0; o < count; ++o)
      classes.push_back(o < 3 ? o : dice.upto(std::min(count - 1, 2)));
  }
  if (p.head == 3) made.classes.joined = {0, 2};
  const auto class_of = [of = made.classes.of_option](std::span<const int> head, std::size_t slot) {
    return of[slot][static_cast<std::size_t>(head[slot])];
  };
  made.classes.joint = [class_of](std::span<const int> head) {
    return (class_of(head, 0) + 2 * class_of(head, 2)) % 4;
  };
  std::vector<double> values;
  for (int i = 0; i < 64; ++i) values.push_back(2.0 * dice.value());
  p.head_value = [values, class_of, joined = p.head == 3,
                  joint = made.classes.joint](std::span<const int> head) {
    std::size_t at = 0;
    if (joined)
      at = static_cast<std::size_t>(joint(head) * 4 + class_of(head, 1));
    else
      for (std::size_t s = 0; s < head.size(); ++s)
        at = at * 4 + static_cast<std::size_t>(class_of(head, s));
    return values[at];
  };
  p.head_bound = [most = *std::ranges::max_element(values)](std::span<const int>) { return most; };
}

Made make(std::uint64_t seed) {
  Dice dice(seed);
  Made made;
  Problem& p = made.problem;
  const int slots = dice.between(2, 6);
  const int resources = dice.between(1, 3);
  for (int s = 0; s < slots; ++s) {
    Slot slot{.name = "slot " + std::to_string(s)};
    const int options = dice.chance(2) ? 0 : dice.between(1, 8);
    for (int o = 0; o < options; ++o) {
      Option option{.value = dice.value(), .rank = o};
      for (int r = 0; r < resources; ++r) option.costs.push_back(dice.between(0, 60));
      slot.options.push_back(option);
    }
    p.slots.push_back(slot);
  }
  for (int r = 0; r < resources; ++r)
    p.caps.push_back(dice.chance(10) ? dice.between(0, 20) : dice.between(20 * slots, 50 * slots));
  p.money_weight = std::vector<double>{0.0, 0.25, 1.0}[static_cast<std::size_t>(dice.upto(2))];
  p.budget = dice.between(0, 400);
  add_tables(dice, p);
  add_checks(dice, p);
  add_head(dice, made);
  return made;
}

TEST_P(OutsideProof, RandomProblemsWholeAndInClasses) {
  int possible = 0;
  int impossible = 0;
  int with_head = 0;
  for (std::uint64_t seed = 1; seed <= 120; ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Made made = make(seed);
    const Outcome outcome = expect_same_optimum(made.problem);
    const bool none = outcome.status == Outcome::Status::impossible;
    ++(none ? impossible : possible);
    if (made.problem.head > 0 && !none) ++with_head;
    // The same with the head in classes, where there is one.
    if (made.problem.head > 0) expect_same_optimum(made.problem, {.head_classes = &made.classes});
    if (HasFailure()) return;
  }
  EXPECT_GE(possible, 60);
  EXPECT_GE(impossible, 10);
  EXPECT_GE(with_head, 30);
}

// With the checks left out the optimum is never below the score, is above it somewhere, and equals
// it where what the solver chose satisfies the checks.
TEST_P(OutsideProof, WithoutChecksItIsARelaxation) {
  int equal = 0;
  int above = 0;
  for (std::uint64_t seed = 1001; seed <= 1100; ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Problem problem = make(seed).problem;
    if (problem.checks.empty()) continue;
    const Outcome outcome = search(problem, {});
    if (outcome.best.empty()) continue;
    const MpsModel model = model_of(problem, {.most_check_cases = 0});
    std::int64_t left_out = 0;
    for (const Pruned& check : model.left_out) left_out += check.count;
    const auto wide = std::ranges::count_if(
        problem.checks, [](const Check& check) { return check.scope.size() != 2; });
    ASSERT_EQ(left_out, wide);  // those over two slots are written with the tables
    const OutsideAnswer answer = test_support::solve(GetParam(), mps_text(model));
    ASSERT_EQ(answer.status, OutsideAnswer::Status::optimal) << answer.log;
    const auto score = static_cast<double>(outcome.best[0].score);
    const double slack = 0.5 + tolerance(problem);
    EXPECT_GE(-answer.objective, score - slack);
    const auto choice = choice_of(problem, model, answer);
    ASSERT_EQ(std::ranges::count(choice, -1), 0);
    EXPECT_TRUE(within_caps_and_tables(problem, choice));
    if (checks_hold(problem, choice)) {
      EXPECT_NEAR(-answer.objective, score, slack);
      ++equal;
    } else if (-answer.objective > score + slack) {
      ++above;
    }
  }
  EXPECT_GE(equal, 5);
  EXPECT_GE(above, 5);
}

// Score 6 x + 7 y + 0.5 (100 - price), one of each slot; the second of `a` does not go with the
// first of `b`. Written by hand from (M1) to (M4).
TEST(Mps, ASmallProgramAsItStandsInTheFile) {
  Problem problem;
  problem.caps = {30};
  problem.money_weight = 0.5;
  problem.budget = 100;
  problem.slots = {
      {.name = "a",
       .options = {{.costs = {10}, .value = 6, .rank = 0}, {.costs = {20}, .value = 7, .rank = 1}}},
      {.name = "b c", .options = {{.costs = {0}, .value = 1.5, .rank = 0}}}};
  problem.tables.push_back(PairTable::all_allowed(0, 1, 2, 1, "do not meet"));
  problem.tables[0].forbid(1, 0);
  problem.checks.push_back(
      {.scope = {0}, .why = "wide", .holds = [](std::span<const int>) { return true; }});
  const MpsModel model = model_of(problem, {.name = "two slots",
                                            .option_name = [](int, int) { return "same name"; },
                                            .cap_names = {"IE"},
                                            .most_check_cases = 1});
  const std::string text = mps_text(model);
  EXPECT_THAT(text, HasSubstr("* left out: 1 wide\n"));
  EXPECT_EQ(text.substr(text.find("NAME")),
            "NAME two_slots FREE\n"
            "ROWS\n N minus_score\n E one_a\n E one_b_c\n L cap_IE\n L no_a_b_c_0\n"
            "COLUMNS\n MARKER 'MARKER' 'INTORG'\n"
            " x_a_same_name minus_score -1\n"
            " x_a_same_name one_a 1\n x_a_same_name cap_IE 10\n"
            " x_a_same_name.2 minus_score 3\n"
            " x_a_same_name.2 one_a 1\n x_a_same_name.2 cap_IE 20\n x_a_same_name.2 no_a_b_c_0 1\n"
            " x_b_c_same_name minus_score -1.5\n"
            " x_b_c_same_name one_b_c 1\n x_b_c_same_name no_a_b_c_0 1\n"
            " MARKER 'MARKER' 'INTEND'\n"
            " constant minus_score -50\n"
            "RHS\n RHS one_a 1\n RHS one_b_c 1\n RHS cap_IE 30\n RHS no_a_b_c_0 1\n"
            "BOUNDS\n BV BND x_a_same_name\n BV BND x_a_same_name.2\n BV BND x_b_c_same_name\n"
            " FX BND constant 1\nENDATA\n");
}

// Rows are grouped by what they forbid, on the side that needs fewer: three rows with the same
// conflict and one with more are two rows of the program, and the one with more is in both.
TEST(Mps, ConflictsAreGrouped) {
  Problem problem;
  problem.caps = {1};
  for (const int options : {4, 5}) {
    Slot slot{.name = std::to_string(options)};
    for (int o = 0; o < options; ++o) slot.options.push_back({.costs = {0}, .rank = o});
    problem.slots.push_back(slot);
  }
  problem.tables.push_back(PairTable::all_allowed(0, 1, 4, 5, "x"));
  for (int row = 0; row < 4; ++row) problem.tables[0].forbid(row, 2);
  for (const int column : {0, 1, 3}) problem.tables[0].forbid(3, column);
  const MpsModel model = model_of(problem);
  int conflicts = 0;
  for (const LinearModel::Row& row : model.linear.rows)
    conflicts += row.name.starts_with("no_") ? 1 : 0;
  EXPECT_EQ(conflicts, 2);
  const auto in_rows = [&](std::size_t column) {
    return std::ranges::count_if(model.linear.columns[column].entries, [&](const auto& entry) {
      return model.linear.rows[static_cast<std::size_t>(entry.first)].name.starts_with("no_");
    });
  };
  EXPECT_EQ(in_rows(0), 1);
  EXPECT_EQ(in_rows(3), 2);
  EXPECT_EQ(in_rows(4 + 2), 2);
  EXPECT_EQ(in_rows(4 + 4), 0);
}

TEST(Mps, AHeadOfTooManyClassesIsRefusedAndAStopIsHeard) {
  const Problem problem = [] {
    for (std::uint64_t seed = 1;; ++seed)
      if (Problem p = make(seed).problem; p.head == 2 && !p.slots[0].options.empty()) return p;
  }();
  const auto refused = mps_model(problem, {.most_head_columns = 0});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
  const auto stopped = mps_model(problem, {.stop = [] { return true; }});
  ASSERT_FALSE(stopped);
  EXPECT_EQ(stopped.error().code, ErrorCode::stopped);
}

TEST(NameBook, NamesAreLegalAndNoneIsGivenTwice) {
  NameBook book;
  EXPECT_EQ(book.take("a part-1.x3+b_2"), "a_part-1.x3+b_2");
  EXPECT_EQ(book.take("a\tpart-1.x3+b_2"), "a_part-1.x3+b_2.2");
  EXPECT_EQ(book.take("a_part-1.x3+b_2.2"), "a_part-1.x3+b_2.2.2");
  EXPECT_EQ(book.take(""), "_");
  EXPECT_EQ(book.take(std::string(300, 'x')), std::string(200, 'x'));
  EXPECT_EQ(book.take(std::string(400, 'x')), std::string(200, 'x') + ".2");
}

}  // namespace
}  // namespace rigproof::plan
