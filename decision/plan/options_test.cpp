// What may stand in a slot when a plan stays near a build or has to use a part: listed by hand.
#include "decision/plan/options.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "tests/support/scene.hpp"

namespace rigproof::plan {
namespace {

using test_support::TestTables;
using testing::IsSupersetOf;
using testing::Not;
using testing::UnorderedElementsAre;

class Options : public testing::Test {
 protected:
  Options() {
    TestTables tables;
    for (const char* id : {"hub-a", "hub-b"}) small(tables, id, "hub");
    small(tables, "cables", "cable-set");
    small(tables, "mounting", "socket-mount");
    small(tables, "tin", "paste");
    for (const char* id : {"drive-a", "drive-b", "drive-c", "drive-d"}) {
      tables.row("storage", {{"id", id}});
      tables.offer(id, "IE", "EUR", "50.00");
    }
    for (const char* id : {"fan-a", "fan-b"}) {
      tables.row("fan", {{"id", id}});
      tables.offer(id, "IE", "EUR", "5.00");
    }
    catalog = tables.load();
    brief.as_of = *make_date(2026, 10, 1);
    brief.markets.push_back({.market = "IE",
                             .budget = *parse_money("1000.00", *parse_currency("EUR")),
                             .sales_tax = {}});
  }
  static void small(TestTables& tables, const char* id, const char* what) {
    tables.row("other", {{"id", id}, {"what", what}});
    tables.offer(id, "IE", "EUR", "9.00");
  }
  PartRef part(const char* id) const { return *catalog.find_part(id); }

  // Every option of a kind in words: "drive-a drive-b", "3 fan-a", "" for none.
  std::set<std::string> options(Kind kind, const PartsAsked& asked) const {
    const auto prices = PriceBook::make(catalog, brief);
    std::set<std::string> out;
    for (const KindSlot& slot : slot_options(catalog, brief, *prices, asked)) {
      if (slot.kind != kind) continue;
      for (const SlotOption& option : slot.options) {
        std::string words;
        for (const Chosen& each : option.parts) {
          if (!words.empty()) words += ' ';
          if (each.count > 1) words += std::to_string(each.count) + ' ';
          words += catalog.id({kind, each.row});
        }
        EXPECT_TRUE(out.insert(words).second) << "twice: " << words;
      }
    }
    return out;
  }
  Build build_of(std::initializer_list<const char*> ids, int count = 1) const {
    Build build;
    for (const char* id : ids) build.add(part(id).kind, part(id).row, count);
    return build;
  }

  Catalog catalog;
  Brief brief;
};

// A tin of paste is nothing that a plan would choose; four small parts are more than it ever takes.
TEST_F(Options, SmallPartsOfABuildStayWithOneLeftOutOrExchanged) {
  const Build near = build_of({"hub-a", "cables", "mounting", "tin"});
  const auto with = options(Kind::other, {.stay_near = &near});
  EXPECT_THAT(with, IsSupersetOf({"hub-a cables mounting tin", "cables mounting tin",
                                  "hub-a mounting tin", "hub-a cables tin", "hub-a cables mounting",
                                  "hub-b cables mounting tin", "tin", "hub-b tin", ""}));
  EXPECT_THAT(with, Not(testing::Contains("hub-a hub-b")));  // two of one purpose
  EXPECT_THAT(with, Not(testing::Contains("hub-a hub-b cables tin")));
  const auto free = options(Kind::other, {});
  EXPECT_THAT(free, UnorderedElementsAre("", "hub-a", "hub-b", "cables", "mounting", "hub-a cables",
                                         "hub-a mounting", "hub-b cables", "hub-b mounting",
                                         "cables mounting"));
}

TEST_F(Options, FourFansOfABuildStayOrAreExchangedTogether) {
  const Build near = build_of({"fan-a"}, 4);
  EXPECT_THAT(options(Kind::fan, {.stay_near = &near}),
              UnorderedElementsAre("", "fan-a", "2 fan-a", "3 fan-a", "4 fan-a", "fan-b", "2 fan-b",
                                   "3 fan-b", "4 fan-b"));
}

TEST_F(Options, WhatIsInsistedOnStandsInEveryOption) {
  const std::vector<PartRef> two{part("drive-b"), part("drive-d")};
  EXPECT_THAT(options(Kind::storage, {.insisted = two}), UnorderedElementsAre("drive-b drive-d"));
  const std::vector<PartRef> one{part("drive-c")};
  EXPECT_THAT(options(Kind::storage, {.insisted = one}),
              UnorderedElementsAre("drive-c", "2 drive-c", "drive-a drive-c", "drive-b drive-c",
                                   "drive-c drive-d"));
  const std::vector<PartRef> paste{part("tin")};
  EXPECT_THAT(options(Kind::other, {.insisted = paste}),
              UnorderedElementsAre("tin", "hub-a tin", "hub-b tin", "cables tin", "mounting tin",
                                   "hub-a cables tin", "hub-a mounting tin", "hub-b cables tin",
                                   "hub-b mounting tin", "cables mounting tin"));
  const std::vector<PartRef> fans{part("fan-a"), part("fan-b")};  // one model only
  EXPECT_THAT(options(Kind::fan, {.insisted = fans}), UnorderedElementsAre());
}

TEST_F(Options, WhatIsDoneWithoutStandsInNone) {
  const std::vector<PartRef> gone{part("drive-a"), part("drive-b"), part("drive-c")};
  const Build near = build_of({"drive-a", "drive-b", "drive-d"});
  EXPECT_THAT(options(Kind::storage, {.without = gone, .stay_near = &near}),
              UnorderedElementsAre("drive-d", "2 drive-d"));
}

}  // namespace
}  // namespace rigproof::plan
