// Ids that the store gives out: short, random, safe in a URL and in a file name.
#pragma once

#include <compare>
#include <string>
#include <string_view>

namespace rigproof::store {

/// Ten letters of the base32 alphabet in lower case, `a` to `z` and `2` to `7`: 50 random bits.
/// Source: [rfc-4648] section 6 for the alphabet. `Of` keeps ids of one thing from being taken for
/// those of another.
template <class Of>
struct Id {
  std::string text;
  friend auto operator<=>(const Id&, const Id&) = default;
};

using DocumentId = Id<struct OfDocument>;
using ItemId = Id<struct OfItem>;
using RunId = Id<struct OfRun>;
using RecordId = Id<struct OfRecord>;

inline constexpr std::size_t id_letters = 10;

/// A new one from std::random_device. The caller sees to it that no other thing has it.
[[nodiscard]] std::string random_id();

/// Whether the text could be an id at all.
[[nodiscard]] bool is_id(std::string_view text);

}  // namespace rigproof::store
