// Briefs that are in order but odd, or just out of order: money at its ends, kept parts that do not
// go together, a title that says nothing at the brief's resolution.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

struct OddBrief : testing::Test {
  Folder folder;
  std::string file = folder / "brief.toml";
  Ran plan(const std::string& budget, const std::string& more) const {
    write_bytes(file,
                "[brief]\nname = \"odd\"\nas_of = 2026-10-01\n[[markets]]\nmarket = \"IE\"\n"
                "currency = \"EUR\"\nbudget = \"" +
                    budget + "\"\n" + more);
    return rigproof({"plan", file, "--catalog", demo_catalog, "--best", "1", "--json"});
  }
};

TEST_F(OddBrief, NoMoneyAndTooMuchOfIt) {
  for (const std::string budget : {"0.00", "99999999999999999999.00", "1e3", "nan"}) {
    const Ran ran = plan(budget, "");
    EXPECT_EQ(ran.exit_code, 2) << budget;
    EXPECT_THAT(ran.err, StartsWith(file + ":7:10: budget: ")) << budget;
    EXPECT_THAT(ran.err, HasSubstr("got \"" + budget + "\"")) << budget;
  }
  const Ran least = plan("0.01", "");
  EXPECT_EQ(least.exit_code, 3);
  const Json conflict = json_of(least.out).at("conflicts").at(0);
  ASSERT_EQ(conflict.size(), 1U);
  EXPECT_EQ(conflict.at(0).at("path"), "markets.IE.budget");
}

// By hand from cpu.csv and board.csv: sockets V3 and V4.
TEST_F(OddBrief, KeptPartsThatDoNotGoTogether) {
  const Ran ran = plan("5000.00",
                       "[keep]\ncpu = \"orrvane-larch-14\"\n"
                       "board = \"nimbeck-step-v4-micro\"\n");
  EXPECT_EQ(ran.exit_code, 3);
  const Json conflicts = json_of(ran.out).at("conflicts");
  ASSERT_EQ(conflicts.size(), 1U);
  ASSERT_EQ(conflicts.at(0).size(), 2U);
  EXPECT_EQ(conflicts.at(0).at(0).at("path"), "keep.cpu");
  EXPECT_EQ(conflicts.at(0).at(0).at("line"), 9);
  EXPECT_EQ(conflicts.at(0).at(1).at("path"), "keep.board");
  EXPECT_EQ(conflicts.at(0).at(1).at("line"), 10);
}

// Nothing is known of the title at 0.06 megapixels: it counts nothing, and the cell is named.
TEST_F(OddBrief, TitleWithoutDataForTheResolution) {
  const Ran ran = plan("1500.00",
                       "[worths]\nsaved_frac = 0.5\n[[titles]]\ntitle = \"slow-tide\"\n"
                       "resolution = \"320x200\"\ntarget_fps = 60\n");
  const Json plan = json_of(ran.out);
  ASSERT_EQ(plan.at("status"), "proven");
  const Json title = plan.at("builds").at(0).at("titles").at(0);
  EXPECT_FALSE(title.contains("rendered_fps"));
  EXPECT_FALSE(title.at("why_unknown").get<std::string>().empty());
}

// Noise has its engine and yet no bound that a search could use: what quiet is worth changes
// nothing, and the note says which of the two is so. How long a build lasts nothing tells.
TEST_F(OddBrief, WorthsThatCountNothingSayWhy) {
  const Json without = json_of(plan("1500.00", "[worths]\nsaved_frac = 0.5\n").out);
  const Json plan_of_both = json_of(
      plan("1500.00", "[worths]\nsaved_frac = 0.5\nquiet = \"900.00\"\nlasting = \"900.00\"\n")
          .out);
  ASSERT_EQ(plan_of_both.at("status"), "proven");
  EXPECT_EQ(plan_of_both.at("builds").at(0).at("score"), without.at("builds").at(0).at("score"));
  const auto note = [&](const std::string& begins) {
    for (const Json& each : plan_of_both.at("notes"))
      if (const auto words = each.get<std::string>(); words.starts_with(begins)) return words;
    return std::string();
  };
  EXPECT_THAT(note("worths.quiet (900.00 EUR)"),
              AllOf(HasSubstr("counts nothing"), HasSubstr("the air engine tells"),
                    HasSubstr("no bound"), Not(HasSubstr("engine is not there"))));
  EXPECT_THAT(note("worths.lasting (900.00 EUR)"), HasSubstr("its engine is not there"));
  EXPECT_THAT(without.at("notes").dump(), Not(HasSubstr("worths.")));
}

}  // namespace
}  // namespace rigproof::cli_test
