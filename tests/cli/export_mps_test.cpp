// The integer program beside a plan: written whole, also for a brief that nothing satisfies, and
// what it leaves out is named. That solvers prove it again: tests/plan/outside_proof_test.cpp.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

const std::string second_life = "demo/briefs/second-life.toml";

Ran plan_with(const std::string& brief, const std::string& file,
              const std::vector<std::string>& more = {}) {
  std::vector<std::string> args = {"plan",   brief, "--catalog",    demo_catalog,
                                   "--best", "1",   "--export-mps", file};
  args.insert(args.end(), more.begin(), more.end());
  return rigproof(args);
}

// Names in a section of the file: of rows the second word, of columns the first.
std::vector<std::string> names_in(const std::string& mps, const std::string& section) {
  std::istringstream in(mps);
  std::vector<std::string> names;
  bool inside = false;
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with(' ')) {
      inside = line == section;
      continue;
    }
    std::istringstream words(line);
    std::string name;
    words >> name;
    if (section == "ROWS") words >> name;
    if (!inside || name == "MARKER" || (!names.empty() && names.back() == name)) continue;
    names.push_back(name);
  }
  return names;
}

TEST(ExportMps, TheFileIsWholeAndSaysWhatItLeavesOut) {
  const Folder folder;
  const std::string file = folder / "deep/plan.mps";
  const Ran plain = rigproof({"plan", second_life, "--catalog", demo_catalog, "--best", "1"});
  const Ran ran = plan_with(second_life, file);
  EXPECT_EQ(ran.exit_code, plain.exit_code);
  EXPECT_EQ(ran.out, plain.out) << "the plan is the same, with the file or without";
  EXPECT_THAT(ran.err, StartsWith("integer program: " + file + " ("));
  EXPECT_THAT(folder.names("deep"), ElementsAre("plan.mps"));
  const std::string mps = bytes_of(file);
  EXPECT_TRUE(mps.ends_with("\nENDATA\n"));
  const Ran as_json = plan_with(second_life, folder / "again.mps", {"--json"});
  EXPECT_THAT(schema_complaints("plan", as_json.out), IsEmpty());
  EXPECT_EQ(bytes_of(folder / "again.mps"), mps) << "same question, same bytes";
  const Json program = json_of(as_json.out).at("integer_program");
  EXPECT_EQ(program.at("file"), folder / "again.mps");
  EXPECT_EQ(program.at("columns"), names_in(mps, "COLUMNS").size());
  EXPECT_EQ(program.at("rows"), names_in(mps, "ROWS").size() - 1) << "one of them is the objective";
  for (const auto& [rule, checks] : program.at("left_out").items()) {
    EXPECT_THAT(mps, HasSubstr("* left out: " + checks.dump() + " " + rule + "\n"));
    EXPECT_THAT(ran.err, HasSubstr("  " + rule + " (" + checks.dump() + " check"));
  }
}

TEST(ExportMps, NamesAreUniqueAndThoseOfTheParts) {
  const Folder folder;
  const std::string file = folder / "plan.mps";
  const Ran ran = plan_with(second_life, file, {"--json"});
  const std::string mps = bytes_of(file);
  for (const char* section : {"ROWS", "COLUMNS"}) {
    const auto names = names_in(mps, section);
    EXPECT_EQ(std::set(names.begin(), names.end()).size(), names.size()) << section;
  }
  const auto columns = names_in(mps, "COLUMNS");
  const Json parts = json_of(ran.out).at("builds").at(0).at("parts");
  for (const char* kind : {"cpu", "gpu", "board", "case", "psu"})
    EXPECT_THAT(columns, testing::Contains("x_" + std::string(kind) + "_" +
                                           parts.at(kind).get<std::string>()));
}

TEST(ExportMps, IsWrittenForABriefThatNothingSatisfiesToo) {
  const Folder folder;
  const std::string file = folder / "plan.mps";
  const Ran ran = plan_with(impossible, file);
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_TRUE(bytes_of(file).ends_with("\nENDATA\n"));
  EXPECT_THAT(ran.err, StartsWith("integer program: " + file + " ("));
}

// The limit is one of the search: the program does not depend on it.
TEST(ExportMps, ATimeLimitDoesNotCutItShort) {
  const Folder folder;
  (void)plan_with(second_life, folder / "whole.mps");
  (void)plan_with(second_life, folder / "limited.mps", {"--time-limit", "0.0001"});
  EXPECT_TRUE(bytes_of(folder / "whole.mps").ends_with("\nENDATA\n"));
  // Not EXPECT_EQ: what differs between megabytes takes minutes to find.
  EXPECT_TRUE(bytes_of(folder / "limited.mps") == bytes_of(folder / "whole.mps"));
}

TEST(ExportMps, AFileThatCannotBeWrittenIsSaidAndThePlanIsPrinted) {
  const Folder folder;
  std::filesystem::create_directory(folder / "plan.mps");
  const Ran ran = plan_with(second_life, folder / "plan.mps");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr(folder / "plan.mps"));
  EXPECT_THAT(ran.out, HasSubstr("proven"));
  EXPECT_THAT(folder.names(), ElementsAre("plan.mps")) << "no draft stays behind";
}

}  // namespace
}  // namespace rigproof::cli_test
