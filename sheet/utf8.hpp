// UTF-8 one code point at a time, malformed bytes included. Syntax: [rfc-3629] section 4.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace rigproof::sheet {

struct CodePoint {
  char32_t value = 0;
  std::size_t bytes = 1;
};

/// The first code point of a text that is not empty. A malformed byte gives U+FFFD and one byte.
[[nodiscard]] CodePoint next_code_point(std::string_view text);

/// In: c <= U+10FFFF and no surrogate.
void append_code_point(std::string& out, char32_t c);

/// U+FDD0 to U+FDEF, and the last two of each plane: not allowed in XML or of no use to people.
[[nodiscard]] constexpr bool is_noncharacter(char32_t c) {
  return (c >= 0xFDD0 && c <= 0xFDEF) || (c & 0xFFFE) == 0xFFFE;
}

}  // namespace rigproof::sheet
