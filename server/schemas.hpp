// Pieces of JSON Schema that the routes' descriptions are put together from.
#pragma once

#include <string>

#include "server/request.hpp"

namespace rigproof::server {

/// All members named are required.
[[nodiscard]] Json object_schema(const Json& properties);
[[nodiscard]] Json list_schema(const Json& items);
/// Of the description's own components.
[[nodiscard]] Json schema_ref(const std::string& name);

}  // namespace rigproof::server
