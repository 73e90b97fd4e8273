// rigproof serve as it is typed: what it says, what it refuses, how it ends.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <csignal>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

Ran served(std::vector<std::string> args, int with = SIGINT) {
  args.insert(args.begin(), "serve");
  Child child({.args = args});
  EXPECT_TRUE(child.waits_with_sigint_caught(60.0));
  ::kill(child.pid(), with);
  return child.finish();
}

TEST(Serve, SaysWhereItIsAndEndsWhenAsked) {
  const Folder folder;
  const Ran ran = served({"--catalog", demo_catalog, "--store", "sqlite:" + folder / "new/s.db",
                          "--port", "0", "--json"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.err, IsEmpty());
  EXPECT_THAT(schema_complaints("serve", ran.out), IsEmpty());
  EXPECT_TRUE(std::filesystem::exists(folder / "new/s.db"));
}

TEST(Serve, TheTokenIsInTheAddress) {
  const Folder folder;
  const Ran ran =
      served({"--catalog", demo_catalog, "--store", "sqlite:" + folder / "s.db", "--port", "0",
              "--listen", "0.0.0.0", "--name", "rig.local", "--token", "0123456789abcdef"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, StartsWith("The pages are at http://rig.local:"));
  EXPECT_THAT(ran.out, HasSubstr("/?token=0123456789abcdef\n"));
}

// A file is added once, under the name it gives itself, and not again over what became of it.
TEST(Serve, AddsFilesOnce) {
  const Folder folder;
  const std::string store = "sqlite:" + folder / "s.db";
  for (int time = 0; time < 2; ++time)
    EXPECT_EQ(served({"--catalog", demo_catalog, "--store", store, "--port", "0", "--add",
                      "demo/briefs", "--add", evening_chair})
                  .exit_code,
              0);
  ASSERT_EQ(rigproof({"export", "--store", store, "-o", folder / "out"}).exit_code, 0);
  std::size_t briefs = 0;
  for (const auto& entry : std::filesystem::directory_iterator("demo/briefs"))
    briefs += entry.path().extension() == ".toml" ? 1 : 0;
  std::size_t kept = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder / "out"))
    kept += entry.path().extension() == ".toml" ? 1 : 0;
  EXPECT_EQ(kept, briefs + 1);
}

TEST(Serve, RefusesWhatItCannotDo) {
  const Folder folder;
  const std::string store = "sqlite:" + folder / "s.db";
  struct Case {
    std::vector<std::string> more;
    std::string says;
  };
  for (const Case& c : std::vector<Case>{
           {{"--listen", "0.0.0.0"}, "so a token is needed"},
           {{"--listen", "::"}, "so a token is needed"},
           {{"--listen", "localhost"}, "expected a numeric address"},
           {{"--token", "short"}, "expected 16 to 200 letters, digits, - or _"},
           {{"--token", "0123456789 abcdef"}, "expected 16 to 200 letters, digits, - or _"},
           {{"--name", "a/b"}, "expected the name or address of this machine"},
           {{"--port", "65536"}, "not in range 0 to 65535"},
           {{"--jobs", "0"}, "not in range 1 to 64"},
           {{"--add", folder / "nothing.toml"}, "there is no such file"}}) {
    std::vector<std::string> args = {"serve", "--catalog", demo_catalog, "--store", store};
    args.insert(args.end(), c.more.begin(), c.more.end());
    const Ran ran = rigproof(args);
    EXPECT_EQ(ran.exit_code, 2) << c.says;
    EXPECT_THAT(ran.out, IsEmpty());
    EXPECT_THAT(ran.err, HasSubstr(c.says));
  }
  EXPECT_EQ(rigproof({"serve", "--catalog", folder / "nowhere", "--store", store}).exit_code, 2);
  EXPECT_EQ(rigproof({"serve", "--catalog", demo_catalog, "--store", "postgresql://x"}).exit_code,
            2);
  EXPECT_EQ(rigproof({"serve", "--catalog", demo_catalog, "--store", "sqlite:" + evening_chair})
                .exit_code,
            2)
      << "a file of something else is not written into";
}

}  // namespace
}  // namespace rigproof::cli_test
