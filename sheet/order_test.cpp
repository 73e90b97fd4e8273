// Order and wording. Oracle: the order said in order.hpp, spelled out; numbers by hand.
#include "sheet/order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "sheet/margin_bar.hpp"
#include "sheet/sample.hpp"
#include "sheet/sources.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

Claim claim(const char* id, Verdict verdict, std::optional<double> frac,
            Grade grade = Grade::must) {
  Claim out;
  out.id = id;
  out.verdict = verdict;
  out.margin_frac = frac;
  out.grade = grade;
  return out;
}

TEST(Order, NearestToFailingFirst) {
  const std::vector<Claim> wanted = {claim("a", Verdict::fails, -0.5),
                                     claim("b", Verdict::fails, -0.1),
                                     claim("c", Verdict::fails, {}),
                                     claim("d", Verdict::doubtful, -0.2),
                                     claim("e", Verdict::thin, 0.01),
                                     claim("f", Verdict::unknown, {}),
                                     claim("z", Verdict::holds, 0.02),
                                     claim("g", Verdict::holds, 0.1),
                                     claim("k", Verdict::holds, 0.1, Grade::tells),
                                     claim("h", Verdict::holds, {})};
  std::vector<Claim> mixed = wanted;
  std::mt19937 seeded(7);
  for (int round = 0; round < 20; ++round) {
    std::ranges::shuffle(mixed, seeded);
    const auto order = nearest_first(mixed);
    ASSERT_EQ(order.size(), wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i) EXPECT_EQ(order[i]->id, wanted[i].id) << i;
  }
}

TEST(Order, OnlyWhatHoldsWithRoomIsFolded) {
  EXPECT_TRUE(has_plenty(claim("x", Verdict::holds, 0.26)));
  EXPECT_FALSE(has_plenty(claim("x", Verdict::holds, 0.25)));
  EXPECT_TRUE(has_plenty(claim("x", Verdict::holds, {})));
  for (const Verdict verdict : {Verdict::thin, Verdict::doubtful, Verdict::fails, Verdict::unknown})
    EXPECT_FALSE(has_plenty(claim("x", verdict, 0.9)));
  Claim seen = claim("x", Verdict::holds, 0.9);
  seen.measured = Measured{};
  EXPECT_FALSE(has_plenty(seen));
}

TEST(Order, WhatIsMetExactlyAndForCertainIsFolded) {
  Claim c = claim("x", Verdict::holds, 0.0);
  c.margin = Quantity{.value = 0.0, .low = {}, .high = {}, .unit = "plugs", .text = {}};
  EXPECT_TRUE(has_plenty(c));
  c.margin->low = -1.0;
  EXPECT_FALSE(has_plenty(c));
}

TEST(Order, PricesFollowThePartsAndStrangersComeLast) {
  MarketPrices market;
  for (const char* id : {"c", "x", "a", "b"}) {
    PriceLine line;
    line.part_id = id;
    market.lines.push_back(line);
  }
  std::vector<PartLine> parts(3);
  parts[0].id = "a", parts[1].id = "b", parts[2].id = "c";
  std::string order;
  for (const PriceLine& line : prices_in_order(market, parts)) order += line.part_id;
  EXPECT_EQ(order, "abcx");
}

TEST(Order, EachAbsentCellIsCountedOnce) {
  std::vector<Claim> claims(3, claim("x", Verdict::unknown, {}));
  claims[0].missing = {{"a.csv", "1", "c", ""}};
  claims[1].missing = {{"b.csv", "1", "c", ""}, {"a.csv", "2", "c", ""}};
  claims[2].missing = {{"b.csv", "1", "c", ""}};
  const auto cells = cells_to_look_up(claims);
  ASSERT_EQ(cells.size(), 3U);
  EXPECT_EQ(cells[0].cell.table, "b.csv");
  EXPECT_EQ(cells[0].claims, 2);
  EXPECT_EQ(cells[1].cell.row, "1");
}

// 321 mm of 325, 4 mm left, interval 1.5 to 6.5 mm: 4/325 of the limit; the ends by the same rule.
TEST(MarginBar, FractionsOfTheLimit) {
  Claim c = claim("x", Verdict::thin, 4.0 / 325.0);
  c.limit = Limit{.relation = Relation::at_most, .value = 325, .unit = "mm", .text = {}};
  c.margin = Quantity{.value = 4, .low = 1.5, .high = 6.5, .unit = "mm", .text = {}};
  c.measured = Measured{.value = 327, .log = {}, .date = {}, .settled = {}};
  const MarginBar bar = margin_bar(c);
  EXPECT_DOUBLE_EQ(bar.spread->low, 1.5 / 325.0);
  EXPECT_DOUBLE_EQ(bar.spread->high, 6.5 / 325.0);
  EXPECT_DOUBLE_EQ(*bar.measured, -2.0 / 325.0);
  c.margin->value = 0.0;  // the limit gives the size when the margin cannot
  c.margin_frac = 0.0;
  EXPECT_DOUBLE_EQ(margin_bar(c).spread->low, 1.5 / 325.0);
  c.verdict = Verdict::unknown;
  EXPECT_FALSE(margin_bar(c).middle);
}

