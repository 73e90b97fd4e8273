// Oracles: the wishes for the short form: what comes first, what is left out, one line a claim.
#include "sheet/text_short.hpp"

#include <gmock/gmock.h>

#include <sstream>

#include "sheet/hostile.hpp"
#include "sheet/sample.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

Claim claim_of(std::string id, Verdict verdict, std::string statement) {
  Claim claim;
  claim.id = std::move(id);
  claim.verdict = verdict;
  claim.statement = std::move(statement);
  return claim;
}

TEST(ShortText, OneLineForEachClaimThatDoesNotHold) {
  const std::vector<Claim> claims = sample_claims();
  std::size_t open = 0;
  for (const Claim& claim : claims) open += claim.verdict == Verdict::holds ? 0U : 1U;
  ASSERT_GT(open, 0U);
  ASSERT_LT(open, claims.size());
  std::size_t told = 0;
  bool after = false;
  for (const std::string& line :
       lines_of(claims_short_text("loft", {}, claims, {.color = false, .width = 80}))) {
    if (after && line.starts_with("  ")) ++told;
    if (line.starts_with("CLAIMS that do not hold")) after = true;
  }
  EXPECT_EQ(told, open);
}

// By hand: the worst first, what holds left out; an unknown names its first cell and counts the
// rest; a verdict without numbers is told by what would mend it, or else by its statement.
TEST(ShortText, ByHand) {
  Claim unknown = claim_of("match.socket", Verdict::unknown, "It fits.");
  unknown.missing = {{.table = "cpu", .row = "calm-six", .column = "socket", .how = {}},
                     {.table = "board", .row = "b", .column = "socket", .how = {}}};
  Claim mendable = claim_of("match.complete", Verdict::fails, "The build is whole.");
  mendable.remedy = "add: case";
  const std::string text =
      claims_short_text("Three parts",
                        {{.place = "processor socket",
                          .kind = "cpu",
                          .id = "calm-six",
                          .name = "Calm Six",
                          .maker = {},
                          .maker_code = {},
                          .why = {},
                          .because_cost = {},
                          .runner_up = {}}},
                        {claim_of("a.holds", Verdict::holds, "Fine."), unknown, mendable,
                         claim_of("match.form", Verdict::fails, "The board mounts in the case.")},
                        {.color = false, .width = 80});
  const auto lines = lines_of(text);
  ASSERT_GE(lines.size(), 7U) << text;
  EXPECT_THAT(lines[0], StartsWith("Three parts"));
  EXPECT_EQ(lines[1], std::string("  processor socket  Calm Six [") + "calm-six]");
  EXPECT_THAT(lines[3], StartsWith("CLAIMS that do not hold"));
  EXPECT_EQ(lines[4], "  fails     match.complete: add: case");
  EXPECT_EQ(lines[5], "  fails     match.form: The board mounts in the case.");
  EXPECT_EQ(lines[6], "  unknown   match.socket: needs socket of calm-six (cpu.csv) and 1 more");
  EXPECT_THAT(text, Not(HasSubstr("a.holds")));
}

TEST(ShortText, PriceAndPartsStandBeforeTheClaims) {
  const Plan plan = sample_plan();
  const std::string text = plan_short_text(plan, {.color = false, .width = 100});
  const std::size_t price = text.find(to_string(plan.builds[0].prices[0]));
  const std::size_t part = text.find("[" + plan.builds[0].parts[0].id + "]");
  const std::size_t claims = text.find("CLAIMS that do not hold");
  ASSERT_NE(claims, std::string::npos);
  EXPECT_LT(price, part);
  EXPECT_LT(part, claims);
  EXPECT_THAT(text, HasSubstr("BUILD 2 of 2"));
}

TEST(ShortText, AConflictIsTold) {
  const Plan plan = sample_conflict();
  const std::string text = plan_short_text(plan, {.color = false, .width = 100});
  EXPECT_THAT(text, HasSubstr("No build satisfies the brief."));
  EXPECT_THAT(text, HasSubstr(plan.conflicts.at(0).requirements.at(0).path));
  EXPECT_THAT(text, HasSubstr("38.00 EUR more: 638.00 EUR\n"));
}

TEST(ShortText, HostileTextIsMadeHarmless) {
  Plan plan;
  plan.brief_name = hostile_text("brief");
  plan.builds = {hostile_sheet().build};
  const std::string text = plan_short_text(plan, {.color = false, .width = 100});
  for (const char c : text) EXPECT_TRUE(static_cast<unsigned char>(c) >= 0x20 || c == '\n');
  EXPECT_THAT(text, Not(HasSubstr("\xE2\x80\xAE")));
}

TEST(ShortText, NoLineIsWiderThanAsked) {
  Plan plan = sample_plan();
  plan.builds[0].claims.push_back(
      claim_of("x.long", Verdict::fails, std::string(3000, 'w') + "\u00e9"));
  plan.builds[0].claims.push_back(claim_of(
      "x.wide", Verdict::fails, "\u30c6\u30b9\u30c8\u30c6\u30b9\u30c8 " + std::string(90, 'w')));
  for (const int width : {60, 80, 120})
    for (const std::string& line :
         lines_of(plan_short_text(plan, {.color = false, .width = width})))
      EXPECT_LE(columns_of(line), width) << line;
}

}  // namespace
}  // namespace rigproof::sheet
