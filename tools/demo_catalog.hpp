// For tests only: the committed demo, read from `demo/` (tests run at the top of the tree).
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "catalog/load.hpp"

namespace rigproof::demo {

inline std::string read_all(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Regular files of a folder, in the order of their names.
inline std::vector<std::filesystem::path> files_in(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.is_regular_file()) paths.push_back(entry.path());
  std::ranges::sort(paths);
  return paths;
}

/// Loaded once; throws with the whole report when there is a complaint.
inline const Catalog& demo_catalog() {
  static const Catalog catalog = [] {
    std::vector<std::string> bytes;
    std::vector<TableFile> files;
    const auto paths = files_in("demo/catalog");
    bytes.reserve(paths.size());
    for (const auto& path : paths) {
      bytes.push_back(read_all(path));
      files.push_back({path.generic_string(), bytes.back()});
    }
    auto loaded = load_catalog(files);
    if (!loaded) throw std::runtime_error(loaded.error().report());
    return std::move(loaded->catalog);
  }();
  return catalog;
}

}  // namespace rigproof::demo
