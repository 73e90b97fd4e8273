#include "server/request.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/text.hpp"

namespace rigproof::server {
namespace {

struct Known {
  ErrorCode code;
  int status;
  std::string_view name;
};
constexpr Known codes[] = {
    {ErrorCode::bad_input, 400, "bad_input"}, {ErrorCode::out_of_range, 400, "out_of_range"},
    {ErrorCode::not_found, 404, "not_found"}, {ErrorCode::io, 500, "io"},
    {ErrorCode::stopped, 409, "stopped"},     {ErrorCode::conflict, 409, "conflict"}};

const Known& known(ErrorCode code) { return *std::ranges::find(codes, code, &Known::code); }

constexpr int deepest = 32;  // of nested JSON: nothing that is asked needs more than four

// Depth of brackets outside strings; the parser of the library would recurse as deep as it is led.
bool too_deep(std::string_view text) {
  int depth = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '\\')
        ++i;
      else if (c == '"')
        quoted = false;
    } else if (c == '"') {
      quoted = true;
    } else if (c == '{' || c == '[') {
      if (++depth > deepest) return true;
    } else if (c == '}' || c == ']') {
      --depth;
    }
  }
  return false;
}

std::string dumped(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

Response json_response(const Json& body, int status) { return text_response(dumped(body), status); }

Response text_response(std::string body, int status) {
  Response out;
  out.status = status;
  out.body = std::move(body);
  return out;
}

Json error_json(const Error& error) {
  return {{"code", known(error.code).name}, {"message", error.message}};
}

Response error_response(const Error& error) {
  return json_response({{"error", error_json(error)}}, known(error.code).status);
}

Response bad_request(std::string message) {
  return error_response({.code = ErrorCode::bad_input, .message = std::move(message)});
}

Response error_response(int status, std::string_view code, std::string_view message) {
  return json_response({{"error", {{"code", code}, {"message", message}}}}, status);
}

Response error_response(const Complaints& complaints) {
  return json_response({{"error",
                         {{"code", "bad_input"},
                          {"message", complaints.report()},
                          {"problems", problems_json(complaints)},
                          {"problem_count", complaints.count()}}}},
                       400);
}

Json problems_json(const Complaints& complaints) {
  Json out = Json::array();
  for (const Complaint& complaint : complaints.shown())
    out.push_back({{"place", complaint.file},
                   {"line", complaint.line},
                   {"column", complaint.column},
                   {"what", complaint.what},
                   {"expected", complaint.expected},
                   {"text", complaint.text}});
  return out;
}

Result<Json> object_of(std::string_view body) {
  if (too_deep(body))
    return bad_input(fmt::format("the body is nested deeper than {} levels", deepest));
  Json json = Json::parse(body, nullptr, false);
  if (json.is_discarded()) return bad_input("the body is no JSON");
  if (!json.is_object()) return bad_input("the body is no JSON object");
  return json;
}

Result<Json> object_of(std::string_view body, std::initializer_list<std::string_view> members) {
  auto json = object_of(body);
  if (!json) return json;
  for (const auto& [name, value] : json->items())
    if (std::ranges::find(members, name) == members.end())
      return bad_input(
          fmt::format("{}: expected one of {}", excerpt(name), fmt::join(members, ", ")));
  return json;
}

Result<bool> flag_of(const Json& object, std::string_view member) {
  const auto found = object.find(member);
  if (found == object.end()) return false;
  if (!found->is_boolean()) return bad_input(fmt::format("{}: expected true or false", member));
  return found->get<bool>();
}

}  // namespace rigproof::server
