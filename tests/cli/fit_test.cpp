// Where everything of a build sits, as a user asks: against the claims, the build file and the
// standards' own numbers.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "asking.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const std::string plug_trap = "demo/builds/trap-plug-at-the-panel.toml";
const std::string memory_trap = "demo/builds/trap-tall-memory.toml";

const Json* claim_of(const Json& claims, const std::string& id, const std::string& where) {
  for (const Json& claim : claims)
    if (claim.at("id") == id && claim.value("where", "") == where) return &claim;
  return nullptr;
}

TEST(Fit, SpeaksOfTheClaimsThatClaimsSpeaksOf) {
  for (const std::string& build : {evening_chair, friday_shelf, plug_trap}) {
    Json expected = Json::array();
    const Json all = answer({"claims", build});
    for (const Json& claim : all.at("claims"))
      if (claim.at("id").get<std::string>().starts_with("fit.")) expected.push_back(claim);
    EXPECT_FALSE(expected.empty());
    EXPECT_TRUE(answer({"fit", build}).at("claims") == expected) << build;  // too long to print
  }
}

// The picture never shows another number than the claim, and gaps are as long as margins say.
TEST(Fit, EveryGapIsItsClaims) {
  int gaps = 0;
  for (const std::string& build : {evening_chair, friday_shelf, plug_trap, memory_trap}) {
    const Json fit = answer({"fit", build});
    for (const Json& gap : fit.at("scene").at("gaps")) {
      const Json* const claim = claim_of(fit.at("claims"), gap.at("claim"), gap.at("where"));
      ASSERT_NE(claim, nullptr);
      EXPECT_EQ(gap.at("margin_mm"), claim->at("margin").at("value"));
      EXPECT_EQ(gap.at("value_mm"), claim->at("value").at("value"));
      EXPECT_EQ(gap.at("limit_mm"), claim->at("limit").at("value"));
      EXPECT_EQ(gap.at("verdict"), claim->at("verdict"));
      // Medians of value, limit and difference are each off by less than 0.2 mm.
      EXPECT_NEAR(gap.at("to_mm").get<double>() - gap.at("from_mm").get<double>(),
                  gap.at("margin_mm").get<double>(), 0.2);
      ++gaps;
    }
  }
  EXPECT_GE(gaps, 16);
}

TEST(Fit, ATrapIsTheFirstGapAndEndsBeforeItBegins) {
  const Json fit = answer({"fit", plug_trap});
  const Json& first = fit.at("scene").at("gaps").at(0);
  EXPECT_EQ(first.at("claim"), "fit.plug-room");
  EXPECT_LT(first.at("to_mm").get<double>(), first.at("from_mm").get<double>());
  EXPECT_EQ(ask({"fit", plug_trap}).exit_code, 1);
}

// Nine holes in an ATX board, of which B, R and S are not: microATX 1.2, Figure 2 table, looked up:
// page text p. 10 (check values A2). One standoff and one screw a hole.
TEST(Fit, CountsTheStandoffsOfAnAtxBoard) {
  const Json fit = answer({"fit", plug_trap});
  const Json& standoffs = fit.at("standoffs");
  EXPECT_EQ(standoffs.at("used"), "ACFGHJKLM");
  EXPECT_EQ(standoffs.at("must_be_empty"), "BRS");
  const Json& lines = fit.at("fasteners");
  ASSERT_GE(lines.size(), 2U);
  EXPECT_EQ(lines.at(0).at("at_most"), 9);
  EXPECT_EQ(lines.at(1).at("at_most"), 9);
}

// A cell is worth measuring while a verdict hangs on it, and each is named once.
TEST(Fit, WhatToMeasureHangsOnOpenVerdicts) {
  const Json fit = answer({"fit", friday_shelf});
  std::size_t settles = std::string::npos;
  for (const Json& cell : fit.at("to_measure")) {
    EXPECT_LE(cell.at("claims").size(), settles);  // what settles most first
    settles = cell.at("claims").size();
    for (const Json& name : cell.at("claims")) {
      const auto text = name.get<std::string>();
      const std::string id = text.substr(0, text.find(' '));
      const bool open = std::ranges::any_of(fit.at("claims"), [&](const Json& claim) {
        return claim.at("id") == id && claim.at("verdict") != "holds" &&
               claim.at("verdict") != "fails";
      });
      EXPECT_TRUE(open) << text;
    }
  }
  const Ran settled = ask({"fit", plug_trap});
  EXPECT_THAT(settled.out, HasSubstr("every clearance is settled"));
}

TEST(Fit, SaysWhatTheBuildFileFixed) {
  const std::string two_fans = "demo/builds/trap-stolen-lanes.toml";
  const Json free = answer({"fit", two_fans});
  ASSERT_EQ(free.at("seats").size(), 1U);
  EXPECT_EQ(free.at("seats").at(0).at("by_author"), false);
  const Folder folder;
  const std::string build = folder / "fixed.toml";
  const std::string other = free.at("seats").at(0).at("mount") == "front" ? "top" : "front";
  write_bytes(build, bytes_of(two_fans) + "\n[mounts]\nfan = \"" + other + "\"\n");
  const Json fixed = answer({"fit", build});
  ASSERT_EQ(fixed.at("seats").size(), 1U);
  EXPECT_EQ(fixed.at("seats").at(0).at("mount"), other);
  EXPECT_EQ(fixed.at("seats").at(0).at("by_author"), true);
}

TEST(Fit, ABuildWithoutACaseHasNothingToSitIn) {
  const Folder folder;
  const std::string build = folder / "no-case.toml";
  write_bytes(build, changed(bytes_of(evening_chair), "case = ", "# case = "));
  const Json fit = answer({"fit", build});
  EXPECT_FALSE(fit.contains("case"));
  EXPECT_THAT(fit.at("scene").at("boxes"), IsEmpty());
  EXPECT_THAT(fit.at("scene").at("notes"), Not(IsEmpty()));
  EXPECT_EQ(fit.at("standoffs").at("known"), false);
  EXPECT_THAT(ask({"fit", build}).out, HasSubstr("no case"));
}

}  // namespace
}  // namespace rigproof::cli_test
