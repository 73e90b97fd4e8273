// The pictures of air and power as JSON: docs/schema/physics.schema.json. A number that is not
// known has no key; a series in which one is not known has none either.
#pragma once

#include <string>

#include "sheet/json_writer.hpp"
#include "sheet/physics.hpp"

namespace rigproof::sheet {

inline constexpr const char* physics_schema = "rigproof.physics/1";

void write(JsonWriter& out, const Physics& physics);
/// As a document of its own.
[[nodiscard]] std::string physics_json(const Physics& physics);

}  // namespace rigproof::sheet
