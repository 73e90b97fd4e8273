// A document held against a schema of docs/schema by an independent validator (draft-07).
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace rigproof::test_support {

/// docs/schema/NAME.schema.json. Fails the test and is null when it is not there.
[[nodiscard]] nlohmann::json schema_of(const std::string& name);

/// Every complaint, a line each; empty: valid.
[[nodiscard]] std::string complaints(const nlohmann::json& schema, const nlohmann::json& document);

}  // namespace rigproof::test_support
