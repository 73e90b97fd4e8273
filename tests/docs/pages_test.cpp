// Every page under docs/ that teaches: its files are written, its commands run in order in an empty
// folder (with the demo beside it as `demo`), codes and quoted lines compared.
#include <gtest/gtest.h>

#include <sstream>

#include "page.hpp"
#include "tests/cli/folder.hpp"
#include "tests/cli/program.hpp"

namespace rigproof::docs_test {
namespace {

using cli_test::Folder;
using cli_test::Ran;

struct Reader {
  explicit Reader(std::string name) : page(std::move(name)) {
    std::filesystem::create_directory_symlink(std::filesystem::absolute("demo"), folder / "demo");
  }

  void act(const Block& block) {
    const std::string where = page + ":" + std::to_string(block.line);
    if (block.does.empty()) return;
    if (block.does.starts_with("file=")) {
      const std::filesystem::path file = folder / block.does.substr(5);
      std::filesystem::create_directories(file.parent_path());
      cli_test::write_bytes(file, block.text);
      ++files;
    } else if (block.does.starts_with("exit=")) {
      run(block, where);
    } else if (block.does == "out") {
      EXPECT_EQ(first_line_not_printed(block.text, printed), "") << where << '\n' << printed;
      ++quotes;
    } else {
      ADD_FAILURE() << where << ": not understood: " << block.does;
    }
  }

  // One line, words separated by blanks, the first one `rigproof`: nothing else is typed here.
  void run(const Block& block, const std::string& where) {
    std::istringstream in(block.text);
    std::vector<std::string> words;
    for (std::string word; in >> word;) words.push_back(word);
    ASSERT_FALSE(words.empty()) << where;
    ASSERT_EQ(words[0], "rigproof") << where;
    const Ran ran =
        cli_test::run({.args = {words.begin() + 1, words.end()}, .folder = folder.path().string()});
    EXPECT_EQ("exit=" + std::to_string(ran.exit_code), block.does) << where << '\n' << ran.err;
    printed = ran.out;
    ++commands;
  }

  std::string page;
  Folder folder;
  std::string printed;
  int files = 0, commands = 0, quotes = 0;
};

void read_page(Reader& reader) {
  for (const Block& block : blocks_of(cli_test::bytes_of("docs/" + reader.page))) reader.act(block);
}

// The counts are floors: a page whose blocks lost their marks would pass unread.
TEST(Pages, FirstHour) {
  Reader reader("first-hour.md");
  read_page(reader);
  EXPECT_GE(reader.files, 14);
  EXPECT_GE(reader.commands, 8);
  EXPECT_GE(reader.quotes, 6);
}

// `](page.md#part)`: the file is there, seen from the page.
void expect_links(const std::filesystem::path& page) {
  const std::string text = cli_test::bytes_of(page);
  int links = 0;
  for (std::size_t at = 0; (at = text.find("](", at)) != std::string::npos;) {
    at += 2;
    std::string to = text.substr(at, text.find(')', at) - at);
    to = to.substr(0, to.find('#'));
    if (to.empty() || to.starts_with("http")) continue;
    EXPECT_TRUE(std::filesystem::exists(page.parent_path() / to)) << page << ": " << to;
    ++links;
  }
  EXPECT_GT(links, 0) << page;
}

TEST(Pages, LinksLeadSomewhere) {
  for (const char* page : {"README.md", "docs/first-hour.md", "docs/how-to-write-a-brief.md",
                           "docs/how-to-read-a-claim.md"})
    expect_links(page);
}

TEST(Pages, HowToWriteABrief) {
  Reader reader("how-to-write-a-brief.md");
  read_page(reader);
  EXPECT_GE(reader.files, 2);
  EXPECT_GE(reader.commands, 2);
}

TEST(Pages, HowToReadAClaim) {
  Reader reader("how-to-read-a-claim.md");
  read_page(reader);
  EXPECT_GE(reader.commands, 2);
  EXPECT_GE(reader.quotes, 2);
}

}  // namespace
}  // namespace rigproof::docs_test
