// What is carried compressed, for clients that do not take it so.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace rigproof::server {

/// Whether an Accept-Encoding header takes gzip: it is named, or `*` is, and not with a weight of
/// 0. Source: [rfc-9110] section 12.5.3.
[[nodiscard]] bool takes_gzip(std::string_view accept_encoding);

/// In: a whole gzip member of our own. Errors: bad_input (it is none).
[[nodiscard]] Result<std::string> unpacked(std::span<const unsigned char> gzip);

}  // namespace rigproof::server
