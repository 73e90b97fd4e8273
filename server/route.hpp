// The routes of the API, each declared once: what answers a request and what openapi.json says of
// it are derived from the same list.
#pragma once

#include <functional>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "server/desk.hpp"
#include "server/request.hpp"

namespace rigproof::server {

/// The parts of a path that stand for something: `{id}` in the pattern.
using PathParts = std::map<std::string, std::string>;

struct QueryPart {
  std::string name, meaning;
  bool required = false;
};

struct Route {
  std::string method;
  std::string pattern;  ///< `/api/documents/{id}`
  std::string about;
  std::vector<QueryPart> query = {};
  Json body = {};    ///< JSON Schema of the body; null: none is taken
  Json answer = {};  ///< JSON Schema of the answer; null where it is no JSON
  std::string type = "application/json";
  std::vector<int> statuses = {200};  ///< of the answer; others are errors
  std::function<Response(Desk& desk, const Request& request, const PathParts& path)> handle;
};

[[nodiscard]] std::vector<Route> workshop_routes();
[[nodiscard]] std::vector<Route> document_routes();
[[nodiscard]] std::vector<Route> job_routes();
[[nodiscard]] std::vector<Route> table_routes();
[[nodiscard]] std::vector<Route> price_routes();

/// A job as the API tells it.
[[nodiscard]] std::string job_json(const JobView& view, bool with_answer);

/// All of them, `/api/openapi.json` among them.
[[nodiscard]] std::span<const Route> all_routes();

/// The answer to any request under /api. Never throws: a mistake of ours is status 500.
[[nodiscard]] Response answer(Desk& desk, const Request& request);

/// The description of the API, OpenAPI 3.1. Source: [openapi-spec] 3.1.0.
[[nodiscard]] std::string openapi_json();

}  // namespace rigproof::server
