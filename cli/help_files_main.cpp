// help_files DIR: writes the man page and the shell completions from the declared commands, into
// DIR/man and DIR/completion.
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include "cli/help_files.hpp"

int main(int argc, char** argv) try {
  if (argc != 2) {
    std::fputs("usage: help_files DIR\n", stderr);
    return 2;
  }
  for (const auto& [name, bytes] : rigproof::cli::help_files()) {
    const std::filesystem::path path = std::filesystem::path(argv[1]) / name;
    std::filesystem::create_directories(path.parent_path());
    std::ofstream out(path, std::ios::binary);
    out << bytes;
    out.close();
    if (!out) throw std::runtime_error("cannot write " + path.string());
  }
  return 0;
} catch (const std::exception& fault) {
  std::fprintf(stderr, "help_files: %s\n", fault.what());
  return 4;
}
