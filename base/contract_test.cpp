// Contracts are armed in every build; errors name the field.
#include "base/contract.hpp"

#include <gtest/gtest.h>

#include <string>

#include "base/result.hpp"

namespace rigproof {
namespace {

TEST(Contract, ThrowsWithTheConditionAndThePlace) {
  EXPECT_NO_THROW(RP_EXPECT(2 > 1));
  try {
    RP_EXPECT(1 > 2);
    FAIL() << "a broken contract went through";
  } catch (const ContractViolation& violation) {
    const std::string what = violation.what();
    EXPECT_NE(what.find("1 > 2"), std::string::npos) << what;
    EXPECT_NE(what.find("contract_test.cpp:"), std::string::npos) << what;
  }
}

TEST(Result, OutOfRangeNamesFieldAndValue) {
  const Result<int> result = out_of_range("load_w", -3.0);
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().code, ErrorCode::out_of_range);
  EXPECT_EQ(result.error().message, "load_w: -3 is outside its range");
}

}  // namespace
}  // namespace rigproof
