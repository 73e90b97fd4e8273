// Help, version, words nobody knows, and the page that is made from the declarations.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "cli/command_line.hpp"
#include "folder.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

TEST(Usage, NoCommandNamesTheCommands) {
  const Ran ran = rigproof({});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.out, IsEmpty());
  EXPECT_THAT(ran.err, StartsWith("rigproof: which command? One of check, import, plan, outlook, "
                                  "insist, frontier, repair, claims, fit, power, air, sheet, "
                                  "rules, export, serve.\nSee "
                                  "rigproof --help.\n"));
  EXPECT_THAT(ran.err, HasSubstr("docs/first-hour.md"));  // and where to begin
  EXPECT_THAT(ran.err, HasSubstr("--catalog demo/catalog"));
}

// What was typed, and the message it must give. All exit 2, all with nothing on standard output.
TEST(Usage, WordsNobodyKnows) {
  struct Case {
    std::vector<std::string> args;
    std::string says;
  };
  const Case cases[] = {
      {{"chekc"},
       "rigproof: chekc: not understood here. Did you mean check?\nSee rigproof --help.\n"},
      {{"plans"},
       "rigproof: plans: not understood here. Did you mean plan?\nSee rigproof --help.\n"},
      {{"zzzzzzzz"}, "rigproof: zzzzzzzz: not understood here.\nSee rigproof --help.\n"},
      {{"--versoin"},
       "rigproof: --versoin: not understood here. Did you mean --version?\nSee rigproof --help.\n"},
      {{"--jsn"},
       "rigproof: --jsn: not understood here. Did you mean --json, after a command?\nSee rigproof "
       "--help.\n"},
      {{"plan", living_room, "--catlog", demo_catalog},
       "rigproof plan: --catlog: not understood here. Did you mean --catalog?\nSee rigproof plan "
       "--help.\n"},
      {{"plan", living_room, "--catalog", demo_catalog, "--bets=2"},
       "rigproof plan: --bets=2: not understood here. Did you mean --best?\nSee rigproof plan "
       "--help.\n"},
      {{"plan", living_room, "--catalog", demo_catalog, high_refresh},
       "rigproof plan: " + high_refresh + ": not understood here.\nSee rigproof plan --help.\n"},
      {{"rules", "--skip-bad"},
       "rigproof rules: --skip-bad: not understood here.\nSee rigproof rules --help.\n"},
      {{"--json", "rules"},
       "rigproof rules: --json: not understood here. --json stands after the command.\nSee "
       "rigproof rules --help.\n"},
      {{"plan", living_room}, "rigproof plan: --catalog is required\nSee rigproof plan --help.\n"},
      {{"plan", "--catalog", demo_catalog},
       "rigproof plan: BRIEF is required\nSee rigproof plan --help.\n"},
      {{"plan", living_room, "--catalog", demo_catalog, "--best", "0"},
       "rigproof plan: --best: Value 0 not in range 1 to 50\nSee rigproof plan --help.\n"},
      {{"plan", living_room, "--catalog", demo_catalog, "--best", "three"},
       "rigproof plan: --best: Value three not in range 1 to 50\nSee rigproof plan --help.\n"},
  };
  for (const Case& c : cases) {
    const Ran ran = rigproof(c.args);
    EXPECT_EQ(ran.exit_code, 2) << c.says;
    EXPECT_THAT(ran.out, IsEmpty()) << c.says;
    EXPECT_EQ(ran.err, c.says);
  }
}

