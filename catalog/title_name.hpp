// What a title of a brief is called, for people.
#pragma once

#include <string>
#include <string_view>

#include "catalog/catalog.hpp"

namespace rigproof {

/// The name in titles.csv; the id itself where the catalog has no such title.
[[nodiscard]] inline std::string title_name(const Catalog& catalog, std::string_view id) {
  const auto row = catalog.find_row(table("titles"), id);
  return std::string(row ? catalog.word(column("titles", "name"), *row) : id);
}

}  // namespace rigproof
