// The demo's traps once more, from the reader's side (which claim finds each and that a plan avoids
// it: tools/demo_traps_test.cpp): the remedy that the claims name, applied, heals the build whole,
// and the sheet says in plain words what would have gone wrong.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include "app/make_sheet.hpp"
#include "app/remedies.hpp"
#include "sheet/html.hpp"
#include "tests/support/demo_workshop.hpp"

namespace rigproof {
namespace {

using test_support::demo;

const Brief& careless() {
  static const Brief brief = test_support::demo_brief("careless-bargains");
  return brief;
}

BuildFile build_of(const std::string& file) {
  return test_support::opened(app::open_build(file, demo().catalog));
}

// Must claims that keep a build out of a plan, with their remedies.
std::vector<Claim> bad_claims(const PriceBook& prices, const Build& build, const Setup& setup) {
  auto claims = app::claims_of(demo().catalog, careless(), &prices, build, &setup);
  app::add_swaps({.catalog = demo().catalog,
                  .brief = careless(),
                  .prices = &prices,
                  .build = build,
                  .setup = &setup},
                 claims);
  std::erase_if(claims, [](const Claim& claim) {
    return claim.grade == Grade::tells || claim.verdict == Verdict::holds ||
           claim.verdict == Verdict::thin;
  });
  return claims;
}

// One trap is only told of: a drive under the card works, and is a nuisance.
constexpr std::string_view told = "demo/builds/trap-covered-socket.toml";

std::vector<std::string> trap_files() {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator("demo/builds"))
    if (entry.path().filename().string().starts_with("trap-") && entry.path() != told)
      files.push_back(entry.path().generic_string());
  std::ranges::sort(files);
  return files;
}

TEST(Traps, ThereAreTenAndOneIsOnlyTold) {
  EXPECT_EQ(trap_files().size(), 9U);
  EXPECT_TRUE(std::filesystem::exists(told));
}

TEST(Traps, TheCoveredSocketIsToldWithWhatHelps) {
  const auto prices = PriceBook::make(demo().catalog, careless());
  ASSERT_TRUE(prices);
  const BuildFile build = build_of(std::string(told));
  EXPECT_THAT(bad_claims(*prices, build.build, build.setup), testing::IsEmpty());
  const auto claims = app::claims_of(demo().catalog, careless(), &*prices, build.build);
  const auto claim = std::ranges::find(claims, "match.hidden-sockets", &Claim::id);
  ASSERT_NE(claim, claims.end());
  EXPECT_EQ(claim->verdict, Verdict::fails);
  EXPECT_THAT(claim->statement, testing::HasSubstr("socket 2"));
  EXPECT_THAT(claim->remedy, testing::HasSubstr("before the card"));
}

TEST(Traps, TheRemedyThatTheClaimNamesHealsTheBuild) {
  const auto prices = PriceBook::make(demo().catalog, careless());
  ASSERT_TRUE(prices);
  for (const std::string& file : trap_files()) {
    const BuildFile build = build_of(file);
    const auto bad = bad_claims(*prices, build.build, build.setup);
    ASSERT_FALSE(bad.empty()) << file;
    bool healed = false;
    for (const Claim& claim : bad) {
      EXPECT_FALSE(claim.remedy.empty() && claim.missing.empty()) << file << ": " << claim.id;
      if (!claim.swap) continue;
      const Build mended = app::with_swap(demo().catalog, build.build, *claim.swap);
      EXPECT_NE(mended, build.build);
      const auto left = bad_claims(*prices, mended, build.setup);
      healed = healed || left.empty();
    }
    EXPECT_TRUE(healed) << file;
  }
}

TEST(Traps, TheSheetSaysInPlainWordsWhatWouldHaveGoneWrong) {
  const auto planning = app::Planning::start(demo(), careless());
  ASSERT_TRUE(planning);
  for (const std::string& file : trap_files()) {
    const BuildFile build = build_of(file);
    const sheet::Sheet sheet = app::sheet_of_build(demo(), **planning, build, {});
    const auto bad = std::ranges::find_if(sheet.build.claims, [](const Claim& claim) {
      return claim.grade == Grade::must &&
             (claim.verdict == Verdict::fails || claim.verdict == Verdict::unknown);
    });
    ASSERT_NE(bad, sheet.build.claims.end()) << file;
    EXPECT_FALSE(bad->consequence.empty()) << file << ": " << bad->id;
    const std::string html = sheet::sheet_html(sheet);
    EXPECT_THAT(html, testing::HasSubstr(bad->consequence.substr(0, 24))) << file;
  }
}

}  // namespace
}  // namespace rigproof
