// For tests only: the shortest brief there is, and what is complained of in a text.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/brief.hpp"
#include "catalog/small_catalog.hpp"

namespace rigproof::brief_texts {

inline const Catalog& parts() {
  static const Catalog catalog = small_catalog();
  return catalog;
}

inline auto read(std::string_view toml) { return read_brief(toml, "my.toml", parts()); }

inline std::vector<Complaint> complaints_of(std::string_view toml) {
  const auto brief = read(toml);
  if (brief) return {};
  return brief.error().shown();
}

/// The one complaint of a text that has exactly one.
inline std::string only_complaint(std::string_view toml) {
  const auto all = complaints_of(toml);
  if (all.size() == 1) return to_string(all.front());
  std::string text = fmt::format("{} complaints:\n", all.size());
  for (const Complaint& complaint : all) text += to_string(complaint) + '\n';
  return text;
}

/// Line of the first occurrence, from 1.
inline int line_of(std::string_view text, std::string_view what) {
  const std::size_t at = text.find(what);
  EXPECT_NE(at, std::string_view::npos) << what;
  return 1 + static_cast<int>(std::ranges::count(text.substr(0, at), '\n'));
}

inline const std::string head = "[brief]\nname = \"a\"\nas_of = 2026-10-01\n";
inline const std::string market =
    "[[markets]]\nmarket = \"IE\"\ncurrency = \"EUR\"\nbudget = \"1350.00\"\n";
inline const std::string smallest = head + market;  // 7 lines

}  // namespace rigproof::brief_texts
