// Remedies found by trying: the change heals its claim, breaks nothing, and is the smallest by
// hand.
#include "app/remedies.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>

#include "app/workshop.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::Scene;
using test_support::TestTables;

// Three boards feed 100, 150 and 200 W; the largest has another socket; a fourth feeds 160 W but
// differs in two words more.
TestTables boards() {
  const auto board = [](const char* id, const char* socket, const char* stage, const char* form) {
    return TestTables::Cells{{"id", id},
                             {"socket", socket},
                             {"form_factor", form},
                             {"cpu_sustained_w", stage},
                             {"memory_type", form == std::string("ATX") ? "DDR5" : "DDR4"}};
  };
  return TestTables()
      .row("cpu", {{"id", "hungry"}, {"socket", "K7"}, {"sustained_power_w", "140"}})
      .row("board", board("plain", "K7", "100", "ATX"))
      .row("board", board("foreign", "Z9", "200", "ATX"))
      .row("board", board("strange", "K7", "160", "microATX"))
      .row("board", board("firm", "K7", "180", "ATX"));
}

std::map<std::string, Claim> judged(Scene& scene) {
  auto claims = app::claims_of(scene.catalog, scene.brief, scene.prices ? &*scene.prices : nullptr,
                               scene.build);
  app::add_swaps({.catalog = scene.catalog,
                  .brief = scene.brief,
                  .prices = scene.prices ? &*scene.prices : nullptr,
                  .build = scene.build,
                  .setup = nullptr},
                 claims);
  std::map<std::string, Claim> by_id;
  for (Claim& claim : claims) by_id.emplace(claim.id, std::move(claim));
  return by_id;
}

// firm differs from plain by 80 of 180 W (0.44); strange by 60 of 160 W and two words (2.38);
// foreign by 100 of 200 W and a word (1.5), and would break match.socket.
TEST(Remedies, TheSmallestChangeThatBreaksNothing) {
  Scene scene(boards());
  scene.take("hungry").take("plain");
  const Claim claim = judged(scene).at("match.power-stage");
  EXPECT_EQ(claim.verdict, Verdict::fails);
  ASSERT_TRUE(claim.swap);
  EXPECT_EQ(claim.swap->kind, "board");
  EXPECT_EQ(claim.swap->out, "plain");
  EXPECT_EQ(claim.swap->in, "firm");
  EXPECT_THAT(claim.remedy,
              testing::StartsWith("take the firm instead of the plain: no other claim gets worse; "
                                  "or choose a board"));
  scene.build = app::with_swap(scene.catalog, scene.build, *claim.swap);
  EXPECT_EQ(scene.catalog.id({Kind::board, scene.build.one(Kind::board)}), "firm");
  const Claim healed = judged(scene).at("match.power-stage");
  EXPECT_EQ(healed.verdict, Verdict::holds);
  EXPECT_FALSE(healed.swap);
}

TEST(Remedies, AChangeThatBreaksAnotherClaimIsNone) {
  Scene scene(TestTables()
                  .row("cpu", {{"id", "hungry"}, {"socket", "K7"}, {"sustained_power_w", "140"}})
                  .row("board", {{"id", "plain"}, {"socket", "K7"}, {"cpu_sustained_w", "100"}})
                  .row("board", {{"id", "foreign"}, {"socket", "Z9"}, {"cpu_sustained_w", "200"}}));
  scene.take("hungry").take("plain");
  const Claim claim = judged(scene).at("match.power-stage");
  EXPECT_EQ(claim.verdict, Verdict::fails);
  EXPECT_FALSE(claim.swap);
  EXPECT_THAT(claim.remedy, testing::StartsWith("choose a board"));
}

TEST(Remedies, KeptAndForcedPartsStay) {
  TestTables tables = boards();
  tables.row("cpu", {{"id", "modest"}, {"socket", "K7"}, {"sustained_power_w", "90"}});
  Scene scene(tables);
  scene.take("hungry").take("plain");
  EXPECT_EQ(judged(scene).at("match.power-stage").swap->kind, "cpu") << "50 of 140 W: 0.36";
  scene.brief.keep.push_back({Kind::cpu, "hungry", ""});
  EXPECT_EQ(judged(scene).at("match.power-stage").swap->in, "firm");
  scene.brief.because.push_back({Kind::board, "plain", "it was there"});
  EXPECT_FALSE(judged(scene).at("match.power-stage").swap);
}

// Where a brief gives prices they are said, and what cannot be bought is no remedy.
TEST(Remedies, PricesAreCountedAndSaid) {
  TestTables tables = boards();
  tables.offer("hungry", "IE", "EUR", "200.00").offer("plain", "IE", "EUR", "90.00");
  tables.offer("strange", "IE", "EUR", "101.50");
  Scene scene(tables);
  scene.brief.as_of = *make_date(2026, 10, 1);
  scene.market("IE", "EUR", "1000.00").take("hungry").take("plain");
  Claim claim = judged(scene).at("match.power-stage");
  ASSERT_TRUE(claim.swap);
  EXPECT_EQ(claim.swap->in, "strange") << "nobody sells the firm one";
  EXPECT_THAT(claim.remedy,
              testing::StartsWith("take the strange instead of the plain (11.50 EUR more in IE)"));
}

TEST(Remedies, WithSwapAddsAndLeavesOut) {
  TestTables tables = boards();
  tables.row("fan", {{"id", "calm"}}).row("fan", {{"id", "brisk"}});
  Scene scene(tables);
  scene.take("plain").take("calm", 2);
  const auto fans = [&](const Swap& swap) {
    std::map<std::string, int> out;
    const Build made = app::with_swap(scene.catalog, scene.build, swap);
    for (const Chosen& fan : made.of(Kind::fan))
      out[std::string(scene.catalog.id({Kind::fan, fan.row}))] = fan.count;
    return out;
  };
  using Fans = std::map<std::string, int>;
  EXPECT_EQ(fans({.kind = "fan", .out = "", .in = "brisk", .count = 1}),
            (Fans{{"calm", 2}, {"brisk", 1}}));
  EXPECT_EQ(fans({.kind = "fan", .out = "calm", .in = "", .count = 0}), Fans{});
  EXPECT_EQ(fans({.kind = "fan", .out = "calm", .in = "calm", .count = 1}), (Fans{{"calm", 1}}));
  EXPECT_EQ(fans({.kind = "fan", .out = "calm", .in = "brisk", .count = 2}), (Fans{{"brisk", 2}}));
}

}  // namespace
}  // namespace rigproof
