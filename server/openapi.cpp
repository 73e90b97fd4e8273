// openapi.json, from the routes and the questions as they are declared.
#include <algorithm>

#include "server/route.hpp"
#include "server/schemas.hpp"

namespace rigproof::server {
namespace {

Json components() {
  const Json text = {{"type", "string"}};
  const Json whole = {{"type", "integer"}};
  Json out = Json::object();
  out["Problem"] = object_schema({{"place", text},
                                  {"line", whole},
                                  {"column", whole},
                                  {"what", text},
                                  {"expected", text},
                                  {"text", text}});
  Json error = object_schema({{"code", text}, {"message", text}});
  error["properties"]["problems"] = list_schema(schema_ref("Problem"));
  error["properties"]["problem_count"] = whole;
  out["Error"] = object_schema({{"error", error}});
  out["Given"] = {
      {"description", "A brief or a build: the id of a kept document, or its text (TOML)."},
      {"anyOf",
       {text,
        {{"type", "object"},
         {"properties", {{"name", text}, {"text", text}}},
         {"required", {"text"}}}}}};
  const Json info = {{"id", text},
                     {"kind", text},
                     {"name", text},
                     {"revision", whole},
                     {"head_revision", whole},
                     {"saved_at", {{"type", "string"}, {"format", "date-time"}}},
                     {"deleted", {{"type", "boolean"}}}};
  out["DocumentInfo"] = object_schema(info);
  Json document = info;
  document["text"] = text;
  document["problems"] = list_schema(schema_ref("Problem"));
  out["Document"] = object_schema(document);
  Json job =
      object_schema({{"id", text},
                     {"question", text},
                     {"state", {{"enum", {"waiting", "running", "done", "stopped", "failed"}}}}});
  job["properties"]["progress"] = object_schema({{"text", text}});
  job["properties"]["error"] = error;
  job["properties"]["answer"] = {
      {"type", "object"},
      {"description", "What rigproof QUESTION --json prints; docs/schema/QUESTION.schema.json."}};
  out["Job"] = job;
  for (const Question& question : questions()) {
    Json inputs = question.inputs;
    inputs["description"] = question.about;
    out["Inputs_" + std::string(question.name)] = std::move(inputs);
  }
  return out;
}

Json content(const Json& schema) { return {{"application/json", {{"schema", schema}}}}; }

// `get /api/documents/{id}` -> `get_documents_id`.
std::string operation_id(const Route& route) {
  std::string out = route.method + route.pattern.substr(4);
  std::ranges::transform(out, out.begin(), [](char c) {
    return c == '/' || c == '.' ? '_' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  std::erase_if(out, [](char c) { return c == '{' || c == '}'; });
  return out;
}

Json operation(const Route& route) {
  Json out = {{"operationId", operation_id(route)}, {"summary", route.about}};
  Json parameters = Json::array();
  for (std::size_t at = route.pattern.find('{'); at != std::string::npos;
       at = route.pattern.find('{', at + 1)) {
    const std::size_t end = route.pattern.find('}', at);
    parameters.push_back({{"name", route.pattern.substr(at + 1, end - at - 1)},
                          {"in", "path"},
                          {"required", true},
                          {"schema", {{"type", "string"}}}});
  }
  for (const QueryPart& part : route.query)
    parameters.push_back({{"name", part.name},
                          {"in", "query"},
                          {"required", part.required},
                          {"description", part.meaning},
                          {"schema", {{"type", "string"}}}});
  if (!parameters.empty()) out["parameters"] = parameters;
  if (!route.body.is_null())
    out["requestBody"] = {{"required", true}, {"content", content(route.body)}};
  Json good = {{"description", "the answer"}};
  if (route.answer.is_null())
    good["content"][route.type] = Json::object();
  else
    good["content"] = content(route.answer);
  for (const int status : route.statuses) out["responses"][std::to_string(status)] = good;
  out["responses"]["default"] = {{"description", "what is wrong"},
                                 {"content", content(schema_ref("Error"))}};
  return out;
}

}  // namespace

std::string openapi_json() {
  Json paths = Json::object();
  for (const Route& route : all_routes()) {
    std::string method = route.method;
    std::ranges::transform(method, method.begin(),
                           [](char c) { return static_cast<char>(c - 'A' + 'a'); });
    paths[route.pattern][method] = operation(route);
  }
  const Json out = {
      {"openapi", "3.1.0"},
      {"info",
       {{"title", "Rigproof"},
        {"version", RP_VERSION},
        {"description",
         "The workshop on its maker's own machine. Made from the same declarations as "
         "the commands; answers are the JSON that the commands print."}}},
      {"paths", paths},
      {"components", {{"schemas", components()}}}};
  return out.dump(2) + "\n";
}

}  // namespace rigproof::server
