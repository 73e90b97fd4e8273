#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <vector>

namespace rigproof {
namespace {

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, changed});
    }
  }
  return row[b.size()];
}

// Length of the well-formed sequence at the front, 0 when malformed. [rfc-3629] section 4.
std::size_t utf8_sequence(std::string_view t) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(t[i]); };
  const auto tail = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) {
    return i < t.size() && byte(i) >= low && byte(i) <= high;
  };
  const unsigned b = byte(0);
  if (b < 0x80) return 1;
  if (b >= 0xC2 && b <= 0xDF) return tail(1) ? 2 : 0;
  if (b >= 0xE0 && b <= 0xEF) {
    const unsigned low = b == 0xE0 ? 0xA0 : 0x80;
    const unsigned high = b == 0xED ? 0x9F : 0xBF;
    return tail(1, low, high) && tail(2) ? 3 : 0;
  }
  if (b >= 0xF0 && b <= 0xF4) {
    const unsigned low = b == 0xF0 ? 0x90 : 0x80;
    const unsigned high = b == 0xF4 ? 0x8F : 0xBF;
    return tail(1, low, high) && tail(2) && tail(3) ? 4 : 0;
  }
  return 0;
}

// C0 and DEL are one byte; C1 (U+0080 to U+009F) is C2 80 to C2 9F, and a terminal may obey it.
bool is_control(std::string_view character) {
  const auto first = static_cast<unsigned char>(character[0]);
  if (character.size() == 1) return first < 0x20 || first == 0x7F;
  return first == 0xC2 && static_cast<unsigned char>(character[1]) < 0xA0;
}

}  // namespace

std::string_view trim(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::optional<std::string_view> nearest(std::string_view word,
                                        std::span<const std::string_view> candidates) {
  if (word.empty() || word.size() > 200) return {};
  std::optional<std::string_view> best;
  std::size_t best_distance = (word.size() + 2) / 3 + 1;
  for (const std::string_view candidate : candidates) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best_distance) {
      best_distance = distance;
      best = candidate;
    }
  }
  return best;
}

std::string shortest(double value) {
  std::array<char, 40> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
  return {buffer.data(), end};
}

std::string readable(double value, int significant) {
  if (!std::isfinite(value)) return "?";
  if (value == 0.0) return "0";
  const int magnitude = static_cast<int>(std::floor(std::log10(std::fabs(value))));
  const int decimals = std::clamp(significant - 1 - magnitude, 0, 9);
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (decimals > 0) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) text.pop_back();
  }
  const std::size_t first = text.starts_with('-') ? 1 : 0;
  std::size_t end = std::min(text.find('.'), text.size());
  if (end - first < 5) return text == "-0" ? "0" : text;
  while (end > first + 3) {
    end -= 3;
    text.insert(end, ",");
  }
  return text;
}

std::optional<double> parse_number(std::string_view text) {
  if (text.starts_with('+') && !text.starts_with("+-")) text.remove_prefix(1);
  if (text.empty() || !(text[0] == '-' || text[0] == '.' || (text[0] >= '0' && text[0] <= '9')))
    return {};
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return {};
  return value;
}

std::optional<std::size_t> first_bad_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_sequence(text.substr(at));
    if (length == 0) return at;
    at += length;
  }
  return {};
}

std::string excerpt(std::string_view text, std::size_t bytes) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_sequence(text.substr(at));
    if (out.size() + std::max<std::size_t>(length, 1) > bytes) return out + "...";
    if (length == 0 || is_control(text.substr(at, length)))
      out += '?';
    else
      out += text.substr(at, length);
    at += std::max<std::size_t>(length, 1);
  }
  return out;
}

bool is_slug(std::string_view text) {
  if (text.empty() || text.size() > 64 || text.front() == '-' || text.back() == '-') return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (!((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-')) return false;
    if (c == '-' && text[i - 1] == '-') return false;
  }
  return true;
}

}  // namespace rigproof
