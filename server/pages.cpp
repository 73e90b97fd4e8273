#include "server/pages.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "server/gzip.hpp"

namespace rigproof::server {
namespace {

constexpr std::string_view start_page = "/index.html";

Response as_response(const Asset& asset, bool packed) {
  Response out;
  out.type = asset.type;
  out.headers.emplace_back("Vary", "Accept-Encoding");
  if (asset.immutable)
    out.headers.emplace_back("Cache-Control", "private, max-age=31536000, immutable");
  if (packed) {
    out.body.assign(asset.gzip.begin(), asset.gzip.end());
    out.headers.emplace_back("Content-Encoding", "gzip");
    return out;
  }
  auto plain = unpacked(asset.gzip);
  if (!plain) return error_response(500, "fault", "a page of this program is damaged");
  out.body = std::move(*plain);
  return out;
}

// An address of a page has no dot in its last part; a file has.
bool is_a_file(std::string_view path) {
  return path.substr(path.find_last_of('/') + 1).find('.') != std::string_view::npos;
}

}  // namespace

Response page(std::span<const Asset> all, const Request& request) {
  if (request.method != "GET") {
    Response out = error_response(405, "bad_input", "expected GET");
    out.headers.emplace_back("Allow", "GET");
    return out;
  }
  if (all.empty()) {
    Response out;
    out.type = "text/plain; charset=utf-8";
    out.body =
        "This program was built without the pages (npm was not there). The API answers under "
        "/api/openapi.json.\n";
    return out;
  }
  const std::string_view wanted =
      is_a_file(request.path) ? std::string_view(request.path) : start_page;
  const auto found = std::ranges::find(all, wanted, &Asset::path);
  if (found != all.end()) return as_response(*found, takes_gzip(request.header("accept-encoding")));
  return error_response(404, "not_found", excerpt(request.path) + ": nothing is here");
}

}  // namespace rigproof::server
