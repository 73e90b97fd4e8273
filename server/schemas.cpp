#include "server/schemas.hpp"

namespace rigproof::server {

Json object_schema(const Json& properties) {
  Json required = Json::array();
  for (const auto& [name, schema] : properties.items()) required.push_back(name);
  Json out = {{"type", "object"}, {"properties", properties}};
  if (!required.empty()) out["required"] = required;
  return out;
}

Json list_schema(const Json& items) { return {{"type", "array"}, {"items", items}}; }

Json schema_ref(const std::string& name) { return {{"$ref", "#/components/schemas/" + name}}; }

}  // namespace rigproof::server
