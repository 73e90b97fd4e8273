// Oracles: sentences and days worked out by hand from a brief and offers written for the test; and
// that every must of the rulebook says what would go wrong.
#include "app/plain_words.hpp"

#include <gmock/gmock.h>

#include "app/describe.hpp"
#include "app/workshop.hpp"
#include "catalog/small_catalog.hpp"

namespace rigproof::app {
namespace {

using testing::EndsWith;
using testing::HasSubstr;
using testing::Not;

TEST(Rulebook, EveryMustSaysWhatWouldGoWrong) {
  for (const Rule* rule : rulebook()) {
    if (rule->grade != Grade::must) continue;
    EXPECT_FALSE(rule->consequence.empty()) << rule->id;
    EXPECT_THAT(std::string(rule->consequence), EndsWith(".")) << rule->id;
    // A sentence for somebody who never built a machine: none of our own words.
    for (const char* word : {"claim", "verdict", "catalog", "cell"})
      EXPECT_THAT(std::string(rule->consequence), Not(HasSubstr(word))) << rule->id;
  }
}

constexpr std::string_view head =
    "[brief]\nname = \"x\"\nas_of = 2026-10-01\noffers_not_older_than_days = 14\n"
    "lone_offers_not_older_than_days = 10\n"
    "[[markets]]\nmarket = \"IE\"\ncurrency = \"EUR\"\nbudget = \"1500.00\"\n";

Brief brief_of(const std::string& more, const Catalog& catalog) {
  auto brief = read_brief(std::string(head) + more, "brief.toml", catalog);
  if (!brief) throw std::runtime_error(brief.error().report());
  return std::move(*brief);
}

TEST(JobWords, AreOnePlainSentence) {
  const Catalog catalog = small_catalog();
  EXPECT_EQ(job_words(brief_of("", catalog), catalog),
            "A PC, for at most 1,500 euro, as of 1 October 2026.");
  EXPECT_EQ(
      job_words(
          brief_of("[[titles]]\ntitle = \"harbour-lights\"\nweight = 1\nresolution = "
                   "\"3840x2160\"\ntarget_fps = 60\n"
                   "[[titles]]\ntitle = \"slate-valley\"\nweight = 1\nresolution = "
                   "\"3840x2160\"\ntarget_fps = 60\n"
                   "[limits]\nnoise_dba = { at_most = 34, load = \"title\", distance_m = 1 }\n"
                   "volume_l = { at_most = 45 }\n[musts]\nmemory_gb = 32\nwifi = true\n",
                   catalog),
          catalog),
      "A PC for Harbour Lights and Slate Valley at 4K (3840 x 2160) and 60 frames a second, no "
      "louder than 34 dB(A) at 1 m while playing and no larger than 45 liters, with at least 32 GB "
      "of memory and Wi-Fi, for at most 1,500 euro, as of 1 October 2026.");
}

Build two_parts(const Catalog& catalog) {
  Build build;
  for (const char* id : {"quick-six", "plain-board"})
    if (const auto part = catalog.find_part(id)) build.add(part->kind, part->row);
  return build;
}

// quick-six has a second seller, plain-board stands alone: 14 and 10 days after it was seen.
TEST(Prices, AreGoodForTheDaysOfTheBrief) {
  const Catalog catalog = small_catalog(
      "quick-six,shop-a,IE,2026-09-28,new,100.00,EUR,yes,4\n"
      "quick-six,shop-b,IE,2026-09-20,new,110.00,EUR,yes,\n"
      "plain-board,shop-a,IE,2026-09-28,new,80.00,EUR,yes,\n"
      "plain-board,shop-b,IE,2026-09-28,used,60.00,EUR,yes,\n");
  const Brief brief = brief_of("", catalog);
  const auto prices = PriceBook::make(catalog, brief);
  ASSERT_TRUE(prices);
  const auto markets = market_prices(catalog, brief, *prices, two_parts(catalog));
  ASSERT_EQ(markets.size(), 1U);
  ASSERT_EQ(markets[0].lines.size(), 2U);
  for (const sheet::PriceLine& line : markets[0].lines) {
    const bool board = line.part_id == "plain-board";
    EXPECT_EQ(line.alone, board) << line.part_id;
    EXPECT_EQ(to_string(line.good_until.value_or(Date{})), board ? "2026-10-08" : "2026-10-12");
    EXPECT_EQ(line.stock, board ? std::nullopt : std::optional<int>(4));
    EXPECT_EQ(line.condition, "new");
    EXPECT_FALSE(line.warranty_months) << "not stated is not none";
  }
}

TEST(Disclosures, NameWhatEarnsAndWhatIsKept) {
  const Catalog catalog = small_catalog();
  sheet::Sheet sheet;
  const auto text = [&](const char* subject) {
    for (const sheet::Disclosure& one : disclosures(catalog, sheet))
      if (one.subject == subject) return one.text;
    return std::string();
  };
  EXPECT_EQ(text("Links that earn money"), "No offers are shown.");
  EXPECT_EQ(text("Invented"), "") << "nothing in this catalog says so";
  sheet.markets.resize(1);
  sheet.markets[0].lines.resize(3);
  for (sheet::PriceLine& line : sheet.markets[0].lines) line.seller = "Shop A";
  EXPECT_THAT(text("Links that earn money"), HasSubstr("No link"));
  sheet.markets[0].lines[1].commission = true;
  EXPECT_THAT(text("Links that earn money"), HasSubstr("1 of the 3 offers shown (Shop A)"));
  sheet.build.parts.resize(1);
  sheet.build.parts[0].name = "Owned Supply";
  EXPECT_THAT(text("Kept parts"), HasSubstr("No part counts"));
  sheet.build.parts[0].origin = sheet::Origin::kept;
  EXPECT_THAT(text("Kept parts"), HasSubstr("Owned Supply"));
}

TEST(Cautions, AreThoseTheBuildCallsFor) {
  const Catalog catalog = small_catalog();
  const auto subjects = [&](const char* id) {
    Build build;
    if (const auto part = catalog.find_part(id)) build.add(part->kind, part->row);
    std::string out;
    for (const sheet::Caution& one : cautions(catalog, Brief{}, build)) out += one.subject + ";";
    return out;
  };
  EXPECT_THAT(subjects("quick-six"), HasSubstr("Mains;Static;"));
  EXPECT_THAT(subjects("quick-six"), Not(HasSubstr("Glass")));
  EXPECT_THAT(subjects("white-case"), HasSubstr("Glass"));
  EXPECT_THAT(subjects("white-case"), HasSubstr("Lifting"));
  EXPECT_THAT(subjects("owned-psu"), HasSubstr("Cables of another supply"));
  EXPECT_THAT(subjects("quick-six"), Not(HasSubstr("Cables of another supply")));
  EXPECT_THAT(subjects("broad-card"), HasSubstr("Long card"));
}

}  // namespace
}  // namespace rigproof::app
