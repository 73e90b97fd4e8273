#include "base/result.hpp"

#include <fmt/format.h>

namespace rigproof {

tl::unexpected<Error> out_of_range(const char* field, double value) {
  return fail(ErrorCode::out_of_range, fmt::format("{}: {} is outside its range", field, value));
}

}  // namespace rigproof
