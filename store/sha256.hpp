// SHA-256 of a text: what tells whether stored bytes are still those that were given.
#pragma once

#include <string>
#include <string_view>

namespace rigproof::store {

/// 64 hexadecimal digits in lower case. Source: [fips-180-4] section 6.2.
[[nodiscard]] std::string sha256(std::string_view bytes);

}  // namespace rigproof::store
