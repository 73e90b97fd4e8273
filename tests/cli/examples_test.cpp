// Every declared example runs as it stands and ends as declared. What it writes under out/ goes to
// a folder of the test's own.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <csignal>
#include <set>
#include <sstream>

#include "cli/command_line.hpp"
#include "folder.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

std::vector<std::string> words_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> words;
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}

TEST(Examples, EveryCommandHasOne) {
  for (const cli::Command& command : cli::all_commands()) {
    EXPECT_THAT(command.examples, Not(IsEmpty())) << command.name;
    for (const cli::Example& example : command.examples) {
      EXPECT_TRUE(example.shows.ends_with(".")) << command.name << ": a sentence";
      EXPECT_EQ(example.arguments.find_first_of("\"'\\$|&;<>"), std::string::npos)
          << command.name << ": no shell is needed to read it";
    }
  }
}

// What goes on until Ctrl-C gets it as soon as there is nothing left for it to begin with.
Ran stopped_when_it_waits(const std::vector<std::string>& args) {
  Child child({.args = args});
  EXPECT_TRUE(child.waits_with_sigint_caught(60.0));
  ::kill(child.pid(), SIGINT);
  return child.finish();
}

TEST(Examples, EveryOneRunsAndEndsAsDeclared) {
  for (const cli::Command& command : cli::all_commands()) {
    for (const cli::Example& example : command.examples) {
      const Folder folder;
      std::set<std::string> outputs;
      std::vector<std::string> args = {command.name};
      for (std::string word : words_of(example.arguments)) {
        const std::size_t out = word.find("out/");
        if (word.starts_with("out/") || word.starts_with("sqlite:out/")) {
          outputs.insert(folder / word.substr(out + 4));
          word = word.substr(0, out) + folder / word.substr(out + 4);
        }
        args.push_back(word);
      }
      const Ran ran = example.until_stopped ? stopped_when_it_waits(args) : rigproof(args);
      EXPECT_EQ(ran.exit_code, static_cast<int>(example.exit))
          << command.name << ' ' << example.arguments << '\n'
          << ran.err;
      EXPECT_THAT(example.exit == cli::Exit::bad_input ? ran.err : ran.out, Not(IsEmpty()))
          << command.name << ' ' << example.arguments;
      for (const std::string& output : outputs)
        EXPECT_EQ(std::filesystem::exists(output), example.exit != cli::Exit::bad_input)
            << example.arguments;
    }
  }
}

// Help wraps them, so they are compared without blanks and line ends.
TEST(Examples, HelpAndPageShowThem) {
  const auto bare = [](const std::string& text) {
    std::string out;
    for (const std::string& word : words_of(text)) out += word;
    return out;
  };
  const std::string page = bytes_of("docs/commands.md");
  for (const cli::Command& command : cli::all_commands()) {
    const std::string help = bare(rigproof({command.name, "--help"}).out);
    for (const cli::Example& example : command.examples) {
      const std::string line = example.arguments.empty()
                                   ? "rigproof " + command.name
                                   : "rigproof " + command.name + " " + example.arguments;
      EXPECT_THAT(help, HasSubstr(bare(line + example.shows))) << command.name;
      EXPECT_THAT(page, HasSubstr("```sh\n" + line + "\n```")) << command.name;
    }
  }
}

// A third of a plan's long form at most, and the claims that hold are not in it.
TEST(ShortForm, IsShortAndLeavesOutWhatHolds) {
  const Ran whole = rigproof({"claims", friday_shelf, "--catalog", demo_catalog});
  const Ran brief = rigproof({"claims", friday_shelf, "--catalog", demo_catalog, "--short"});
  EXPECT_EQ(brief.exit_code, whole.exit_code);
  EXPECT_THAT(brief.out, HasSubstr("\n  fails     fit.card-length"));
  EXPECT_THAT(brief.out, Not(HasSubstr("\n  holds ")));
  EXPECT_LT(brief.out.size() * 3, whole.out.size());
  EXPECT_EQ(rigproof({"claims", friday_shelf, "--catalog", demo_catalog, "--short", "--json"}).out,
            rigproof({"claims", friday_shelf, "--catalog", demo_catalog, "--json"}).out);
  const Ran none = rigproof({"plan", impossible, "--catalog", demo_catalog, "--short"});
  EXPECT_EQ(none.exit_code, 3);
  EXPECT_THAT(none.out, HasSubstr("No build satisfies the brief."));
}

TEST(Rules, OneRuleAtLength) {
  const Ran ran = rigproof({"rules", "fit.card-length"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, HasSubstr("gpu.csv: length_mm"));
  const Ran slip = rigproof({"rules", "fit.card-lenght"});
  EXPECT_EQ(slip.exit_code, 2);
  EXPECT_THAT(slip.out, IsEmpty());
  EXPECT_EQ(
      slip.err,
      "rigproof rules: fit.card-lenght: no rule has this id. Did you mean fit.card-length?\n");
}

}  // namespace
}  // namespace rigproof::cli_test