TEST(Usage, Version) {
  const Ran ran = rigproof({"--version"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_EQ(ran.out, "rigproof " RIGPROOF_VERSION "\n");
  EXPECT_THAT(ran.err, IsEmpty());
}

std::size_t widest_line(const std::string& text) {
  std::size_t widest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    widest = std::max(widest, end - at);
    at = end + 1;
  }
  return widest;
}

// The options of each command, written down by hand from DESIGN section 8 and the commands'
// sources.
TEST(Usage, HelpNamesEveryOption) {
  struct Case {
    std::string command, usage;
    std::vector<std::string> names;
  };
  const Case cases[] = {
      {"check",
       "Usage: rigproof check DIR [options]",
       {"DIR ", "--brief BRIEF", "--top N", "--skip-bad", "--json", "-h, --help"}},
      {"import",
       "Usage: rigproof import TABLE --mapping MAP --catalog DIR [options]",
       {"TABLE ", "--mapping MAP", "--catalog DIR", "--write", "--skip-bad", "--json",
        "-h, --help"}},
      {"plan",
       "Usage: rigproof plan BRIEF --catalog DIR [options]",
       {"BRIEF ", "--catalog DIR", "--best K", "--sheet DIR", "--save FILE", "--short",
        "--skip-bad", "--json", "-h, --help"}},
      {"outlook",
       "Usage: rigproof outlook BRIEF --catalog DIR [options]",
       {"BRIEF ", "--catalog DIR", "--skip-bad", "--json", "-h, --help"}},
      {"insist",
       "Usage: rigproof insist BRIEF [PART...] --catalog DIR [options]",
       {"BRIEF ", "PART ", "--catalog DIR", "--without PART", "--save FILE", "--time-limit SECONDS",
        "--skip-bad", "--json", "-h, --help"}},
      {"frontier",
       "Usage: rigproof frontier BRIEF --catalog DIR --from MONEY --to MONEY [options]",
       {"BRIEF ", "--catalog DIR", "--from MONEY", "--to MONEY", "--short", "--time-limit SECONDS",
        "--skip-bad", "--json", "-h, --help"}},
      {"repair",
       "Usage: rigproof repair BRIEF BUILD --catalog DIR [options]",
       {"BRIEF ", "BUILD ", "--catalog DIR", "--most-swaps N", "--save FILE",
        "--time-limit SECONDS", "--skip-bad", "--json", "-h, --help"}},
      {"claims",
       "Usage: rigproof claims BUILD --catalog DIR [options]",
       {"BUILD ", "--catalog DIR", "--brief BRIEF", "--short", "--json", "-h, --help"}},
      {"fit",
       "Usage: rigproof fit BUILD --catalog DIR [options]",
       {"BUILD ", "--catalog DIR", "-o, --output DIR", "--skip-bad", "--json", "-h, --help"}},
      {"power",
       "Usage: rigproof power BUILD --catalog DIR [options]",
       {"BUILD ", "--catalog DIR", "--brief BRIEF", "--beside BUILD", "--show-work", "--json",
        "-h, --help"}},
      {"air",
       "Usage: rigproof air BUILD --catalog DIR [options]",
       {"BUILD ", "--catalog DIR", "--brief BRIEF", "--speed PERCENT", "--distance METERS",
        "--show-work", "--json", "-h, --help"}},
      {"sheet",
       "Usage: rigproof sheet BUILD --catalog DIR --output DIR [options]",
       {"BUILD ", "-o, --output DIR", "--catalog DIR", "--brief BRIEF", "--json", "-h, --help"}},
      {"rules", "Usage: rigproof rules [RULE] [options]", {"RULE ", "--json", "-h, --help"}},
      {"export",
       "Usage: rigproof export --store URL [options]",
       {"--store URL", "-o, --output DIR", "--catalog DIR", "--backup FILE", "--skip-bad", "--json",
        "-h, --help"}},
      {"serve",
       "Usage: rigproof serve --catalog DIR [options]",
       {"--catalog DIR", "--store URL", "--add FILE", "--port N", "--listen ADDRESS",
        "--token TOKEN", "--name NAME", "--jobs N", "--open", "--skip-bad", "--json",
        "-h, --help"}},
  };
  EXPECT_EQ(cli::all_commands().size(), std::size(cases)) << "a command without a case here";
  for (const Case& c : cases) {
    const Ran ran = rigproof({c.command, "--help"});
    EXPECT_EQ(ran.exit_code, 0) << c.command;
    EXPECT_THAT(ran.err, IsEmpty()) << c.command;
    EXPECT_THAT(ran.out, HasSubstr(c.usage + "\n"));
    for (const std::string& name : c.names)
      EXPECT_THAT(ran.out, HasSubstr("\n  " + name)) << c.command;
    EXPECT_LE(widest_line(ran.out), 100U) << c.command;
    EXPECT_EQ(rigproof({c.command, "-h"}).out, ran.out);
  }
}

// No option is hidden from the help: asked of the declarations themselves.
TEST(Usage, HelpMissesNoDeclaredOption) {
  const cli::CommandLine line{cli::Terminal{}};
  for (const CLI::App* command : line.top().get_subcommands({})) {
    const std::string help = rigproof({command->get_name(), "--help"}).out;
    for (const CLI::Option* option : command->get_options())
      for (const std::string& name : option->get_lnames())
        EXPECT_THAT(help, HasSubstr("--" + name)) << command->get_name();
  }
}

TEST(Usage, HelpOfTheProgram) {
  const Ran ran = rigproof({"--help"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, HasSubstr("Usage: rigproof COMMAND [options]\n"));
  for (const char* word :
       {"\n  check ", "\n  import ", "\n  plan ", "\n  claims ", "\n  sheet ", "\n  rules ",
        "--version", "6 stopped", "Where to begin:", "docs/first-hour.md"})
    EXPECT_THAT(ran.out, HasSubstr(word));
  EXPECT_THAT(ran.err, IsEmpty());
}

TEST(Usage, HelpIsAsWideAsTheTerminal) {  // the terminal of these tests has 90 columns
  const Ran ran = run({.args = {"plan", "--help"}, .out = Stream::terminal});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_LE(widest_line(ran.out), 90U);
  EXPECT_GT(widest_line(ran.out), 70U);
}

TEST(CommandsPage, IsWhatTheDeclarationsGive) {
  EXPECT_TRUE(bytes_of("docs/commands.md") == cli::commands_page())
      << "docs/commands.md is stale; remake it with: build/.../bin/commands_page docs/commands.md";
}

}  // namespace
}  // namespace rigproof::cli_test
