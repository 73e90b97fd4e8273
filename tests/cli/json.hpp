// What the program prints as JSON: parsed, and held against the schemas of docs/schema.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace rigproof::cli_test {

using Json = nlohmann::ordered_json;

/// Fails the test when it is not JSON; null then.
[[nodiscard]] Json json_of(const std::string& text);

/// What docs/schema/NAME.schema.json (draft-07) finds wrong with `text`, a line each; empty:
/// nothing.
[[nodiscard]] std::string schema_complaints(const std::string& name, const std::string& text);

}  // namespace rigproof::cli_test
