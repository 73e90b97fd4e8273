// What the schema says of itself: a page for people and a JSON Schema for programs. Both are
// committed (docs/catalog.md, docs/schema/catalog.schema.json); `rp_schema_doc docs` remakes them.
#pragma once

#include <string>

namespace rigproof {

/// Markdown: every table with its columns: type, unit, whether required, range, tolerance, class
/// range, meaning.
[[nodiscard]] std::string catalog_page();

/// JSON Schema, draft-07: a catalog as an object of tables, a table as a list of rows, a row as one
/// object whose absent cells are absent keys. Numbers are JSON numbers, flags booleans, tokens
/// lists; money is text, exact. Keys of our own: `x-unit`, `x-refers`, `x-tolerance`,
/// `x-tolerance-frac`, `x-class-range`, `x-key`.
[[nodiscard]] std::string catalog_json_schema();

}  // namespace rigproof
