// A table with one line of 200 MB: refused by its place, quickly, without quoting it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <fstream>

#include "folder.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

TEST(LongLine, IsABadRow) {
  const Folder folder;
  copy_demo(folder.path());
  {
    std::ofstream out(folder / "fan.csv", std::ios::app | std::ios::binary);
    const std::string piece(1 << 20, 'x');
    for (int i = 0; i < 200; ++i) out << piece;
    out << '\n';
    ASSERT_TRUE(out);
  }
  const auto rows = table_of(bytes_of(demo_catalog + "/fan.csv")).size();
  const auto start = std::chrono::steady_clock::now();
  const Ran ran = rigproof({"check", folder.path().string()});
  const double took_s =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.signal, 0);
  EXPECT_TRUE(ran.out.empty());
  EXPECT_THAT(ran.err, testing::StartsWith(folder / ("fan.csv:" + std::to_string(rows + 1) + ":")));
  EXPECT_LT(ran.err.size(), 2000U);
  EXPECT_LT(took_s, 20.0);
}

}  // namespace
}  // namespace rigproof::cli_test
