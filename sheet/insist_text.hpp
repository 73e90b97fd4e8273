// A wish for parts, beside the free choice, for people.
#pragma once

#include <string>

#include "sheet/answers.hpp"
#include "sheet/text.hpp"

namespace rigproof::sheet {

/// What the wish costs and changes, then the build with it; or what stands against the wish.
[[nodiscard]] std::string insist_text(const Insist& insist, const TextStyle& style);

}  // namespace rigproof::sheet
