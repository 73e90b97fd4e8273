// docs/brief.md is the page the declared keys give. Stale? build/.../bin/brief_page docs/brief.md
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "catalog/brief_keys.hpp"

namespace rigproof {
namespace {

TEST(BriefPage, IsWhatTheDeclaredKeysGive) {
  std::ifstream file("docs/brief.md", std::ios::binary);  // ctest runs at the top of the tree
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  EXPECT_EQ(page, brief_page()) << "docs/brief.md is stale: bin/brief_page docs/brief.md";
}

TEST(BriefPage, SpeaksOfEveryKey) {
  const std::string page = brief_page();
  for (const KeySpec& spec : keys::brief_keys) {
    EXPECT_NE(page.find('`' + std::string(spec.name) + '`'), std::string::npos) << spec.name;
    EXPECT_NE(page.find(spec.meaning), std::string::npos) << spec.meaning;
  }
}

}  // namespace
}  // namespace rigproof
