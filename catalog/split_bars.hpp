// The words of a cell that lists several: `a|b|c`.
#pragma once

#include <algorithm>
#include <string_view>
#include <vector>

namespace rigproof {

/// In order; views into `text`. None in an empty text.
[[nodiscard]] inline std::vector<std::string_view> split_bars(std::string_view text) {
  std::vector<std::string_view> parts;
  while (!text.empty()) {
    const std::size_t bar = std::min(text.find('|'), text.size());
    parts.push_back(text.substr(0, bar));
    text.remove_prefix(std::min(bar + 1, text.size()));
  }
  return parts;
}

}  // namespace rigproof
