// TOML 1.0 as a small tree with places. The only door to the TOML library, which one source file
// includes; everything above works on these values.
//
// Limits, against inputs made to hurt: 256 KiB a file, 16 levels of arrays and inline tables,
// dotted keys of at most 16 names.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "catalog/complaints.hpp"

namespace rigproof {

inline constexpr std::size_t max_toml_bytes = 256 * 1024;
inline constexpr int max_toml_nesting = 16;
inline constexpr int max_toml_key_names = 16;

/// Line and column from 1; the column counts characters (code points). 0: none.
struct TomlPlace {
  std::size_t line = 0;
  std::size_t column = 0;
};

/// One value of a TOML file. Which of the value members counts follows from `type`.
struct TomlNode {
  enum class Type : std::uint8_t { table, array, text, whole, real, flag, date, moment };

  Type type = Type::table;
  TomlPlace place;      ///< of the value; of a table, its header
  std::string key;      ///< in a table: the name it stands under; else empty
  TomlPlace key_place;  ///< of that name
  std::string written;  ///< as the file has it (strings: unquoted), shortened; empty for tables
  std::string text;
  std::int64_t whole = 0;
  double real = 0.0;  ///< may be infinite or NaN, as TOML allows
  bool flag = false;
  std::optional<Date> date;        ///< nullopt: outside the years 1900 to 2199
  std::vector<TomlNode> children;  ///< of tables (in the file's order) and arrays

  [[nodiscard]] const TomlNode* find(std::string_view name) const;
};

/// "a string", "a whole number", ...: for messages.
[[nodiscard]] std::string_view name_of(TomlNode::Type type);

/// In: bytes, and the file's name for messages. Out: the root table; nullopt after one complaint
/// (not UTF-8, too large, too deep, or the first place that is not TOML).
[[nodiscard]] std::optional<TomlNode> read_toml(std::string_view bytes, const std::string& file,
                                                Complaints& complaints);

/// A basic string of TOML, with quotes and escapes, that reads back as `text` (well-formed UTF-8).
[[nodiscard]] std::string toml_string(std::string_view text);
/// A key: bare where TOML allows it, else quoted.
[[nodiscard]] std::string toml_key(std::string_view name);

}  // namespace rigproof
