// make_demo DIR: writes the demo into DIR (README.md, catalog/, briefs/, builds/).
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

#include "tools/make_demo.hpp"

namespace {

bool write_file(const std::filesystem::path& path, const std::string& bytes) {
  std::error_code error;
  std::filesystem::create_directories(path.parent_path(), error);
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  return !out.fail();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    fmt::print(stderr, "usage: make_demo DIR\n");
    return 2;
  }
  const auto files = rigproof::demo::make_demo();
  for (const auto& [name, bytes] : files) {
    const auto path = std::filesystem::path(argv[1]) / name;
    if (!write_file(path, bytes)) {
      fmt::print(stderr, "{}: cannot be written\n", path.string());
      return 2;
    }
  }
  fmt::print("{} files in {}\n", files.size(), argv[1]);
  return 0;
}
