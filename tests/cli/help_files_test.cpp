// The man page and the completions: what the declarations give, and what groff and the shells make
// of them. A program that is not installed is said as skipped.
#include "cli/help_files.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <memory>
#include <sstream>

#include "app/workshop.hpp"
#include "cli/command_line.hpp"
#include "folder.hpp"

namespace rigproof::cli_test {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::UnorderedElementsAre;

// What a line of shell prints, on both streams.
std::string said_by(const std::string& line) {
  const auto close = [](std::FILE* pipe) { ::pclose(pipe); };
  const std::unique_ptr<std::FILE, decltype(close)> pipe(::popen((line + " 2>&1").c_str(), "r"),
                                                         close);
  std::string out;
  if (!pipe) return "popen failed";
  for (int c = std::fgetc(pipe.get()); c != EOF; c = std::fgetc(pipe.get()))
    out += static_cast<char>(c);
  return out;
}

bool installed(const std::string& program) { return !said_by("command -v " + program).empty(); }

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);)
    if (!line.empty()) lines.push_back(line);
  return lines;
}

TEST(HelpFiles, AreWhatTheDeclarationsGive) {
  for (const auto& [path, bytes] : cli::help_files())
    EXPECT_TRUE(bytes_of("docs/" + path) == bytes)
        << "docs/" << path << " is stale; remake it with: build/.../bin/help_files docs";
}

TEST(ManPage, GroffHasNothingToWarnOf) {
  if (!installed("groff")) GTEST_SKIP() << "groff is not installed";
  EXPECT_EQ(said_by("groff -man -ww -z docs/man/rigproof.1"), "");
}

// Read as a reader sees it: every command, option, exit code and example is on the page.
TEST(ManPage, ShowsEveryDeclaration) {
  if (!installed("groff")) GTEST_SKIP() << "groff is not installed";
  const std::string shown =
      said_by("groff -man -Tascii -P-c -P-b -P-u -rLL=400n docs/man/rigproof.1");
  const cli::CommandLine line{cli::Terminal{}};
  for (const CLI::App* command : line.top().get_subcommands({})) {
    EXPECT_THAT(shown, HasSubstr(cli::usage_line(line.top(), *command) + "\n"));
    for (const CLI::Option* option : command->get_options())
      EXPECT_THAT(shown, HasSubstr(cli::option_label(*option))) << command->get_name();
    for (const cli::Example& example : cli::examples_of(command->get_name()))
      EXPECT_THAT(shown, HasSubstr(cli::example_line(line.top(), *command, example) + "\n"));
  }
  EXPECT_THAT(shown, HasSubstr("no build satisfies the brief"));
}

// What bash offers after these words; the last one is being typed.
std::vector<std::string> bash_offers(const std::vector<std::string>& words,
                                     const std::string& in = ".") {
  const Folder folder;
  std::string script = "cd " + in + "\nsource " +
                       std::filesystem::absolute("docs/completion/rigproof.bash").string();
  script += "\nCOMP_WORDS=(";
  for (const std::string& word : words) script += "'" + word + "' ";
  script += ")\nCOMP_CWORD=" + std::to_string(words.size() - 1);
  script += "\n$(complete -p rigproof | sed 's/.*-F \\([^ ]*\\) .*/\\1/')";
  script += "\nprintf '%s\\n' \"${COMPREPLY[@]}\"\n";
  // The function must run in this shell, not in one of its own, to leave COMPREPLY behind.
  write_bytes(folder / "ask.bash", script);
  return lines_of(said_by("bash --norc " + folder / "ask.bash"));
}

TEST(BashCompletion, Commands) {
  if (!installed("bash")) GTEST_SKIP() << "bash is not installed";
  EXPECT_THAT(bash_offers({"rigproof", "pl"}), ElementsAre("plan"));
  for (const cli::Command& command : cli::all_commands())
    EXPECT_THAT(bash_offers({"rigproof", ""}), Contains(command.name));
  EXPECT_THAT(bash_offers({"rigproof", "--v"}), ElementsAre("--version"));
}

// The options of `plan`, by hand as in the test of its help.
TEST(BashCompletion, Options) {
  if (!installed("bash")) GTEST_SKIP() << "bash is not installed";
  EXPECT_THAT(bash_offers({"rigproof", "plan", "--"}),
              UnorderedElementsAre("--help", "--catalog", "--best", "--sheet", "--save", "--short",
                                   "--skip-bad", "--json", "--time-limit", "--export-mps"));
  EXPECT_THAT(bash_offers({"rigproof", "sheet", "--o"}), ElementsAre("--output"));
  EXPECT_THAT(bash_offers({"rigproof", "plan", "x.toml", "--ca"}), ElementsAre("--catalog"));
}

TEST(BashCompletion, FilesFoldersAndRules) {
  if (!installed("bash")) GTEST_SKIP() << "bash is not installed";
  const Folder folder;
  std::filesystem::create_directory(folder / "parts");
  write_bytes(folder / "wish.toml", "");
  write_bytes(folder / "notes.txt", "");
  const std::string in = folder.path().string();
  EXPECT_THAT(bash_offers({"rigproof", "plan", ""}, in),
              UnorderedElementsAre("parts", "wish.toml"));
  EXPECT_THAT(bash_offers({"rigproof", "plan", "wish.toml", "--catalog", ""}, in),
              ElementsAre("parts"));
  EXPECT_THAT(bash_offers({"rigproof", "plan", "wish.toml", "--catalog", "=", "p"}, in),
              ElementsAre("parts"));
  EXPECT_THAT(bash_offers({"rigproof", "plan", "--catalog", "parts", "w"}, in),
              ElementsAre("wish.toml"));
  EXPECT_THAT(bash_offers({"rigproof", "plan", "wish.toml", "--save", ""}, in),
              UnorderedElementsAre("parts", "wish.toml", "notes.txt"));
  EXPECT_THAT(bash_offers({"rigproof", "plan", "wish.toml", "--best", ""}, in), IsEmpty());
  EXPECT_THAT(bash_offers({"rigproof", "rules", "match.sock"}, in), ElementsAre("match.socket"));
  EXPECT_EQ(bash_offers({"rigproof", "rules", ""}, in).size(), app::rulebook().size());
}

TEST(ZshCompletion, ZshReadsIt) {
  if (!installed("zsh")) GTEST_SKIP() << "zsh is not installed";
  EXPECT_EQ(said_by("zsh -n docs/completion/_rigproof"), "");
}

TEST(FishCompletion, FishOffersCommandsAndOptions) {
  if (!installed("fish")) GTEST_SKIP() << "fish is not installed";
  const auto offers = [](const std::string& typed) {
    return said_by(
        "HOME=/nonexistent fish --no-config -c 'source docs/completion/rigproof.fish; "
        "complete -C \"" +
        typed + "\"'");
  };
  EXPECT_THAT(offers("rigproof pl"), HasSubstr("plan\t"));
  EXPECT_THAT(offers("rigproof plan --"), HasSubstr("--catalog\t"));
  EXPECT_THAT(offers("rigproof rules --"), Not(HasSubstr("--catalog\t")));
}

}  // namespace
}  // namespace rigproof::cli_test
