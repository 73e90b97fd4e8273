// The reading of pages itself, by hand: a reader of pages that finds nothing would pass any page.
#include "page.hpp"

#include <gtest/gtest.h>

namespace rigproof::docs_test {
namespace {

TEST(Blocks, ByHand) {
  const auto blocks =
      blocks_of("a\n```csv file=x/y.csv\nid\n\nb\n```\n```sh exit=5\nrun\n```\n```\n```\n");
  ASSERT_EQ(blocks.size(), 3U);
  EXPECT_EQ(blocks[0].line, 2);
  EXPECT_EQ(blocks[0].language, "csv");
  EXPECT_EQ(blocks[0].does, "file=x/y.csv");
  EXPECT_EQ(blocks[0].text, "id\n\nb\n");
  EXPECT_EQ(blocks[1].does, "exit=5");
  EXPECT_EQ(blocks[2].does, "");
  EXPECT_EQ(blocks_of("```sh exit=0\nrun\n").at(0).does, "open");
}

TEST(PrintedLines, ByHand) {
  const std::string printed = "one\ntwo\n\nthree  \nfour\n";
  EXPECT_EQ(first_line_not_printed("one\ntwo\n\nthree\nfour\n", printed), "");
  EXPECT_EQ(first_line_not_printed("one\n...\n", printed), "");
  EXPECT_EQ(first_line_not_printed("...\nthree\nfour\n", printed), "");
  EXPECT_EQ(first_line_not_printed("one\n...\nfour\n", printed), "");
  EXPECT_EQ(first_line_not_printed("one\n", printed), "(more was printed)");
  EXPECT_EQ(first_line_not_printed("...\nthree\n", printed), "(more was printed)");
  EXPECT_EQ(first_line_not_printed("one\nthree\n...\n", printed), "three");
  EXPECT_EQ(first_line_not_printed("...\nfour\n...\none\n...\n", printed), "one");  // in this order
  EXPECT_EQ(first_line_not_printed("...\nfou\n...\n", printed), "fou");             // whole lines
}

}  // namespace
}  // namespace rigproof::docs_test
