// Standoffs under a board, by hand from the sets of microATX 1.2 Figure 2 (looked up) and Mini-ITX
// (looked up, a CAD file). R and S enter by their letters and their doubtful mark, never by place.
#include "analysis/fit/standoffs.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace rigproof::fit {
namespace {

using Words = std::vector<std::string_view>;

StandoffPlan plan_of(std::string_view board, const Words& chassis) {
  return standoff_plan(board, chassis);
}

const Words all_three = {"ATX", "microATX", "Mini-ITX"};

// B is microATX's alone and lies under an ATX board, between C and A: the short circuit.
TEST(Standoffs, AtxBoardInACaseForAllThree) {
  const StandoffPlan plan = plan_of("ATX", all_three);
  EXPECT_TRUE(plan.known);
  EXPECT_TRUE(plan.case_takes_it);
  EXPECT_TRUE(plan.others_known);
  EXPECT_EQ(plan.used, "ACFGHJKLM");
  EXPECT_EQ(plan.if_holed, "");
  EXPECT_EQ(plan.must_be_empty, "BRS");
  EXPECT_EQ(plan.beyond_board, "");
  EXPECT_EQ(plan.shared, "CFHJLM");
  EXPECT_EQ(plan.doubtful, "RS");
  EXPECT_THAT(plan.notes, testing::Contains(testing::HasSubstr("No standoff at B, R and S")));
}

// A, G and K stand 288 mm from the edge, beyond a board of 244 mm.
TEST(Standoffs, MicroAtxBoardInACaseForAllThree) {
  const StandoffPlan plan = plan_of("microATX", all_three);
  EXPECT_EQ(plan.used, "BCFHJLMR");
  EXPECT_EQ(plan.if_holed, "S");  // optional on the board, in every such chassis: looked up, 2.2
  EXPECT_EQ(plan.must_be_empty, "");
  EXPECT_EQ(plan.beyond_board, "AGK");
  EXPECT_EQ(plan.shared, "CFHJLM");
  EXPECT_EQ(plan.doubtful, "RS");
  EXPECT_THAT(plan.notes, testing::Contains(testing::HasSubstr("S only where the board has")));
}

// 170 x 170 mm: all that is not C, F, H, J is beyond it, but for the two whose place is doubtful.
TEST(Standoffs, MiniItxBoardInACaseForAllThree) {
  const StandoffPlan plan = plan_of("Mini-ITX", all_three);
  EXPECT_EQ(plan.used, "CFHJ");
  EXPECT_EQ(plan.shared, "CFHJ");
  EXPECT_EQ(plan.must_be_empty, "RS");
  EXPECT_EQ(plan.beyond_board, "ABGKLM");
  EXPECT_EQ(plan.doubtful, "RS");
}

TEST(Standoffs, NothingIsDoubtfulWithoutMicroAtx) {
  const StandoffPlan plan = plan_of("Mini-ITX", {"ATX", "Mini-ITX"});
  EXPECT_EQ(plan.doubtful, "");
  EXPECT_EQ(plan.must_be_empty, "");
  EXPECT_EQ(plan.beyond_board, "AGKLM");
  EXPECT_TRUE(plan.notes.empty());
}

// How known: looked up for microATX (section 2.2), common practice for ATX. 244 mm: Table 3.
TEST(Standoffs, SmallerBoardsMayLackHoles) {
  EXPECT_THAT(plan_of("microATX", {"microATX"}).notes,
              testing::Contains(testing::HasSubstr("smaller than 244 x 244 mm")));
  EXPECT_THAT(plan_of("ATX", {"ATX"}).notes,
              testing::Contains(testing::HasSubstr("smaller than 305 x 244 mm")));
}

TEST(Standoffs, ACaseForOneFormFactorSharesNothing) {
  const StandoffPlan plan = plan_of("Mini-ITX", {"Mini-ITX"});
  EXPECT_EQ(plan.used, "CFHJ");
  EXPECT_EQ(plan.shared + plan.must_be_empty + plan.beyond_board, "");
}

TEST(Standoffs, AnUnknownBoardGetsNoPattern) {
  const StandoffPlan extended = plan_of("Extended ATX", all_three);
  EXPECT_FALSE(extended.known);
  EXPECT_EQ(extended.used + extended.if_holed + extended.must_be_empty + extended.beyond_board, "");
  EXPECT_THAT(extended.why_not, testing::HasSubstr("Extended ATX"));
  EXPECT_FALSE(plan_of("", all_three).known);
}

TEST(Standoffs, WhatTheCaseTakesBesideMayBeUnknown) {
  const StandoffPlan plan = plan_of("ATX", {"ATX", "Extended ATX"});
  EXPECT_TRUE(plan.known);
  EXPECT_FALSE(plan.others_known);
  EXPECT_TRUE(plan.case_takes_it);
  EXPECT_THAT(plan.notes, testing::Contains(testing::HasSubstr("Extended ATX")));
  const StandoffPlan silent = plan_of("ATX", {});
  EXPECT_FALSE(silent.others_known);
  EXPECT_EQ(silent.used, "ACFGHJKLM");
}

TEST(Standoffs, ACaseThatDoesNotListTheBoardIsNamed) {
  const StandoffPlan plan = plan_of("ATX", {"Mini-ITX"});
  EXPECT_FALSE(plan.case_takes_it);
  EXPECT_THAT(plan.notes, testing::Contains(testing::HasSubstr("does not list ATX")));
}

// Every position of board and case is in exactly one list, and what is empty is no hole of the
// board: a safety property over every board and every set of form factors a case can have.
TEST(Standoffs, ListsPartTheHolesForEveryCase) {
  for (const FormFactor board : all_form_factors)
    for (unsigned set = 0; set < 8; ++set) {
      Words chassis;
      for (unsigned i = 0; i < 3; ++i)
        if (((set >> i) & 1U) != 0) chassis.push_back(name_of(all_form_factors[i]));
      const StandoffPlan plan = plan_of(name_of(board), chassis);
      std::string listed = plan.used + plan.if_holed + plan.must_be_empty + plan.beyond_board;
      std::ranges::sort(listed);
      std::string expected;
      for (const Hole& hole : mounting_holes()) {
        bool wanted = hole.is_of(board);
        for (const std::string_view word : chassis)
          wanted = wanted || hole.is_of(*form_factor_of(word));
        if (wanted) expected += hole.letter;
      }
      EXPECT_EQ(listed, expected) << name_of(board) << " " << set;
      for (const char letter : plan.must_be_empty + plan.beyond_board)
        EXPECT_FALSE(find_hole(letter)->is_of(board)) << name_of(board) << letter;
    }
}

}  // namespace
}  // namespace rigproof::fit
