// The JSON that others rely on, key by key as DESIGN section 8 lists it, on the demo. Written from
// the design, not from the schemas: the two must agree.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::AnyOf;
using testing::IsSupersetOf;

std::set<std::string> keys_of(const Json& object) {
  std::set<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.insert(key);
  return keys;
}

void expect_money(const Json& money, const char* where) {
  ASSERT_TRUE(money.is_object()) << where;
  EXPECT_EQ(keys_of(money), (std::set<std::string>{"currency", "minor"})) << where;
  EXPECT_TRUE(money.at("minor").is_number_integer()) << where;
  EXPECT_EQ(money.at("currency").get<std::string>().size(), 3U) << where;
}

// {"value", "low", "high", "unit"}; low and high absent when certain.
void expect_quantity(const Json& quantity, const std::string& where) {
  ASSERT_TRUE(quantity.is_object()) << where;
  ASSERT_TRUE(quantity.at("value").is_number()) << where;
  ASSERT_TRUE(quantity.at("unit").is_string()) << where;
  EXPECT_EQ(quantity.contains("low"), quantity.contains("high")) << where;
  if (!quantity.contains("low")) return;
  EXPECT_LE(quantity.at("low").get<double>(), quantity.at("value").get<double>()) << where;
  EXPECT_GE(quantity.at("high").get<double>(), quantity.at("value").get<double>()) << where;
}

// DESIGN section 11: counts of 256 draws.
std::string verdict_of(double odds) {
  const double count = odds * 256;
  return count >= 244 ? "holds" : count >= 128 ? "thin" : count >= 13 ? "doubtful" : "fails";
}

void expect_claim(const Json& claim) {
  const std::string where = claim.at("id").get<std::string>() + " " + claim.value("where", "");
  EXPECT_THAT(keys_of(claim), IsSupersetOf({"id", "grade", "where", "subjects", "load", "statement",
                                            "verdict", "basis", "source", "remedy", "missing"}))
      << where;
  EXPECT_THAT(claim.at("grade").get<std::string>(), AnyOf("must", "tells")) << where;
  EXPECT_TRUE(claim.at("subjects").is_array()) << where;
  EXPECT_FALSE(claim.at("statement").get<std::string>().empty()) << where;
  EXPECT_THAT(claim.at("basis").get<std::string>(),
              AnyOf("standard", "handbook", "part data", "model", "measured", "common practice"))
      << where;
  const std::string verdict = claim.at("verdict");
  if (verdict == "unknown") {
    EXPECT_FALSE(claim.contains("odds")) << where;
    EXPECT_TRUE(!claim.at("missing").empty() || !claim.at("remedy").get<std::string>().empty())
        << where << " says not what would settle it";
  } else if (claim.contains("odds")) {
    EXPECT_EQ(verdict, verdict_of(claim.at("odds"))) << where;
  } else {  // over a class range: the whole range agrees
    EXPECT_THAT(verdict, AnyOf("holds", "fails")) << where;
  }
  if (claim.contains("value") && !claim.at("value").contains("text"))
    expect_quantity(claim.at("value"), where);
  if (claim.contains("limit")) {
    EXPECT_THAT(claim.at("limit").at("relation").get<std::string>(),
                AnyOf("at_most", "at_least", "equals", "one_of"))
        << where;
    EXPECT_TRUE(claim.at("limit").contains("text") || (claim.at("limit").at("value").is_number() &&
                                                       claim.at("limit").at("unit").is_string()))
        << where;
  }
  if (claim.contains("margin")) {
    expect_quantity(claim.at("margin"), where);
    // Room left: limit - value for at_most, value - limit for at_least (the middle of a difference
    // is the difference of the middles when one of the two is certain, as a limit mostly is).
    if (claim.at("value").contains("value") && claim.at("limit").contains("value")) {
      const double value = claim.at("value").at("value");
      const double limit = claim.at("limit").at("value");
      const double margin = claim.at("margin").at("value");
      const double room =
          claim.at("limit").at("relation") == "at_least" ? value - limit : limit - value;
      EXPECT_EQ(margin > 0, room > 0) << where;
      EXPECT_NEAR(margin, room, 0.02 * std::max(1.0, std::abs(limit))) << where;
    }
  }
  for (const Json& missing : claim.at("missing"))
    EXPECT_EQ(keys_of(missing), (std::set<std::string>{"table", "row", "column", "how"})) << where;
}

