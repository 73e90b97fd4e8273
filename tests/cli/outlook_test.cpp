// rigproof outlook: what is said agrees with the numbers beside it, and with what a plan proves.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "asking.hpp"

namespace rigproof::cli_test {
namespace {

using testing::EndsWith;
using testing::HasSubstr;
using testing::StartsWith;

TEST(Outlook, SaysWhatItsNumbersSay) {
  const Json found = answer({"outlook", high_refresh});
  const Json& possible = found.at("possible");
  ASSERT_EQ(possible.at("how"), "estimated");
  const double builds = possible.at("builds");
  EXPECT_LE(possible.at("low").get<double>(), builds);
  EXPECT_GE(possible.at("high").get<double>(), builds);
  EXPECT_LE(possible.at("high").get<double>(), found.at("all").at("builds").get<double>());
  double last = found.at("all").at("builds");
  for (const Json& line : found.at("without")) {
    const double without = line.at("count").value("builds", 0.0);
    EXPECT_LE(without, last) << line.at("path");  // the one that forbids most stands first
    EXPECT_GE(without, builds) << line.at("path");
    last = without;
  }
  const std::string text = ask({"outlook", high_refresh}).out;
  for (const Json& sentence : found.at("sentences")) {
    // Lines are broken at blanks: the first words stand on one.
    const std::string words = sentence.get<std::string>();
    EXPECT_THAT(text, HasSubstr(words.substr(0, 30)));
  }
  EXPECT_THAT(found.at("sentences").at(0).get<std::string>(), StartsWith("About "));
  EXPECT_THAT(found.at("sentences").at(1).get<std::string>(), HasSubstr("forbid"));
}

// Digits of the product agree with its number, and lines with those of the file.
TEST(Outlook, NamesLinesAndDigits) {
  const Json found = answer({"outlook", high_refresh});
  EXPECT_DOUBLE_EQ(std::stod(found.at("all").at("digits").get<std::string>()),
                   found.at("all").at("builds").get<double>());
  const std::string brief = bytes_of(high_refresh);
  for (const Json& line : found.at("without")) {
    if (line.at("path") != "markets.IE.budget") continue;
    const auto before = brief.find("budget = ");
    EXPECT_EQ(
        line.at("line"),
        1 + std::count(brief.begin(), brief.begin() + static_cast<std::ptrdiff_t>(before), '\n'));
    EXPECT_EQ(line.at("noun"), "the budget in IE");
  }
}

// The league's titles have floors: told by name, while the path keeps the id. The catalog can form
// more builds than have a name; that number can be pasted as it stands.
TEST(Outlook, NamesTitlesAndPlainPowers) {
  const Json found = answer({"outlook", high_refresh});
  const Table titles = table_of(bytes_of(std::filesystem::path(demo_catalog) / "titles.csv"));
  int named = 0;
  for (const Json& line : found.at("without")) {
    const auto path = line.at("path").get<std::string>();
    for (const Row& row : titles) {
      if (!path.starts_with("titles." + row.at(0) + ".")) continue;
      const std::string& name = row.at(column_of(titles, "name"));
      EXPECT_THAT(line.at("noun").get<std::string>(), EndsWith(" in " + name));
      EXPECT_THAT(line.at("says").get<std::string>(), HasSubstr(" in " + name + " at "));
      ++named;
    }
  }
  EXPECT_EQ(named, 5);  // two floors and three limits on slow frames, counted in the file

  const auto first = found.at("sentences").at(0).get<std::string>();
  const std::size_t of = first.find(" of ") + 4;
  const std::string all = first.substr(of, first.find(' ', of) - of);
  std::size_t read = 0;
  const double number = std::stod(all, &read);
  EXPECT_EQ(read, all.size()) << all;
  EXPECT_GE(number, 1e15);
  EXPECT_NEAR(number / found.at("all").at("builds").get<double>(), 1.0, 0.05) << "two digits";
}

TEST(Outlook, SaysThatNothingIsLeft) {
  const Ran ran = ask({"outlook", impossible});
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(ran.out, HasSubstr("No build is left"));
  EXPECT_THAT(ran.out, HasSubstr("several stand against each other"));
}

TEST(Outlook, TheSameBriefTheSameBytes) {
  for (const bool json : {true, false}) {
    std::vector<std::string> args = {"outlook", living_room, "--catalog", demo_catalog};
    if (json) args.emplace_back("--json");
    EXPECT_EQ(rigproof(args).out, rigproof(args).out);
  }
}

// A comment more is another brief to the random numbers, not to what is so.
TEST(Outlook, OtherProbesAgree) {
  const Folder folder;
  write_bytes(folder / "brief.toml", "# once more\n" + bytes_of(high_refresh));
  const double one = answer({"outlook", high_refresh}).at("possible").at("builds");
  const double other = answer({"outlook", folder / "brief.toml"}).at("possible").at("builds");
  EXPECT_NE(one, other);
  EXPECT_LT(one, 2.0 * other);
  EXPECT_GT(one, 0.5 * other);
}

}  // namespace
}  // namespace rigproof::cli_test