TEST(Wording, RoomIsSaidAsPeopleSayIt) {
  Claim c = claim("x", Verdict::fails, -0.1);
  c.limit = Limit{.relation = Relation::at_most, .value = 120, .unit = "W", .text = {}};
  c.margin = Quantity{.value = -12, .low = {}, .high = {}, .unit = "W", .text = {}};
  EXPECT_EQ(room_words(c), "12 W over");
  c.limit->relation = Relation::at_least;
  EXPECT_EQ(room_words(c), "12 W short");
  c.margin->value = 12;
  EXPECT_EQ(room_words(c), "12 W left");
  c.margin->value = 0;
  EXPECT_EQ(room_words(c), "exactly at the limit");
  EXPECT_EQ(odds_words(0.999), "above 0.99");
  EXPECT_EQ(odds_words(1.0), "1.00");
  EXPECT_EQ(odds_words(0.004), "below 0.01");
  EXPECT_EQ(words(Quantity{.value = 1341.9, .low = {}, .high = {}, .unit = "EUR", .text = {}}),
            "1,341.90 EUR");
  EXPECT_EQ(words(Quantity{.value = 321, .low = 316.0, .high = 326.0, .unit = "mm", .text = {}}),
            "321 mm (316 to 326)");
}

TEST(Wording, CleanTextKeepsLettersAndDropsTricks) {
  EXPECT_EQ(clean_text("\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xE6\x97\xA5 e\xCC\x81"),
            "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xE6\x97\xA5 e\xCC\x81");
  EXPECT_EQ(clean_text("a\x1b[0m"), "a\xEF\xBF\xBD[0m");
  EXPECT_EQ(clean_text("a\xE2\x80\xAE"
                       "b\xE2\x81\xA6"),
            "a\xEF\xBF\xBD"
            "b\xEF\xBF\xBD");
  EXPECT_EQ(clean_text("\xC0\xAF"), "\xEF\xBF\xBD\xEF\xBF\xBD");                  // overlong slash
  EXPECT_EQ(clean_text("\xED\xA0\x80"), "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");  // a surrogate
  EXPECT_EQ(clean_text("\xE2\x82"), "\xEF\xBF\xBD\xEF\xBF\xBD");                  // cut off
  EXPECT_EQ(columns_of("\xE6\x97\xA5x e\xCC\x81"), 5);
}

TEST(Wording, OneOfThemIsNotManyOfThem) {
  const auto of = [](double value, const char* unit) {
    return words(Quantity{.value = value, .low = {}, .high = {}, .unit = unit, .text = {}});
  };
  EXPECT_EQ(of(1, "plugs"), "1 plug");
  EXPECT_EQ(of(2, "plugs"), "2 plugs");
  EXPECT_EQ(of(1, "GB/s"), "1 GB/s");
  EXPECT_EQ(of(1, "ms"), "1 ms");
  EXPECT_EQ(of(1, "fps"), "1 fps");
}

TEST(Wording, ABoundIsSaidOnlyWhereSomethingWasFound) {
  Proof proof;
  proof.bound = {*parse_currency("EUR"), 100};
  for (const char* status : {"impossible", "not planned", ""}) {
    proof.status = status;
    EXPECT_EQ(bound_words(proof), "") << status;
  }
  proof.status = "not proven";
  EXPECT_EQ(bound_words(proof), "1.00 EUR");
}

TEST(Sources, EachOnceMostUsedFirst) {
  Sheet sheet;
  sheet.build.claims = {claim("x", Verdict::holds, {}), claim("y", Verdict::holds, {}),
                        claim("z", Verdict::holds, {})};
  sheet.build.claims[0].source = "one";
  sheet.build.claims[1].source = sheet.build.claims[2].source = "two";
  sheet.cautions = {{"Mains", "Unplug.", "one"}, {"Static", "Touch metal.", "one"}};
  const auto sources = sources_of(sheet);
  ASSERT_EQ(sources.size(), 2U);
  EXPECT_EQ(sources[0].source, "one");
  EXPECT_EQ(sources[0].uses, "1 claim and 2 cautions");
  EXPECT_EQ(sources[1].uses, "2 claims");
}

}  // namespace
}  // namespace rigproof::sheet
