#include "server/guard.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace rigproof::server {
namespace {

Response forbidden(std::string_view message) { return error_response(403, "forbidden", message); }

// The value of a cookie; empty when it is not there.
std::string_view cookie_of(std::string_view header, std::string_view name) {
  while (!header.empty()) {
    const std::size_t end = std::min(header.find(';'), header.size());
    std::string_view one = header.substr(0, end);
    header.remove_prefix(std::min(end + 1, header.size()));
    while (one.starts_with(' ')) one.remove_prefix(1);
    if (one.starts_with(name) && one.substr(name.size()).starts_with('='))
      return one.substr(name.size() + 1);
  }
  return {};
}

bool begins_with_word(std::string_view text, std::string_view lower) {
  if (text.size() < lower.size()) return false;
  for (std::size_t i = 0; i < lower.size(); ++i)
    if ((text[i] >= 'A' && text[i] <= 'Z' ? text[i] - 'A' + 'a' : text[i]) != lower[i])
      return false;
  return true;
}

bool has_token(const Guarded& guarded, const Request& request) {
  constexpr std::string_view bearer = "bearer ";  // a scheme in any case: [rfc-9110] 11.1
  const std::string_view given = request.header("authorization");
  if (begins_with_word(given, bearer) && same_secret(given.substr(bearer.size()), guarded.token))
    return true;
  return same_secret(cookie_of(request.header("cookie"), token_cookie), guarded.token);
}

// A first visit brings the token in its address; it goes into a cookie and out of the address. The
// cookie is Lax, not Strict: a link in another page's message has to work, and what such a link can
// ask for is a GET, which changes nothing.
std::optional<Response> first_visit(const Guarded& guarded, const Request& request) {
  const auto given = request.query.find("token");
  if (request.method != "GET" || given == request.query.end() || request.path.starts_with("/api/"))
    return {};
  if (!same_secret(given->second, guarded.token)) return {};
  Response out;
  out.status = 303;
  out.type = "text/plain; charset=utf-8";
  out.headers.emplace_back("Location", "/");
  out.headers.emplace_back("Set-Cookie", fmt::format("{}={}; Path=/; HttpOnly; SameSite=Lax",
                                                     token_cookie, guarded.token));
  return out;
}

bool is_json(std::string_view type) {
  constexpr std::string_view json = "application/json";
  if (!begins_with_word(type, json)) return false;
  const std::string_view more = type.substr(json.size());
  return more.empty() || more.front() == ';' || more.front() == ' ';
}

}  // namespace

bool same_secret(std::string_view a, std::string_view b) {
  unsigned char different = a.size() == b.size() ? 0 : 1;
  for (std::size_t i = 0; i < b.size(); ++i) {
    const char of_a = a.empty() ? '\0' : a[i % a.size()];
    different = static_cast<unsigned char>(different | static_cast<unsigned char>(of_a ^ b[i]));
  }
  return different == 0;
}

std::optional<Response> refusal(const Guarded& guarded, const Request& request) {
  const std::string_view host = request.header("host");
  const auto is_host = [&](const std::string& known) {
    return known.size() == host.size() && begins_with_word(host, known);
  };
  if (std::ranges::none_of(guarded.hosts, is_host))
    return forbidden("this service does not answer to that name");
  if (!guarded.token.empty()) {
    if (auto visit = first_visit(guarded, request)) return visit;
    if (!has_token(guarded, request)) {
      Response out = error_response(
          401, "forbidden", "a token is needed: open the address that rigproof serve printed");
      out.headers.emplace_back("WWW-Authenticate", "Bearer");
      return out;
    }
  }
  const std::string_view site = request.header("sec-fetch-site");
  if (request.path.starts_with("/api/") && (site == "cross-site" || site == "same-site"))
    return forbidden("asked by a page of another place");
  if (request.method == "GET") return {};
  const std::string_view origin = request.header("origin");
  const auto is_origin = [&](std::string_view http) {
    return begins_with_word(origin, http) && origin.substr(http.size()) == host;
  };
  if (!origin.empty() && !is_origin("http://"))
    return forbidden("asked by a page of another place");
  const bool has_body = !request.body.empty() || request.body_follows;
  if (has_body && !is_json(request.header("content-type")))
    return error_response(415, "bad_input", "expected a body of type application/json");
  return {};
}

const std::vector<std::pair<std::string, std::string>>& safety_headers() {
  static const std::vector<std::pair<std::string, std::string>> headers = {
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' "
       "data: blob:; connect-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; "
       "frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Cache-Control", "no-store"}};
  return headers;
}

}  // namespace rigproof::server
