// mapping_page FILE: writes docs/mapping.md from the declared keys.
#include <cstdio>
#include <exception>
#include <fstream>

#include "catalog/mapping_keys.hpp"

int main(int argc, char** argv) try {
  if (argc != 2) {
    std::fputs("usage: mapping_page FILE\n", stderr);
    return 2;
  }
  std::ofstream out(argv[1], std::ios::binary);
  out << rigproof::mapping_page();
  out.close();
  if (!out) {
    std::fprintf(stderr, "mapping_page: cannot write %s\n", argv[1]);
    return 2;
  }
  return 0;
} catch (const std::exception& fault) {
  std::fprintf(stderr, "mapping_page: %s\n", fault.what());
  return 4;
}
