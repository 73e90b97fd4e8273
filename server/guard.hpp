// Who may ask: the checks that stand before every answer.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "server/request.hpp"

namespace rigproof::server {

struct Guarded {
  /// What the Host header may be, in lower case, with the port: `127.0.0.1:8460`. A page
  /// that resolves its own name to this machine (DNS rebinding) sends that name, and is refused.
  std::vector<std::string> hosts;
  /// Not empty: has to come with every request, as `Authorization: Bearer TOKEN` or as the cookie
  /// that a first visit with `?token=TOKEN` sets.
  std::string token;
};

inline constexpr std::string_view token_cookie = "rigproof_token";

/// nullopt: may be answered. Whatever may change something needs an Origin of this very place,
/// where a browser sends one, and a JSON body, which no form of another place can send.
[[nodiscard]] std::optional<Response> refusal(const Guarded& guarded, const Request& request);

/// Compares in a time that does not tell where they differ.
[[nodiscard]] bool same_secret(std::string_view a, std::string_view b);

/// The headers of every answer: content security policy, no sniffing, no framing, no referrer.
[[nodiscard]] const std::vector<std::pair<std::string, std::string>>& safety_headers();

}  // namespace rigproof::server
