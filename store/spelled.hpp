// How the words of the store are spelled: in the file, in messages and in JSON alike.
#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

namespace rigproof::store {

/// The words of an enum in the order of its values; given beside each enum.
template <class Enum>
inline constexpr std::array<std::string_view, 0> spelled{};

template <class Enum>
[[nodiscard]] constexpr std::string_view word(Enum value) {
  return spelled<Enum>[static_cast<std::size_t>(value)];
}

template <class Enum>
[[nodiscard]] constexpr std::optional<Enum> find_word(std::string_view text) {
  const auto found = std::ranges::find(spelled<Enum>, text);
  if (found == spelled<Enum>.end()) return {};
  return static_cast<Enum>(found - spelled<Enum>.begin());
}

}  // namespace rigproof::store
