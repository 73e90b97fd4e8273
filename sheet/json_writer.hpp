// A writer of JSON text: keys in the order they are given, two spaces of indent, numbers as the
// shortest text that reads back the same (which the library writers of the house do not promise).
#pragma once

#include <concepts>
#include <cstdint>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace rigproof::sheet {

class JsonWriter {
 public:
  void begin_object() { open('{'); }
  void end_object() { close('}'); }
  void begin_array() { open('['); }
  void end_array() { close(']'); }

  /// In an object: the name of what comes next.
  void key(std::string_view name);

  /// Any bytes: malformed UTF-8 becomes U+FFFD, control characters are escaped.
  void text(std::string_view value);
  /// Finite, or it is a bug: JSON has no other numbers.
  void number(double value);
  void integer(std::int64_t value);
  void boolean(bool value);

  void member(std::string_view name, std::string_view value) { key(name), text(value); }
  void member(std::string_view name, double value) { key(name), number(value); }
  void member(std::string_view name, std::integral auto value) {
    key(name);
    if constexpr (std::is_same_v<decltype(value), bool>)
      boolean(value);
    else
      integer(static_cast<std::int64_t>(value));
  }

  /// The document, with a line end. All that was begun must be ended.
  [[nodiscard]] std::string take();

 private:
  struct Level {
    bool empty = true;
  };
  void open(char bracket);
  void close(char bracket);
  void before_value();
  void quote(std::string_view value);

  std::string out_;
  std::vector<Level> levels_;
  bool after_key_ = false;
};

}  // namespace rigproof::sheet
