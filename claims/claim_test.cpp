// Odds to verdict: the one table every claim goes through.
#include "claims/claim.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"

namespace rigproof {
namespace {

// The borders are shares of 256 draws, rounded up by hand: .95 x 256 = 243.2, .5 x 256 = 128,
// .05 x 256 = 12.8.
TEST(Verdict, BordersAreNinetyFiveFiftyAndFivePerCentOf256) {
  EXPECT_EQ(verdict_of(256), Verdict::holds);
  EXPECT_EQ(verdict_of(244), Verdict::holds);
  EXPECT_EQ(verdict_of(243), Verdict::thin);
  EXPECT_EQ(verdict_of(128), Verdict::thin);
  EXPECT_EQ(verdict_of(127), Verdict::doubtful);
  EXPECT_EQ(verdict_of(13), Verdict::doubtful);
  EXPECT_EQ(verdict_of(12), Verdict::fails);
  EXPECT_EQ(verdict_of(0), Verdict::fails);
}

TEST(Verdict, CountsOutsideTheDrawsAreABug) {
  EXPECT_THROW((void)verdict_of(-1), ContractViolation);
  EXPECT_THROW((void)verdict_of(257), ContractViolation);
}

// The words of files and pages, as the JSON contract of the design lists them.
TEST(Names, AreThoseOfTheFiles) {
  EXPECT_EQ(name_of(Verdict::holds), "holds");
  EXPECT_EQ(name_of(Verdict::thin), "thin");
  EXPECT_EQ(name_of(Verdict::doubtful), "doubtful");
  EXPECT_EQ(name_of(Verdict::fails), "fails");
  EXPECT_EQ(name_of(Verdict::unknown), "unknown");
  EXPECT_EQ(name_of(Grade::must), "must");
  EXPECT_EQ(name_of(Grade::tells), "tells");
  EXPECT_EQ(name_of(Relation::at_most), "at_most");
  EXPECT_EQ(name_of(Relation::at_least), "at_least");
  EXPECT_EQ(name_of(Relation::equals), "equals");
  EXPECT_EQ(name_of(Relation::one_of), "one_of");
  EXPECT_EQ(name_of(Basis::standard), "standard");
  EXPECT_EQ(name_of(Basis::handbook), "handbook");
  EXPECT_EQ(name_of(Basis::part_data), "part data");
  EXPECT_EQ(name_of(Basis::model), "model");
  EXPECT_EQ(name_of(Basis::measured), "measured");
  EXPECT_EQ(name_of(Basis::common_practice), "common practice");
}

}  // namespace
}  // namespace rigproof
