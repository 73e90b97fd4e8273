// For tests: a document held against a schema by an independent validator.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

namespace rigproof::sheet {

/// Empty when valid, else every complaint.
inline std::string complaint(const nlohmann::json& schema_json, const nlohmann::json& document) {
  valijson::Schema schema;
  valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
  parser.populateSchema(valijson::adapters::NlohmannJsonAdapter(schema_json), schema);
  valijson::Validator validator;
  valijson::ValidationResults results;
  if (validator.validate(schema, valijson::adapters::NlohmannJsonAdapter(document), &results))
    return {};
  valijson::ValidationResults::Error error;
  std::string out = "invalid";
  while (results.popError(error)) {
    out += "\n";
    for (const std::string& step : error.context) out += step;
    out += ": " + error.description;
  }
  return out;
}

}  // namespace rigproof::sheet
