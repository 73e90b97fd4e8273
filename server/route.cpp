#include "server/route.hpp"

#include <exception>
#include <iterator>

#include "base/text.hpp"

namespace rigproof::server {
namespace {

// `/api/documents/{id}` against `/api/documents/abc`. In: both begin with a slash.
bool matches(std::string_view pattern, std::string_view path, PathParts& parts) {
  parts.clear();
  while (!pattern.empty() && !path.empty()) {
    pattern.remove_prefix(1);
    path.remove_prefix(1);
    const std::string_view wanted = pattern.substr(0, pattern.find('/'));
    const std::string_view given = path.substr(0, path.find('/'));
    if (wanted.starts_with('{')) {
      if (given.empty()) return false;
      parts.emplace(wanted.substr(1, wanted.size() - 2), given);
    } else if (wanted != given) {
      return false;
    }
    pattern.remove_prefix(wanted.size());
    path.remove_prefix(given.size());
  }
  return pattern.empty() && path.empty();
}

void append(std::vector<Route>& all, std::vector<Route> more) {
  all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace

std::span<const Route> all_routes() {
  static const std::vector<Route> routes = [] {
    std::vector<Route> all = workshop_routes();
    append(all, document_routes());
    append(all, job_routes());
    append(all, table_routes());
    append(all, price_routes());
    all.push_back({.method = "GET",
                   .pattern = "/api/openapi.json",
                   .about = "This description.",
                   .answer = {{"type", "object"}},
                   .handle = [](Desk&, const Request&, const PathParts&) {
                     static const std::string description = openapi_json();
                     return text_response(description);
                   }});
    return all;
  }();
  return routes;
}

Response answer(Desk& desk, const Request& request) {
  std::string allowed;
  PathParts parts;
  for (const Route& route : all_routes()) {
    if (!matches(route.pattern, request.path, parts)) continue;
    if (route.method != request.method) {
      allowed += (allowed.empty() ? "" : ", ") + route.method;
      continue;
    }
    try {
      return route.handle(desk, request, parts);
    } catch (const std::exception& fault) {
      return error_response(500, "fault", std::string("an internal fault: ") + fault.what());
    }
  }
  if (allowed.empty())
    return error_response(404, "not_found", excerpt(request.path) + ": nothing is here");
  Response out = error_response(405, "bad_input", "expected one of " + allowed);
  out.headers.emplace_back("Allow", allowed);
  return out;
}

}  // namespace rigproof::server
