// What a wish for parts costs, as a user asks: against plans, against lines of the brief, with
// wrong wishes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "asking.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

TEST(Insist, APartOfTheBestBuildCostsNothing) {
  const std::string board = best_plan().at("parts").at("board");
  const Json wished = answer({"insist", living_room, board});
  EXPECT_EQ(minor(wished.at("differences").at("score_change")), 0);
  EXPECT_EQ(wished.at("differences").at("swaps"), 0);
  EXPECT_EQ(wished.at("with").at("parts"), best_plan().at("parts"));
  EXPECT_THAT(ask({"insist", living_room, board}).out, HasSubstr("the wish costs nothing"));
}

TEST(Insist, WithoutAPartOfTheBestBuildItIsTheRunnerUp) {
  const std::string card = best_plan().at("parts").at("gpu");
  const Json wished = answer({"insist", living_room, "--without", card});
  EXPECT_NE(wished.at("with").at("parts").at("gpu"), card);
  EXPECT_EQ(wished.at("free").at("score"), best_plan().at("score"));
  EXPECT_EQ(minor(wished.at("differences").at("score_change")),
            minor(wished.at("with").at("score")) - minor(wished.at("free").at("score")));
  EXPECT_LE(minor(wished.at("differences").at("score_change")), 0);
  EXPECT_EQ(wished.at("without").at(0).at("id"), card);
}

// The brief forces a cooler; its line is counted here.
TEST(Insist, AgainstAForcedPartNamesTheLine) {
  const Ran ran = ask({"insist", living_room, "fjellum-pillar"});
  EXPECT_EQ(ran.exit_code, 3);
  const int line = line_of(bytes_of(living_room), "cooler = { id =");
  EXPECT_THAT(ran.out, HasSubstr("line " + std::to_string(line)));
  EXPECT_THAT(ran.out, HasSubstr("because.cooler"));
  EXPECT_THAT(ran.out, HasSubstr("insist.fjellum-pillar"));
}

// One card dearer than the whole budget allows: with as much money as it is told, it is possible.
TEST(Insist, TellsHowMuchMoreMoneyAWishTakes) {
  const Folder folder;
  const std::string text =
      changed(bytes_of(high_refresh), "budget = \"1900.00\"", "budget = \"1200.00\"");
  write_bytes(folder / "tight.toml", text);
  const Json wide = answer({"insist", high_refresh, "orrvane-rowan-46-depot"});
  ASSERT_EQ(wide.at("status"), "proven");
  const Json tight = answer({"insist", folder / "tight.toml", "orrvane-rowan-46-depot"});
  ASSERT_EQ(tight.at("status"), "impossible");
  for (const Json& conflict : tight.at("conflicts"))
    for (const Json& requirement : conflict)
      if (requirement.at("path") == "markets.IE.budget") {
        const std::int64_t to = minor(requirement.at("relaxation").at("money_to"));
        write_bytes(folder / "enough.toml",
                    changed(text, "budget = \"1200.00\"", "budget = \"" + plain(to) + "\""));
        write_bytes(folder / "short.toml",
                    changed(text, "budget = \"1200.00\"", "budget = \"" + plain(to - 1) + "\""));
        EXPECT_EQ(answer({"insist", folder / "enough.toml", "orrvane-rowan-46-depot"}).at("status"),
                  "proven");
        EXPECT_EQ(answer({"insist", folder / "short.toml", "orrvane-rowan-46-depot"}).at("status"),
                  "impossible");
        return;
      }
  ADD_FAILURE() << "the budget is in no conflict";
}

// The search of the boat locker is too long to end at once.
TEST(Insist, StoppedItClaimsNoProof) {
  const Ran wish = ask(
      {"insist", "demo/briefs/boat-locker.toml", "orrvane-larch-16", "--time-limit", "0.0000001"});
  EXPECT_THAT(wish.out, HasSubstr("Stopped before both builds were proven"));
}

// Kept parts that nobody sells cannot be let go: the conflict is found beside them. Of the two
// processors one is listed for a socket that no board has.
TEST(Insist, KeptPartsThatNobodySellsStay) {
  const Folder folder;
  const auto table = [&](const char* name, const char* bytes) {
    write_bytes(folder / (std::string("parts/") + name + ".csv"), bytes);
  };
  std::filesystem::create_directory(folder / "parts");
  table("cpu", "id,name,socket\nfits,Fits,S7\nstray,Stray,S9\n");
  table("board", "id,name,socket\nboard,Board,S7\n");
  table("memory", "id,name\nkit,Kit\n");
  for (const char* kept : {"storage", "cooler", "case", "psu"})
    table(kept, (std::string("id,name\nold-") + kept + ",Old\n").c_str());
  table("sellers", "id,name,market\nshop,Shop,IE\n");
  table("offers",
        "part,seller,market,seen,condition,price,currency,tax_included\n"
        "fits,shop,IE,2026-10-01,new,100.00,EUR,yes\nstray,shop,IE,2026-10-01,new,90.00,EUR,yes\n"
        "board,shop,IE,2026-10-01,new,80.00,EUR,yes\nkit,shop,IE,2026-10-01,new,70.00,EUR,yes\n");
  write_bytes(folder / "b.toml",
              "brief.name = \"old parts\"\nbrief.as_of = 2026-10-01\n"
              "markets = [{ market = \"IE\", currency = \"EUR\", budget = \"450.00\" }]\n"
              "accept.unknown = \"accept\"\n[keep]\nstorage = \"old-storage\"\n"
              "cooler = \"old-cooler\"\ncase = \"old-case\"\npsu = \"old-psu\"\n");
  const auto asked = [&](const char* part) {
    return json_of(
        rigproof({"insist", folder / "b.toml", part, "--catalog", folder / "parts", "--json"}).out);
  };
  EXPECT_EQ(asked("fits").at("status"), "proven");
  const Json stray = asked("stray");
  ASSERT_EQ(stray.at("status"), "impossible");
  ASSERT_EQ(stray.at("conflicts").size(), 1U);
  ASSERT_EQ(stray.at("conflicts").at(0).size(), 1U);
  EXPECT_EQ(stray.at("conflicts").at(0).at(0).at("path"), "insist.stray");
  EXPECT_EQ(stray.at("through").at(0), Json::array({"match.socket"}));
}

TEST(Insist, WrongWishes) {
  const auto refused = [](std::vector<std::string> wish, const char* says) {
    wish.insert(wish.begin(), {"insist", living_room});
    const Ran ran = ask(wish);
    EXPECT_EQ(ran.exit_code, 2) << says;
    EXPECT_THAT(ran.out, IsEmpty());
    EXPECT_THAT(ran.err, HasSubstr(says));
  };
  refused({}, "expected a part to insist on, or --without PART");
  refused({"orvane-larch-16"}, "did you mean orrvane-larch-16?");
  refused({"larch-16"}, "did you mean orrvane-larch-16, orrvane-larch-16-vista?");
  refused({"orrvane-larch-16", "--without", "orrvane-larch-16"},
          "orrvane-larch-16: is both insisted on and done without");
  refused({"orrvane-larch-16", "thessic-rondo-204"}, "at most one part of kind cpu");
  refused({"--without", "nothing-of-the-kind-at-all"}, "no part of the catalog has this id");
}

}  // namespace
}  // namespace rigproof::cli_test