TEST(Contract, PlanKeyByKey) {
  const Json plan = json_of(
      rigproof({"plan", living_room, "--catalog", demo_catalog, "--json", "--best", "5"}).out);
  EXPECT_EQ(plan.at("schema"), "rigproof.plan/1");
  EXPECT_EQ(plan.at("status"), "proven");
  ASSERT_EQ(plan.at("builds").size(), 5U);
  EXPECT_TRUE(plan.at("conflicts").empty());
  std::set<std::pair<std::string, std::string>> pairs;
  double odds_best = 0.0;
  std::int64_t last = plan.at("builds")[0].at("score").at("minor");
  for (const Json& build : plan.at("builds")) {
    expect_money(build.at("score"), "score");
    EXPECT_LE(build.at("score").at("minor").get<std::int64_t>(), last) << "not best first";
    last = build.at("score").at("minor");
    EXPECT_EQ(keys_of(build.at("prices")), (std::set<std::string>{"GB", "IE", "US"}));
    expect_money(build.at("prices").at("IE"), "IE");
    EXPECT_EQ(build.at("prices").at("IE").at("currency"), "EUR");
    EXPECT_EQ(build.at("prices").at("US").at("currency"), "USD");
    for (const Json& price : build.at("prices"))
      EXPECT_LE(price.at("minor").get<std::int64_t>(), 150000);  // both budgets
    for (const char* kind : {"cpu", "board", "memory", "cooler", "case", "psu", "gpu"})
      EXPECT_TRUE(build.at("parts").at(kind).is_string()) << kind;
    for (const Json& drive : build.at("parts").at("storage")) {
      EXPECT_TRUE(drive.at("id").is_string());
      EXPECT_GE(drive.at("count").get<int>(), 1);
    }
    EXPECT_EQ(build.at("parts").at("cooler"), "brisvind-heron-120");  // forced by the brief
    EXPECT_TRUE(pairs.emplace(build.at("parts").at("cpu"), build.at("parts").at("gpu")).second)
        << "two builds alike";
    ASSERT_EQ(build.at("titles").size(), 4U);
    for (const Json& title : build.at("titles")) {
      const std::string id = title.at("title");
      EXPECT_TRUE(title.at("target_fps").is_number());
      for (const char* key : {"rendered_fps", "displayed_fps", "p99_frame_time_fps"}) {
        expect_quantity(title.at(key), id + " " + key);
        EXPECT_EQ(title.at(key).at("unit"), "fps");
      }
      EXPECT_LT(title.at("p99_frame_time_fps").at("value").get<double>(),
                title.at("rendered_fps").at("value").get<double>())
          << id;
    }
    EXPECT_GE(build.at("odds_best").get<double>(), build.contains("rival") ? 0.05 : 0.0);
    EXPECT_EQ(build.contains("odds_first_beats"), pairs.size() > 1);
    odds_best += build.at("odds_best").get<double>();
    EXPECT_LE(build.at("odds_all_hold").get<double>(), 1.0);
    ASSERT_FALSE(build.at("claims").empty());
    for (const Json& claim : build.at("claims")) expect_claim(claim);
  }
  EXPECT_LE(odds_best, 1.0 + 1e-12) << "two builds are best in one draw";
  // Those compared but not listed are best in at most 5 % of the draws each.
  const double not_listed =
      plan.at("compared").get<double>() - static_cast<double>(plan.at("builds").size());
  EXPECT_GE(odds_best, 1.0 - 0.05 * not_listed);
  const Json& proof = plan.at("proof");
  expect_money(proof.at("bound"), "bound");
  EXPECT_EQ(proof.at("bound"), plan.at("builds")[0].at("score"))
      << "proven: the bound has come down to the best";
  EXPECT_GT(proof.at("nodes").get<std::int64_t>(), 0);
  EXPECT_GT(proof.at("leaves").get<std::int64_t>(), 0);
  for (const Json& count : proof.at("pruned")) EXPECT_TRUE(count.is_number_integer());
}

