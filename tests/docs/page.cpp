#include "page.hpp"

#include <sstream>

namespace rigproof::docs_test {
namespace {

// Blanks at the end of a line do not count: they cannot be seen on a page.
std::vector<std::string> lines_of(std::string_view text) {
  std::istringstream in{std::string(text)};
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) {
    line.erase(line.find_last_not_of(" \r") + 1);
    lines.push_back(line);
  }
  return lines;
}

}  // namespace

std::vector<Block> blocks_of(std::string_view page) {
  std::vector<Block> blocks;
  std::istringstream in{std::string(page)};
  std::string line;
  bool open = false;
  for (int number = 1; std::getline(in, line); ++number) {
    const bool fence = line.starts_with("```");
    if (open && fence) {
      open = false;
    } else if (open) {
      blocks.back().text += line + '\n';
    } else if (fence) {
      open = true;
      const std::string info = line.substr(3);
      const std::size_t blank = info.find(' ');
      blocks.push_back({.line = number,
                        .language = info.substr(0, blank),
                        .does = blank == std::string::npos ? "" : info.substr(blank + 1),
                        .text = {}});
    }
  }
  if (open) blocks.back().does = "open";
  return blocks;
}

std::string first_line_not_printed(std::string_view quoted, std::string_view printed) {
  const auto lines = lines_of(printed);
  std::size_t at = 0;
  bool skips = false;
  for (const std::string& line : lines_of(quoted)) {
    if (line == "...") {
      skips = true;
      continue;
    }
    while (skips && at < lines.size() && lines[at] != line) ++at;
    if (at == lines.size() || lines[at] != line) return line.empty() ? "(an empty line)" : line;
    ++at;
    skips = false;
  }
  return skips || at == lines.size() ? "" : "(more was printed)";
}

}  // namespace rigproof::docs_test
