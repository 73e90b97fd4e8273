// The demo's traps: each is found by the claims, healed by the remedy that the claims name, and
// avoided by a plan, which would walk into it if the rule were not there. The traps are invented
// (tools/make_demo_traps.cpp); what each must break is written down here by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <stdexcept>

#include "app/planning.hpp"
#include "app/remedies.hpp"

namespace rigproof {
namespace {

struct Trap {
  const char* build;  ///< demo/builds/trap-*.toml
  const char* rule;
  Verdict verdict;
  Kind kind;         ///< whose choice is the mistake
  const char* part;  ///< the part a careless maker takes; empty: no single part is to blame
};

constexpr Trap traps[] = {
    {"weak-stage", "match.power-stage", Verdict::fails, Kind::board, "quernholt-rill-v4-wifi"},
    {"tall-memory", "fit.memory-height", Verdict::fails, Kind::memory,
     "ullsmoor-crest-ddr5-2x16-6000-cl30"},
    {"one-cable-short", "match.card-connectors", Verdict::fails, Kind::psu, "tollard-ration-850"},
    {"plug-at-the-panel", "fit.plug-room", Verdict::fails, Kind::chassis,
     "ottermill-drift-40-slim"},
    {"stolen-lanes", "match.shared-lanes", Verdict::fails, Kind::board,
     "quernholt-weir-v4-micro-wifi"},
    {"lone-bargain", "market.offer", Verdict::fails, Kind::gpu, "brantoak-crown-marl-50"},
    {"one-header", "power.fan-header", Verdict::fails, Kind::other, ""},
    {"half-empty", "fit.card-length", Verdict::unknown, Kind::gpu, ""},
};

const app::Workshop& demo() {
  static const app::Workshop workshop = [] {
    auto opened = app::open_workshop("demo/catalog");
    if (!opened) throw std::runtime_error(opened.error().message);
    return std::move(*opened);
  }();
  return workshop;
}

Brief careless() {
  auto brief = app::open_brief("demo/briefs/careless-bargains.toml", demo().catalog);
  if (!brief) throw std::runtime_error(brief.error().message);
  return std::move(*brief);
}

BuildFile build_of(const Trap& trap) {
  auto build =
      app::open_build(std::string("demo/builds/trap-") + trap.build + ".toml", demo().catalog);
  if (!build) throw std::runtime_error(build.error().message);
  return std::move(*build);
}

PriceBook prices_of(const Brief& brief) {
  auto made = PriceBook::make(demo().catalog, brief);
  if (!made) throw std::runtime_error(made.error().message);
  return std::move(*made);
}

// Must claims that keep a build out of a plan.
std::vector<Claim> bad_claims(const Brief& brief, const PriceBook& prices, const Build& build,
                              const Mounts& mounts) {
  auto claims = app::claims_of(demo().catalog, brief, &prices, build, &mounts);
  app::add_swaps({.catalog = demo().catalog,
                  .brief = brief,
                  .prices = &prices,
                  .build = build,
                  .mounts = &mounts},
                 claims);
  std::erase_if(claims, [](const Claim& claim) {
    return claim.grade == Grade::tells || claim.verdict == Verdict::holds ||
           claim.verdict == Verdict::thin;
  });
  return claims;
}

class Traps : public testing::TestWithParam<Trap> {};

TEST_P(Traps, IsFoundAndNothingElseIsWrong) {
  const Trap& trap = GetParam();
  const Brief brief = careless();
  const PriceBook prices = prices_of(brief);
  const BuildFile build = build_of(trap);
  const auto bad = bad_claims(brief, prices, build.build, build.mounts);
  ASSERT_FALSE(bad.empty());
  std::set<std::string> ids;
  for (const Claim& claim : bad) {
    // A price that is refused leaves the sum unknown, which is not another mistake.
    if (claim.id == "market.budget" && trap.rule == std::string_view("market.offer")) continue;
    ids.insert(claim.id);
    EXPECT_EQ(claim.verdict, trap.verdict) << claim.id << ": " << claim.statement;
  }
  EXPECT_TRUE(ids.contains(trap.rule));
  if (trap.verdict == Verdict::fails) {
    EXPECT_THAT(ids, testing::ElementsAre(trap.rule));
    for (const Claim& claim : bad) EXPECT_FALSE(claim.remedy.empty()) << claim.id;
  } else {
    for (const Claim& claim : bad) EXPECT_FALSE(claim.missing.empty()) << claim.id;
  }
}

TEST_P(Traps, TheRemedyAppliedHealsIt) {
  const Trap& trap = GetParam();
  const Brief brief = careless();
  const PriceBook prices = prices_of(brief);
  const BuildFile build = build_of(trap);
  for (const Claim& claim : bad_claims(brief, prices, build.build, build.mounts)) {
    if (claim.id != trap.rule) continue;
    ASSERT_TRUE(claim.swap) << claim.remedy;
    const Build healed = app::with_swap(demo().catalog, build.build, *claim.swap);
    EXPECT_NE(healed, build.build);
    const auto left = bad_claims(brief, prices, healed, build.mounts);
    EXPECT_TRUE(left.empty()) << claim.remedy << " leaves " << left.front().statement;
    return;
  }
  FAIL() << "the trap was not found";
}

// Everything but the careless choice fixed as in the trap, as a brief would fix it. Where the trap
// has two of a drive one of them is there already, so that a second one is needed.
Brief all_but(const Trap& trap, const BuildFile& build) {
  Brief brief = careless();
  for (int k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    const auto parts = build.build.of(kind);
    if (kind == trap.kind || parts.empty()) continue;
    const std::string id(demo().catalog.id({kind, parts.front().row}));
    if (kind == Kind::storage && parts.front().count == 2)
      brief.keep.push_back({kind, id, ""});
    else if (parts.front().count == 1)  // a brief forces single pieces
      brief.because.push_back({kind, id, "as in the trap"});
  }
  return brief;
}

// The best build that a plan would make, without one rule perhaps.
std::optional<Build> planned(const Brief& brief, std::string_view without_rule) {
  const auto planning = app::Planning::start(demo(), brief);
  if (!planning) throw std::runtime_error(planning.error().message);
  const auto outcome = (*planning)->plan({.keep = 1,
                                          .first_only = false,
                                          .banned = {},
                                          .without_rule = without_rule,
                                          .stop = {},
                                          .progress = {}});
  if (outcome.best.empty()) return {};
  return outcome.best.front().build;
}

bool breaks(const Build& build, const Brief& brief, const PriceBook& prices, const Trap& trap) {
  return std::ranges::any_of(bad_claims(brief, prices, build, {}),
                             [&](const Claim& claim) { return claim.id == trap.rule; });
}

bool uses(const Build& build, const Trap& trap) {
  for (const Chosen& part : build.of(trap.kind))
    if (demo().catalog.id({trap.kind, part.row}) == trap.part) return true;
  return false;
}

TEST_P(Traps, APlanAvoidsItAndWouldNotWithoutTheRule) {
  const Trap& trap = GetParam();
  const BuildFile build = build_of(trap);
  const Brief brief = all_but(trap, build);
  const PriceBook prices = prices_of(brief);
  const auto best = planned(brief, {});
  ASSERT_TRUE(best) << "a right choice exists beside the trap";
  EXPECT_TRUE(bad_claims(brief, prices, *best, {}).empty());
  if (std::string_view(trap.part).empty()) return;
  EXPECT_FALSE(uses(*best, trap));
  Brief careless_brief = brief;
  careless_brief.lone_offers_not_older_than_days.reset();
  const bool by_price = trap.rule == std::string_view("market.offer");
  const auto fallen = planned(by_price ? careless_brief : brief, by_price ? "" : trap.rule);
  ASSERT_TRUE(fallen);
  EXPECT_TRUE(breaks(*fallen, brief, prices, trap)) << "the trap tempts nobody";
}

INSTANTIATE_TEST_SUITE_P(Demo, Traps, testing::ValuesIn(traps), [](const auto& each) {
  std::string name;
  for (const char c : std::string_view(each.param.build)) name += c == '-' ? '_' : c;
  return name;
});

}  // namespace
}  // namespace rigproof