TEST(Contract, ImpossiblePlan) {
  const Json plan =
      json_of(rigproof({"plan", impossible, "--catalog", demo_catalog, "--json"}).out);
  EXPECT_EQ(plan.at("status"), "impossible");
  EXPECT_TRUE(plan.at("builds").empty());
  ASSERT_EQ(plan.at("conflicts").size(), 2U);
  for (const Json& conflict : plan.at("conflicts")) {
    ASSERT_FALSE(conflict.empty());
    for (const Json& requirement : conflict)
      EXPECT_THAT(keys_of(requirement), IsSupersetOf({"path", "line", "says"}));
  }
}

// A budget eased to the cent leaves a conflict whose rules take long to settle: it is told without
// them, with its easings, and says so. (Followed to the end this took more than 200 s.)
TEST(Contract, AnEasedBudgetIsNotFollowedThroughEveryRule) {
  const Folder folder;
  write_bytes(folder / "eased.toml",
              changed(bytes_of(impossible), "budget = \"700.00\"", "budget = \"1053.20\""));
  const Json plan =
      json_of(rigproof({"plan", folder / "eased.toml", "--catalog", demo_catalog, "--json"}).out);
  EXPECT_EQ(plan.at("status"), "impossible");
  EXPECT_EQ(plan.at("conflicts").size(), 1U);
  EXPECT_THAT(plan.at("notes").dump(), testing::HasSubstr("were not followed to the end"));
}

TEST(Contract, ClaimsKeyByKey) {
  for (const std::string& build : {evening_chair, friday_shelf}) {
    const Json claims =
        json_of(rigproof({"claims", build, "--catalog", demo_catalog, "--json"}).out);
    EXPECT_EQ(claims.at("schema"), "rigproof.claims/1");
    EXPECT_EQ(claims.at("build"), build == evening_chair ? "Evening chair" : "Friday shelf");
    ASSERT_GE(claims.at("claims").size(), 20U);
    std::set<std::string> seen;  // an id that repeats is told apart by where and its subjects
    for (const Json& claim : claims.at("claims")) {
      expect_claim(claim);
      EXPECT_TRUE(seen.insert(claim.at("id").get<std::string>() +
                              claim.at("where").get<std::string>() + claim.at("subjects").dump())
                      .second)
          << claim.at("id");
    }
  }
}

// "JSON numbers are the shortest that read back the same" (DESIGN section 11): written again by the
// library's own shortest writer, the claim numbers are not shorter.
TEST(Contract, NumbersAreShort) {
  const std::string text =
      rigproof({"claims", evening_chair, "--catalog", demo_catalog, "--json"}).out;
  for (std::size_t at = text.find("\"value\": "); at != std::string::npos;
       at = text.find("\"value\": ", at + 1)) {
    const std::size_t from = at + 9;
    const std::string number = text.substr(from, text.find_first_of(",\n}", from) - from);
    if (number.starts_with("{") || number.starts_with("\"")) continue;
    char shortest[64];
    const double value = std::stod(number);
    for (int digits = 1; digits <= 17; ++digits) {
      std::snprintf(shortest, sizeof shortest, "%.*g", digits, value);
      if (std::stod(shortest) == value) break;
    }
    EXPECT_LE(number.size(), std::string(shortest).size() + 5) << number << " against " << shortest;
  }
}

}  // namespace
}  // namespace rigproof::cli_test
