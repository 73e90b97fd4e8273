#include "sheet/utf8.hpp"

namespace rigproof::sheet {
namespace {

struct Lead {
  std::size_t bytes;
  char32_t bits;
  char32_t smallest;
};

Lead lead_of(unsigned char b) {
  if (b < 0x80) return {1, b, 0};
  if (b >= 0xC2 && b <= 0xDF) return {2, b & 0x1FU, 0x80};
  if (b >= 0xE0 && b <= 0xEF) return {3, b & 0x0FU, 0x800};
  if (b >= 0xF0 && b <= 0xF4) return {4, b & 0x07U, 0x10000};
  return {0, 0, 0};
}

}  // namespace

CodePoint next_code_point(std::string_view text) {
  constexpr CodePoint malformed{0xFFFD, 1};
  const Lead lead = lead_of(static_cast<unsigned char>(text[0]));
  if (lead.bytes == 0 || lead.bytes > text.size()) return malformed;
  char32_t value = lead.bits;
  for (std::size_t i = 1; i < lead.bytes; ++i) {
    const auto b = static_cast<unsigned char>(text[i]);
    if ((b & 0xC0U) != 0x80U) return malformed;
    value = (value << 6U) | (b & 0x3FU);
  }
  const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
  if (value < lead.smallest || value > 0x10FFFF || surrogate) return malformed;
  return {value, lead.bytes};
}

void append_code_point(std::string& out, char32_t c) {
  const auto push = [&](char32_t byte) {
    out += static_cast<char>(static_cast<unsigned char>(byte));
  };
  if (c < 0x80) return push(c);
  if (c < 0x800) {
    push(0xC0 | (c >> 6U));
  } else {
    if (c < 0x10000) {
      push(0xE0 | (c >> 12U));
    } else {
      push(0xF0 | (c >> 18U));
      push(0x80 | ((c >> 12U) & 0x3F));
    }
    push(0x80 | ((c >> 6U) & 0x3F));
  }
  push(0x80 | (c & 0x3F));
}

}  // namespace rigproof::sheet
