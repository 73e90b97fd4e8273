// Oracles: UTF-8 by arithmetic on code points ([rfc-3629] section 4, which the table of well-formed
// sequences, Unicode 3-7, spells out), edit distance by recursion, and round trips.
#include "base/text.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <limits>
#include <random>
#include <vector>

namespace rigproof {
namespace {

std::string encode(std::uint32_t code) {
  const auto byte = [](std::uint32_t value) {
    return static_cast<char>(static_cast<unsigned char>(value));
  };
  const auto tail = [&](int shift) { return byte(0x80U | ((code >> shift) & 0x3FU)); };
  if (code < 0x80) return {byte(code)};
  if (code < 0x800) return {byte(0xC0U | (code >> 6)), tail(0)};
  if (code < 0x10000) return {byte(0xE0U | (code >> 12)), tail(6), tail(0)};
  return {byte(0xF0U | (code >> 18)), tail(12), tail(6), tail(0)};
}

// The one character in exactly these bytes, by its lead byte's length, then by ranges of the value.
bool is_one_character(const std::string& bytes) {
  const auto lead = static_cast<unsigned char>(bytes[0]);
  const int ones = std::countl_one(lead);
  const std::size_t length = ones == 0 ? 1 : static_cast<std::size_t>(ones);
  if (ones == 1 || ones > 4 || bytes.size() != length) return false;
  std::uint32_t code = ones == 0 ? lead : lead & (0x7FU >> ones);
  for (std::size_t i = 1; i < length; ++i) {
    const auto c = static_cast<unsigned char>(bytes[i]);
    if ((c & 0xC0U) != 0x80U) return false;
    code = (code << 6) | (c & 0x3FU);
  }
  constexpr std::array<std::uint32_t, 5> smallest{0, 0, 0x80, 0x800, 0x10000};
  return code >= smallest[length] && code <= 0x10FFFF && !(code >= 0xD800 && code <= 0xDFFF);
}

TEST(Utf8, EveryCharacterIsWellFormed) {
  for (std::uint32_t code = 0; code <= 0x10FFFF; ++code) {
    if (code >= 0xD800 && code <= 0xDFFF) continue;
    ASSERT_FALSE(first_bad_utf8(encode(code))) << std::hex << code;
  }
}

TEST(Utf8, OverlongSurrogateAndBeyondAreNot) {
  // Surrogates and values above 10FFFF, by the same encoder; overlong forms by hand.
  for (std::uint32_t code = 0xD800; code <= 0xDFFF; ++code)
    ASSERT_EQ(first_bad_utf8(encode(code)), 0U);
  EXPECT_EQ(first_bad_utf8(encode(0x110000)), 0U);
  for (const std::string_view bytes :
       {"\xC0\x80", "\xC0\xAF", "\xC1\xBF", "\xE0\x80\xAF", "\xE0\x9F\xBF", "\xF0\x80\x80\xAF",
        "\xF0\x8F\xBF\xBF", "\xF5\x80\x80\x80", "\xFE", "\xFF", "\x80", "\xBF", "\xC3", "\xE2\x82",
        "\xF0\x9F\x98"})
    EXPECT_EQ(first_bad_utf8(bytes), 0U) << ::testing::PrintToString(bytes);
  EXPECT_EQ(first_bad_utf8("ab\xC3\xA9\xFFz"), 4U);
  EXPECT_EQ(first_bad_utf8("ab\xC3"), 2U);
  EXPECT_FALSE(first_bad_utf8(""));
}

TEST(Utf8, AgreesWithArithmeticOnAllBordersOfBytes) {
  // All first and second bytes; third and fourth from the borders of their ranges.
  constexpr std::array<int, 6> borders{0x00, 0x7F, 0x80, 0xBF, 0xC0, 0xFF};
  const auto agree = [](const std::string& bytes) {
    // One character, nothing else: well-formed, and no shorter front of it is.
    const bool whole = !first_bad_utf8(bytes) && first_bad_utf8(bytes.substr(0, bytes.size() - 1));
    return whole == is_one_character(bytes);
  };
  for (int first = 0x80; first < 256; ++first) {
    for (int second = 0; second < 256; ++second) {
      std::string bytes{static_cast<char>(first), static_cast<char>(second)};
      ASSERT_TRUE(agree(bytes)) << first << ' ' << second;
      for (const int third : borders) {
        bytes = {static_cast<char>(first), static_cast<char>(second), static_cast<char>(third)};
        ASSERT_TRUE(agree(bytes)) << first << ' ' << second << ' ' << third;
        for (const int fourth : borders)
          ASSERT_TRUE(agree(bytes + static_cast<char>(fourth)))
              << first << ' ' << second << ' ' << third;
      }
    }
  }
}

TEST(Excerpt, NeverCutsACharacterAndNeverExceedsItsBytes) {
  // One to four bytes a character: a, e acute, the euro sign, a face.
  const std::string text = "a\xC3\xA9\xE2\x82\xAC\xF0\x9F\x98\x80";
  std::string long_text;
  for (int i = 0; i < 9; ++i) long_text += text;
  for (std::size_t bytes = 0; bytes <= long_text.size() + 2; ++bytes) {
    const std::string cut = excerpt(long_text, bytes);
    ASSERT_FALSE(first_bad_utf8(cut)) << bytes;
    if (bytes >= long_text.size()) {
      ASSERT_EQ(cut, long_text);
      continue;
    }
    ASSERT_TRUE(cut.ends_with("...")) << bytes;
    const std::string kept = cut.substr(0, cut.size() - 3);
    ASSERT_TRUE(long_text.starts_with(kept)) << bytes;
    ASSERT_LE(kept.size(), bytes);
    ASSERT_GT(kept.size() + 4, bytes);  // no character is longer than four bytes: no more is lost
  }
}

TEST(Excerpt, ShowsNothingThatATerminalObeys) {
  EXPECT_EQ(excerpt("a\x1B[31mb"), "a?[31mb");
  EXPECT_EQ(excerpt("a\tb\r\nc\x7F"), "a?b??c?");
  EXPECT_EQ(excerpt("a\xC2\x9B"
                    "31mb"),
            "a?31mb");  // U+009B opens a control sequence as well
  EXPECT_EQ(excerpt("a\xC2\xA0"
                    "b"),
            "a\xC2\xA0"
            "b");  // U+00A0 is a space
  EXPECT_EQ(excerpt("a\xFF\xC3"), "a??");
  EXPECT_EQ(excerpt(std::string_view("a\0b", 3)), "a?b");
}

int distance_by_recursion(std::string_view a, std::string_view b) {
  if (a.empty() || b.empty()) return static_cast<int>(a.size() + b.size());
  const int changed = distance_by_recursion(a.substr(1), b.substr(1)) + (a[0] == b[0] ? 0 : 1);
  return std::min({distance_by_recursion(a.substr(1), b) + 1,
                   distance_by_recursion(a, b.substr(1)) + 1, changed});
}

TEST(Nearest, FindsSlipsOfTheHand) {
  constexpr std::array<std::string_view, 4> known{"length_mm", "width_mm", "height_mm", "power_w"};
  EXPECT_EQ(nearest("lenght_mm", known), "length_mm");
  EXPECT_EQ(nearest("powerw", known), "power_w");
  EXPECT_EQ(nearest("width_mm", known), "width_mm");
  EXPECT_FALSE(nearest("colour", known));
  EXPECT_FALSE(nearest("", known));
  EXPECT_FALSE(nearest("length_mm", {}));
}

TEST(Nearest, IsTheFirstOfTheSmallestDistances) {
  std::mt19937 random(9);
  const auto word = [&](std::size_t longest) {
    std::string text(1 + random() % longest, 'a');
    for (char& c : text) c = static_cast<char>('a' + random() % 3);
    return text;
  };
  for (int round = 0; round < 400; ++round) {
    const std::string slip = word(6);
    std::vector<std::string> words;
    for (int i = 0; i < 5; ++i) words.push_back(word(6));
    const std::vector<std::string_view> candidates(words.begin(), words.end());
    const int near_enough = static_cast<int>(std::ceil(static_cast<double>(slip.size()) / 3.0));
    std::optional<std::string_view> expected;
    int smallest = near_enough;
    for (std::size_t i = candidates.size();
         i-- > 0;) {  // backwards, so that the first of equals stays
      const int distance = distance_by_recursion(slip, candidates[i]);
      if (distance <= smallest) {
        smallest = distance;
        expected = candidates[i];
      }
    }
    ASSERT_EQ(nearest(slip, candidates), expected) << slip;
  }
}

TEST(Shortest, ReadsBackAndIsNoLongerThanNeeded) {
  std::mt19937_64 random(13);
  for (int i = 0; i < 20'000; ++i) {
    const auto value = std::bit_cast<double>(random());
    if (!std::isfinite(value)) continue;
    const std::string text = shortest(value);
    ASSERT_EQ(std::strtod(text.c_str(), nullptr), value) << text;
    // No decimal with one digit less reads back as the same number.
    const auto digits = std::ranges::count_if(text.substr(0, text.find('e')),
                                              [](char c) { return c >= '0' && c <= '9'; });
    if (text.find('e') == std::string::npos || digits < 2) continue;
    std::array<char, 64> shorter{};
    (void)std::snprintf(shorter.data(), shorter.size(), "%.*e", static_cast<int>(digits) - 2,
                        value);
    ASSERT_NE(std::strtod(shorter.data(), nullptr), value) << text << " against " << shorter.data();
  }
  EXPECT_EQ(shortest(0.1), "0.1");
  EXPECT_EQ(shortest(1350.0), "1350");
  EXPECT_EQ(shortest(-0.25), "-0.25");
}

TEST(Readable, RoundsForPeople) {
  const std::vector<std::pair<double, std::string>> rows{{0.0, "0"},
                                                         {12.0, "12"},
                                                         {12.34, "12.3"},
                                                         {12.36, "12.4"},
                                                         {-12.36, "-12.4"},
                                                         {0.012345, "0.0123"},
                                                         {999.6, "1000"},
                                                         {9999.4, "9999"},
                                                         {10000.0, "10,000"},
                                                         {1234567.0, "1,234,567"},
                                                         {-1234567.0, "-1,234,567"},
                                                         {99.96, "100"},
                                                         {0.9999, "1"},
                                                         {1e-12, "0"},
                                                         {-1e-12, "0"}};
  for (const auto& [value, text] : rows) EXPECT_EQ(readable(value), text) << value;
  EXPECT_EQ(readable(3.14159, 5), "3.1416");
  EXPECT_EQ(readable(std::numeric_limits<double>::infinity()), "?");
  EXPECT_EQ(readable(std::numeric_limits<double>::quiet_NaN()), "?");
}

TEST(ParseNumber, ReadsPlainNumbers) {
  const std::vector<std::pair<std::string_view, double>> rows{
      {"1", 1.0},      {"-1.5", -1.5},
      {"+1.5", 1.5},   {"0.1", 0.1},
      {"1e3", 1000.0}, {"1E-3", 1e-3},
      {".5", 0.5},     {"-.5", -0.5},
      {"007", 7.0},    {"1.7976931348623157e308", 1.7976931348623157e308}};
  for (const auto& [text, value] : rows) EXPECT_EQ(parse_number(text), value) << text;
}

TEST(ParseNumber, RefusesEverythingElse) {
  for (const std::string_view text : {"",
                                      "nan",
                                      "NaN",
                                      "-nan",
                                      "inf",
                                      "-inf",
                                      "INFINITY",
                                      "0x10",
                                      "-0x10",
                                      "0x1p3",
                                      " 1",
                                      "1 ",
                                      "\t1",
                                      "1,5",
                                      "1,000",
                                      "1.5.2",
                                      "+",
                                      "-",
                                      ".",
                                      "+-1",
                                      "-+1",
                                      "++1",
                                      "--1",
                                      "1e",
                                      "1e+",
                                      "e3",
                                      "1e999",
                                      "-1e999",
                                      "1 2",
                                      "1_000",
                                      "1'000",
                                      "1f",
                                      "\xEF\xBC\x91",
                                      "\xE2\x88\x92\x31",  // a minus sign of print
                                      "$1",
                                      "1%"})
    EXPECT_FALSE(parse_number(text)) << text;
  EXPECT_FALSE(parse_number(std::string_view("1\0", 2)));
}

TEST(ParseNumber, ReadsWhatShortestWrites) {
  std::mt19937_64 random(17);
  for (int i = 0; i < 20'000; ++i) {
    const auto value = std::bit_cast<double>(random());
    if (!std::isfinite(value)) continue;
    ASSERT_EQ(parse_number(shortest(value)), value) << shortest(value);
  }
}

TEST(Trim, TakesBlanksFromBothEnds) {
  EXPECT_EQ(trim("  a b\t\r\n"), "a b");
  EXPECT_EQ(trim(" \t "), "");
  EXPECT_EQ(trim(""), "");
  EXPECT_EQ(trim("a"), "a");
}

TEST(Slug, Shape) {
  for (const std::string_view text : {"a", "0", "harbour-lights", "a-1-b"})
    EXPECT_TRUE(is_slug(text)) << text;
  EXPECT_TRUE(is_slug(std::string(64, 'a')));
  for (const std::string_view text :
       {"", "-a", "a-", "a--b", "A", "a_b", "a b", "a.b", "\xC3\xA9", "-", "a\n"})
    EXPECT_FALSE(is_slug(text)) << text;
  EXPECT_FALSE(is_slug(std::string(65, 'a')));
}

}  // namespace
}  // namespace rigproof
