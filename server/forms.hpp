// The schema and the keys of briefs and builds as JSON, for programs that make forms of them.
#pragma once

#include <string>

namespace rigproof::server {

/// `{"tables": [...], "brief": {"sections", "keys"}, "build": {...}, "mapping": {...}}`: every
/// column and key with its type, unit, bounds, choices and meaning, as declared. Absent bounds have
/// no key.
[[nodiscard]] std::string forms_json();

}  // namespace rigproof::server
