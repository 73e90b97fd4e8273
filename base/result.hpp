// Result: a value, or an error the world caused (file, input, limit). See
// docs/decisions/0002-three-kinds-of-no.md.
#pragma once

#include <string>
#include <tl/expected.hpp>
#include <utility>

namespace rigproof {

enum class ErrorCode {
  bad_input,     ///< a file, a cell, an option
  out_of_range,  ///< a number left its interval
  not_found,     ///< a name that nothing answers to
  io,            ///< a file cannot be read or written
  stopped,       ///< the user stopped a long job
  conflict,      ///< what was to be changed has changed meanwhile
};

struct Error {
  ErrorCode code = ErrorCode::bad_input;
  std::string
      message;  ///< one or more lines, each complete: place, what is wrong, what was expected
};

template <class T>
using Result = tl::expected<T, Error>;

[[nodiscard]] inline tl::unexpected<Error> fail(ErrorCode code, std::string message) {
  return tl::unexpected<Error>(Error{code, std::move(message)});
}
[[nodiscard]] inline tl::unexpected<Error> bad_input(std::string message) {
  return fail(ErrorCode::bad_input, std::move(message));
}

/// Names the field and its value: `load_w: -3 is outside its range`.
[[nodiscard]] tl::unexpected<Error> out_of_range(const char* field, double value);

}  // namespace rigproof
