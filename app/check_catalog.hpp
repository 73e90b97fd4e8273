// Use case `check`: what a catalog holds, what of it is unknown, and where its cells come from.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "app/workshop.hpp"

namespace rigproof::app {

struct TableState {
  std::string name;
  bool present = false;
  std::uint32_t rows = 0;
  std::uint64_t cells = 0;    ///< without key columns
  std::uint64_t unknown = 0;  ///< empty ones of these
  std::uint64_t sourced = 0;  ///< filled ones that a provenance row speaks of
};

struct CatalogState {
  std::string folder;
  std::size_t parts = 0;
  std::vector<TableState> tables;  ///< in schema order
  std::size_t skipped = 0;         ///< bad rows left out
};

[[nodiscard]] CatalogState check_catalog(const Workshop& workshop);
[[nodiscard]] std::string check_text(const CatalogState& state);
[[nodiscard]] std::string check_json(const CatalogState& state);

}  // namespace rigproof::app
