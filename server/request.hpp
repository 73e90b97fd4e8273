// One request and its answer, without any socket: what the routes of the API are written in.
#pragma once

#include <initializer_list>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "catalog/complaints.hpp"

namespace rigproof::server {

using Json = nlohmann::ordered_json;

struct Request {
  std::string method;                          ///< GET, POST, PUT, DELETE
  std::string path;                            ///< decoded, without the query
  std::map<std::string, std::string> query;    ///< decoded; of a name given twice the last
  std::map<std::string, std::string> headers;  ///< names in lower case
  std::string body;
  bool body_follows = false;  ///< only its head was read so far
  [[nodiscard]] std::string_view header(const std::string& name) const {
    const auto found = headers.find(name);
    return found == headers.end() ? std::string_view() : std::string_view(found->second);
  }
};

struct Response {
  int status = 200;
  std::string type = "application/json; charset=utf-8";
  std::string body;
  std::vector<std::pair<std::string, std::string>> headers = {};
  /// Not empty: what follows is the stream of this job's events, and `body` is not sent.
  std::string events_of_job = {};
};

[[nodiscard]] Response json_response(const Json& body, int status = 200);
/// In: `body` is JSON already.
[[nodiscard]] Response text_response(std::string body, int status = 200);
/// `{"code", "message"}`, as answers and jobs state what is wrong.
[[nodiscard]] Json error_json(const Error& error);
/// `{"error": {"code", "message", "problems"}}` with the status that belongs to the code.
[[nodiscard]] Response error_response(const Error& error);
[[nodiscard]] Response error_response(int status, std::string_view code, std::string_view message);
/// Status 400, code bad_input.
[[nodiscard]] Response bad_request(std::string message);
/// The same with every complaint at its place.
[[nodiscard]] Response error_response(const Complaints& complaints);

/// `{"place", "line", "column", "what", "expected", "text"}` each; then how many there are in all.
[[nodiscard]] Json problems_json(const Complaints& complaints);

/// Errors: bad_input (no JSON, not an object, too deep).
[[nodiscard]] Result<Json> object_of(std::string_view body);
/// The same of an object that has no members but these. Errors: as well, naming the first other.
[[nodiscard]] Result<Json> object_of(std::string_view body,
                                     std::initializer_list<std::string_view> members);
/// A member that may be left out. Errors: bad_input (it is there, and neither true nor false).
[[nodiscard]] Result<bool> flag_of(const Json& object, std::string_view member);

}  // namespace rigproof::server
