// What mends a build, as a user asks: after offers vanished, within few swaps, under a brief that
// nothing satisfies.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "asking.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

// The best build written down, and offers of its card gone from the catalog.
class Vanished : public testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(ask({"plan", living_room, "--best", "1", "--short", "--save", build}).exit_code, 0);
    copy_demo(catalog, [&](const std::string& name, const std::string& bytes) {
      if (name != "offers") return bytes;
      Table kept;
      const Table table = table_of(bytes);
      const std::size_t part = column_of(table, "part");
      for (const Row& row : table)
        if (row.at(part) != card) kept.push_back(row);
      EXPECT_LT(kept.size(), table.size());
      return csv_of(kept);
    });
  }
  Folder folder;
  const std::string build = folder / "best.toml";
  const std::string catalog = folder / "catalog";
  const std::string card = best_plan().at("parts").at("gpu");
};

TEST_F(Vanished, IsToldAndSwapped) {
  const std::vector<std::string> args = {"repair", living_room, build, "--catalog", catalog};
  auto as_json = args;
  as_json.emplace_back("--json");
  const Json repaired = json_of(rigproof(as_json).out);
  EXPECT_EQ(repaired.at("status"), "proven");
  EXPECT_FALSE(repaired.contains("score_now"));  // it has no price any more
  bool told = false;
  for (const Json& wrong : repaired.at("wrong"))
    told = told || (wrong.at("id") == "market.offer" &&
                    wrong.at("claim").at("where").get<std::string>().ends_with(card));
  EXPECT_TRUE(told);
  EXPECT_GE(repaired.at("swaps"), 1);
  EXPECT_NE(repaired.at("repaired").at("parts").at("gpu"), card);
  EXPECT_THAT(rigproof(args).out, HasSubstr("no offer in IE is known"));
}

TEST_F(Vanished, WhatWasRepairedNeedsNoRepair) {
  const std::string mended = folder / "mended.toml";
  const Ran first =
      rigproof({"repair", living_room, build, "--catalog", catalog, "--save", mended});
  EXPECT_EQ(first.exit_code, 0);
  EXPECT_THAT(first.err, HasSubstr("mended.toml"));
  const Ran again = rigproof({"repair", living_room, mended, "--catalog", catalog});
  EXPECT_EQ(again.exit_code, 0);
  EXPECT_THAT(again.out, HasSubstr("No swap is needed"));
  EXPECT_THAT(again.out, HasSubstr("nothing is wrong"));
}

TEST(Repair, FewerSwapsThanItTakesAreOutOfReach) {
  const Json mended = answer({"repair", living_room, friday_shelf});
  const int swaps = mended.at("swaps");
  ASSERT_GE(swaps, 2);
  const std::string fewer = std::to_string(swaps - 1);
  const Ran ran = ask({"repair", living_room, friday_shelf, "--most-swaps", fewer});
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(ran.out, HasSubstr("It takes more than " + fewer + " swap"));
  EXPECT_EQ(answer({"repair", living_room, friday_shelf, "--most-swaps", fewer}).at("status"),
            "out of reach");
}

TEST(Repair, TheBestBuildIsRightAsItIs) {
  const Folder folder;
  const std::string build = folder / "best.toml";
  ASSERT_EQ(ask({"plan", living_room, "--best", "1", "--short", "--save", build}).exit_code, 0);
  const Json right = answer({"repair", living_room, build});
  EXPECT_EQ(right.at("swaps"), 0);
  EXPECT_THAT(right.at("wrong"), IsEmpty());
  EXPECT_EQ(right.at("score_now"), best_plan().at("score"));
  EXPECT_FALSE(right.contains("one_more"));  // nothing stands before the best
}

TEST(Repair, AKeptPartIsThereOnce) {
  constexpr const char* brief = "demo/briefs/competition-high-refresh.toml";
  const Folder folder;
  const std::string build = folder / "twice.toml";
  ASSERT_EQ(ask({"plan", brief, "--best", "1", "--short", "--save", build}).exit_code, 0);
  const std::string text = bytes_of(build);
  ASSERT_THAT(text, HasSubstr("pellant-shale-2-tb"));  // kept by the brief
  write_bytes(build, changed(text, "storage = \"pellant-shale-2-tb\"",
                             "storage = [{ id = \"pellant-shale-2-tb\", count = 2 }]"));
  const Json repaired = answer({"repair", brief, build});
  int told = 0;  // beside lanes and places that a second drive takes
  for (const Json& wrong : repaired.at("wrong")) {
    if (wrong.at("what") != "part") continue;
    ++told;
    EXPECT_EQ(wrong.at("id"), "pellant-shale-2-tb");
    EXPECT_GT(wrong.at("line").get<int>(), 0);
  }
  EXPECT_EQ(told, 1);
  EXPECT_EQ(repaired.at("swaps"), 1);
}

TEST(Repair, AMissingPartIsToldOnceAndHasNoScore) {
  const Folder folder;
  const std::string build = folder / "no-cooler.toml";
  const std::string text = bytes_of("demo/builds/evening-chair.toml");
  write_bytes(build, changed(text, "cooler = \"fjellum-pillar\"\n", ""));
  const Json repaired = answer({"repair", living_room, build});
  EXPECT_FALSE(repaired.contains("score_now"));
  int told = 0;
  for (const Json& wrong : repaired.at("wrong")) told += wrong.at("id") == "match.complete" ? 1 : 0;
  EXPECT_EQ(told, 1);
  for (const Json& wrong : repaired.at("wrong")) EXPECT_NE(wrong.at("id"), "cooler");
}

// Each of these builds falls into one trap, by the comment at its head; one part mends it.
TEST(Repair, ATrapIsMendedByOnePart) {
  int traps = 0;
  for (const auto& file : std::filesystem::directory_iterator("demo/builds")) {
    const std::string build = file.path().string();
    if (!file.path().filename().string().starts_with("trap-")) continue;
    if (build == "demo/builds/trap-covered-socket.toml") continue;  // only told: nothing to mend
    const Json mended = answer({"repair", "demo/briefs/careless-bargains.toml", build});
    EXPECT_EQ(mended.at("status"), "proven") << build;
    EXPECT_FALSE(mended.at("wrong").empty()) << build;
    EXPECT_EQ(mended.at("swaps"), 1) << build;
    ++traps;
  }
  EXPECT_EQ(traps, 9);
}

TEST(Repair, UnderABriefThatNothingSatisfies) {
  const Ran ran = ask({"repair", impossible, evening_chair});
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(ran.out, HasSubstr("CONFLICT"));
  EXPECT_THAT(ran.out, HasSubstr("however many swaps"));
}

TEST(Repair, StoppedItClaimsNoProof) {
  const Json mended = answer({"repair", living_room, friday_shelf, "--time-limit", "0.0000001"});
  EXPECT_EQ(mended.at("status"), "not proven");
  EXPECT_FALSE(mended.contains("swaps"));
}

TEST(Repair, WrongInput) {
  EXPECT_EQ(ask({"repair", living_room, "no-such-build.toml"}).exit_code, 2);
  EXPECT_EQ(ask({"repair", living_room, living_room}).exit_code, 2);
  EXPECT_EQ(ask({"repair", living_room, evening_chair, "--most-swaps", "-1"}).exit_code, 2);
  EXPECT_EQ(ask({"repair", living_room}).exit_code, 2);
}

}  // namespace
}  // namespace rigproof::cli_test
