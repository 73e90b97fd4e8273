// Streams: results on standard output, messages on standard error, and what happens when nobody
// reads them, the disk is full, or they are a terminal.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

const std::string escape = "\x1b[";

std::vector<std::vector<std::string>> every_command(const Folder& folder) {
  return {{"check", demo_catalog},
          {"rules"},
          {"--help"},
          {"--version"},
          {"plan", living_room, "--catalog", demo_catalog},
          {"claims", evening_chair, "--catalog", demo_catalog},
          {"sheet", evening_chair, "-o", folder / "out", "--catalog", demo_catalog}};
}

TEST(Streams, ClosedPipeIsAnErrorNotADeath) {
  const Folder folder;
  for (const auto& args : every_command(folder)) {
    const Ran ran = run({.args = args, .out = Stream::nobody});
    EXPECT_EQ(ran.signal, 0) << args[0];
    EXPECT_EQ(ran.exit_code, 2) << args[0];
    EXPECT_EQ(ran.err, "standard output: cannot be written: Broken pipe\n") << args[0];
  }
}

TEST(Streams, FullDiskIsAnError) {
  const Folder folder;
  for (const auto& args : every_command(folder)) {
    const Ran ran = run({.args = args, .out = Stream::full_disk});
    EXPECT_EQ(ran.exit_code, 2) << args[0];
    EXPECT_EQ(ran.err, "standard output: cannot be written: No space left on device\n") << args[0];
  }
}

// Messages that cannot be written change neither the code nor the result.
TEST(Streams, MessagesNobodyCanRead) {
  for (const Stream err : {Stream::nobody, Stream::full_disk}) {
    const Ran wrong = run({.args = {"chekc"}, .err = err});
    EXPECT_EQ(wrong.signal, 0);
    EXPECT_EQ(wrong.exit_code, 2);
    const Ran plan = run({.args = {"plan", high_refresh, "--catalog", demo_catalog}, .err = err});
    EXPECT_EQ(plan.exit_code, 0);
    EXPECT_EQ(plan.out, rigproof({"plan", high_refresh, "--catalog", demo_catalog}).out);
  }
}

TEST(Streams, NoEscapeCodesInAPipe) {
  const Folder folder;
  for (const auto& args : every_command(folder)) {
    const Ran ran = rigproof(args);
    EXPECT_THAT(ran.out, Not(HasSubstr("\x1b"))) << args[0];
    EXPECT_THAT(ran.err, IsEmpty()) << args[0];
  }
}

TEST(Streams, ColorOnATerminalUnlessNoColor) {
  for (const auto& args :
       {std::vector<std::string>{"claims", friday_shelf, "--catalog", demo_catalog},
        {"plan", high_refresh, "--catalog", demo_catalog}}) {
    const Ran color = run({.args = args, .out = Stream::terminal});
    EXPECT_THAT(color.out, HasSubstr(escape)) << args[0];
    const Ran plain = run({.args = args, .out = Stream::terminal, .env = {{"NO_COLOR", "1"}}});
    EXPECT_THAT(plain.out, Not(HasSubstr("\x1b"))) << args[0];
    EXPECT_EQ(plain.exit_code, color.exit_code);
    // An empty NO_COLOR does not count (the convention asks for "not an empty string").
    EXPECT_THAT(run({.args = args, .out = Stream::terminal, .env = {{"NO_COLOR", ""}}}).out,
                HasSubstr(escape));
    // Colour is all that differs: without its codes the text is the same.
    std::string stripped;
    for (std::size_t i = 0; i < color.out.size(); ++i) {
      if (color.out[i] != '\x1b')
        stripped += color.out[i];
      else
        while (color.out[i] != 'm') ++i;
    }
    EXPECT_EQ(stripped, plain.out) << args[0];
  }
}

TEST(Streams, JsonIsNeverColored) {
  const std::vector<std::string> args = {"plan", high_refresh, "--catalog", demo_catalog, "--json"};
  EXPECT_EQ(run({.args = args, .out = Stream::terminal}).out, rigproof(args).out);
}

TEST(Streams, ProgressOnATerminalOnly) {
  const std::vector<std::string> args = {"plan", living_room, "--catalog", demo_catalog};
  const Ran shown = run({.args = args, .err = Stream::terminal});
  EXPECT_THAT(shown.err, HasSubstr("choices looked at"));
  EXPECT_TRUE(shown.err.ends_with("\r\x1b[K")) << "the progress line is not erased: " << shown.err;
  const Ran quiet = rigproof(args);
  EXPECT_THAT(quiet.err, IsEmpty());
  EXPECT_EQ(quiet.out, shown.out);
}

TEST(Streams, WhatWasWrittenIsAMessageNotTheResult) {
  const Folder folder;
  const Ran ran = rigproof({"plan", living_room, "--catalog", demo_catalog, "--json", "--sheet",
                            folder / "s", "--save", folder / "b.toml"});
  EXPECT_EQ(ran.err, "build: " + folder / "b.toml" + "\nsheet: " + folder / "s/sheet.html" + "\n");
  EXPECT_EQ(ran.out, rigproof({"plan", living_room, "--catalog", demo_catalog, "--json"}).out);
}

}  // namespace
}  // namespace rigproof::cli_test
