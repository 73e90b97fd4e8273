// For benchmarks only: a made market loaded, and the hard variant of its brief.
#pragma once

#include <fmt/format.h>

#include <cstdio>
#include <optional>
#include <string>
#include <vector>

#include "app/workshop.hpp"
#include "catalog/load.hpp"
#include "tools/make_market.hpp"

namespace rigproof {

/// Tables of a made market as a workshop; says what is wrong when they do not load.
inline std::optional<app::Workshop> market_workshop(const demo::Files& files) {
  std::vector<std::string> names;
  std::vector<TableFile> tables;
  for (const auto& [name, bytes] : files)
    if (name.starts_with("catalog/")) names.push_back(name.substr(name.find('/') + 1));
  std::size_t at = 0;
  for (const auto& [name, bytes] : files)
    if (name.starts_with("catalog/")) tables.push_back({names[at++], bytes});
  auto loaded = load_catalog(tables, {.skip_bad = false});
  if (!loaded) {
    fmt::print(stderr, "{}\n", loaded.error().report());
    return {};
  }
  return app::Workshop{"market", std::move(loaded->catalog), {}};
}

/// A tight budget, a reserve that binds, a small case, near-ties by a small saved_frac.
inline std::string hard_market_brief(std::string text) {
  const auto replace = [&](std::string_view from, std::string_view to) {
    const auto at = text.find(from);
    if (at != std::string::npos) text.replace(at, from.size(), to);
  };
  replace("1600.00", "1150.00");
  replace("supply_reserve_frac = 0.1", "supply_reserve_frac = 0.45\nvolume_l = { at_most = 34 }");
  replace("saved_frac = 0.25", "saved_frac = 0.02");
  return text;
}

}  // namespace rigproof
