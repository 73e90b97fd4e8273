// make_demo DIR: writes the demo into DIR (README.md, catalog/, briefs/, builds/).
// make_demo DIR --scale PARTS: writes a market of that many parts instead, for benchmarks.
#include <fmt/format.h>

#include <charconv>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <span>
#include <string_view>

#include "tools/make_market.hpp"

namespace {

bool write_file(const std::filesystem::path& path, const std::string& bytes) {
  std::error_code error;
  std::filesystem::create_directories(path.parent_path(), error);
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  return !out.fail();
}

int usage() {
  fmt::print(stderr, "usage: make_demo DIR [--scale PARTS]   (PARTS from {} to {})\n",
             rigproof::demo::fewest_market_parts, rigproof::demo::most_market_parts);
  return 2;
}

}  // namespace

int main(int argc, char** argv) {
  using namespace rigproof::demo;
  const std::span<char*> given(argv, static_cast<std::size_t>(argc));
  if (given.size() != 2 && (given.size() != 4 || std::string_view(given[2]) != "--scale"))
    return usage();
  int parts = 0;
  if (given.size() == 4) {
    const std::string_view number = given[3];
    const auto [end, fault] = std::from_chars(number.data(), number.data() + number.size(), parts);
    if (fault != std::errc{} || end != number.data() + number.size() ||
        parts < fewest_market_parts || parts > most_market_parts)
      return usage();
  }
  const Files files = parts > 0 ? make_market(parts) : make_demo();
  for (const auto& [name, bytes] : files) {
    const auto path = std::filesystem::path(given[1]) / name;
    if (!write_file(path, bytes)) {
      fmt::print(stderr, "{}: cannot be written\n", path.string());
      return 2;
    }
  }
  fmt::print("{} files in {}\n", files.size(), given[1]);
  return 0;
}
