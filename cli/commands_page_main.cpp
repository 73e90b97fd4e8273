// commands_page FILE: writes docs/commands.md from the declared commands.
#include <cstdio>
#include <exception>
#include <fstream>

#include "cli/command_line.hpp"

int main(int argc, char** argv) try {
  if (argc != 2) {
    std::fputs("usage: commands_page FILE\n", stderr);
    return 2;
  }
  std::ofstream out(argv[1], std::ios::binary);
  out << rigproof::cli::commands_page();
  out.close();
  if (!out) {
    std::fprintf(stderr, "commands_page: cannot write %s\n", argv[1]);
    return 2;
  }
  return 0;
} catch (const std::exception& fault) {
  std::fprintf(stderr, "commands_page: %s\n", fault.what());
  return 4;
}
