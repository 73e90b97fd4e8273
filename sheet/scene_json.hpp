// A build in its case as JSON that others rely on: docs/schema/scene.schema.json. The page that
// turns the build in space reads it, and so may anyone who draws it otherwise.
//
// Lengths are millimetres on the axes of analysis/fit/scene.hpp. Bytes of names are kept as they
// are, escaped; a program that shows them must make them safe for its own screen.
#pragma once

#include <string>
#include <string_view>

#include "analysis/fit/scene.hpp"
#include "sheet/json_writer.hpp"

namespace rigproof::sheet {

inline constexpr const char* scene_schema = "rigproof.scene/1";

/// In: every number of the scene is finite (anything else is a bug).
[[nodiscard]] std::string scene_json(const fit::Scene& scene);
/// The same inside another document.
void write(JsonWriter& out, const fit::Scene& scene);

/// The words of the file, the same that the drawing's class names are made of.
[[nodiscard]] std::string_view name_of(fit::Use use);    ///< "outline", "board"...
[[nodiscard]] std::string_view name_of(fit::Axis axis);  ///< "x", "y", "z"

}  // namespace rigproof::sheet
