// The sheet as Markdown (CommonMark with tables), for places that show no HTML file.
#pragma once

#include <string>
#include <string_view>

#include "sheet/model.hpp"

namespace rigproof::sheet {

[[nodiscard]] std::string sheet_markdown(const Sheet& sheet);

/// Text that Markdown shows as it is: marks escaped with a backslash, `<` and `&` as entities, line
/// ends as blanks; safe inside a table cell (`|`) and at the start of a line (`#`, `-`, `1.`).
[[nodiscard]] std::string markdown_escape(std::string_view text);
/// Its section of air and power; empty without one (markdown_physics.cpp).
[[nodiscard]] std::string physics_markdown(const Sheet& sheet);

}  // namespace rigproof::sheet
