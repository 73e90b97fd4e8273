// How a long job stands, in words: the same for a terminal and for the pages.
#pragma once

#include <cstddef>
#include <string>

#include "base/money.hpp"
#include "decision/plan/search.hpp"

namespace rigproof::app {

/// How a search stands: the best so far, and how much more there can be.
[[nodiscard]] std::string progress_words(const plan::Progress& progress, Currency currency);
/// Of the counting that `check` does: rules done and all of them.
[[nodiscard]] std::string counting_words(std::size_t done, std::size_t all);

}  // namespace rigproof::app
