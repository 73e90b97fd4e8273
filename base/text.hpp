// Small text tools that several layers need: nearest names, numbers as text, UTF-8 checks.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace rigproof {

[[nodiscard]] std::string_view trim(std::string_view text);

/// The candidate with the smallest edit distance to `word`, if it is near enough to be a slip of
/// the hand: at most a third of the word's length, rounded up. First one wins a tie.
[[nodiscard]] std::optional<std::string_view> nearest(std::string_view word,
                                                      std::span<const std::string_view> candidates);

/// The shortest decimal text that reads back as the same double (std::to_chars).
[[nodiscard]] std::string shortest(double value);

/// A number for people: `significant` significant digits, but whole digits are never rounded away
/// and at most nine decimals are shown; no exponent, no trailing zeros after the point, thousands
/// grouped from 10,000 on; `?` when not finite.
[[nodiscard]] std::string readable(double value, int significant = 3);

/// Whole text is one finite number with a decimal point ('.'): digits, optional sign, optional
/// exponent.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);

/// Byte offset of the first byte that is not well-formed UTF-8, or nullopt. Source: [rfc-3629].
[[nodiscard]] std::optional<std::size_t> first_bad_utf8(std::string_view text);

/// The text cut to at most `bytes` bytes on a character border, then "..." when cut; control
/// characters and malformed bytes shown as '?': safe to print in a message.
[[nodiscard]] std::string excerpt(std::string_view text, std::size_t bytes = 60);

/// A slug: lower-case letters, digits and single inner hyphens; 1 to 64 characters.
[[nodiscard]] bool is_slug(std::string_view text);

}  // namespace rigproof
