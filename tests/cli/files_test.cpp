// Files: all of a sheet or nothing of it, no draft left behind, old content kept when writing
// fails.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

Ran sheet_into(const std::string& folder, const std::string& build = evening_chair) {
  return rigproof({"sheet", build, "-o", folder, "--catalog", demo_catalog});
}

const std::vector<std::string> files = {"claims.csv", "drawing.svg", "parts.csv", "physics.json",
                                        "prices.csv", "sheet.html",  "sheet.md"};

TEST(Files, TheSheetIsSevenFilesAndNoMore) {
  const Folder folder;
  const Ran ran = sheet_into(folder / "made/on/the/way");
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_EQ(folder.names("made/on/the/way"), files);
  std::string listed;
  for (const char* name : {"sheet.html", "sheet.md", "parts.csv", "claims.csv", "prices.csv",
                           "drawing.svg", "physics.json"})
    listed += folder / "made/on/the/way/" + name + "\n";
  EXPECT_EQ(ran.out, listed);
  for (const std::string& name : files) {
    struct stat state{};
    ASSERT_EQ(::stat((folder / ("made/on/the/way/" + name)).c_str(), &state), 0);
    EXPECT_EQ(state.st_mode & 0777U, 0644U) << name;
    EXPECT_GT(state.st_size, 0) << name;
  }
}

TEST(Files, AnOldSheetIsReplacedWhole) {
  const Folder folder;
  ASSERT_EQ(sheet_into(folder / "a", evening_chair).exit_code, 0);
  ASSERT_EQ(sheet_into(folder / "a", friday_shelf).exit_code, 1);
  ASSERT_EQ(sheet_into(folder / "b", friday_shelf).exit_code, 1);
  EXPECT_EQ(folder.names("a"), files);
  for (const std::string& name : files)
    EXPECT_EQ(bytes_of(folder / ("a/" + name)), bytes_of(folder / ("b/" + name))) << name;
}

// One of the six cannot be replaced: all of the old ones stay as they were, whichever one it is.
TEST(Files, WhenOneCannotBeWrittenNoneIs) {
  for (const std::string& blocked : files) {
    const Folder folder;
    for (const std::string& name : files)
      if (name != blocked) write_bytes(folder / name, "old " + name);
    std::filesystem::create_directory(folder / blocked);
    const Ran ran = sheet_into(folder.path().string());
    EXPECT_EQ(ran.exit_code, 2) << blocked;
    EXPECT_THAT(ran.out, IsEmpty());
    EXPECT_EQ(ran.err, folder / blocked + ": cannot be written: is a folder\n");
    EXPECT_EQ(folder.names(), files) << "drafts left behind";
    for (const std::string& name : files) {
      if (name != blocked) {
        EXPECT_EQ(bytes_of(folder / name), "old " + name) << blocked;
      }
    }
  }
}

TEST(Files, AFileStandsWhereTheFolderShould) {
  const Folder folder;
  write_bytes(folder / "taken", "mine");
  const Ran ran = sheet_into(folder / "taken");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, testing::StartsWith(folder / "taken: "));
  EXPECT_EQ(bytes_of(folder / "taken"), "mine");
  EXPECT_EQ(sheet_into(folder / "taken/below").exit_code, 2);
  EXPECT_THAT(folder.names(), ElementsAre("taken"));
}

// Root may write everywhere but into /proc; anybody else is held by the permissions of the folder.
TEST(Files, AFolderThatMayNotBeWritten) {
  const Folder folder;
  std::string where = "/proc/sys";
  if (::geteuid() != 0) {
    where = folder / "locked";
    std::filesystem::create_directory(where);
    std::filesystem::permissions(
        where, std::filesystem::perms::owner_read | std::filesystem::perms::owner_exec);
  }
  const Ran ran = sheet_into(where);
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, testing::StartsWith(where + "/sheet.html: cannot be written: "));
}

TEST(Files, SavedBuildThatCannotBeWritten) {
  const Folder folder;
  std::filesystem::create_directory(folder / "b.toml");
  const Ran ran =
      rigproof({"plan", high_refresh, "--catalog", demo_catalog, "--save", folder / "b.toml"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.err, folder / "b.toml: cannot be written: is a folder\n");
  EXPECT_THAT(folder.names(), ElementsAre("b.toml"));
}

// What plan saves is what claims reads: the same parts, and nothing fails.
TEST(Files, SavedBuildReadsBack) {
  const Folder folder;
  const Ran plan = rigproof(
      {"plan", high_refresh, "--catalog", demo_catalog, "--json", "--save", folder / "b.toml"});
  ASSERT_EQ(plan.exit_code, 0);
  const Ran claims = rigproof(
      {"claims", folder / "b.toml", "--catalog", demo_catalog, "--brief", high_refresh, "--json"});
  EXPECT_EQ(claims.exit_code, 0) << claims.err;
  EXPECT_EQ(json_of(claims.out).at("claims"), json_of(plan.out).at("builds").at(0).at("claims"));
}

TEST(Files, ImpossibleBriefWritesNothing) {
  const Folder folder;
  const Ran ran = rigproof({"plan", impossible, "--catalog", demo_catalog, "--save",
                            folder / "b.toml", "--sheet", folder / "s"});
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(folder.names(), IsEmpty());
}

TEST(Files, TheCatalogIsOnlyRead) {
  const Folder folder;
  copy_demo(folder / "c");
  const auto before = folder.names("c");
  for (const std::string& name : before)
    std::filesystem::permissions(folder / ("c/" + name), std::filesystem::perms::owner_read);
  ASSERT_EQ(rigproof({"plan", high_refresh, "--catalog", folder / "c", "--sheet", folder / "s"})
                .exit_code,
            0);
  EXPECT_EQ(folder.names("c"), before);
  for (const std::string& name : before)
    EXPECT_EQ(bytes_of(folder / ("c/" + name)),
              bytes_of(std::filesystem::path(demo_catalog) / name));
}

}  // namespace
}  // namespace rigproof::cli_test
