// The committed demo is what the generator writes now, byte for byte, and nothing else lies beside
// it.
#include "tools/make_demo.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "base/contract.hpp"
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {
namespace {

std::string read_all(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(MakeDemo, CommittedFilesAreWhatTheGeneratorWrites) {
  for (const auto& [name, bytes] : make_demo()) {
    const auto path = std::filesystem::path("demo") / name;
    ASSERT_TRUE(std::filesystem::exists(path)) << path << " is missing; remake: " << remake_command;
    const std::string committed = read_all(path);
    const auto [a, b] = std::ranges::mismatch(committed, bytes);
    const auto line = 1 + std::count(committed.begin(), a, '\n');
    EXPECT_TRUE(committed == bytes)
        << path << " differs from line " << line << " on; remake: " << remake_command;
  }
}

TEST(MakeDemo, NoOtherTableOrBriefLiesInTheFolders) {
  const Files files = make_demo();
  for (const auto& entry : std::filesystem::recursive_directory_iterator("demo")) {
    if (!entry.is_regular_file()) continue;
    const std::string name = std::filesystem::relative(entry.path(), "demo").generic_string();
    if (name.starts_with("pasted/")) continue;  // typed by hand: what somebody pastes
    EXPECT_TRUE(files.contains(name)) << name << " is not written by the generator";
  }
}

// Hand-written expectations; decimals are exact and never go through floating point.
TEST(MakeDemo, DecimalsAsText) {
  EXPECT_EQ(to_text({95, 2}), "0.95");
  EXPECT_EQ(to_text({5, 3}), "0.005");
  EXPECT_EQ(to_text({1200, 3}), "1.2");
  EXPECT_EQ(to_text({1000, 3}), "1");
  EXPECT_EQ(to_text({0, 2}), "0");
  EXPECT_EQ(to_text({0, 2}, true), "0.00");
  EXPECT_EQ(to_text({14990, 2}, true), "149.90");
}

// A Line refuses another table's column: a row of a card has no processor's cells.
TEST(MakeDemo, LineRefusesAnotherTablesColumn) {
  Line line(table("gpu"));
  EXPECT_ANY_THROW(line.whole(column("cpu", "cores"), 8));
}

}  // namespace
}  // namespace rigproof::demo
